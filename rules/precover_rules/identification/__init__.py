"""Colours of conductors."""
