"""How many handles it takes to cut a structure off."""

from precover.plan import Circuit, Panel, Structure
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, inspection, met, not_met, rule
from precover_rules.circuit_conductors import hots
from precover_rules.disconnect.means import Means, for_each_means, means_of, no_means
from precover_rules.separate_structures import supplies_to


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("disconnect-six-handles",),
)
def six_handles_at_most(structure: Structure, look: Look) -> Answer:
    """Not more than six switches or breakers together are the disconnecting means of one supply."""
    return for_each_means(structure, look, lambda means: _handles(means, look))


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("disconnect-group",))
def grouped_and_marked(structure: Structure, look: Look) -> str | None:
    """Several handles that serve together."""
    for supply in supplies_to(structure, look):
        means = means_of(structure, supply, look)
        if means is not None and len(means.breakers) > 1:
            return f"{means.name} stand together as the disconnect of {structure.id}, each marked with what it opens."
    return None


def _handles(means: Means, look: Look) -> Answer:
    most = look.limit("handles of a disconnecting means").value
    needs = f"at most {most}"
    count = _count(means.breakers, most, look) if means.breakers else 1
    if count <= most:
        return met("handles", count, needs, at=means.thing.place)
    look.because(f"{means.thing.id} has no main: its breakers are the disconnect", f"{means.thing.place}/main")
    return not_met("handles", count, needs, at=f"{means.thing.place}/main", amend=_main(means, look))


def _count(breakers: tuple[Circuit, ...], most: int, look: Look) -> int:
    """One for each breaker, two where two poles open one by one; these are asked about only near the limit."""
    least = len(breakers)
    if least > most or 2 * least <= most:
        return least
    return sum(_handles_of(circuit, look) for circuit in breakers)


def _handles_of(circuit: Circuit, look: Look) -> int:
    if hots(circuit, look) == 1:
        return 1
    return 1 if look.stated(circuit.breaker.poles) == 2 and look.stated(circuit.breaker.common_trip) else 2


def _main(means: Means, look: Look) -> tuple[Proposal, ...]:
    assert isinstance(means.thing, Panel)  # noqa: S101 - only a panel has breakers
    rating = look.cell("building-disconnect-rating", "any other").text
    words = f"fit {means.thing.id} with a main breaker of {rating} or more"
    return (Proposal.state(words, Effort.PART, (means.thing, "main", rating)),)
