"""What holds a box, and what a box holds."""

from __future__ import annotations

from precover.plan import Box, Equipment, Luminaire, Plan, Raceway
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
from precover.units import Mass
from precover_rules.boxes.fill import volume_of
from precover_rules.raceways import NONMETALLIC

THREADED = ("RMC", "IMC")


def _not_said(box: Box, _look: Look) -> str:
    return "not stated: it is on the inspection list" if box.held_by is None else ""


@rule(
    looks_at=Box,
    unless=_not_said,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("box-support", "pvc-not-support-light"),
)
def box_held_by_raceways(box: Box, look: Look) -> Answer:
    """A box that only its raceways hold is small, and held by two threaded metal ones."""
    at = f"{box.place}/held-by"
    if box.held_by == "structure":
        return met("box", "fastened to the structure", "fastened to the structure", at=at)
    needs = "fastened to the structure"
    fasten = (Proposal.state("fasten the box to the structure", Effort.PART, (box, "held-by", "structure")),)
    kinds = [look.stated(route.raceway) for route in look.trace.routes_at(box)]
    plastic = next((kind for kind in kinds if kind.type in NONMETALLIC), None)
    if plastic is not None:
        light = any(isinstance(one, Luminaire) for one in box.devices.values())
        why = f"PVC may not hold up {'a luminaire' if light else 'a box'}"
        row = "pvc-not-support-light" if light else "box-support"
        return not_met("box", f"held by {plastic}", needs, why=why, at=at, amend=fasten).citing(row)
    count = look.limit("raceways that hold a box").value
    threaded = sum(kind.type in THREADED for kind in kinds)
    if threaded < count:
        return not_met(
            "box", f"held by {threaded} threaded raceways", f"{count}, or {needs}", at=at, amend=fasten
        ).citing("box-support")
    most = look.limit("box held by raceways only")
    volume = volume_of(box, look)
    if volume > most.like(volume):
        return not_met("volume", volume, f"at most {most.text} for a box on its raceways", at=at, amend=fasten).citing(
            "box-support"
        )
    return met("box", f"held by {threaded} threaded raceways", f"{count} or more, up to {most.text}", at=at)


@rule(looks_at=Luminaire, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("box-ceiling-fan",))
def weight_on_a_box(luminaire: Luminaire, look: Look) -> Answer:
    """A luminaire too heavy for an ordinary box hangs from one that is listed for its weight."""
    weight = luminaire.weight
    limit = look.limit("luminaire on an ordinary box")
    if not isinstance(weight, Mass):
        return does_not_apply("no weight stated")
    at = f"{luminaire.place}/weight"
    if weight <= limit.like(weight):
        return met("luminaire", weight, f"at most {limit.text} on an ordinary box", at=at)
    box = look.trace.box_of(luminaire)
    listed = box.box.holds
    if listed is not None and listed >= weight:
        return met("luminaire", weight, f"at most {listed}, for which the box is listed", at=at)
    way = Proposal.state(f"use a box listed to hold {weight}", Effort.PART, (box.box, "holds", weight.text))
    return not_met("luminaire", weight, f"at most {listed or limit.text} on this box", at=at, amend=(way,))


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("box-support", "pvc-not-support-light"))
def boxes_are_fastened(plan: Plan, look: Look) -> str | None:
    """Boxes are firm."""
    open_ones = [box for box in plan.boxes.values() if box.held_by is None]
    if not open_ones:
        return None
    most = look.limit("box held by raceways only").text
    near, device = (
        look.limit("support of a raceway that holds a box"),
        look.limit("support of a raceway that holds a device"),
    )
    plastic = any(
        isinstance(route.raceway, Raceway) and route.raceway.type in NONMETALLIC for route in plan.routes.values()
    )
    light = " PVC raceway holds up no box and no luminaire." if plastic else ""
    return (
        f"Boxes are fastened to the structure. Only up to {most} may hang on two threaded raceways, held within "
        f"{near.text} ({device.text} with a device or luminaire).{light}"
    )


@inspection(looks_at=Equipment, stage=Stage.ROUGH, rows=("box-ceiling-fan",))
def fan_on_a_box(equipment: Equipment, look: Look) -> str | None:
    """A ceiling fan hangs from a box made for it."""
    if "fan" not in equipment.equipment.lower().split():
        return None
    most, marked = look.limit("fan on a fan box").text, look.limit("fan weight that is marked on the box").text
    return f"A ceiling fan hangs from a box listed for fans, marked with its weight over {marked}, and from the structure over {most}."
