"""Neutral and ground kept apart behind the service."""

from precover.plan import Carried, Circuit, Panel, Unstated
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
from precover_rules.circuit_conductors import carried_on, has_neutral, kept_three_wire, uses_neutral


@rule(looks_at=Panel, severity=Severity.DANGER, stage=Stage.ENERGIZE, rows=("feeder-neutral-isolated",))
def neutral_apart_from_ground(panel: Panel, look: Look) -> Answer:
    """In a panel fed by a feeder the neutral is kept apart from the enclosure; only an old three-wire feeder's is bonded."""
    feeder = look.trace.feeder_of(panel)
    if feeder is None:
        return does_not_apply("service equipment")
    neutral = look.stated(panel.neutral)
    at = f"{panel.place}/neutral"
    if kept_three_wire(feeder, look):
        look.because(f"{feeder.id} was there before, without an equipment grounding conductor", feeder.place)
        needs = "bonded, or a new feeder with an equipment grounding conductor"
        if neutral == "bonded":
            return met("neutral", neutral, needs, at=at)
        return not_met(
            "neutral", neutral, needs, why="a fault has no way back to trip the breaker", at=at, amend=(_bond(panel),)
        )
    if neutral == "isolated":
        return met("neutral", neutral, "isolated", at=at)
    words = "take out the bonding screw or strap, so that the neutral bar is isolated"
    return not_met(
        "neutral",
        neutral,
        "isolated",
        why="with two bonds the ground wire and every metal part carry neutral current",
        at=at,
        amend=(Proposal.state(words, Effort.PAPER, (panel, "neutral", "isolated")),),
    )


@rule(looks_at=Panel, severity=Severity.CORRECTION, stage=Stage.ENERGIZE, rows=("panel-ground-bar",))
def ground_bar_in_the_panel(panel: Panel, look: Look) -> Answer:
    """A panel fed by a feeder has an equipment grounding bar bonded to its enclosure."""
    feeder = look.trace.feeder_of(panel)
    if feeder is None:
        return does_not_apply("service equipment")
    if kept_three_wire(feeder, look):
        return does_not_apply("an old three-wire feeder's neutral bar may do its work")
    at = f"{panel.place}/ground-bar"
    if look.stated(panel.ground_bar):
        return met("grounding bar", "there", "bonded to the enclosure", at=at)
    return not_met(
        "grounding bar",
        "none",
        "bonded to the enclosure",
        at=at,
        amend=(Proposal.state("fit a grounding bar", Effort.PART, (panel, "ground-bar", True)),),
    )


@rule(looks_at=Circuit, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("neutral-needed-for-120v",))
def neutral_for_120_volt_loads(feeder: Circuit, look: Look) -> Answer:
    """A feeder for anything that needs a neutral carries one all the way."""
    panel = look.trace.panel_fed_by(feeder) if feeder.kind == "feeder" else None
    if panel is None:
        return does_not_apply("not a feeder to a panel")
    user = next((circuit for circuit in look.trace.circuits_from(panel) if uses_neutral(circuit, look)), None)
    if user is None:
        return does_not_apply("nothing behind it needs a neutral")
    needs = f"a neutral, for {user.id}"
    for route, carried in carried_on(feeder, look):
        if not has_neutral(feeder, carried, look):
            return not_met(f"feeder on {route.id}", "no neutral", needs, at=carried.place, amend=_with_neutral(carried))
    return met("feeder", "a neutral all the way", needs)


@inspection(looks_at=Panel, stage=Stage.ENERGIZE, rows=("feeder-neutral-isolated", "panel-ground-bar"))
def bonding_seen(panel: Panel, look: Look) -> str | None:
    """The bond itself."""
    feeder = look.trace.feeder_of(panel)
    if feeder is None:
        return None
    if kept_three_wire(feeder, look):
        return (
            f"{panel.id}: neutral bonded to enclosure and grounding bar; no metal pipe, raceway or shield joins the"
            f" structures, and nothing ahead of {feeder.id} has ground-fault protection of equipment."
        )
    return f"{panel.id}: bonding screw or strap taken out, grounding bar bonded to the enclosure, no ground on the neutral bar."


def _bond(panel: Panel) -> Proposal:
    words = "bond the neutral to the enclosure and the grounding bar, if no other metal path joins the structures"
    return Proposal.state(words, Effort.PAPER, (panel, "neutral", "bonded"))


def _with_neutral(carried: Carried) -> tuple[Proposal, ...]:
    """A neutral of the size of the hots, or the cable with one more conductor."""
    if carried.wires is not None:
        hot = carried.wires.hot
        if isinstance(hot, Unstated):
            return ()
        text = f"{hot.size} {hot.material} {hot.insulation}"
        return (Proposal.state(f"pull {text} as the neutral", Effort.WIRE, (carried.wires, "neutral", text)),)
    cable = carried.cable
    if isinstance(cable, Unstated) or "/2" not in cable.text:
        return ()
    text = cable.text.replace("/2", "/3")
    return (Proposal.state(f"use {text}", Effort.WIRE, (carried, "cable", text)),)
