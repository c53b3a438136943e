"""The grounding electrode system of a separately supplied structure."""

from typing import Any

from precover.plan import Electrode, Structure
from precover.plan.thing import escaped
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
from precover_rules.free_names import free_names
from precover_rules.grounding.bringing_a_ground import with_a_ground
from precover_rules.grounding.electrodes import (
    counts,
    electrodes_of,
    is_permitted,
    lone_ungrounded_circuit,
    no_system_needed,
)
from precover_rules.grounding.ways import conductor_facts, two_rods


@rule(
    looks_at=Structure,
    unless=no_system_needed,
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("electrode-required", "electrode-exempt-single-circuit", "mwbc-counts-one", "electrode-auxiliary"),
)
def electrode_where_a_feeder_comes_in(structure: Structure, look: Look) -> Answer:
    """A structure with a feeder, or without an equipment grounding conductor, has a grounding electrode of its own."""
    found = electrodes_of(structure, look)
    needs = "at least one at the structure itself"
    if found:
        return met("grounding electrodes", ", ".join(electrode.id for electrode in found), needs)
    lone = lone_ungrounded_circuit(structure, look)
    ways = two_rods(structure) if lone is None else with_a_ground(lone, look)
    return not_met("grounding electrodes", "none that counts", needs, at=structure.grounding.place, amend=ways).citing(
        "electrode-required"
    )


@rule(
    looks_at=Electrode,
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("electrode-not-permitted",),
)
def electrode_of_a_permitted_kind(electrode: Electrode, look: Look) -> Answer:
    """Gas pipe and aluminum are not connected as grounding electrodes."""
    if is_permitted(electrode, look):
        return met("electrode", electrode.kind, "a permitted kind")
    if not look.stated(electrode.bonded):
        return does_not_apply(f"the {electrode.kind} is not used as an electrode")
    return not_met(
        "electrode",
        electrode.kind,
        "a permitted kind",
        why="metal pipe is bonded, by the equipment grounding conductor of what may energize it, but is no electrode",
        amend=(Proposal.state("do not use it as an electrode", Effort.PART, (electrode, "bonded", False)),),
    )


@rule(
    looks_at=Electrode,
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("electrode-bond-all-present",),
)
def every_electrode_bonded(electrode: Electrode, look: Look) -> Answer:
    """Every electrode that is present is connected to the grounding electrode system."""
    why = no_system_needed(look.trace.structure_with(electrode), look)
    if why:
        return does_not_apply(why)
    if not counts(electrode, look):
        return does_not_apply("not an electrode")
    at = f"{electrode.place}/bonded"
    if look.stated(electrode.bonded):
        return met("electrode", "connected", "connected to the others", at=at)
    words = "connect it to the grounding electrode system"
    return not_met(
        "electrode",
        "not connected",
        "connected to the others",
        at=at,
        amend=(Proposal.state(words, Effort.WIRE, (electrode, "bonded", True)),),
    )


@rule(
    looks_at=Structure,
    unless=no_system_needed,
    severity=Severity.CORRECTION,
    stage=Stage.POUR,
    rows=("electrode-concrete-encased",),
)
def footing_steel_used(structure: Structure, look: Look) -> Answer:
    """Where a new footing with steel in it is poured, its steel is one of the electrodes."""
    listed = [one for one in structure.grounding.electrodes.values() if one.kind == "concrete-encased"]
    needs = "a concrete-encased electrode"
    if listed:
        return met("footing", f"{listed[0].id} uses its steel", needs, at=listed[0].place)
    if lone_ungrounded_circuit(structure, look) is not None:
        return does_not_apply("with the equipment ground that its branch circuit lacks, none is needed")
    if not look.stated(structure.new_footing):
        return does_not_apply("no new footing")
    return not_met(
        "new footing",
        "its steel is no electrode",
        needs,
        at=f"{structure.place}/new-footing",
        amend=(_use_footing(structure, look),),
    )


@inspection(
    looks_at=Structure,
    stage=Stage.ENERGIZE,
    rows=("bond-water-pipe", "bond-gas-pipe", "bond-structural-metal", "bond-lightning"),
)
def metal_of_the_structure_bonded(structure: Structure, look: Look) -> str | None:
    """Metal that a plan need not list."""
    if no_system_needed(structure, look):
        return None
    return (
        f"At {structure.id}: metal water pipe is bonded to the disconnect's enclosure, the equipment grounding conductor or"
        " an electrode; gas and other pipe and exposed steel framing that wiring could energize are bonded; so are the"
        " terminals of a lightning protection system."
    )


@inspection(looks_at=Structure, stage=Stage.POUR, rows=("electrode-concrete-encased",))
def footing_steel_seen_before_the_pour(structure: Structure, look: Look) -> str | None:
    """What concrete will cover."""
    if no_system_needed(structure, look):
        return None
    for electrode in structure.grounding.electrodes.values():
        if electrode.kind == "concrete-encased":
            least = look.cell("grounding-electrodes", electrode.kind, "least length")
            return f"Before the pour: at least {least.text} of bar or wire near the bottom of the footing, and its connection."
    return None


def _use_footing(structure: Structure, look: Look) -> Proposal:
    name = next(free_names("footing", structure.grounding.electrodes))
    electrode: dict[str, Any] = {
        "kind": "concrete-encased",
        "bonded": True,
        "length": look.cell("grounding-electrodes", "concrete-encased", "least length").text,
    }
    edits = [
        {"op": "add", "path": f"{structure.grounding.place}/electrodes/{escaped(name)}", "value": electrode},
        *conductor_facts(structure),
    ]
    return Proposal("use the steel of the footing as an electrode", Effort.WIRE, tuple(edits))
