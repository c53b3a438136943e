"""A review for people and for programs. Each form is a module of its own, loaded only where it is asked for."""
