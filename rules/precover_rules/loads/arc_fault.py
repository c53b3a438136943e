"""Arc-fault protection: of rooms of a dwelling, and not of outbuildings."""

from precover.plan import Circuit, Device, Structure, Unstated
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
from precover_rules.circuits import devices_on
from precover_rules.conditions import no_new_branch_circuit
from precover_rules.premises import DWELLINGS, is_dwelling
from precover_rules.sizing.own_circuit import PASSES_CURRENT

ROOMS = ("indoors", "kitchen", "laundry", "closet")
"""Areas that are taken for rooms to live in; garages, bathrooms, attics, unfinished basements and the outdoors are none."""

LARGEST = "arc-fault protected circuit"
VOLTAGE = "small branch circuit voltage"


@rule(
    looks_at=Circuit,
    unless=no_new_branch_circuit,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("afci-outbuilding-scope",),
)
def arc_fault_protection_of_rooms(circuit: Circuit, look: Look) -> Answer:
    """A 120 V circuit to rooms of a dwelling unit has arc-fault protection; an outbuilding that is none needs none."""
    outlets = [one for one in devices_on(circuit, look) if _may_be_in_a_room(one, look)]
    if not outlets:
        return does_not_apply("no outlet in a room of a dwelling")
    if not is_dwelling(look) or look.stated(circuit.voltage).line_to_ground != look.limit(VOLTAGE).value.amount:
        return does_not_apply("not a 120 V circuit of a dwelling")
    if look.stated(circuit.breaker.rating) > look.limit(LARGEST).value:
        return does_not_apply("larger than 20 A")
    stated_first = sorted(outlets, key=lambda one: isinstance(look.trace.box_of(one).area, Unstated))
    found = next((one for one in stated_first if look.stated(look.trace.box_of(one).area) in ROOMS), None)
    if found is None:
        return does_not_apply("no outlet in a room of a dwelling")
    of, needs = "arc-fault protection", "for outlets in rooms of a dwelling unit"
    at = f"{circuit.breaker.place}/arc-fault"
    if look.stated(circuit.breaker.arc_fault):
        return met(of, "at the breaker", needs, at=at)
    ways = (Proposal.state("fit an arc-fault breaker", Effort.PART, (circuit.breaker, "arc-fault", True)),)
    return not_met(of, f"none, for {found.id} in {look.trace.box_of(found).id}", needs, at=at, amend=ways)


@inspection(looks_at=Circuit, stage=Stage.PLAN, rows=("afci-extension",))
def extended_circuit(circuit: Circuit, look: Look) -> str | None:
    """A circuit of a house that is extended may need arc-fault protection for its rooms there."""
    if circuit.existing is not True or circuit.kind != "branch circuit" or circuit.breaker.arc_fault is True:
        return None
    if look.plan.site.premises not in DWELLINGS or "/" in circuit.from_:
        return None
    if look.trace.structure_of(look.plan.panels[circuit.from_]).use != "dwelling":
        return None
    return (
        f"{circuit.id} was there before: if it also serves rooms of the house, its extension (more than 6 ft, or with "
        "outlets) brings arc-fault protection to it."
    )


@inspection(looks_at=Structure, stage=Stage.PLAN, rows=("afci-outbuilding-scope",))
def rooms_of_an_outbuilding(structure: Structure, look: Look) -> str | None:
    """A habitable outbuilding may count as a part of the dwelling."""
    if structure.use not in ("accessory", "garage") or structure.habitable is not True:
        return None
    if look.plan.site.premises not in DWELLINGS or not look.trace.supplies(structure):
        return None
    return f"Ask whether the habitable room in {structure.id} counts as part of a dwelling unit: its circuits then need arc-fault protection."


def _may_be_in_a_room(device: Device, look: Look) -> bool:
    """It is in a dwelling, in a room or in an area that the plan leaves out."""
    box = look.trace.box_of(device)
    if look.plan.structures[box.at].use != "dwelling" or isinstance(device, PASSES_CURRENT):
        return False
    return isinstance(box.area, Unstated) or box.area in ROOMS
