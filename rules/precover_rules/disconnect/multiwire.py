"""That the hots of a multiwire branch circuit open together."""

from precover.plan import Circuit
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.circuit_conductors import is_multiwire

NEEDS = "two poles that open together"


def _not_multiwire(circuit: Circuit, look: Look) -> str:
    multiwire = circuit.kind == "branch circuit" and is_multiwire(circuit, look)
    return "" if multiwire else "not a multiwire branch circuit"


@rule(
    looks_at=Circuit,
    unless=_not_multiwire,
    severity=Severity.DANGER,
    stage=Stage.ENERGIZE,
    rows=("mwbc-simultaneous-disconnect",),
)
def hots_open_together(circuit: Circuit, look: Look) -> Answer:
    """The breaker of a multiwire branch circuit opens both hots together: two poles, by common trip or handle tie."""
    breaker = circuit.breaker
    poles = look.stated(breaker.poles)
    if poles == 2 and look.stated(breaker.common_trip):
        return met("breaker", "2 poles, opened together", NEEDS, at=breaker.place)
    return not_met(
        "breaker",
        "single poles" if poles == 1 else "2 poles that open one by one",
        NEEDS,
        at=breaker.place,
        amend=(
            Proposal.state(
                "use a 2-pole breaker, or tie the two handles with an identified tie",
                Effort.PART,
                (breaker, "poles", 2),
                (breaker, "common-trip", True),
            ),
        ),
    )


@inspection(
    looks_at=Circuit, stage=Stage.ENERGIZE, rows=("mwbc-opposite-poles", "mwbc-grouping", "mwbc-neutral-continuity")
)
def shared_neutral(circuit: Circuit, look: Look) -> str | None:
    """What a plan cannot show of a multiwire circuit."""
    if circuit.kind != "branch circuit" or not is_multiwire(circuit, look):
        return None
    return (
        f"The two hots of {circuit.id} are on different poles and grouped with their neutral in the panel, and no device"
        " is part of the neutral's way."
    )
