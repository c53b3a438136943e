"""How hot it is around a circuit where it lies."""

from __future__ import annotations

from fractions import Fraction

from precover.electrical.ampacity import surroundings
from precover.plan import (
    Bend,
    BuriedLeg,
    Circuit,
    FramingLeg,
    Leg,
    OverheadLeg,
    PassageLeg,
    RiseLeg,
    Route,
    SurfaceLeg,
    Unstated,
)
from precover.rulebook import Look, once
from precover.units import Temperature, total
from precover_rules.location import OUTDOOR_SURFACES

LIKE_OUTDOORS = ("attic", "garage", "crawl space")
UNHEATED_AREAS = (*LIKE_OUTDOORS, "outdoors", "ground")
OUT_OF_SUN = "XHHW-2"
"""Insulation that a sunny roof is not counted against (from memory)."""
_NO_WARMER = (BuriedLeg, Bend, PassageLeg)
_IN_THE_OPEN = (RiseLeg, OverheadLeg)


@once
def warm_legs(route: Route, look: Look) -> list[Leg]:
    """The legs of a route where it can be as hot as outdoors: on outside surfaces, rising or in the air, and inside
    whatever is not the living part of a dwelling. The earth, and rooms, are taken to be no hotter than the table is for;
    a passage through a wall takes after the legs on either side."""
    inside = _inside_is_warm(route, look)
    return [leg for leg in route.legs if _is_warm(leg, inside)]


def hottest(legs: list[Leg], insulation: str, look: Look) -> Temperature:
    """The temperature around conductors in these legs: the site's design temperature, and more on a sunny roof."""
    high = look.stated(look.plan.site.design_high)
    for leg in legs:
        if (
            isinstance(leg, SurfaceLeg)
            and leg.on == "roof"
            and insulation != OUT_OF_SUN
            and _lies_in_the_sun(leg, look)
        ):
            raised = surroundings(high, look.limit("heat of sun on a roof").value)
            for step in raised.steps:
                look.because(f"on a roof in the sun: {step}", leg.place)
            return raised.value
    return high


def is_short(circuit: Circuit, routes: set[str], look: Look) -> bool:
    """The warm legs of a circuit on these of its routes are together so short a part of it that the ampacity of the rest
    holds for them too."""
    warm: list[Fraction] = []
    whole: list[Fraction] = []
    for route in look.trace.tree.routes[circuit.id]:
        hot = warm_legs(route, look) if route.id in routes else ()
        for leg in route.legs:
            if not isinstance(leg, Bend):
                length = look.stated(leg.length).amount
                whole.append(length)
                if leg in hot:
                    warm.append(length)
    stretch, part = look.limit("stretch of lower ampacity"), look.limit("part of lower ampacity")
    hotter = total(warm)
    return bool(hotter <= stretch.value.amount and hotter <= total(whole) * part.value)


def _is_warm(leg: Leg, inside: bool) -> bool:
    if isinstance(leg, SurfaceLeg):
        return leg.on in OUTDOOR_SURFACES or leg.on == "post" or inside
    kind = type(leg)
    if kind in _NO_WARMER:
        return False
    if kind in _IN_THE_OPEN:
        return True
    return inside or (isinstance(leg, FramingLeg) and leg.in_ in LIKE_OUTDOORS)


def _inside_is_warm(route: Route, look: Look) -> bool:
    one, other = look.trace.node(route.from_), look.trace.node(route.to)
    structures = look.plan.structures
    if structures[one.at].use != "dwelling" or structures[other.at].use != "dwelling":
        return True
    if isinstance(one.area, Unstated) and not isinstance(other.area, Unstated):
        one, other = other, one  # asked for last
    return look.stated(one.area) in UNHEATED_AREAS and look.stated(other.area) in UNHEATED_AREAS


def _lies_in_the_sun(leg: SurfaceLeg, look: Look) -> bool:
    limit = look.limit("height above a roof that escapes its heat")
    if leg.above_roof is not None and leg.above_roof >= limit.like(leg.above_roof):
        return False
    return look.stated(leg.sunlight)
