"""The way out of too many bends, and of too hard a pull: a conduit body in the middle, from which the wire is pulled on."""

from __future__ import annotations

from fractions import Fraction

from precover.plan import Bend, BuriedLeg, Leg, OverheadLeg, Raceway, Route, SurfaceLeg
from precover.rulebook import Effort, Look, Proposal
from precover_rules.cutting_a_route import cut
from precover_rules.raceways import METALLIC, is_raceway


def pull_point(route: Route, look: Look) -> tuple[Proposal, ...]:
    """Cut the route in two at a conduit body above ground, so that about half of the bends lie on either side."""
    middle = _middle(route)
    if middle is None:
        return ()
    at, leg = middle
    raceway = look.trace.raceway_around(leg)
    if not isinstance(raceway, Raceway) or not is_raceway(raceway):
        return ()
    body, onward = f"{route.id}-pull-point", f"{route.id}-onward"
    if body in look.plan.boxes or body in look.plan.panels or onward in look.plan.routes:
        return ()
    outdoors = leg.on not in ("inside wall", "ceiling", "floor")
    yard_is_behind = any(isinstance(part, BuriedLeg | OverheadLeg) for part in route.legs[:at])
    box = {
        "at": look.trace.node(route.to if yard_is_behind else route.from_).at,
        "area": "outdoors" if outdoors else "indoors",
        "location": leg.location if isinstance(leg.location, str) else "wet" if outdoors else "dry",
        "box": {
            "kind": "conduit body",
            "material": "steel" if raceway.type in METALLIC else "PVC",
            "listed-for": "wet",
            "cover": "closed",
        },
        "accessible": True,
        "spliced": False,
    }
    patch = cut(route, at + 1, body, box, onward)
    return (Proposal("put a conduit body as a pull point between the bends", Effort.PART, patch),)


def parted(route: Route) -> tuple[tuple[Leg, ...], tuple[Leg, ...]] | None:
    """The legs ahead of such a pull point and behind it; None where there is no place for one."""
    middle = _middle(route)
    return None if middle is None else (route.legs[: middle[0] + 1], route.legs[middle[0] + 1 :])


def _middle(route: Route) -> tuple[int, SurfaceLeg] | None:
    """The leg on a surface behind which the route is cut: the one with the most even bends on its two sides."""
    whole = sum((leg.bend.amount for leg in route.legs if isinstance(leg, Bend)), Fraction(0))
    before, best = Fraction(0), whole
    found: tuple[int, SurfaceLeg] | None = None
    for number, leg in enumerate(route.legs[:-1]):
        if isinstance(leg, Bend):
            before += leg.bend.amount
        elif isinstance(leg, SurfaceLeg) and max(before, whole - before) < best:
            best, found = max(before, whole - before), (number, leg)
    return found
