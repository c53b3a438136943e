"""Conductors, overcurrent devices and ratings against each other and against their loads."""
