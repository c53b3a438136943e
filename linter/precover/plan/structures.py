"""Buildings and other structures, with their grounding electrodes."""

from collections.abc import Mapping
from typing import Literal

from precover.plan.conductors import Conductor
from precover.plan.thing import Thing, Unstated
from precover.units import Length, Resistance


class Electrode(Thing):
    """One grounding electrode, or metal that might be taken for one."""

    id: str
    kind: Literal[
        "rod",
        "pipe",
        "plate",
        "concrete-encased",
        "ground ring",
        "metal water pipe",
        "building steel",
        "gas pipe",
        "aluminum",
    ]
    bonded: bool | Unstated
    """Connected to the grounding electrode system."""
    length: Length | Unstated
    """Length of a rod or pipe, of the bar in concrete, of the ring, or of the water pipe or steel in the earth."""
    diameter: Length | Unstated
    listed: bool | Unstated
    driven: Length | Unstated
    """Length in contact with the earth."""
    spacing: Length | Unstated
    """Distance to the nearest other rod, pipe or plate."""
    resistance: Resistance | None
    """Measured resistance to earth of this electrode alone; not measured unless stated."""


class ElectrodeConductor(Thing):
    """The grounding electrode conductor."""

    wire: Conductor | Unstated
    lands_on: Literal["ground bar", "neutral bar", "disconnect enclosure"] | Unstated
    physical_damage: bool | Unstated
    """It is run where it can be hit."""
    protection: Literal["none", "RMC", "IMC", "PVC-40", "PVC-80", "RTRC-XW", "EMT", "armor"] | Unstated
    in_earth: bool | Unstated
    """Some of it lies in earth, concrete or masonry."""
    spliced: Literal["no", "irreversible", "yes"] | Unstated


class Grounding(Thing):
    """The grounding electrode system at one structure."""

    electrodes: Mapping[str, Electrode]
    conductor: ElectrodeConductor


class Structure(Thing):
    """A building or other structure."""

    id: str
    use: Literal["dwelling", "garage", "accessory", "agricultural", "commercial", "post", "lighting pole"]
    """`accessory`: a shed, workshop, greenhouse or other lesser building; `post`: a post, pedestal or stand."""
    detached: bool | Unstated
    habitable: bool | Unstated
    floor: Literal["at or below grade", "above grade"] | Unstated
    metal_path: bool | Unstated
    """Metal pipe, raceway, cable shield or framing joins it to the structure that supplies it."""
    new_footing: bool | Unstated
    """A new concrete footing with steel in it is poured for the building."""
    grounding: Grounding
    vehicle_bays: int | Unstated
    entrance: bool | Unstated
    """An outdoor entrance for people, reached from grade; a door for vehicles is none."""
    farm_conditions: bool | Unstated
    """Livestock or poultry, or much dust, damp or corrosive vapor, is in an agricultural building."""
