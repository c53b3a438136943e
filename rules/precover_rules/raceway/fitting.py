"""The raceway that a way out offers: large enough for what is in it."""

from collections.abc import Container, Mapping

from precover.plan import Cable, Carried, Conductor, Raceway, Route, Unstated
from precover.rulebook import Look
from precover.units import TradeSize
from precover.units.trade_size import METRIC_DESIGNATORS
from precover_rules.raceway.contents import LARGEST, Taken, taken_by, taken_by_cable, taken_by_wire, together

DIMENSIONS = "raceway-dimensions"
Changed = Cable | tuple[Conductor, ...]
"""The cable that a circuit is in, or its wires."""

NOTHING: Mapping[str, Changed] = {}
COLUMNS = {1: "53 %", 2: "31 %"}
"""Wires and cables in it -> the column of the dimension table; more than two have one of their own."""


def fitting(
    kind: str,
    route: Route,
    look: Look,
    least: TradeSize | None = None,
    *,
    instead: Mapping[str, Changed] = NOTHING,
    without: Container[str] = (),
) -> str | None:
    """The smallest raceway of a type, not smaller than `least`, that holds all that a route carries, with the cable or the
    wires that a circuit is in `instead`, and `without` circuits that leave it: `PVC-80 3/4 in`.

    Where the plan does not say what is carried, the size `least`, or None. What is looked up here is no ground for an
    answer, so it is not noted.
    """
    noted = len(look.cells)
    try:
        return _smallest(kind, _contents(route, instead, without, look), look, least)
    finally:
        del look.cells[noted:]


def _smallest(kind: str, known: tuple[Taken, ...] | None, look: Look, least: TradeSize | None) -> str | None:
    if known is None:
        return f"{kind} {least}" if least is not None else None
    number, _, most = together(known)
    sizes = list(METRIC_DESIGNATORS)
    for size in sizes[sizes.index(least.designation if least is not None else "1/2") :]:
        room = look.find(DIMENSIONS, kind, size, COLUMNS.get(number, "40 %"))
        if room is not None and room.value >= most:
            return Raceway.parse(f"{kind} {size} in").text
    return None


def _contents(
    route: Route, instead: Mapping[str, Changed], without: Container[str], look: Look
) -> tuple[Taken, ...] | None:
    found: list[Taken] = []
    for carried in route.carries.values():
        if carried.id in without:
            continue
        other = instead.get(carried.id)
        unstated = other is None and _is_unstated(carried)
        taken = None if unstated else taken_by(carried, look) if other is None else _of(other, look)
        if taken is None:
            return None
        found += taken
    return tuple(found) or None


def _of(other: Changed, look: Look) -> list[Taken] | None:
    """None where a size is beyond the dimension table."""
    sizes = [other.size] if isinstance(other, Cable) else [wire.size for wire in other]
    if max(sizes) > LARGEST:
        return None
    return [taken_by_cable(other, look)] if isinstance(other, Cable) else [taken_by_wire(wire, look) for wire in other]


def _is_unstated(carried: Carried) -> bool:
    return isinstance(carried.cable if carried.wires is None else carried.wires.hot, Unstated)
