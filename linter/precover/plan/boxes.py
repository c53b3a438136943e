"""Boxes, conduit bodies and other enclosures with what is in them."""

from collections.abc import Mapping
from typing import Literal

from precover.plan.devices import Device, Listing
from precover.plan.legs import Location
from precover.plan.thing import Thing, Unstated
from precover.units import Length, Mass, Volume

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


BoxSize = Literal[
    "octagonal 4 x 1-1/4",
    "octagonal 4 x 1-1/2",
    "octagonal 4 x 2-1/8",
    "square 4 x 1-1/4",
    "square 4 x 1-1/2",
    "square 4 x 2-1/8",
    "square 4-11/16 x 1-1/4",
    "square 4-11/16 x 1-1/2",
    "square 4-11/16 x 2-1/8",
    "device 3 x 2 x 1-1/2",
    "device 3 x 2 x 2",
    "device 3 x 2 x 2-1/4",
    "device 3 x 2 x 2-1/2",
    "device 3 x 2 x 2-3/4",
    "device 3 x 2 x 3-1/2",
    "device 4 x 2-1/8 x 1-1/2",
    "device 4 x 2-1/8 x 1-7/8",
    "device 4 x 2-1/8 x 2-1/8",
]
"""Standard metal boxes by shape and inside dimensions in inches."""


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
    size: BoxSize | None
    """Shape and trade size of a box of the table of metal boxes."""
    clamps: bool | Unstated
    """Cable clamps inside the box."""
    studs: int | None
    """Fixture studs and hickeys inside it; none unless stated."""
    length: Length | Unstated
    """Inside distance from the wall that its largest raceway enters to the opposite wall."""
    barrier: bool | Unstated
    """A barrier or compartment keeps low-voltage conductors apart from power conductors."""
    holds: Mass | None
    """Weight that its listing allows it to hold."""


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
    spliced: bool | Unstated
    """Conductors are joined in it; else they pass through unbroken."""
    pull: Literal["straight", "angle"] | Unstated
    """How conductors go through it: out of the opposite wall, or round a corner or back."""
    held_by: Literal["structure", "raceway"] | None
    """What carries it: fastened to the structure, or only the raceways that enter it."""
    devices: Mapping[str, Device]
