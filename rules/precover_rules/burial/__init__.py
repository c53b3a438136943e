"""What lies in the ground: how deep, in what, and how it comes out."""
