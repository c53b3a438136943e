"""Air-conditioning equipment: what its nameplate asks of the circuit."""

from __future__ import annotations

from precover.plan import Circuit, Equipment
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.sizing.carrying import too_weak

NONE = "no wired-in air-conditioning equipment"


@rule(looks_at=Equipment, severity=Severity.DANGER, stage=Stage.PLAN, rows=("ac-nameplate",))
def wire_for_the_nameplate(equipment: Equipment, look: Look) -> Answer:
    """The conductors to air-conditioning equipment carry the minimum circuit ampacity on its nameplate."""
    circuit = _circuit(equipment, look)
    if circuit is None:
        return does_not_apply(NONE)
    wanted = look.stated(equipment.minimum_ampacity)
    weak = too_weak(circuit, wanted, "its nameplate", look)
    if weak is not None:
        return weak
    return met("ampacity", "enough on every route", f"at least {wanted}")


@rule(looks_at=Equipment, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("ac-nameplate",))
def breaker_for_the_nameplate(equipment: Equipment, look: Look) -> Answer:
    """The breaker of air-conditioning equipment is not larger than its nameplate allows."""
    circuit = _circuit(equipment, look)
    if circuit is None:
        return does_not_apply(NONE)
    rating, most = look.stated(circuit.breaker.rating), look.stated(equipment.maximum_breaker)
    at = f"{circuit.breaker.place}/rating"
    if rating <= most:
        return met("breaker", rating, f"at most {most}", at=at)
    way = Proposal.state(f"use a {most} breaker for {circuit.id}", Effort.PART, (circuit.breaker, "rating", most.text))
    return not_met("breaker", rating, f"at most {most}", at=at, amend=(way,))


def _circuit(equipment: Equipment, look: Look) -> Circuit | None:
    if not equipment.hvac or equipment.hardwired is False:
        return None
    circuit = look.trace.circuit_of(equipment)
    return circuit if circuit.kind == "branch circuit" else None
