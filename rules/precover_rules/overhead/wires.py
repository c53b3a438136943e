"""The conductors of a span that are wires in the open, without cable sheath or raceway."""

from precover.plan import OverheadLeg, Wires
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover.units import ConductorSize
from precover_rules.overhead.spans import LATER_PART, span_of
from precover_rules.worst import worst

TABLE = "overhead-span"
NOT_OPEN = "no wires in the open"
COVERED = "insulated or covered"


@rule(looks_at=OverheadLeg, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("overhead-min-size",))
def size_for_the_span(leg: OverheadLeg, look: Look) -> Answer:
    """Open wires of a span are thick enough to carry themselves over its length."""
    span = span_of(leg, look)
    if not span:
        return does_not_apply(LATER_PART)
    open_wires = _open_wires(leg, look)
    return worst([_size(wires, span, look) for wires in open_wires]) if open_wires else does_not_apply(NOT_OPEN)


@rule(looks_at=OverheadLeg, severity=Severity.DANGER, stage=Stage.FINAL, rows=("overhead-insulation-within-10",))
def insulated_near_a_building(leg: OverheadLeg, look: Look) -> Answer:
    """Open wires of a span that begins or ends at a building are insulated or covered."""
    if not span_of(leg, look):
        return does_not_apply(LATER_PART)
    open_wires = _open_wires(leg, look)
    if not open_wires:
        return does_not_apply(NOT_OPEN)
    route = look.trace.route_of(leg)
    ends = [look.trace.structure_of(look.trace.node(name)).use for name in (route.from_, route.to)]
    if all(use in ("post", "lighting pole") for use in ends):
        return does_not_apply("from post to post")
    return worst([_covered(wires, look) for wires in open_wires])


def _open_wires(leg: OverheadLeg, look: Look) -> list[Wires]:
    route = look.trace.route_of(leg)
    wires = [carried.wires for carried in route.carries.values() if carried.wires is not None]
    return wires if wires and look.stated(look.trace.raceway_around(leg)).absent else []


def _size(wires: Wires, span: list[OverheadLeg], look: Look) -> Answer:
    hot = look.stated(wires.hot)
    conductors = [hot] if wires.neutral is None else [hot, wires.neutral]
    thinnest = min(conductors, key=lambda conductor: conductor.size)
    row = "open conductors, longer" if _is_long(span, look) else "open conductors"
    needed: ConductorSize = look.cell(TABLE, row, thinnest.material).value
    needs = f"at least {needed} {thinnest.material}"
    if thinnest.size >= needed:
        return met("wire", thinnest.text, needs)
    ways = []
    if thinnest.size >= look.cell(TABLE, "open conductors", thinnest.material).value:
        ways.append(Proposal.state("hang it on a messenger wire", Effort.PART, (span[0], "messenger", True)))
    thicker = [
        (wires, key, one.text.replace(str(one.size), str(needed), 1))
        for key, one in (("hot", hot), ("neutral", wires.neutral))
        if one is not None and one.material == thinnest.material and one.size < needed
    ]
    ways.append(Proposal.state(f"use {needed} {thinnest.material} in the span", Effort.WIRE, *thicker))
    return not_met("wire", thinnest.text, needs, why="it has to carry itself", at=wires.place, amend=tuple(ways))


def _is_long(span: list[OverheadLeg], look: Look) -> bool:
    """Longer than thin wires may go, with no messenger wire to carry them."""
    longest = look.cell(TABLE, "open conductors", "longest")
    lengths = [look.stated(leg.length) for leg in span]
    limit = longest.like(lengths[0])
    if sum(length.amount for length in lengths) <= limit.amount:
        return False
    return not any(leg.messenger is True for leg in span) and not look.stated(span[0].messenger)


def _covered(wires: Wires, look: Look) -> Answer:
    hot = look.stated(wires.hot)
    if hot.insulation == "bare":
        insulated = f"{hot.count} × {hot.size} {hot.material} XHHW-2"
        other = Proposal.state("use insulated wire", Effort.WIRE, (wires, "hot", insulated))
        return not_met("hot wire", hot.text, COVERED, at=wires.place, amend=(other,))
    if wires.neutral is not None and wires.neutral.insulation == "bare":
        why = "bare neutrals are allowed in some spans only"
        return authority_decides("neutral", wires.neutral.text, COVERED, why=why, at=wires.place)
    return met("wires", hot.text, COVERED)
