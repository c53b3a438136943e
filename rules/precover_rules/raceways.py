"""Kinds of raceway, as rules tell them apart, and the raceways of a route."""

from collections.abc import Iterator

from precover.plan import Bend, Leg, Raceway, Route
from precover.rulebook import Look

RIGID_METAL = ("RMC", "IMC")
METALLIC = ("RMC", "IMC", "EMT", "FMC", "LFMC")
NONMETALLIC = ("PVC-40", "PVC-80", "RTRC", "RTRC-XW", "HDPE", "LFNC", "ENT")
FLEXIBLE = ("FMC", "LFMC", "LFNC")
_RACEWAYS = frozenset((*METALLIC, *NONMETALLIC))


def is_raceway(raceway: Raceway) -> bool:
    """A raceway made for wiring: plumbing pipe is none."""
    return raceway.type in _RACEWAYS


def trade_size(raceway: Raceway) -> str:
    """The trade size of a raceway made for wiring, `3/4`; empty where there is none, or plumbing pipe."""
    return "" if raceway.size is None or not is_raceway(raceway) else raceway.size.designation


def holds_nothing(route: Route) -> bool:
    """The plan says that the route has no raceway, and no leg names one: told from what is stated, without asking."""
    raceway = route.raceway
    if not isinstance(raceway, Raceway) or not raceway.absent:
        return False
    return not any(isinstance(leg.raceway, Raceway) for leg in route.legs)


def no_raceway_along(route: Route, _look: Look) -> str:
    """A condition of rules: routes that are said to have no raceway are not looked at."""
    return "no raceway" if holds_nothing(route) else ""


def raceways_along(route: Route, look: Look) -> Iterator[tuple[Leg, Raceway]]:
    """Each leg but bends, with the raceway that holds there (which may be none)."""
    for leg in route.legs:
        if not isinstance(leg, Bend):
            yield leg, look.stated(look.trace.raceway_around(leg))


def whole_raceways(route: Route, look: Look) -> tuple[Raceway, ...]:
    """The different raceways of a route that is in raceway from end to end; none where some of it is not, so that its
    raceways only guard cable."""
    found: list[Raceway] = []
    for _, raceway in raceways_along(route, look):
        if raceway not in found:
            found.append(raceway)
    if not found:
        found = [look.stated(route.raceway)]
    return () if any(not is_raceway(raceway) for raceway in found) else tuple(found)


def naming_a_raceway(route: Route) -> list[Route | Leg]:
    """The route, and those of its legs, for which the plan names a raceway (plumbing pipe is none)."""
    things: tuple[Route | Leg, ...] = (route, *route.legs)
    return [thing for thing in things if isinstance(thing.raceway, Raceway) and is_raceway(thing.raceway)]
