"""Low-voltage cable in place of building wire."""

from __future__ import annotations

from precover.plan import Cable, Carried
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.conditions import individual_wires

LOW_VOLTAGE = "low-voltage"
NEEDS = "a cable made for the voltage"


@rule(
    looks_at=Carried,
    unless=individual_wires,
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    look_up="110.4 and 300.2 in 2017, 2020 and 2023 (from memory)",
    hazard="fire",
)
def cable_for_the_voltage(carried: Carried, look: Look) -> Answer:
    """No branch circuit or feeder is in low-voltage cable."""
    circuit = look.plan.circuits[carried.id]
    if circuit.kind == LOW_VOLTAGE:
        return does_not_apply("a low-voltage circuit")
    cable = look.stated(carried.cable)
    at = f"{carried.place}/cable"
    if cable.type != LOW_VOLTAGE:
        return met("cable", cable.text, NEEDS, at=at)
    return not_met("cable", cable.text, NEEDS, at=at, amend=_building_cable(carried, cable))


def _building_cable(carried: Carried, cable: Cable) -> tuple[Proposal, ...]:
    """Cable of the same size and count, for any place or for dry ones."""
    others = (f"{kind} {cable.size.designation}/{len(cable.insulated)}" for kind in ("UF-B", "NM-B"))
    return tuple(Proposal.state(f"wire it with {other}", Effort.WIRE, (carried, "cable", other)) for other in others)
