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
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)


@rule(looks_at=Circuit, severity=Severity.DANGER, stage=Stage.PLAN, rows=("interrupting-rating",))
def breaker_for_the_fault(circuit: Circuit, look: Look) -> Answer:
    """A breaker can interrupt the fault current available at its panel, where the plan states both."""
    panel, rating = look.plan.panels.get(circuit.from_), circuit.breaker.interrupting_rating
    if panel is None or rating is None or panel.fault_current is None:
        return does_not_apply("not both stated: on the inspection list")
    available = panel.fault_current
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
