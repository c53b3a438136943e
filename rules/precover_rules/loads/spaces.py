"""Room for the breakers in a panel."""

from precover.plan import Circuit, Panel, Unstated
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
from precover_rules.circuit_conductors import hots
from precover_rules.loads.known import known


def _not_counted(panel: Panel, look: Look) -> str:
    if isinstance(panel.spaces, Unstated):
        return "its spaces are not stated; they are counted on site"
    return "" if look.trace.circuits_from(panel) else "no circuit begins in it"


@rule(looks_at=Panel, unless=_not_counted, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("panel-spaces",))
def spaces_for_the_breakers(panel: Panel, look: Look) -> Answer:
    """A panel has a space for every pole of the breakers in it."""
    spaces = look.stated(panel.spaces)
    poles = sum(_poles(circuit, look) for circuit in look.trace.circuits_from(panel))
    of, needs, at = "spaces", f"at least {poles}, one for each pole", f"{panel.place}/spaces"
    if spaces >= poles:
        return met(of, spaces, needs, at=at)
    words = f"use a panel with {poles} spaces or more for {panel.id}"
    return not_met(of, spaces, needs, at=at, amend=(Proposal.state(words, Effort.PART, (panel, "spaces", poles)),))


@inspection(looks_at=Panel, stage=Stage.PLAN, rows=("panel-spaces",))
def free_spaces(panel: Panel, look: Look) -> str | None:
    """Free spaces in a panel of which the plan does not count them."""
    new = [circuit for circuit in look.trace.circuits_from(panel) if not circuit.existing]
    if not new or not isinstance(panel.spaces, Unstated):
        return None
    poles = sum(_poles(circuit, look) for circuit in new)
    return f"Free spaces in {panel.id} for {poles} more pole{'s' * (poles > 1)}, of breakers that its label lists."


def _poles(circuit: Circuit, look: Look) -> int:
    """Poles of a circuit's breaker: as stated, else one for each hot."""
    return known(circuit.breaker.poles, look) or hots(circuit, look)
