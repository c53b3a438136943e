"""What can be written where a cable, a raceway or wires belong: types and sizes that are made and known."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Final

from precover.plan.conductors import CABLE_TYPES, INSULATIONS, RACEWAY_TYPES, Cable, Conductor, Raceway
from precover.units import QuantityError
from precover.units.conductor_size import SCALE, ConductorSize
from precover.units.trade_size import METRIC_DESIGNATORS

_EQUAL: Final = tuple(f"{size}/{count}" for size in ("14", "12", "10", "8", "6", "4", "2") for count in (2, 3))
"""Sizes of cable with equal conductors."""

_UNEQUAL: Final = (
    "4-4-4-6",
    "2-2-4",
    "2-2-2-4",
    "2-2-4-6",
    "1-1-1-3",
    "1/0-1/0-1/0-2",
    "2/0-2/0-2/0-1",
    "4/0-4/0-4/0-2/0",
)
"""Sizes of cable whose conductors are named one by one, as feeders are sold (common practice)."""


@cache
def cables() -> tuple[str, ...]:
    """Cables of every type, as the plan language can read them."""
    return tuple(_readable(Cable.parse, _cables()))


@cache
def raceways() -> tuple[str, ...]:
    """`none`, and raceways of every type and trade size."""
    sizes = (f"{kind} {size} in" for kind in RACEWAY_TYPES for size in METRIC_DESIGNATORS)
    return ("none", *_readable(Raceway.parse, sizes))


def conductors(ahead: str) -> tuple[str, ...]:
    """Wires, a step at a time: sizes with their metal, and behind these every insulation."""
    written = " ".join(ahead.split())
    sizes = [f"{ConductorSize.parse(size).text} {metal}" for size in SCALE for metal in ("Cu", "Al")]
    count = written.partition(" ")[0]
    lead = f"{count} × " if count.isdecimal() and ("×" in written or " x " in f" {written} ") else ""
    begun = [size for size in sizes if written.startswith(f"{lead}{size}")]
    if not begun:
        return tuple(f"{lead}{size}" for size in sizes)
    return tuple(_readable(Conductor.parse, (f"{lead}{max(begun, key=len)} {letters}" for letters in INSULATIONS)))


NOTATIONS: Final[Mapping[str, Callable[[str], tuple[str, ...]]]] = {
    "cable": lambda _ahead: cables(),
    "raceway": lambda _ahead: raceways(),
    "conductor": conductors,
}
"""By the name of the notation in the schema: what can be written, given what stands before the cursor."""


def _cables() -> Iterator[str]:
    for kind in CABLE_TYPES:
        for size in (*_EQUAL, *_UNEQUAL):
            yield f"{kind} {size}"
            yield f"{kind} {size} Cu"
            yield f"{kind} {size} Al"


def _readable(parse: Callable[[str], object], written: Iterator[str]) -> Iterator[str]:
    for text in written:
        try:
            parse(text)
        except QuantityError:
            continue
        yield text
