"""Rooms that are no place for a panel."""

from precover.plan import Panel
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    met,
    not_met,
    rule,
)
from precover_rules.premises import is_dwelling

NEEDS = "not in a dwelling's bathroom or a clothes closet"


def _in_place_already(panel: Panel, _look: Look) -> str:
    return "it is there already" if panel.existing else ""


@rule(
    looks_at=Panel,
    unless=_in_place_already,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("panel-not-bath-closet",),
)
def not_in_a_bathroom_or_clothes_closet(panel: Panel, look: Look) -> Answer:
    """A panel is not in a dwelling's bathroom, and not among clothes."""
    area = look.stated(panel.area)
    at = f"{panel.place}/area"
    if area == "closet":
        why = "a closet for tools or cleaning things is no clothes closet"
        return authority_decides("panel", "in a closet", NEEDS, why=why, at=at)
    if area == "bathroom" and is_dwelling(look):
        other = Proposal.state("put it in another room", Effort.WIRE, (panel, "area", "indoors"))
        return not_met("panel", "in a bathroom", NEEDS, at=at, amend=(other,))
    return met("panel", f"in the {area}" if area not in ("indoors", "outdoors") else area, NEEDS, at=at)
