"""The neutral of a branch circuit, which carries what its hot carries."""

from __future__ import annotations

from functools import partial

from precover.plan import Circuit, Unstated
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Current
from precover_rules.conditions import no_branch_circuit
from precover_rules.sizing.ampacity import verdict
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.overcurrent import protects
from precover_rules.sizing.own_circuit import goes_by_its_equipment
from precover_rules.sizing.small_wire import cap, is_capped
from precover_rules.worst import worst


@rule(
    looks_at=Circuit,
    unless=no_branch_circuit,
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    rows=("small-conductor-ocpd", "branch-ocpd-vs-ampacity"),
)
def neutral_of_a_branch_circuit(circuit: Circuit, look: Look) -> Answer:
    """The neutral of a branch circuit is protected by its breaker as the hot is: it is no thinner wire that overheats."""
    neutrals = [
        (part, found) for part in laid_on(circuit, look) if isinstance(part, Laid) and (found := _neutral(part))
    ]
    if not neutrals:
        return does_not_apply("no neutral wire of a building wire's size goes with it")
    thinner = [(part, neutral) for part, neutral in neutrals if neutral.metal != part.metal or neutral.size < part.size]
    if not thinner:
        return met("neutral", neutrals[0][1].named, "as large as the hot")
    if goes_by_its_equipment(circuit, look):
        return does_not_apply("a motor's or air conditioner's own circuit")
    rating = look.stated(circuit.breaker.rating)
    return worst([_protected(part, neutral, rating, look) for part, neutral in thinner])


def _protected(part: Laid, neutral: Laid, rating: Current, look: Look) -> Answer:
    at = f"{part.carried.place}/{'cable' if part.carried.wires is None else 'wires/neutral'}"
    ways = _as_the_hot(part)
    if is_capped(neutral, rating, look):
        needs = f"wire for which {rating} is allowed: at most {cap(neutral, look)} for this size"
        return not_met("neutral", neutral.named, needs, at=at, amend=ways).citing("small-conductor-ocpd")
    found = verdict(neutral, partial(_does, rating, part.circuit, look), look)
    has, needs = f"{neutral.named}, {found.amps}", f"an ampacity that the {rating} breaker protects"
    if found.holds:
        return met("neutral", has, needs, at=at)
    return not_met("neutral", has, needs, at=at, amend=ways).citing("branch-ocpd-vs-ampacity")


def _does(rating: Current, circuit: Circuit, look: Look, amps: Current) -> bool:
    return protects(rating, amps, circuit, look)


def _neutral(part: Laid) -> Laid | None:
    """The neutral laid as the hots are: a wire of its own, or the last insulated conductor of a cable."""
    wires, cable = part.carried.wires, part.carried.cable
    if wires is not None:
        one = wires.neutral
        if one is None:
            return None
        # A bare wire beside insulated ones is counted as hot as these may get: 310.15, from memory.
        kind = part.kind if one.insulation == "bare" else one.insulation
        return part._replace(size=one.size, metal=one.material, kind=kind)
    return None if isinstance(cable, Unstated) else part._replace(size=cable.insulated[-1])


def _as_the_hot(part: Laid) -> tuple[Proposal, ...]:
    wires, cable = part.carried.wires, part.carried.cable
    if wires is not None and wires.neutral is not None:
        text = f"{part.size} {part.metal} {wires.neutral.insulation}"
        return (Proposal.state(f"pull a neutral of {part.size}", Effort.WIRE, (wires, "neutral", text)),)
    if isinstance(cable, Unstated):
        return ()
    ground = () if cable.ground is None else (cable.ground.designation,)
    sizes = "-".join((*(part.size.designation for _ in cable.insulated), *ground))
    text = f"{cable.type} {sizes} {cable.material}"
    return (Proposal.state(f"use {text}", Effort.WIRE, (part.carried, "cable", text)),)
