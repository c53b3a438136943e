"""What is in a box: the conductors that come in on its routes, and the straps of its devices."""

from collections.abc import Iterator
from typing import NamedTuple

from precover.plan import Box, Carried, Device, DisconnectSwitch, GroundFaultDevice, Raceway, Receptacle, Route, Switch
from precover.rulebook import Look, once
from precover.units import ConductorSize

STRAPS = (Receptacle, Switch, GroundFaultDevice)
"""Devices on a strap of their own in the box; luminaires, motors and other equipment have their wiring outside it."""


class Entering(NamedTuple):
    """One circuit's conductors where a route enters a box: the sizes of all but the equipment grounds, the largest of them,
    and the sizes of the grounds, which are all alike."""

    circuit: str
    route: Route
    carried: Carried
    conductors: tuple[ConductorSize, ...]
    largest: ConductorSize
    grounds: tuple[ConductorSize, ...]


@once
def entering(box: Box, look: Look) -> list[Entering]:
    """Everything that comes into a box, route by route."""
    return [
        Entering(name, route, carried, *_sizes(carried, look))
        for route in look.trace.routes_at(box)
        for name, carried in route.carries.items()
    ]


def _sizes(carried: Carried, look: Look) -> tuple[tuple[ConductorSize, ...], ConductorSize, tuple[ConductorSize, ...]]:
    wires = carried.wires
    if wires is None:
        cable = look.stated(carried.cable)
        return cable.insulated, cable.size, () if cable.ground is None else (cable.ground,)
    hot, neutral, ground = look.stated(wires.hot), wires.neutral, wires.ground
    grounds = () if ground is None else (ground.size,) * ground.count
    hots = (hot.size,) * hot.count
    if neutral is None:
        return hots, hot.size, grounds
    return hots + (neutral.size,) * neutral.count, max(hot.size, neutral.size), grounds


def passing(ins: list[Entering], box: Box, look: Look) -> Iterator[Entering]:
    """What may be the other end of wires that pass through unbroken: equal wires of one circuit come in and go out, no
    cable, and no device is on them. One of the two ends is named."""
    if all(one.carried.wires is None for one in ins):
        return
    used = {look.trace.circuit_of(device).id for device in box.devices.values()}
    by_circuit: dict[str, list[Entering]] = {}
    for one in ins:
        by_circuit.setdefault(one.circuit, []).append(one)
    for name, found in by_circuit.items():
        both = len(found) == 2 and name not in used
        if both and all(one.carried.wires is not None for one in found) and found[0][3:] == found[1][3:]:
            yield found[1]


def cable_enters(ins: list[Entering]) -> bool:
    """A cable comes in as such: not one whose raceway is fastened to the box."""
    return any(one.carried.wires is None and not _in_raceway(one.route) for one in ins)


def _in_raceway(route: Route) -> bool:
    return isinstance(route.raceway, Raceway) and not route.raceway.absent


def encloses_a_switch(box: Box) -> bool:
    """It is the enclosure of a disconnect, which is made with the space for its wires (common practice). What a plan states
    of its room is compared all the same: it may be any box."""
    return any(isinstance(device, DisconnectSwitch) for device in box.devices.values())


def straps(box: Box) -> list[Device]:
    """The devices that are mounted in the box on straps."""
    return [device for device in box.devices.values() if isinstance(device, STRAPS)]
