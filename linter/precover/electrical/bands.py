"""Lookups in tables whose rows hold up to an upper end: temperatures, counts, ratings, sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, Protocol, TypeVar


class Ordered(Protocol):
    """What can be compared with its like."""

    def __le__(self, other: Any, /) -> bool: ...


Item = TypeVar("Item")


def band(value: Ordered, bands: Iterable[tuple[Any, Item]], beyond: Item | None = None) -> Item | None:
    """The item of the first band whose upper end `value` does not pass; `beyond` where it passes them all.

    `bands` are pairs of upper end and item, ascending. A value between two bands (104.5 °F, where one ends at 104 and
    the next begins at 105) falls into the upper one. Only as many pairs are taken as the lookup needs.
    """
    return next((item for end, item in bands if value <= end), beyond)


def smallest(choices: Iterable[Item], suffices: Callable[[Item], bool]) -> Item | None:
    """The first of ascending choices that suffices (the smallest wire, raceway or box); None where none does."""
    return next((choice for choice in choices if suffices(choice)), None)


def longest(holds: Callable[[float], bool], upto: float, precision: float = 1e-9) -> float:
    """The largest value from 0 to `upto` for which `holds` is true, within `precision` (a part of `upto`) and never
    above it; 0 where it holds nowhere. It must hold up to some value and not beyond."""
    if holds(upto):
        return upto
    low, high = 0.0, upto
    while high - low > precision * upto:
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
