"""The legs of a route: what a cable or raceway passes on its way, in order."""

from typing import Literal

from precover.plan.conductors import Raceway
from precover.plan.thing import Thing, Unstated
from precover.units import Angle, Length

Location = Literal["dry", "damp", "wet"]

Ground = Literal[
    "lawn",
    "garden bed",
    "field",
    "gravel path",
    "walk",
    "patio",
    "slab",
    "driveway",
    "parking",
    "street",
    "alley",
    "building",
    "airport",
]
"""What lies over a buried leg."""

SurfacePlace = Literal[
    "outside wall", "inside wall", "ceiling", "post", "pole", "roof", "fence", "deck", "floor", "tree"
]

FramingPlace = Literal["wall framing", "joist bays", "attic", "basement", "crawl space", "garage"]


class Leg(Thing):
    """One leg. `number` counts from 1 along the route."""

    number: int
    length: Length | Unstated
    raceway: Raceway | Unstated
    """A raceway of this leg only; where the leg does not name one, the route's holds."""


class SlabOver(Thing):
    """The concrete slab over a buried leg."""

    thickness: Length | Unstated
    reaches_past: Length | Unstated
    """How far the slab reaches past the wiring on either side."""
    vehicles: bool | Unstated
    """Vehicles drive on it."""


class BuriedLeg(Leg):
    """In the earth, under `buried`."""

    buried: Ground
    cover: Length | Unstated
    """From the top of cable or raceway to finished grade or to the top of the concrete."""
    concrete_cap: Length | None
    """Thickness of concrete laid in the trench over the wiring; not there unless stated."""
    concrete_envelope: Length | None
    """Thickness of concrete around the raceway, where it is least; not encased unless stated."""
    slab: SlabOver
    dwelling_use_only: bool | Unstated
    """A driveway or parking place that serves a one- or two-family dwelling and nothing else."""
    rock: bool | None
    """Solid rock keeps the trench from being dug to depth; not so unless stated."""
    cap_to_rock: bool | None
    """The concrete over the wiring reaches down to the rock."""
    corrosion_protection: bool | Unstated
    """Supplementary protection of metal raceway against corrosion."""
    marked_for_burial: bool | Unstated
    """Flexible raceway marked for direct burial."""


class RiseLeg(Leg):
    """Out of the ground, up to `rise` above finished grade."""

    rise: Length
    sleeve_below: Length | Unstated
    """How far below grade the raceway or guard around a direct-burial cable reaches."""
    sleeve_above: Length | Unstated
    """How far above grade it reaches."""
    to_entry: bool | Unstated
    """The protection reaches the point where the wiring enters the building or enclosure."""
    physical_damage: bool | Unstated
    """Mower, vehicle or foot can hit it."""
    sunlight: bool | Unstated
    bushing: bool | Unstated
    """A bushing or terminal fitting where cable enters the raceway's buried end."""
    slip_fitting: bool | Unstated
    """An expansion or slip fitting, S-loop or flexible end that lets the ground settle or heave."""
    inside_post: bool | None
    """It comes up inside a hollow post or pole, which guards it like a sleeve."""
    wet_fittings: bool | Unstated
    """Fittings listed for wet places (raintight)."""
    corrosion_protection: bool | Unstated
    """Supplementary protection of metal raceway against corrosion."""
    marked_for_burial: bool | Unstated
    """Flexible raceway marked for direct burial."""


class SurfaceLeg(Leg):
    """Fastened on a surface."""

    on: SurfacePlace
    location: Location | Unstated
    physical_damage: bool | Unstated
    sunlight: bool | Unstated
    above_roof: Length | None
    """How far above the roof it is held; lying on it unless stated."""
    wet_fittings: bool | Unstated
    """Fittings listed for wet places (raintight)."""
    support_spacing: Length | None
    """The longest distance between two supports."""
    support_from_end: Length | None
    """The longest distance from a box, panel or fitting to the nearest support."""
    expansion_fitting: bool | Unstated
    """An expansion fitting in the raceway lets it grow and shrink."""


class FramingLeg(Leg):
    """Inside the framing of a building."""

    in_: FramingPlace
    location: Location | Unstated
    edge_distance: Length | Unstated
    """From the edge of a bored hole, or from the cable run along framing, to the nearest face."""
    plates: bool | Unstated
    """Steel plates where the distance is short."""


class PassageLeg(Leg):
    """Through a wall, floor or roof."""

    through: Literal["wall", "floor", "foundation", "roof"]
    sealed: bool | Unstated
    """The opening is closed around it; a raceway is sealed inside there too."""


class Bend(Leg):
    """A bend of the raceway or cable."""

    bend: Angle
    radius: Length | Unstated


class OverheadLeg(Leg):
    """A span in the air."""

    overhead: Literal["yard", "walk", "driveway", "parking", "street", "roof", "field"]
    clearance: Length | Unstated
    """Lowest point of the span above what lies under it."""
    attachment: Length | Unstated
    """Height of the lower point of attachment."""
    messenger: bool | Unstated
    """The cable hangs on a messenger wire."""
    held_by: Literal["building", "mast", "pole", "tree"] | Unstated
    traffic: Literal["people on foot", "cars", "trucks"] | Unstated
    """The heaviest that can pass below."""
    roof_slope: Literal["below 4 in 12", "4 in 12 or steeper"] | Unstated
    overhang_only: bool | None
    """It crosses only the overhang of the roof, a short way to a mast or raceway there; not so unless stated."""
