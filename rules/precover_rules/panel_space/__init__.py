"""Where panels, breakers and switches are, and the space around them."""
