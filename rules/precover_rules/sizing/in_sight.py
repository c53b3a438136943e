"""A disconnect in sight of motors and air-conditioning equipment."""

from __future__ import annotations

from precover.plan import DisconnectSwitch, Equipment, Motor, Switch
from precover.plan.thing import escaped
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.boxes.for_devices import takes_devices

OF = "disconnect"


@rule(looks_at=Motor, severity=Severity.DANGER, stage=Stage.FINAL, rows=("motor-disconnect-sight",))
def disconnect_of_a_motor(motor: Motor, look: Look) -> Answer:
    """A motor can be cut off by a plug, or by a disconnect in sight of it."""
    return _in_sight(motor, look)


@rule(looks_at=Equipment, severity=Severity.DANGER, stage=Stage.FINAL, rows=("ac-nameplate",))
def disconnect_of_an_air_conditioner(equipment: Equipment, look: Look) -> Answer:
    """Air-conditioning equipment can be cut off by a plug, or by a disconnect in sight of it."""
    return _in_sight(equipment, look) if equipment.hvac else does_not_apply("no air-conditioning equipment")


def _in_sight(device: Motor | Equipment, look: Look) -> Answer:
    circuit, box = look.trace.circuit_of(device), look.trace.box_of(device)
    if circuit.kind != "branch circuit":
        return does_not_apply("no branch circuit")
    needs = f"in sight, not more than {look.limit('farthest disconnect in sight').text} away"
    for other in box.devices.values():
        if isinstance(other, Switch | DisconnectSwitch) and look.trace.circuit_of(other) is circuit:
            return met(OF, f"{other.id} beside it", needs)
    if device.hardwired is False:
        return met(OF, "its plug", needs)
    at = f"{device.place}/disconnect-in-sight"
    if look.stated(device.disconnect_in_sight):
        return met(OF, "in sight", needs, at=at)
    if look.stated(device.hardwired) is False:
        return met(OF, "its plug", needs)
    return not_met(OF, "none in sight", needs, at=at, amend=_ways(device, look))


def _ways(device: Motor | Equipment, look: Look) -> tuple[Proposal, ...]:
    box, circuit = look.trace.box_of(device), look.trace.circuit_of(device)
    if not takes_devices(box):
        return ()
    rating = circuit.breaker.rating
    name = next(name for name in ("disconnect", "disconnect-2", "disconnect-3") if name not in box.devices)
    switch = {
        "disconnect": getattr(rating, "text", "60 A"),
        "type": "general-use switch",
        "opens": "all hots",
        "enclosure": "3R",
        "indicating": True,
        "identified": True,
        "readily-accessible": True,
        "height": "5 ft",
        "circuit": circuit.id,
    }
    words = f"put a disconnect beside {device.id}"
    place = f"{box.place}/devices/{escaped(name)}"
    return (Proposal(words, Effort.PART, ({"op": "add", "path": place, "value": switch},)),)
