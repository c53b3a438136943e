"""What holds a span up."""

from precover.plan import OverheadLeg, Route
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import Length
from precover_rules.overhead.spans import LATER_PART, LOW_VOLTAGE_ONLY, has_span, power_on, span_of

NEEDS = "a building, mast or pole"


@rule(looks_at=OverheadLeg, severity=Severity.CORRECTION, stage=Stage.FINAL, rows=("trees-not-wire-support",))
def no_tree_holds_it(leg: OverheadLeg, look: Look) -> Answer:
    """No tree holds a span up."""
    span = span_of(leg, look)
    if not span:
        return does_not_apply(LATER_PART)
    stated = [part for part in span if isinstance(part.held_by, str)]
    part = min(stated, key=lambda part: part.held_by != "tree", default=leg)
    held = look.stated(part.held_by)
    at = f"{part.place}/held-by"
    if held != "tree":
        return met("held by", held, NEEDS, at=at)
    pole = Proposal.state("set a pole", Effort.DIGGING, (part, "held-by", "pole"))
    return not_met("held by", "a tree", NEEDS, at=at, amend=(pole,))


@rule(looks_at=OverheadLeg, severity=Severity.DANGER, stage=Stage.FINAL, rows=("overhead-attach-height",))
def point_of_attachment(leg: OverheadLeg, look: Look) -> Answer:
    """The lower point of attachment of a span is high enough."""
    span = span_of(leg, look)
    if not span:
        return does_not_apply(LATER_PART)
    if not power_on(leg, look):
        return does_not_apply(LOW_VOLTAGE_ONLY)
    stated = [part for part in span if isinstance(part.attachment, Length)]
    lowest = min(stated, key=lambda part: look.stated(part.attachment), default=leg)
    needed = look.cell("overhead-clearance", "point of attachment", "any")
    higher = Proposal.state(f"attach it {needed.text} up or higher", Effort.WIRE, (lowest, "attachment", needed.text))
    return at_least(
        "point of attachment", look.stated(lowest.attachment), needed, at=f"{lowest.place}/attachment", amend=(higher,)
    )


@inspection(
    looks_at=Route, stage=Stage.FINAL, rows=("overhead-mast", "overhead-drip-loop", "overhead-support-building")
)
def masts_and_drip_loops(route: Route, _look: Look) -> str | None:
    """The ends of a span."""
    if not has_span(route):
        return None
    return (
        "Drip loops at both ends, below where the wiring goes in, so that no water follows it; a mast is strong enough or "
        "guyed and holds nothing but these conductors; over a roof the supports are substantial."
    )
