"""What is connected, and what carries it: feeders, panels, and the circuits that some buildings must have."""
