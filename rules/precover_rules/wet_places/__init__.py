"""Boxes, covers, devices and luminaires in damp and wet places."""
