"""Conductors and cables where they lie."""
