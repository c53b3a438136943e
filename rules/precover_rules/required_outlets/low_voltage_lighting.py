"""Lighting of 30 V or less, and the transformer that feeds it."""

from precover.plan import Circuit, Luminaire, Transformer
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_most,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.circuits import devices_on

NO_LIGHTING = "it feeds no lighting"


@rule(looks_at=Transformer, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("lv-lighting-listed",))
def circuit_that_feeds_it(transformer: Transformer, look: Look) -> Answer:
    """The transformer of low-voltage lighting is on a branch circuit that is not too large."""
    if not _feeds_lighting(transformer, look):
        return does_not_apply(NO_LIGHTING)
    breaker = look.trace.circuit_of(transformer).breaker
    limit = look.limit("supply of low-voltage lighting")
    smaller = Proposal.state(f"use a {limit.text} breaker", Effort.PART, (breaker, "rating", limit.text))
    at = f"{breaker.place}/rating"
    return at_most("branch circuit ahead", look.stated(breaker.rating), limit, at=at, amend=(smaller,))


@rule(looks_at=Transformer, severity=Severity.DANGER, stage=Stage.FINAL, rows=("lv-lighting-transformer",))
def isolating_transformer(transformer: Transformer, look: Look) -> Answer:
    """The transformer of low-voltage lighting keeps it apart from the branch circuit, as those of listed systems do."""
    if not _feeds_lighting(transformer, look):
        return does_not_apply(NO_LIGHTING)
    if look.stated(transformer.listed_system):
        return met("transformer", "part of a listed system", "isolating")
    at = f"{transformer.place}/isolating"
    if look.stated(transformer.isolating):
        return met("transformer", "isolating", "isolating", at=at)
    other = Proposal.state("use an isolating transformer", Effort.PART, (transformer, "isolating", True))
    return not_met("transformer", "not isolating", "isolating", at=at, amend=(other,))


@inspection(looks_at=Transformer, stage=Stage.FINAL, rows=("lv-lighting-listed", "lv-lighting-transformer"))
def listed_and_not_grounded(transformer: Transformer, look: Look) -> str | None:
    """Its listing, and its secondary."""
    if not _feeds_lighting(transformer, look):
        return None
    return "The low-voltage lighting is listed as a system, or each of its parts is; its secondary is not grounded."


def _feeds_lighting(transformer: Transformer, look: Look) -> bool:
    start = f"{look.trace.box_of(transformer).id}/{transformer.id}"
    return any(_is_lighting(circuit, look) for circuit in look.plan.circuits.values() if circuit.from_ == start)


def _is_lighting(circuit: Circuit, look: Look) -> bool:
    if any(isinstance(device, Luminaire) for device in devices_on(circuit, look)):
        return True
    return look.stated(circuit.use) in ("landscape lighting", "pool lighting")
