"""What is made up in boxes: free ends, clamps, grounds, closed openings."""

from __future__ import annotations

from precover.plan import Box, Luminaire, Plan, Receptacle, Switch
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

METAL = ("steel", "aluminum")
COMMON = "common receptacle current"


def _of_unsaid_type(receptacle: Receptacle, look: Look) -> str:
    if not isinstance(receptacle.grounding_type, bool):
        return "not stated: it is on the inspection list"
    most = look.limit(COMMON)
    return f"larger than {most.text}" if receptacle.receptacle > most.value else ""


@rule(
    looks_at=Receptacle,
    unless=_of_unsaid_type,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("receptacle-grounding-type",),
)
def receptacle_of_grounding_type(receptacle: Receptacle, look: Look) -> Answer:
    """A 15 or 20 A receptacle is of the grounding type."""
    at = f"{receptacle.place}/grounding-type"
    if look.stated(receptacle.grounding_type):
        return met("receptacle", "grounding type", "grounding type", at=at)
    other = Proposal.state("use a receptacle of the grounding type", Effort.PART, (receptacle, "grounding-type", True))
    return not_met("receptacle", "two-wire, without ground", "grounding type", at=at, amend=(other,))


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("box-free-length", "cable-secured-to-box", "box-unused-openings"))
def wiring_in_boxes(plan: Plan, look: Look) -> str | None:
    """Free ends, clamps and openings."""
    if not plan.boxes:
        return None
    free, outside = look.limit("free conductor in a box").text, look.limit("free conductor outside a box").text
    sheath = look.limit("sheath inside a box").text
    near = look.cell("support-spacing", "NM-B", "any", "single-gang nonmetallic box without clamp", "from a box").text
    return (
        f"In every box: {free} of free conductor from sheath or raceway, {outside} of it reaching outside the box; "
        f"cables under their connectors or clamps (only in a single-gang plastic box may a staple within {near} do, with "
        f"{sheath} of sheath inside); unused openings closed."
    )


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("egc-splices-bonded", "receptacle-egc-jumper"))
def grounds_in_boxes(plan: Plan, _look: Look) -> str | None:
    """Equipment grounds are joined, and metal boxes with them."""
    if not plan.boxes:
        return None
    metal = [box.id for box in plan.boxes.values() if box.box.material in METAL]
    outlets = [name for name in metal if _has(plan.boxes[name], Receptacle)]
    bonded = f" and to the metal of {', '.join(metal)}" if metal else ""
    jumper = (
        f"; in {', '.join(outlets)} a jumper to each receptacle, or one listed to ground through its yoke"
        if outlets
        else ""
    )
    return f"All equipment grounds in a box are joined with each other{bonded}{jumper}."


@inspection(
    looks_at=Plan,
    stage=Stage.FINAL,
    rows=("switch-metal-yoke-ground", "luminaire-grounding", "receptacle-grounding-type"),
)
def devices_are_grounded(plan: Plan, _look: Look) -> str | None:
    """Yokes and metal of devices are on the equipment ground."""
    parts = [
        words
        for kind, words in (
            (Receptacle, "receptacles (of the grounding type)"),
            (Switch, "metal yokes of switches"),
            (Luminaire, "exposed metal of luminaires"),
        )
        if any(_has(box, kind) for box in plan.boxes.values())
    ]
    return f"Connected to the equipment ground: {', '.join(parts)}." if parts else None


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("box-set-back",))
def boxes_flush_with_the_wall(plan: Plan, look: Look) -> str | None:
    """Boxes let into a wall reach its face."""
    flush = [box.id for box in plan.boxes.values() if box.box.mounting == "flush"]
    if not flush:
        return None
    back = look.limit("set-back of a box").text
    return f"{', '.join(flush)}: flush with the face of a wall or ceiling of wood, no more than {back} back in others."


def _has(box: Box, kind: type) -> bool:
    return any(isinstance(device, kind) for device in box.devices.values())
