"""Breakers against the fault current that they may have to interrupt."""

from __future__ import annotations

from precover.plan import Circuit, Panel
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


def _not_both(circuit: Circuit, look: Look) -> str:
    panel = look.plan.panels.get(circuit.from_)
    both = panel is not None and panel.fault_current is not None and circuit.breaker.interrupting_rating is not None
    return "" if both else "not both stated: on the inspection list"


@rule(looks_at=Circuit, unless=_not_both, severity=Severity.DANGER, stage=Stage.PLAN, rows=("interrupting-rating",))
def breaker_for_the_fault(circuit: Circuit, look: Look) -> Answer:
    """A breaker can interrupt the fault current available at its panel, where the plan states both."""
    panel = look.plan.panels[circuit.from_]
    rating, available = circuit.breaker.interrupting_rating, panel.fault_current
    assert rating is not None and available is not None  # noqa: S101 - its condition
    needs, at = f"at least {available}, available at {panel.id}", f"{circuit.breaker.place}/interrupting-rating"
    if rating >= available:
        return met("interrupting rating", rating, needs, at=at)
    words = f"use a breaker that can interrupt {available}"
    way = Proposal.state(words, Effort.PART, (circuit.breaker, "interrupting-rating", available.text))
    return not_met("interrupting rating", rating, needs, at=at, amend=(way,))


@inspection(looks_at=Panel, stage=Stage.PLAN, rows=("interrupting-rating",))
def fault_current_at_the_service(panel: Panel, look: Look) -> str | None:
    """The fault current is the utility's to say."""
    if panel.duty != "service equipment":
        return None
    if panel.fault_current is not None:
        new = [circuit for circuit in look.trace.circuits_from(panel) if not circuit.existing]
        if all(circuit.breaker.interrupting_rating is not None for circuit in new):
            return None
    return f"New breakers in {panel.id} are marked for at least the fault current that the utility gives for it."
