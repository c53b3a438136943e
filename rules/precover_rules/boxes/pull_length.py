"""The length of a box that large wire is pulled through, by the raceways that the wire comes in by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from precover.electrical.raceway_fill import pull_box_length
from precover.plan import Box, Cable, Carried, Conductor, Raceway, Route, Unstated
from precover.record import Record
from precover.rulebook import Look
from precover.units import ConductorSize, Length
from precover_rules.boxes.contents import encloses_a_switch

LARGE = "conductors sized by box length"


class Lengths(Record):
    """The least length of a box: for a straight pull, and for one at an angle at the least and at the most.

    Which raceways share a wall a plan does not say: at an angle none of the others adds to the largest's wall at the least,
    and all but the smallest at the most, for round a corner one at least is in another wall.
    """

    straight: Length
    angle_least: Length
    angle_most: Length

    @property
    def enough(self) -> Length:
        """Enough for either kind of pull."""
        return max(self.straight, self.angle_most, key=lambda one: one.amount)


def lengths(sizes: Sequence[Fraction], look: Look) -> Lengths:
    """By the trade sizes in inches of the raceways with large wire in them, the largest first."""
    straight, angle = look.limit("pull box length, straight"), look.limit("pull box length, angle")
    factors = {"straight": straight.value, "angle": angle.value}
    return Lengths(
        pull_box_length(sizes[0], (), **factors, turns=False),
        pull_box_length(sizes[0], (), **factors, turns=True),
        pull_box_length(sizes[0], beside(sizes), **factors, turns=True),
    )


def beside(sizes: Sequence[Fraction]) -> Sequence[Fraction]:
    """The raceways that at the most share the wall of the largest."""
    return sizes[1:-1]


def long_enough(
    grown: Mapping[str, ConductorSize], raceways: Mapping[str, Raceway], look: Look
) -> Iterator[tuple[Box, Length]]:
    """The boxes that larger wire makes pull boxes, each with a length that is enough for it: those on its way of which the
    plan tells no length, for they needed none before. `grown` is the new size on each route, and `raceways` the
    new raceway of those that have one, by the route's id."""
    large = look.limit(LARGE).value
    new = {route for route, size in grown.items() if size >= large}
    for box in look.plan.boxes.values():
        routes = look.trace.routes_at(box)
        needed = any(_holds(route, large) and _trade_size(route.raceway) for route in routes)
        if needed or box.box.kind == "conduit body" or encloses_a_switch(box) or isinstance(box.box.length, Length):
            continue
        sizes = sorted((_trade_size(raceways.get(r.id, r.raceway)) for r in routes if r.id in new), reverse=True)
        if any(sizes):
            yield box, lengths(sizes, look).enough


def _trade_size(raceway: Raceway | Unstated) -> Fraction:
    """0 where none is stated."""
    return Fraction(raceway.size.order) if isinstance(raceway, Raceway) and raceway.size is not None else Fraction(0)


def _holds(route: Route, large: ConductorSize) -> bool:
    """Large wire is in it, as far as the plan tells."""
    return any(size >= large for carried in route.carries.values() for size in _stated_sizes(carried))


def _stated_sizes(carried: Carried) -> Iterator[ConductorSize]:
    wires = carried.wires
    if wires is not None:
        yield from (wire.size for wire in (wires.hot, wires.neutral) if isinstance(wire, Conductor))
    elif isinstance(carried.cable, Cable):
        yield from carried.cable.insulated
