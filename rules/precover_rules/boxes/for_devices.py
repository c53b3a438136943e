"""Boxes that a proposal may put a device into."""

from precover.plan import Box
from precover.rulebook import Look
from precover.units import Length

USUAL, LOWEST = "48 in", Length.parse("36 in")
"""Heights of a wall switch (common practice); only proposals use them."""


def takes_devices(box: Box) -> bool:
    """It is made to hold devices: no conduit body, no handhole, and nothing of which the plan does not tell what it is."""
    return box.box.kind in ("box", "pedestal")


def stated_heights(box: Box) -> list[Length]:
    """The heights that the plan tells of the devices in a box."""
    heights = (getattr(device, "height", None) for device in box.devices.values())
    return [height for height in heights if isinstance(height, Length)]


def switch_height(box: Box, look: Look) -> str | None:
    """The height of a switch that is put into a box: that of a device there; None where a device is too high or too low for
    one."""
    heights, highest = stated_heights(box), look.limit("highest handle")
    if any(height > highest.like(height) or height < LOWEST for height in heights):
        return None
    return heights[0].text if heights else USUAL
