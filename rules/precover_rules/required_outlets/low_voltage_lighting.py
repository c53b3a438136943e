"""Lighting of 30 V or less, and the transformer that feeds it."""

from fractions import Fraction

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
from precover.units import Apparent
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


@rule(
    looks_at=Transformer,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    look_up="110.3(B) and 411.4 in 2017, 2020 and 2023 (from memory)",
    hazard="fire",
)
def transformer_for_its_lights(transformer: Transformer, look: Look) -> Answer:
    """The lights behind a transformer draw no more than it is rated for."""
    lights = [
        light for circuit in _behind(transformer, look) for light in devices_on(circuit, look)
        if isinstance(light, Luminaire)
    ]  # fmt: skip
    if not lights:
        return does_not_apply(NO_LIGHTING)
    drawn = Apparent.of(sum((light.luminaire.amount for light in lights), Fraction(0)), "VA")
    look.because(f"{', '.join(light.id for light in lights)}: {drawn} together", transformer.place)
    of, needs, at = "transformer", f"at least {drawn} for its lights", f"{transformer.place}/transformer"
    rated = transformer.transformer
    if rated >= drawn:
        return met(of, rated, needs, at=at)
    larger = Proposal.state(
        f"use a transformer of {drawn} or more", Effort.PART, (transformer, "transformer", drawn.text)
    )
    return not_met(of, rated, needs, at=at, amend=(larger,))


@inspection(looks_at=Transformer, stage=Stage.FINAL, rows=("lv-lighting-listed", "lv-lighting-transformer"))
def listed_and_not_grounded(transformer: Transformer, look: Look) -> str | None:
    """Its listing, and its secondary."""
    if not _feeds_lighting(transformer, look):
        return None
    return "The low-voltage lighting is listed as a system, or each of its parts is; its secondary is not grounded."


def _feeds_lighting(transformer: Transformer, look: Look) -> bool:
    return any(_is_lighting(circuit, look) for circuit in _behind(transformer, look))


def _behind(transformer: Transformer, look: Look) -> list[Circuit]:
    """The circuits that begin at a transformer."""
    start = f"{look.trace.box_of(transformer).id}/{transformer.id}"
    return [circuit for circuit in look.plan.circuits.values() if circuit.from_ == start]


def _is_lighting(circuit: Circuit, look: Look) -> bool:
    if any(isinstance(device, Luminaire) for device in devices_on(circuit, look)):
        return True
    return look.stated(circuit.use) in ("landscape lighting", "pool lighting")
