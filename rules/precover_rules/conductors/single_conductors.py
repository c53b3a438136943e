"""Individual wires outside of any raceway."""

from precover.plan import Leg
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, met, not_met, rule
from precover.tracing import Lying
from precover_rules.assembly_for_burial import needs_a_raceway
from precover_rules.raceway.fitting import fitting

WITHOUT_SHEATH = ("MHF",)
"""Assemblies that are single wires twisted together, with nothing over them."""


def _needs_none(lying: Lying, _look: Look) -> str:
    needs = needs_a_raceway(lying.leg)
    return "" if needs else "in the earth, rising out of it, or in the air: looked at with the wiring method there"


def _sheathed(lying: Lying, look: Look) -> str:
    carried = lying.carried
    sheathed = carried.wires is None and look.stated(carried.cable).type not in WITHOUT_SHEATH
    return "in a sheathed cable" if sheathed else ""


@rule(
    looks_at=Lying,
    unless=(_needs_none, _sheathed),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    look_up="300.3(A) in 2017, 2020 and 2023 (from memory)",
    hazard="damage",
)
def single_wires_in_a_raceway(lying: Lying, look: Look) -> Answer:
    """On or in a building, individual wires, and assemblies of them without a sheath, run in a raceway."""
    leg, carried = lying.leg, lying.carried
    what = look.stated(carried.cable).text if carried.wires is None else "individual wires"
    raceway = look.stated(look.trace.raceway_around(leg))
    if not raceway.absent:
        return met("wiring", f"{what} in {raceway}", "a raceway")
    # Plastic: a piece of metal raceway that nothing bonds would be worse than none.
    other = fitting("PVC-80", lying.route, look)
    ways = () if other is None else (_in_raceway(leg, other),)
    return not_met("wiring", f"{what} without a raceway", "a raceway", amend=ways)


def _in_raceway(leg: Leg, text: str) -> Proposal:
    return Proposal.state(f"run this leg in a raceway ({text})", Effort.WIRE, (leg, "raceway", text))
