"""The poles of a breaker that feeds two hots."""

from precover.plan import Circuit
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, met, not_met, rule
from precover_rules.circuit_conductors import is_multiwire, one_hot
from precover_rules.conditions import low_voltage

NEEDS = "two poles that open together"


def _shared_neutral(circuit: Circuit, look: Look) -> str:
    shared = circuit.kind == "branch circuit" and is_multiwire(circuit, look)
    return "multiwire: looked at as a circuit with a shared neutral" if shared else ""


@rule(
    looks_at=Circuit,
    unless=(low_voltage, one_hot, _shared_neutral),
    severity=Severity.DANGER,
    stage=Stage.ENERGIZE,
    rows=("two-pole-handle-tie-240",),
)
def two_poles_for_two_hots(circuit: Circuit, look: Look) -> Answer:
    """A circuit with two hots begins at a two-pole breaker, or at two poles with an identified handle tie."""
    breaker = circuit.breaker
    poles = look.stated(breaker.poles)
    if poles == 2 and look.stated(breaker.common_trip):
        return met("breaker", "2 poles, opened together", NEEDS, at=breaker.place)
    has = "1 pole" if poles == 1 else "2 poles that open one by one"
    double = Proposal.state(
        "use a 2-pole breaker, or tie the two handles with an identified tie",
        Effort.PART,
        (breaker, "poles", 2),
        (breaker, "common-trip", True),
    )
    return not_met("breaker", has, NEEDS, at=breaker.place, amend=(double,))
