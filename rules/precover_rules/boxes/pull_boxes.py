"""Pull boxes for large wire: long enough for the bend of the wire in them."""

from __future__ import annotations

from fractions import Fraction

from precover.plan import Box, Cable, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.boxes.contents import Entering, encloses_a_switch, entering
from precover_rules.boxes.pull_length import LARGE, beside, lengths
from precover_rules.raceways import is_raceway

NOTHING_LARGE = "no 4 AWG or larger in raceway"


def _without_raceway(box: Box, look: Look) -> str:
    if box.box.kind != "conduit body":
        for route in look.trace.routes_at(box):
            raceway = route.raceway
            if isinstance(raceway, Unstated) or is_raceway(raceway):
                return ""
    return "no wires in raceway, or a conduit body, which is marked for its wires"


def _with_its_own_space(box: Box, _look: Look) -> str:
    own = encloses_a_switch(box) and isinstance(box.box.length, Unstated)
    return "the enclosure of a switch, with wiring space of its own" if own else ""


def _nothing_large(box: Box, look: Look) -> str:
    large = look.limit(LARGE).value
    for one in entering(box, look):
        if one.largest >= large:
            return "" if any(_sizes(box, look)) else NOTHING_LARGE
    return NOTHING_LARGE


def _sizes(box: Box, look: Look) -> list[Fraction]:
    """The trade sizes of the raceways with large wires in them, the largest first; 0 for a cable."""
    large = look.limit(LARGE).value
    ins = [one for one in entering(box, look) if one.largest >= large]
    return sorted({one.route.id: _size(one, look) for one in ins}.values(), reverse=True)


@rule(
    looks_at=Box,
    unless=(_without_raceway, _with_its_own_space, _nothing_large),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("box-large-wire",),
)
def length_of_a_pull_box(box: Box, look: Look) -> Answer:
    """A box through which 4 AWG or larger is pulled is long enough for its largest raceway."""
    sizes = _sizes(box, look)
    least = lengths(sizes, look)
    straight, angle = look.limit("pull box length, straight"), look.limit("pull box length, angle")
    look.because(
        f"largest raceway {_written(sizes[0])}, {straight.text} times straight, {angle.text} times at an angle",
        box.place,
    )
    others = " + ".join(_written(size) for size in beside(sizes) if size)
    if others:
        look.because(f"at an angle and what is in the wall of the largest, at the most {others}", box.place)
    length = look.stated(box.box.length)
    of, at = "length", f"{box.box.place}/length"
    enough = least.enough
    if length >= enough:
        return met(of, length, f"at least {enough}", at=at)
    needed = min(least.straight, least.angle_least, key=lambda one: one.amount)
    if length >= needed:
        turns = look.stated(box.pull) != "straight"
        needed, sure = (least.angle_least, least.angle_most) if turns else (least.straight, least.straight)
        if length >= sure:
            return met(of, length, f"at least {sure}", at=at)
        if length >= needed:
            why = f"the plan does not tell whether {others} is in the wall of the largest; round a corner {sure} is enough"
            needs = f"{needed}, and what is in the wall of the largest raceway"
            return authority_decides(of, length, needs, why=why, at=at)
    way = Proposal.state(f"use a box {enough} long", Effort.PART, (box.box, "length", enough.text))
    return not_met(of, length, f"at least {needed}", at=at, amend=(way,))


def _size(one: Entering, look: Look) -> Fraction:
    raceway = look.stated(one.route.raceway)
    return Fraction(0) if raceway.size is None else Fraction(raceway.size.order)


def _written(size: Fraction) -> str:
    """A trade size as people write it: `1-1/4 in`."""
    whole, part = divmod(size, 1)
    return "-".join(str(figure) for figure in (whole, part) if figure) + " in"


@inspection(looks_at=Box, stage=Stage.ROUGH, rows=("box-large-wire",))
def large_cable_in_a_box(box: Box, look: Look) -> str | None:
    """A cable of large conductors that enters without raceway."""
    large = look.limit(LARGE).value
    cables = [one.carried.cable for one in entering(box, look) if one.carried.wires is None]
    named = sorted({cable.text for cable in cables if isinstance(cable, Cable) and cable.size >= large})
    if not named:
        return None
    return f"{', '.join(named)}: the box is as long as for the raceway that these conductors would need."
