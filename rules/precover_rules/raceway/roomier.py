"""The raceways that a way out by larger wire or cable needs, where what is there has no room for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from precover.plan import Cable, Carried, Conductor, Leg, Raceway, Route
from precover.plan.thing import Thing
from precover.rulebook import Look
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import is_raceway, naming_a_raceway


def roomier(changes: Sequence[tuple[Thing, str, str]], look: Look) -> Iterator[tuple[Route | Leg, Route, str]]:
    """Each raceway that is too small, or may be, for the cables and wires of a route as they are changed: the route or leg
    that names it, the route, and the smallest of its type that is sure to hold them, whoever makes them."""
    new: dict[str, dict[str, str]] = {}
    for changed, key, text in changes:
        new.setdefault(changed.place, {})[key] = text
    for route in look.plan.routes.values():
        instead = {carried.id: other for carried in route.carries.values() if (other := _as_changed(carried, new))}
        if not instead:
            continue
        for thing in naming_a_raceway(route):
            named = thing.raceway
            if isinstance(named, Raceway) and is_raceway(named) and named.size is not None:
                larger = fitting(named.type, route, look, named.size, instead=instead)
                if larger is not None and larger != named.text:
                    yield thing, route, larger


def _as_changed(carried: Carried, new: dict[str, dict[str, str]]) -> Cable | tuple[Conductor, ...] | None:
    """The cable, or the wires, that a circuit is in after the changes; None where they change nothing of it."""
    wires = carried.wires
    if wires is None:
        text = new.get(carried.place, {}).get("cable")
        return None if text is None else Cable.parse(text)
    changed = new.get(wires.place)
    if not changed:
        return None
    there = {"hot": wires.hot, "neutral": wires.neutral, "ground": wires.ground}
    after = {key: Conductor.parse(changed[key]) if key in changed else wire for key, wire in there.items()}
    return tuple(wire for wire in after.values() if isinstance(wire, Conductor))
