"""Raceways as they are built: how full, how bent, how held, and how they end."""
