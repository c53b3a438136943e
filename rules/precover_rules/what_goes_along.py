"""What goes with devices to another circuit: the switches of lights, and the switches and disconnects of equipment."""

from __future__ import annotations

from collections.abc import Sequence

from precover.plan import Circuit, Device, DisconnectSwitch, Equipment, Heater, Luminaire, Motor, Switch, Unstated
from precover.rulebook import Look
from precover_rules.circuits import devices_on
from precover_rules.separate_structures import leaves_its_structure
from precover_rules.sizing.own_circuit import outlets_on


def with_what_serves_them(devices: Sequence[Device], circuit: Circuit, look: Look) -> list[Device]:
    """Devices of a circuit with all that switches them or cuts them off on it; none where that may be for others too, or
    for a building, and where a device that has its disconnect in sight would lose it."""
    serving: list[Device] = []
    for one in devices_on(circuit, look):
        if not isinstance(one, Switch | DisconnectSwitch):
            continue
        served = _served_by(one, circuit, look)
        if not any(device in devices for device in served):
            continue
        if not all(device in devices for device in served) or _is_of_a_building(one, circuit, look):
            return []
        if one not in devices:
            serving.append(one)
    boxes = [look.trace.box_of(one) for one in serving]
    for device in devices:
        claims = isinstance(device, Motor | Equipment) and device.disconnect_in_sight is True
        if claims and _is_wired(device) and look.trace.box_of(device) not in boxes:
            return []
    return [*devices, *serving]


def _served_by(one: Switch | DisconnectSwitch, circuit: Circuit, look: Look) -> Sequence[Device]:
    """What a switch or disconnect is for, as far as the plan tells: the lights that name it (a switch that none names may be
    that of any light that names none), or the equipment in its box, else all on the circuit."""
    lights = [
        device for box in look.plan.boxes.values() for device in box.devices.values() if isinstance(device, Luminaire)
    ]
    name = f"{look.trace.box_of(one).id}/{one.id}"
    named = [light for light in lights if light.switched_by == name]
    if isinstance(one, Switch) and (one.role == "lighting" or (isinstance(one.role, Unstated) and named)):
        return named or [light for light in outlets_on(circuit, look) if _names_no_switch(light)]
    outlets = outlets_on(circuit, look)
    beside = [device for device in outlets if _is_wired(device) and look.trace.box_of(device) is look.trace.box_of(one)]
    return [*named, *(beside or outlets)]


def _names_no_switch(device: Device) -> bool:
    return isinstance(device, Luminaire) and isinstance(device.switched_by, Unstated)


def _is_wired(device: Device) -> bool:
    """A motor, heater or other equipment that no plug cuts off, as far as the plan tells."""
    return isinstance(device, Motor | Heater | Equipment) and device.hardwired is not False


def _is_of_a_building(one: Switch | DisconnectSwitch, circuit: Circuit, look: Look) -> bool:
    """It may be the disconnect of a building that the circuit supplies."""
    cuts_off = isinstance(one, DisconnectSwitch) or one.role != "lighting"
    return cuts_off and leaves_its_structure(circuit, look)
