"""Nonmetallic-sheathed cable where nothing but framing or a surface is around it."""

from collections.abc import Iterator

from precover.plan import Cable, FramingLeg, Leg, Plan, Raceway, Route, SurfaceLeg
from precover.rulebook import Look

TYPES = ("NM-B", "UF-B")
"""NM, and UF that is run inside a building like it."""


def cables_of(route: Route) -> list[Cable]:
    """The cables of these types that a route is said to carry."""
    cables = (carried.cable for carried in route.carries.values() if carried.wires is None)
    return [cable for cable in cables if isinstance(cable, Cable) and cable.type in TYPES]


def runs_in(plan: Plan, look: Look, kind: type[FramingLeg] | type[SurfaceLeg]) -> Iterator[tuple[Route, Leg]]:
    """The legs of a kind where such cable lies without a raceway, as far as the plan says."""
    for route in plan.routes.values():
        for leg in route.legs:
            if isinstance(leg, kind) and cables_of(route):
                raceway = look.trace.raceway_around(leg)
                if not isinstance(raceway, Raceway) or raceway.absent:
                    yield route, leg


def named(routes: list[Route]) -> str:
    """Routes in words, each once."""
    return ", ".join(dict.fromkeys(route.id for route in routes))
