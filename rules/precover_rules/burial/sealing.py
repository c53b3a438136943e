"""Raceways sealed against the moisture of the ground and against the warm air of a building."""

from typing import NamedTuple

from precover.plan import (
    Box,
    BuriedLeg,
    FramingLeg,
    Leg,
    OverheadLeg,
    Panel,
    PassageLeg,
    Raceway,
    RiseLeg,
    Route,
    SurfaceLeg,
)
from precover.plan.thing import key_of
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
    once,
    rule,
)
from precover_rules.burial.way import after, before
from precover_rules.location import OUTDOOR_SURFACES
from precover_rules.raceways import is_raceway

INDOOR_SURFACES = ("inside wall", "ceiling", "floor")
POSTS = ("post", "lighting pole")
_ALWAYS_OUTDOORS = (BuriedLeg, RiseLeg, OverheadLeg)


def no_raceway_from_the_ground(route: Route, look: Look) -> str:
    """Only raceways that come from the ground are looked at."""
    return "" if _ends(route, look) else "no raceway comes from the ground"


@rule(
    looks_at=Route,
    unless=no_raceway_from_the_ground,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("seal-underground-raceway",),
)
def seal_of_an_underground_raceway(route: Route, look: Look) -> Answer:
    """A raceway in the ground, through which moisture could reach live parts, is sealed at one end at least."""
    ends = _ends(route, look)
    if any(end.enters(look) for end in ends):
        return does_not_apply("it enters a building, where its seal is looked at")
    for end in ends:
        if end.sealed(look):
            return met("seal", f"at the {end.side} side", "at one end or both")
    return not_met("seal", "at neither end", "at one end or both", amend=tuple(_seal([end]) for end in ends))


@rule(
    looks_at=Route,
    unless=no_raceway_from_the_ground,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("seal-raceway-entering-building", "seal-underground-raceway"),
)
def seal_where_a_raceway_enters(route: Route, look: Look) -> Answer:
    """A raceway that comes from the ground into a building is sealed where it enters."""
    ends = _ends(route, look)
    entering = [end for end in _ends(route, look) if end.enters(look)]
    if not entering:
        return does_not_apply("it enters no building")
    left = [end for end in entering if not end.sealed(look)]
    if not left:
        return met("seal", "where it enters")
    sides = " and ".join(end.side for end in left)
    answer = not_met("seal", f"none at the {sides} side", "where it enters", amend=(_seal(left),))
    elsewhere = any(end.sealed(look) for end in ends if end not in left)
    return answer.citing("seal-raceway-entering-building") if elsewhere else answer


@rule(looks_at=PassageLeg, severity=Severity.ADVICE, stage=Stage.ROUGH, rows=("seal-temperature-change",))
def seal_between_warm_and_cold(leg: PassageLeg, look: Look) -> Answer:
    """A raceway between outdoors and indoors is filled, so that warm air does not condense in it."""
    route = look.trace.route_of(leg)
    if not is_raceway(look.stated(look.trace.raceway_around(leg))):
        return does_not_apply("no raceway")
    if any(end.passage is leg for end in _ends(route, look)):
        return does_not_apply("comes from the ground, where its seal is looked at")
    ahead = _out_of_doors(before(leg, route), look.trace.node(route.from_), look)
    behind = _out_of_doors(after(leg, route), look.trace.node(route.to), look)
    if ahead == behind:
        return does_not_apply("not between outdoors and indoors")
    if look.stated(leg.sealed):
        return met("seal", "where it goes through")
    fill = Proposal.state("fill the raceway where it goes through", Effort.PART, (leg, "sealed", True))
    why = "asked for where condensation is known to trouble; the authority having jurisdiction can say"
    return not_met("seal", "none", "where it goes through", why=why, amend=(fill,))


@inspection(looks_at=Route, stage=Stage.TRENCH, rows=("seal-underground-raceway", "seal-raceway-entering-building"))
def seal_of_a_raceway_from_the_ground(route: Route, look: Look) -> str | None:
    """The sealing compound, and spare raceways."""
    if not _ends(route, look):
        return None
    named = isinstance(route.raceway, Raceway) and not route.raceway.absent
    raceway = str(route.raceway) if named else "raceway"
    if not route.carries:
        return f"The spare {raceway} is plugged at both ends against moisture."
    return (
        f"The {raceway} from the ground is sealed where planned, with compound identified for use with the insulation "
        "of the conductors in it."
    )


class _End(NamedTuple):
    """One end of a route that lies in the ground, with the wall or floor it passes on the way there, if any."""

    route: Route
    attribute: str
    side: str
    node: str
    passage: PassageLeg | None

    def sealed(self, look: Look) -> bool:
        """The raceway is sealed inside at this end, or where it passes the wall or floor."""
        if look.stated(getattr(self.route, self.attribute)):
            return True
        return self.passage is not None and look.stated(self.passage.sealed)

    def enters(self, look: Look) -> bool:
        """The raceway comes into a building at this end."""
        return self.passage is not None or _inside(look.trace.node(self.node), look)


def _seal(ends: list[_End]) -> Proposal:
    """Seal it at these ends."""
    words = f"seal the raceway at the {' and '.join(end.side for end in ends)} side"
    return Proposal.state(words, Effort.PART, *((end.route, key_of(end.attribute), True) for end in ends))


@once
def _ends(route: Route, look: Look) -> list[_End]:
    """The ends to which a raceway comes from the ground: those whose nearest buried leg lies in one. Around cable that
    lies in the earth itself there are only sleeves, open below."""
    buried = [leg for leg in route.legs if isinstance(leg, BuriedLeg)]
    if not buried:
        return []
    first, last = buried[0], buried[-1]
    found: list[_End] = []
    if is_raceway(look.stated(look.trace.raceway_around(first))):
        found.append(_End(route, "seal_at_from", "supply", route.from_, _passage(before(first, route))))
    if is_raceway(look.stated(look.trace.raceway_around(last))):
        found.append(_End(route, "seal_at_to", "load", route.to, _passage(after(last, route))))
    return found


def _passage(legs: list[Leg]) -> PassageLeg | None:
    return next((leg for leg in legs if isinstance(leg, PassageLeg)), None)


def _inside(node: Panel | Box, look: Look) -> bool:
    """The panel or box is in a building."""
    if look.plan.structures[node.at].use in POSTS:
        return False
    return look.stated(node.area) not in ("outdoors", "ground")


def _out_of_doors(legs: list[Leg], node: Panel | Box, look: Look) -> bool:
    """Whether it is outdoors that a passage leads to on one side: the nearest leg that tells, else the box at the end."""
    for leg in legs:
        if isinstance(leg, _ALWAYS_OUTDOORS) or (isinstance(leg, SurfaceLeg) and leg.on in OUTDOOR_SURFACES):
            return True
        if isinstance(leg, FramingLeg) or (isinstance(leg, SurfaceLeg) and leg.on in INDOOR_SURFACES):
            return False
    return not _inside(node, look)
