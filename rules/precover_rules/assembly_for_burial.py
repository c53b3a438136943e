"""The burial assembly (MHF) as a way out: single wires twisted together, which need a raceway where they are not in the
earth."""

from __future__ import annotations

from precover.plan import Cable, Carried, FramingLeg, Leg, PassageLeg, Raceway, Route, SurfaceLeg
from precover.plan.thing import Thing
from precover.rulebook import Look
from precover_rules.raceway.fitting import fitting


def needs_a_raceway(leg: Leg) -> bool:
    """On or in a building: in the earth, rising out of it and in the air they are looked at with the wiring method there."""
    return isinstance(leg, SurfaceLeg | FramingLeg | PassageLeg)


def laid_as_assembly(route: Route, carried: Carried, text: str, look: Look) -> list[tuple[Thing, str, str]]:
    """The changes that put a circuit into such an assembly on a route, with plastic raceway on the legs that have none and
    need one; empty where no raceway is made that holds it."""
    around = fitting("PVC-80", route, look, instead={carried.id: Cable.parse(text)})
    bare = [leg for leg in route.legs if needs_a_raceway(leg) and _is_bare(leg, look)]
    if bare and around is None:
        return []
    return [(carried, "cable", text), *((leg, "raceway", around) for leg in bare if around is not None)]


def _is_bare(leg: Leg, look: Look) -> bool:
    raceway = look.trace.raceway_around(leg)
    return isinstance(raceway, Raceway) and raceway.absent
