"""Boxes stay within reach, and hold what is joined."""

from __future__ import annotations

from precover.plan import Box, BuriedLeg, Cable, OverheadLeg, Plan, RiseLeg
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
from precover_rules.boxes.contents import entering


def _not_said(box: Box, _look: Look) -> str:
    said = isinstance(box.accessible, bool) or _in_the_earth(box)
    return "" if said else "not stated: it is on the inspection list"


def _in_the_earth(box: Box) -> bool:
    return box.area == "ground" and box.box.kind not in ("handhole", "pedestal")


@rule(
    looks_at=Box,
    unless=_not_said,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("box-accessible", "junction-clear-of-earth"),
)
def box_within_reach(box: Box, look: Look) -> Answer:
    """A box can be reached without damaging the building or digging."""
    in_earth = _in_the_earth(box)
    if in_earth:
        look.because("set in the earth, and not said to be a handhole", box.place)
    if not look.stated(box.accessible):
        row = "junction-clear-of-earth" if in_earth else "box-accessible"
        why = "in the earth only a handhole, or a splice listed for burial" if in_earth else ""
        reach = Proposal.state("put it where it can be reached", Effort.PART, (box, "accessible", True))
        at = f"{box.place}/accessible"
        return not_met(
            "box", "cannot be reached", "in reach without digging or damage", why=why, at=at, amend=(reach,)
        ).citing(row)
    return met("box", "can be reached", "in reach without digging or damage", at=f"{box.place}/accessible")


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("box-accessible", "box-at-each-splice"))
def boxes_within_reach(plan: Plan, _look: Look) -> str | None:
    """Boxes seen when all is closed."""
    if not plan.boxes:
        return None
    return (
        "Every splice, outlet, switch and pull point is in a box or conduit body, and each of them can still be reached "
        f"when the walls are closed: {', '.join(plan.boxes)}."
    )


@inspection(looks_at=Box, stage=Stage.ROUGH, rows=("uf-to-nm-transition",))
def change_of_wiring(box: Box, look: Look) -> str | None:
    """Where the wiring from outdoors goes over into cable for indoors."""
    indoors: list[str] = []
    outdoors: list[str] = []
    for one in entering(box, look):
        cable = one.carried.cable
        if isinstance(cable, Cable) and cable.type == "NM-B":
            indoors.append(cable.text)
        elif any(isinstance(leg, BuriedLeg | RiseLeg | OverheadLeg) for leg in one.route.legs):
            outdoors.append(cable.text if isinstance(cable, Cable) else "single wires")
    if not indoors or not outdoors:
        return None
    return (
        f"The change from {outdoors[0]} to {indoors[0]} is made up in this box, not in a taped joint; the {indoors[0]} "
        "stays where it is dry."
    )


@inspection(looks_at=Box, stage=Stage.TRENCH, rows=("junction-clear-of-earth",))
def handhole_in_the_ground(box: Box, _look: Look) -> str | None:
    """A handhole that can be opened and driven over."""
    if box.box.kind != "handhole" and box.area != "ground":
        return None
    return "Its lid is flush with the ground, opens without digging, and is listed for the load that can come on it."
