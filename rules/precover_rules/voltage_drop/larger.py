"""Larger wire for a circuit, as a way out of a drop."""

from collections.abc import Callable, Sequence

from precover.electrical.voltage_drop import smallest_wire
from precover.plan import Cable, Carried, Circuit, Raceway, Route
from precover.rulebook import Look, Proposal
from precover.units import ConductorSize
from precover.units.conductor_size import SCALE
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import is_raceway, naming_a_raceway
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.larger_ground import ground_with
from precover_rules.sizing.rewiring import Change, in_size, with_boxes
from precover_rules.voltage_drop.way import Piece, Wire, piece

MADE = tuple(ConductorSize(name) for name in SCALE[SCALE.index("12") : SCALE.index("4/0") + 1])
"""Sizes that are proposed."""


def larger_wire(
    circuit: Circuit, pieces: list[Piece], lost: Callable[[list[Piece]], float], share: float, look: Look
) -> tuple[Proposal, ...]:
    """The smallest wire for the whole way of a circuit with which no more than `share` is lost."""
    size = smallest_wire(MADE, lambda size: lost([_with(one, size, look) for one in pieces]), share)
    smaller = [(one.route, one.carried) for one in pieces if size is not None and one.hot.size < size]
    return () if size is None or not smaller else all_the_way(circuit, size, smaller, look)


def all_the_way(
    circuit: Circuit, size: ConductorSize, smaller: Sequence[tuple[Route, Carried]], look: Look
) -> tuple[Proposal, ...]:
    """Wire of a size where a circuit has smaller, with the ground and the raceway that go with it; none where that cannot be."""
    laid = {part.route.id: part for part in laid_on(circuit, look) if isinstance(part, Laid)}
    rating = look.stated(circuit.breaker.rating)
    changes: list[Change] = []
    for route, carried in smaller:
        part = laid.get(route.id)
        made = in_size(carried, size, look, None if part is None else ground_with(part, size, rating, look))
        if not made:
            return ()
        changes += made
        changes += _with_room(route, carried, made, look)
    grown = {route.id: size for route, _ in smaller}
    return (with_boxes(f"run {circuit.id} in {size}, all the way", changes, grown, look),)


def _with_room(route: Route, carried: Carried, changes: list[Change], look: Look) -> list[Change]:
    """A raceway that a larger cable is sure to fit in, whoever makes it."""
    cable = next((Cable.parse(text) for _, key, text in changes if key == "cable"), None)
    if cable is None:
        return []
    larger: list[Change] = []
    for thing in naming_a_raceway(route):
        named = thing.raceway
        if isinstance(named, Raceway) and is_raceway(named) and named.size is not None:
            text = fitting(named.type, route, look, named.size, instead={carried.id: cable})
            if text is not None and text != named.text:
                larger.append((thing, "raceway", text))
    return larger


def _with(old: Piece, size: ConductorSize, look: Look) -> Piece:
    neutral = None if old.neutral is None else _at_least(old.neutral, size)
    return piece(old.route, old.carried, old.metres, old.steel, _at_least(old.hot, size), neutral, look)


def _at_least(wire: Wire, size: ConductorSize) -> Wire:
    return wire._replace(size=max(wire.size, size))
