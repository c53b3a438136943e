"""Larger wire for a circuit, as a way out of a drop."""

from collections.abc import Callable, Sequence

from precover.electrical.voltage_drop import smallest_wire
from precover.plan import Carried, Circuit, Route
from precover.rulebook import Look, Proposal
from precover.units import ConductorSize
from precover.units.conductor_size import SCALE
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.larger_ground import ground_with
from precover_rules.sizing.rewiring import Change, in_size, with_room
from precover_rules.voltage_drop.way import Piece, Wire, piece

MADE = tuple(ConductorSize(name) for name in SCALE[SCALE.index("12") : SCALE.index("4/0") + 1])
"""Sizes that are proposed."""


def larger_wire(
    circuit: Circuit, pieces: list[Piece], lost: Callable[[list[Piece]], float], share: float, look: Look
) -> tuple[Proposal, ...]:
    """The smallest wire for the whole way of a circuit with which no more than `share` is lost."""
    size = smallest_wire(MADE, lambda size: lost([_with(one, size, look) for one in pieces]), share)
    smaller = [
        (one.route, one.carried)
        for one in pieces
        if size is not None and any(wire is not None and wire.size < size for wire in (one.hot, one.neutral))
    ]
    return () if size is None or not smaller else all_the_way(circuit, size, smaller, look)


def all_the_way(
    circuit: Circuit, size: ConductorSize, smaller: Sequence[tuple[Route, Carried]], look: Look
) -> tuple[Proposal, ...]:
    """Wire of a size where a circuit has smaller, with the ground, the raceway and the boxes that go with it; none where that cannot be."""
    laid = {part.route.id: part for part in laid_on(circuit, look) if isinstance(part, Laid)}
    rating = look.stated(circuit.breaker.rating)
    changes: list[Change] = []
    hots = False
    for route, carried in smaller:
        part = laid.get(route.id)
        ground = None
        if part is None or part.size < size:
            hots = True
            ground = None if part is None else ground_with(part, size, rating, look)
        made = in_size(carried, size, look, ground)
        if not made:
            return ()
        changes += made
    grown = {route.id: size for route, _ in smaller}
    what = circuit.id if hots else f"the neutral of {circuit.id}"
    return (with_room(f"run {what} in {size}, all the way", changes, grown, look),)


def _with(old: Piece, size: ConductorSize, look: Look) -> Piece:
    neutral = None if old.neutral is None else _at_least(old.neutral, size)
    return piece(old.route, old.carried, old.metres, old.steel, _at_least(old.hot, size), neutral, look)


def _at_least(wire: Wire, size: ConductorSize) -> Wire:
    return wire._replace(size=max(wire.size, size))
