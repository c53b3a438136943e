"""Rules of a county that does not exist."""
