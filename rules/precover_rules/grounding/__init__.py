"""Grounding electrodes, and neutral and ground at the outbuilding."""
