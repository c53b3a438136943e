"""What is lost on the way to an outlet."""
