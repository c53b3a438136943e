"""Pulls that go wrong: wires that jam in a bend, and a pull that is too hard. Good practice, not a requirement."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from precover.electrical.pulling import Bundle, Pull, Straight, Turn, backwards, most_tension, pull
from precover.electrical.raceway_fill import jam_ratio, may_jam
from precover.electrical.wire import circular_mils
from precover.plan import Bend, Carried, Conductor, Leg, Raceway, RiseLeg, Route
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover.units import ConductorSize, Length, plain
from precover.units.trade_size import METRIC_DESIGNATORS
from precover_rules.raceway.bends import radius_or_least
from precover_rules.raceway.contents import DIMENSIONS, FAMILIES, UNPUBLISHED
from precover_rules.raceway.pull_point import parted, pull_point
from precover_rules.raceways import is_raceway, trade_size

GOOD_PRACTICE = "Good practice; the wire maker's instructions for pulling"
RECKONED = "smallest wire whose pull is reckoned"
COPPER, COVERING = 8.89, 1.4
"""Densities in g/cm³: copper (handbook value), and insulation (PVC; from memory)."""
POUNDS_PER_FOOT = 62.43 / 144
"""Of a body of one square inch and density 1."""


def _not_three(route: Route, _look: Look) -> str:
    wires = _wires(route)
    alike = len({(wire.size, wire.insulation) for wire in wires}) == 1
    return "" if alike and sum(wire.count for wire in wires) == 3 else "not just three equal wires"


def _no_pull(route: Route, _look: Look) -> str:
    pulled = isinstance(route.raceway, Raceway) and is_raceway(route.raceway) and len(route.legs) > 1
    return "" if pulled else "no raceway along the route"


def _nothing_large(route: Route, look: Look) -> str:
    return "" if _large(route, look) else f"no wires of {look.limit(RECKONED).text} or larger"


@rule(
    looks_at=Route,
    unless=_not_three,
    severity=Severity.ADVICE,
    stage=Stage.ROUGH,
    look_up=GOOD_PRACTICE,
    hazard="damage",
)
def wires_that_jam(route: Route, look: Look) -> Answer:
    """Three equal wires do not wedge side by side in a bend of their raceway."""
    wires = _wires(route)
    raceway = look.stated(route.raceway)
    if not is_raceway(raceway) or not any(isinstance(leg, Bend) for leg in route.legs):
        return does_not_apply("no raceway with a bend")
    ratio = _ratio(raceway, wires[0], look)
    if ratio is None:
        return does_not_apply("no dimensions published")
    low, high = look.limit("jam ratio from"), look.limit("jam ratio to")
    look.because(
        f"internal diameter of {raceway}, somewhat oval, over the diameter of {wires[0].size} {wires[0].insulation}"
    )
    has, needs = f"ratio {plain(ratio)}", f"not between {low.text} and {high.text}"
    if not may_jam(ratio, low.value, high.value, 3):
        return met("three wires in a bend", has, needs)
    return not_met(
        "three wires in a bend", has, needs, why="they can wedge side by side and be damaged in the pull",
        at=f"{route.place}/raceway", amend=_roomier(route, raceway, wires[0], high.value, look),
    )  # fmt: skip


@rule(
    looks_at=Route,
    unless=(_no_pull, _nothing_large),
    severity=Severity.ADVICE,
    stage=Stage.ROUGH,
    look_up=GOOD_PRACTICE,
    hazard="damage",
)
def tension_of_the_pull(route: Route, look: Look) -> Answer:
    """Pulling wires in does not strain them, nor press them too hard against a bend."""
    wires, large = _wires(route), _large(route, look)
    raceway = look.stated(route.raceway)
    stretches = _stretches(route.legs, raceway, look)
    if not stretches:
        return does_not_apply("not every length is stated")
    weight = sum(_weight(wire, look) for wire in wires)
    count = sum(wire.count for wire in large)
    strength = min(most_tension(circular_mils(wire.size), count, _pull_allowed(wire, look)) for wire in large)
    wall = float(look.limit("sidewall pressure").value)
    friction = look.limit("friction of a dry pull")
    bundle = Bundle(weight, float(friction.value))

    def goes(one: Pull) -> bool:
        return one.end <= strength and max(one.pressure) <= wall

    done = _easier(bundle, stretches)
    look.because(f"{weight:.2f} lb/ft, dry friction {friction.text}, from the easier end", route.place)
    has = f"{done.end:.0f} lb, {max(done.pressure):.0f} lb/ft on a bend"
    needs = f"at most {strength:.0f} lb, {wall:.0f} lb/ft"
    if goes(done):
        return met("pull", has, needs)
    why = "use lubricant, bends of a larger radius, or a pull point between"
    sweep = look.limit("radius of the wide elbows on the market")
    feet = float(sweep.value.in_unit("ft"))
    wide = tuple(Turn(one.radians, feet) if isinstance(one, Turn) else one for one in stretches)
    halves = [_stretches(legs, raceway, look) for legs in parted(route) or ()]
    ways = (
        *(_sweeps(route, sweep.text) if goes(_easier(bundle, wide)) else ()),
        *(pull_point(route, look) if halves and all(half and goes(_easier(bundle, half)) for half in halves) else ()),
    )
    return not_met("pull", has, needs, why=why, amend=ways)


def _easier(bundle: Bundle, stretches: tuple[Straight | Turn, ...]) -> Pull:
    return min((pull(bundle, stretches), pull(bundle, backwards(stretches))), key=lambda one: one.end)


def _sweeps(route: Route, radius: str) -> tuple[Proposal, ...]:
    bends = [leg for leg in route.legs if isinstance(leg, Bend)]
    changes = [(bend, "radius", radius) for bend in bends]
    return (Proposal.state(f"use elbows with a radius of {radius}", Effort.PART, *changes),) if bends else ()


def _pull_allowed(wire: Conductor, look: Look) -> float:
    """In pounds, for each circular mil."""
    metal = "aluminum" if wire.material == "Al" else "copper"
    return float(look.limit(f"pulling tension for each circular mil of {metal}").value)


def _wires(route: Route) -> list[Conductor]:
    """Every wire on a route; none where any of it is cable, or not stated."""
    found: list[Conductor] = []
    for carried in route.carries.values():
        some = _wires_of(carried)
        if not some:
            return []
        found.extend(some)
    return found


def _large(route: Route, look: Look) -> list[Conductor]:
    """The wires on a route whose pull is worth reckoning."""
    least = look.limit(RECKONED).value
    return [wire for wire in _wires(route) if wire.size >= least and wire.insulation != "bare"]


def _wires_of(carried: Carried) -> list[Conductor]:
    wires = carried.wires
    if wires is None or not isinstance(wires.hot, Conductor):
        return []
    return [wire for wire in (wires.hot, wires.neutral, wires.ground) if wire is not None]


def _ratio(raceway: Raceway, wire: Conductor, look: Look) -> Fraction | None:
    family = FAMILIES.get(wire.insulation)
    if family is None:
        return None
    inside = look.find("raceway-dimensions", raceway.type, trade_size(raceway), "internal diameter")
    diameter = look.find(DIMENSIONS, family[0], wire.size.designation, "diameter")
    return None if inside is None or diameter is None else jam_ratio(inside.value, diameter.value)


def _roomier(route: Route, raceway: Raceway, wire: Conductor, high: Fraction, look: Look) -> tuple[Proposal, ...]:
    for size in METRIC_DESIGNATORS:
        other = Raceway.parse(f"{raceway.type} {size} in")
        ratio = _ratio(other, wire, look)
        if ratio is not None and ratio > high:
            return (Proposal.state(f"use {other}", Effort.WIRE, (route, "raceway", other.text)),)
    return ()


def _weight(wire: Conductor, look: Look) -> float:
    """Weight of all of a listed wire, in lb/ft: of its metal as copper (aluminum weighs less), and its insulation."""
    thickest = FAMILIES.get(wire.insulation, UNPUBLISHED)[1]
    bare = wire.insulation == "bare"
    cell = None if bare else look.find(DIMENSIONS, thickest, wire.size.designation, "area")
    return wire.count * _each(wire.size.designation, float(cell.value.in_unit("in²")) if cell is not None else 0.0)


@lru_cache(maxsize=256)
def _each(designation: str, area: float) -> float:
    metal = circular_mils(ConductorSize(designation)) * math.pi / 4 / 1e6
    return (metal * COPPER + max(0.0, area - metal) * COVERING) * POUNDS_PER_FOOT


def _stretches(legs: Sequence[Leg], raceway: Raceway, look: Look) -> tuple[Straight | Turn, ...] | None:
    found: list[Straight | Turn] = []
    for leg in legs:
        if isinstance(leg, Bend):
            radius = float(radius_or_least(leg, raceway, look).in_unit("ft"))
            if radius <= 0:
                continue  # a corner is no bend to be pulled around: the radius itself is written up
            found.append(Turn(math.radians(float(leg.bend.amount)), radius))
            continue
        length = leg.length if not isinstance(leg, RiseLeg) or isinstance(leg.length, Length) else leg.rise
        if not isinstance(length, Length):
            return None
        found.append(Straight(float(length.in_unit("ft"))))
    return tuple(found)
