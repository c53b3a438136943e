"""Devices and utilization equipment in or at a box."""

from typing import Literal

from precover.plan.thing import Thing, Unstated
from precover.units import Apparent, Current, Horsepower, Length, Mass, Power, Voltage

Listing = Literal["dry", "damp", "wet"]


class Device(Thing):
    """What every device may state."""

    id: str
    circuit: str | None
    """Id of its circuit; needed only where its box holds several."""
    after: str | None
    """Id of the ground-fault device of the same box whose load side feeds it."""


class Receptacle(Device):
    """A receptacle, by its ampere rating."""

    receptacle: Current
    voltage: Voltage | Unstated
    ground_fault: bool | Unstated
    """It is itself a class A ground-fault circuit-interrupter."""
    protects_downstream: bool | Unstated
    """What leaves the box on its circuit is fed from its load side."""
    weather_resistant: bool | Unstated
    tamper_resistant: bool | Unstated
    single: bool | Unstated
    """One receptacle on its strap; a duplex is two."""
    locking: bool | None
    """It takes a locking plug; not so unless stated."""
    cover: Literal["none", "plain", "closed", "in-use"] | Unstated
    """`closed`: weatherproof while closed; `in-use`: weatherproof with a plug in."""
    extra_duty: bool | Unstated
    """The in-use hood is listed extra-duty."""
    attended: bool | Unstated
    """What plugs in here is attended while in use."""
    readily_accessible: bool | Unstated
    deicing: bool | None
    """Feeds only fixed de-icing or snow-melting equipment on a circuit of its own."""
    grounding_type: bool | Unstated
    height: Length | Unstated
    serves: str | None
    sink_distance: Length | None
    """Shortest distance to the top inside edge of a sink's bowl; no sink is near unless stated."""
    gangs: Literal[1, 2] | Unstated
    """Gangs that it takes to be mounted: a strap wider than 2 in takes two."""


class Switch(Device):
    """A snap switch, by its ampere rating."""

    switch: Current
    role: Literal["lighting", "equipment", "disconnect"] | Unstated
    opens: Literal["all hots", "one hot", "neutral"] | Unstated
    """Which conductors it opens."""
    mounting: Literal["surface", "flush"] | Unstated
    weatherproof: bool | Unstated
    """In a weatherproof enclosure or behind a weatherproof cover."""
    identified: bool | Unstated
    """Marked for what it disconnects."""
    readily_accessible: bool | Unstated
    at_entry: bool | Unstated
    """At the nearest point where the supply enters the building."""
    height: Length | Unstated


class DisconnectSwitch(Device):
    """An enclosed switch or breaker that serves as a disconnecting means, by its ampere rating."""

    disconnect: Current
    opens: Literal["all hots", "one hot", "neutral"] | Unstated
    type: Literal["breaker", "molded-case switch", "general-use switch", "pull-out", "fused switch"] | Unstated
    enclosure: Literal["1", "3R", "4", "4X"] | Unstated
    """Enclosure type number."""
    service_rated: bool | Unstated
    """Marked suitable for use as service equipment."""
    indicating: bool | Unstated
    """Shows plainly whether it is open or closed."""
    identified: bool | Unstated
    readily_accessible: bool | Unstated
    at_entry: bool | Unstated
    lockable: bool | Unstated
    height: Length | Unstated


class GroundFaultDevice(Device):
    """A ground-fault device without a receptacle, by its ampere rating; what leaves the box is fed through it."""

    ground_fault_device: Current
    trip: Literal["class A", "equipment"] | Unstated
    """`class A` protects people (4-6 mA); `equipment` trips near 30 mA."""
    readily_accessible: bool | Unstated
    cover: Literal["none", "plain", "closed", "in-use"] | Unstated


class Luminaire(Device):
    """A luminaire, by its input power."""

    luminaire: Power
    listed_for: Listing | Unstated
    switched_by: str | Unstated
    """`box/device` of its switch."""
    weight: Mass | Unstated
    low_voltage_system: bool | Unstated
    """Part of a listed low-voltage lighting system."""


class Equipment(Device):
    """Other fixed equipment, by what it is."""

    equipment: str
    load: Apparent | Power | Unstated
    hardwired: bool | Unstated
    listed_for: Listing | Unstated
    continuous: bool | Unstated
    hvac: bool | None
    """Listed heating, ventilating or air-conditioning equipment."""
    minimum_ampacity: Current | Unstated
    """Minimum circuit ampacity on its nameplate."""
    maximum_breaker: Current | Unstated
    """Largest overcurrent device on its nameplate."""
    disconnect_in_sight: bool | Unstated
    """Its disconnect can be seen from it, not more than 50 ft away."""


class Motor(Device):
    """A motor, by its rated output."""

    motor: Horsepower
    hardwired: bool | Unstated
    listed_for: Listing | Unstated
    full_load_current: Current | Unstated
    disconnect_in_sight: bool | Unstated
    """Its disconnect can be seen from it, not more than 50 ft away."""


class Heater(Device):
    """Fixed electric heating, by its input power."""

    heater: Power
    hardwired: bool | Unstated
    listed_for: Listing | Unstated
    deicing: bool | None
    """Melts snow or ice, or warms a pipeline or vessel."""


class Transformer(Device):
    """A transformer that starts a low-voltage circuit, by its rating."""

    transformer: Apparent
    secondary: Voltage | Unstated
    isolating: bool | Unstated
    listed_system: bool | Unstated
    listed_for: Listing | Unstated
