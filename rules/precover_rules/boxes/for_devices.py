"""Boxes that a proposal may put a device into."""

from precover.plan import Box


def takes_devices(box: Box) -> bool:
    """It is made to hold devices: no conduit body, no handhole, and nothing of which the plan does not tell what it is."""
    return box.box.kind in ("box", "pedestal")
