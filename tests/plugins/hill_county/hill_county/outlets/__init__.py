"""Outlets."""
