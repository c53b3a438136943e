"""Neutral and ground kept apart behind the service."""

from collections.abc import Iterator

from precover.plan import Circuit, GroundFaultDevice, Panel
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
from precover_rules.bringing_a_neutral import with_a_neutral
from precover_rules.circuit_conductors import carried_on, has_neutral, kept_three_wire, uses_neutral
from precover_rules.circuits import devices_on, panel_behind
from precover_rules.conditions import no_feeder_to_a_panel
from precover_rules.grounding.bringing_a_ground import brings_a_ground, with_a_ground
from precover_rules.separate_structures import leaves_its_structure


def _service_equipment(panel: Panel, look: Look) -> str:
    return "service equipment" if look.trace.feeder_of(panel) is None else ""


def _kept(panel: Panel, look: Look) -> str:
    kept = kept_three_wire(look.trace.tree.fed_by[panel.id], look)
    return "an old three-wire feeder's neutral bar may do its work" if kept else ""


@rule(
    looks_at=Panel,
    unless=_service_equipment,
    severity=Severity.DANGER,
    stage=Stage.ENERGIZE,
    rows=("feeder-neutral-isolated", "feeder-four-wire"),
)
def neutral_apart_from_ground(panel: Panel, look: Look) -> Answer:
    """In a panel fed by a feeder the neutral is kept apart from the enclosure; only an old three-wire feeder's is bonded."""
    feeder = look.trace.tree.fed_by[panel.id]
    row = "feeder-four-wire" if leaves_its_structure(feeder, look) else "feeder-neutral-isolated"
    neutral = look.stated(panel.neutral)
    if kept_three_wire(feeder, look):
        look.because(f"{feeder.id} was there before, without an equipment grounding conductor", feeder.place)
        return _behind_three_wires(panel, neutral, feeder, look).citing(row)
    return _isolated(panel, neutral, feeder, look).citing(row)


@rule(
    looks_at=Panel,
    unless=(_service_equipment, _kept),
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("panel-ground-bar",),
)
def ground_bar_in_the_panel(panel: Panel, look: Look) -> Answer:
    """A panel fed by a feeder has an equipment grounding bar bonded to its enclosure."""
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


@rule(
    looks_at=Circuit,
    unless=no_feeder_to_a_panel,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("neutral-needed-for-120v",),
)
def neutral_for_120_volt_loads(feeder: Circuit, look: Look) -> Answer:
    """A feeder for anything that needs a neutral carries one all the way."""
    panel = panel_behind(feeder, look)
    user = next((circuit for circuit in look.trace.circuits_from(panel) if uses_neutral(circuit, look)), None)
    if user is None:
        return does_not_apply("nothing behind it needs a neutral")
    needs = f"a neutral, for {user.id}"
    without = [
        (route, carried) for route, carried in carried_on(feeder, look) if not has_neutral(feeder, carried, look)
    ]
    if not without:
        return met("feeder", "a neutral all the way", needs)
    route, first = without[0]
    ways = with_a_neutral([carried for _, carried in without], look)
    return not_met(f"feeder on {route.id}", "no neutral", needs, at=first.place, amend=ways)


@inspection(looks_at=Panel, stage=Stage.ENERGIZE, rows=("feeder-neutral-isolated", "panel-ground-bar"))
def bond_of_the_neutral(panel: Panel, look: Look) -> str | None:
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


def _isolated(panel: Panel, neutral: str, feeder: Circuit, look: Look) -> Answer:
    at = f"{panel.place}/neutral"
    if neutral == "isolated":
        return met("neutral", neutral, "isolated", at=at)
    why = "with two bonds the ground wire and every metal part carry neutral current"
    ways: tuple[Proposal, ...] = ()
    if brings_a_ground(feeder, look):
        words = "take out the bonding screw or strap, so that the neutral bar is isolated"
        ways = (Proposal.state(words, Effort.PAPER, (panel, "neutral", "isolated")),)
    else:
        # Without the bond nothing would be left for a fault to come back on, so the ground comes first.
        why = (
            f"an equipment ground all the way with {feeder.id} comes first: until then the bond is the only fault path"
        )
    return not_met("neutral", neutral, "isolated", why=why, at=at, amend=ways)


def _behind_three_wires(panel: Panel, neutral: str, feeder: Circuit, look: Look) -> Answer:
    """The neutral is bonded, and may be only where nothing ahead trips by it and no metal shares its current."""
    at = f"{panel.place}/neutral"
    against = _against_a_bond(panel, feeder, look)
    if against:
        needs = "isolated, and a feeder with an equipment grounding conductor"
        return not_met("neutral", neutral, needs, why=against, at=at, amend=_rewired(panel, feeder, look))
    needs = "bonded, or a new feeder with an equipment grounding conductor"
    if neutral == "bonded":
        return met("neutral", neutral, needs, at=at)
    words = "bond the neutral to the enclosure and the grounding bar"
    bond = Proposal.state(words, Effort.PAPER, (panel, "neutral", "bonded"))
    return not_met("neutral", neutral, needs, why="a fault has no way back to trip the breaker", at=at, amend=(bond,))


def _against_a_bond(panel: Panel, feeder: Circuit, look: Look) -> str:
    """Why the neutral of an old three-wire feeder may not be bonded (from memory); empty where it may."""
    for ahead in _feeders_ahead(feeder, look):
        if look.stated(ahead.breaker.ground_fault) != "none":
            return (
                f"ground-fault protection at {ahead.id} is ahead: a bonded neutral may not lie behind it (from memory)"
            )
    for device in devices_on(feeder, look):
        if isinstance(device, GroundFaultDevice):
            return f"{device.id} is ahead: a bonded neutral may not lie behind ground-fault protection (from memory)"
    structure = look.trace.structure_of(panel)
    if look.stated(structure.metal_path):
        return "a metal path joins the structures: a bonded neutral would share its current with it (from memory)"
    return ""


def _feeders_ahead(feeder: Circuit, look: Look) -> Iterator[Circuit]:
    """The feeder, and those that feed the panel it begins in."""
    circuit: Circuit | None = feeder
    while circuit is not None:
        yield circuit
        circuit = look.trace.tree.fed_by.get(circuit.from_)


def _rewired(panel: Panel, feeder: Circuit, look: Look) -> tuple[Proposal, ...]:
    """A ground all the way, and the neutral isolated."""
    isolated = Proposal.state("", Effort.PAPER, (panel, "neutral", "isolated"), (panel, "ground-bar", True)).patch
    return tuple(
        way._replace(words=f"{way.words}; keep the neutral isolated", patch=(*way.patch, *isolated))
        if panel.neutral != "bonded"
        else way
        for way in with_a_ground(feeder, look)
    )
