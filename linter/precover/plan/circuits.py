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
    interrupting_rating: Current | None
    """The largest fault current that it is made to interrupt."""


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
    terminals: Literal["60 °C", "75 °C"] | Unstated
    """Lowest temperature marked on the terminals that its hots end on, at both ends."""
    existing: bool | None
    """It was there before this plan; new unless stated."""
    kit_depth: Length | None
    """Depth by the instructions of a listed low-voltage lighting system."""
    serves: str | None
    limited_load: bool | Unstated
    """A building that it alone supplies has a limited load."""
    load: Current | Unstated
    """Current that it is planned to carry in each hot, all that is on it together."""
    leg: Literal["L1", "L2"] | Unstated
    """Leg of the panel that a line-to-neutral circuit is on."""
    not_with: str | None
    """Id of a circuit that cannot run at the same time."""
