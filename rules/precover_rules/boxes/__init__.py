"""Boxes: room in them, how they are held and reached, and what is joined in them."""
