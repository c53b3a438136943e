"""Bends of a raceway between pull points."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from precover.electrical.raceway_run import bends_between_pull_points
from precover.plan import Bend, BuriedLeg, Leg, Raceway, RiseLeg, Route
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    at_most,
    authority_decides,
    does_not_apply,
    inspection,
    met,
    rule,
)
from precover.units import Angle, Length, plain
from precover_rules.conditions import no_radius
from precover_rules.raceway.pull_point import pull_point
from precover_rules.raceways import FLEXIBLE, holds_nothing, trade_size

RADII = "bend-radius"
SHOE, OTHER = "one-shot or full-shoe", "other"
QUARTER = Angle.parse("90°")


def _cannot_bend(route: Route, _look: Look) -> str:
    return "no raceway that could bend" if len(route.legs) < 2 or holds_nothing(route) else ""


@rule(
    looks_at=Route, unless=_cannot_bend, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("raceway-bend-limit",)
)
def bends_between_pull_points_of_a_raceway(route: Route, look: Look) -> Answer:
    """Between two pull points (boxes, panels, conduit bodies) a raceway turns through no more than 360°."""
    turns = list(_turns(route, look))
    most = max(bends_between_pull_points(turns), key=lambda total: total.amount)
    if most.amount == 0:
        return does_not_apply("no bend in a raceway")
    bends = [turn for turn in turns if turn is not None]
    look.because(f"{' + '.join(turn.text for turn in bends)} of bends", route.place)
    limit = look.limit("bends between pull points")
    way = pull_point(route, look) if most > limit.value else ()
    return at_most("bends between pull points", most, limit, amend=way)


@rule(looks_at=Bend, unless=no_radius, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("raceway-bend-radius",))
def radius_of_a_bend(bend: Bend, look: Look) -> Answer:
    """A raceway is not bent tighter than the radius for its trade size."""
    radius = look.stated(bend.radius)
    raceway = look.stated(look.trace.raceway_around(bend))
    size = trade_size(raceway)
    if not size:
        return does_not_apply("no raceway")
    wide, shoe = look.cell(RADII, size, OTHER), _tightest(raceway, look)
    at = f"{bend.place}/radius"
    if shoe is wide:
        return at_least("radius", radius, wide, at=at, amend=(_wider(bend, wide.text),))
    look.because(f"{raceway}, bent with a one-shot or full-shoe bender or bought as an elbow", bend.place)
    if shoe.like(radius) <= radius < wide.like(radius):
        if raceway.type not in _BENT_WITH_A_SHOE:
            return authority_decides(
                "radius", radius, f"at least {wide.text}, or {shoe.text} for an elbow or a shoe bend",
                why=f"whether {raceway.type} is bent here by a tool that allows the tighter radius", at=at,
                amend=(_wider(bend, wide.text),),
            )  # fmt: skip
        return met("radius", radius, f"at least {shoe.text} with a one-shot or full-shoe bender", at=at)
    return at_least("radius", radius, shoe, at=at, amend=(_wider(bend, wide.text),))


_BENT_WITH_A_SHOE = ("EMT", "RMC", "IMC")


@inspection(looks_at=Route, stage=Stage.ROUGH, rows=("raceway-bend-limit", "raceway-bend-radius"))
def bends_as_built(route: Route, look: Look) -> str | None:
    """The bends are counted where they are."""
    bends = [leg for leg in route.legs if isinstance(leg, Bend)]
    if not bends:
        return None
    raceway = look.trace.raceway_around(bends[0])
    if not isinstance(raceway, Raceway) or not trade_size(raceway):
        return None
    total = sum((bend.bend.amount for bend in bends), Fraction(0))
    most = look.limit("bends between pull points").text
    least = _tightest(raceway, look).text
    return (
        f"Bends of the {raceway} from {route.from_} to {route.to}: {plain(total)}° planned, no more than {most} "
        f"between pull points, offsets and kicks counted; no kink, and no radius under {least}."
    )


def _turns(route: Route, look: Look) -> Iterator[Angle | None]:
    """The bends of a route's raceway in order; None where the wiring is out of raceway, which ends a stretch. Where
    raceway comes out of a trench it turns up, drawn as a bend or not."""
    last = route.legs[-1]
    for leg, after in (*pairwise(route.legs), (last, last)):
        if not _in_raceway(leg, look):
            yield None
        elif isinstance(leg, Bend):
            yield leg.bend
        elif _turns_up(leg, after) and _in_raceway(after, look):
            yield QUARTER


def _in_raceway(leg: Leg, look: Look) -> bool:
    raceway = look.trace.raceway_around(leg)
    return not look.stated(raceway).absent


def _turns_up(leg: Leg, after: Leg) -> bool:
    return (isinstance(leg, BuriedLeg) and isinstance(after, RiseLeg)) or (
        isinstance(leg, RiseLeg) and isinstance(after, BuriedLeg)
    )


def _wider(bend: Bend, radius: str) -> Proposal:
    return Proposal.state(f"bend it with a radius of {radius}", Effort.PART, (bend, "radius", radius))


def radius_or_least(bend: Bend, raceway: Raceway, look: Look) -> Length:
    """The radius of a bend as stated, else the tightest allowed."""
    if isinstance(bend.radius, Length):
        return bend.radius
    tightest: Length = _tightest(raceway, look).value
    return tightest


def _tightest(raceway: Raceway, look: Look) -> Cell:
    """Flexible raceway goes by the wider radius, and 3/8 has no other."""
    size = trade_size(raceway)
    return look.cell(RADII, size, OTHER if raceway.type in FLEXIBLE or size == "3/8" else SHOE)
