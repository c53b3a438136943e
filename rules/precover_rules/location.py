"""How wet the places of a plan are: dry, damp or wet."""

from precover.plan import (
    Box,
    BuriedLeg,
    FramingLeg,
    Leg,
    OverheadLeg,
    Panel,
    PassageLeg,
    RiseLeg,
    SurfaceLeg,
    Unstated,
)
from precover.plan.devices import Device, Listing
from precover.plan.legs import Location
from precover.rulebook import Look

OUTDOOR_SURFACES = ("outside wall", "pole", "roof", "fence", "deck", "tree")
"""Surfaces that are outdoors by their nature, and so damp at the least. A post may stand under a roof."""

DRY_BY_MEANING = ("inside wall", "ceiling", "wall framing", "joist bays", "attic")
"""Words of the plan language that mean a dry place unless the leg says otherwise (said so in the plan schema)."""

_ALWAYS_WET = (BuriedLeg, RiseLeg, OverheadLeg)

RANK: dict[str, int] = {"dry": 0, "damp": 1, "wet": 2}


def suits(listed_for: Listing, location: Location) -> bool:
    """A thing listed for a place may be in a drier one."""
    return RANK[listed_for] >= RANK[location]


def location_of(place: Box | Panel, look: Look) -> Location:
    """How wet it is at a box or panel. In the earth is wet, and outdoors is never drier than damp, whatever is stated:
    that the plan contradicts itself there is a finding of its own (topic `wet-places/stated-locations`)."""
    if place.area == "ground" or (isinstance(place, Box) and place.box.kind == "handhole"):
        return "wet"
    location: Location = look.stated(place.location)
    return "damp" if location == "dry" and place.area == "outdoors" else location


def in_a_dry_place(thing: Box | Panel | Device, look: Look) -> str:
    """A condition of rules: only what is where it is damp or wet is looked at."""
    return "a dry place" if _around(thing, look) == "dry" else ""


def not_in_a_damp_place(thing: Box | Panel | Device, look: Look) -> str:
    """A condition of rules: only what is where it is damp, and not wet, is looked at."""
    return "" if _around(thing, look) == "damp" else "not a damp place"


def not_in_a_wet_place(thing: Box | Panel | Device, look: Look) -> str:
    """A condition of rules: only what is where it is wet is looked at."""
    return "" if _around(thing, look) == "wet" else "not a wet place"


def _around(thing: Box | Panel | Device, look: Look) -> Location:
    return location_of(look.trace.box_of(thing) if isinstance(thing, Device) else thing, look)


def location_of_device(device: Device, look: Look) -> Location:
    """How wet it is where the box of a device is."""
    return location_of(look.trace.box_of(device), look)


def location_of_leg(leg: Leg, look: Look) -> Location | None:
    """How wet it is where wiring lies; None for a passage through a wall, floor or roof, which takes after the legs on
    either side. The inside of a raceway is as wet as its place, so a raceway makes no difference here."""
    if isinstance(leg, _ALWAYS_WET):
        return "wet"
    if isinstance(leg, PassageLeg):
        return "wet" if leg.through == "foundation" else None
    if isinstance(leg, SurfaceLeg):
        location: Location = _stated(leg, leg.on, look)
        return "damp" if location == "dry" and leg.on in OUTDOOR_SURFACES else location
    if isinstance(leg, FramingLeg):
        return _stated(leg, leg.in_, look)
    return None


def _stated(leg: SurfaceLeg | FramingLeg, word: str, look: Look) -> Location:
    if isinstance(leg.location, Unstated) and word in DRY_BY_MEANING:
        return "dry"
    return look.stated(leg.location)
