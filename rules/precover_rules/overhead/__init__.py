"""Spans in the air between buildings and poles."""
