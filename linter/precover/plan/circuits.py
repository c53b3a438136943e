"""Circuits: branch circuits, feeders and low-voltage circuits."""

from typing import Literal

from precover.plan.thing import Thing, Unstated
from precover.units import Current, Length, SupplyVoltage


class Breaker(Thing):
    """The overcurrent device at the circuit's origin."""

    rating: Current | Unstated
    poles: Literal[1, 2] | Unstated
    common_trip: bool | Unstated
    """The poles open together: common trip or an identified handle tie."""
    ground_fault: Literal["none", "class A", "equipment"] | Unstated
    arc_fault: bool | Unstated
    readily_accessible: bool | Unstated


class Circuit(Thing):
    """A circuit from its overcurrent device on."""

    id: str
    kind: Literal["branch circuit", "feeder", "low-voltage"]
    from_: str
    """Id of the panel, or `box/device` of the transformer, where it begins."""
    breaker: Breaker
    voltage: SupplyVoltage | Unstated
    multiwire: bool | Unstated
    """Two hots sharing one neutral."""
    use: Literal["general", "irrigation control", "landscape lighting", "pool lighting"] | Unstated
    existing: bool | None
    """It was there before this plan; new unless stated."""
    kit_depth: Length | None
    """Depth by the instructions of a listed low-voltage lighting system."""
    serves: str | None
    limited_load: bool | Unstated
    """A building that it alone supplies has a limited load."""
