"""Cable in and on the framing of a building."""
