"""Boxes, conduit bodies and other enclosures with what is in them."""

from collections.abc import Mapping
from typing import Literal

from precover.plan.devices import Device, Listing
from precover.plan.legs import Location
from precover.plan.thing import Thing, Unstated
from precover.units import Volume

BoxArea = Literal[
    "outdoors",
    "indoors",
    "garage",
    "basement",
    "crawl space",
    "attic",
    "kitchen",
    "laundry",
    "bathroom",
    "closet",
    "ground",
]
"""Where a box or panel is; `indoors` any other room, `ground` a box set in the earth."""


class Enclosure(Thing):
    """The box itself."""

    kind: Literal["box", "conduit body", "handhole", "pedestal"] | Unstated
    material: Literal["PVC", "steel", "aluminum", "polymer concrete"] | Unstated
    volume: Volume | Unstated
    listed_for: Listing | Unstated
    mounting: Literal["surface", "flush"] | Unstated
    cover: Literal["none", "plain", "closed"] | Unstated
    """Cover of a box without a device: `closed` is weatherproof."""
    gasket: bool | Unstated
    """The cover or faceplate seals to the wall."""
    cover_marked: bool | Unstated
    """Handhole cover marked for electric use."""
    cover_needs_tool: bool | Unstated
    """Handhole cover that needs a tool to open, or weighs over 100 lb."""


class Box(Thing):
    """A place where conductors are joined, pulled or used."""

    id: str
    at: str
    """Id of the structure it is at."""
    area: BoxArea | Unstated
    location: Location | Unstated
    box: Enclosure
    accessible: bool | Unstated
    """Can be reached without damaging the building or digging."""
    devices: Mapping[str, Device]
