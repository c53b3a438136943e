"""Raceway trade sizes: designations, not measures."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache, total_ordering

from precover.units.quantity import QuantityError

METRIC_DESIGNATORS = {
    "3/8": 12,
    "1/2": 16,
    "3/4": 21,
    "1": 27,
    "1-1/4": 35,
    "1-1/2": 41,
    "2": 53,
    "2-1/2": 63,
    "3": 78,
    "3-1/2": 91,
    "4": 103,
}
"""Trade size -> metric designator, the pairs of NFPA 70 Table 300.1(C) (from memory; they agree with the designators
printed in raceway manufacturers' dimension tables)."""

_BY_DESIGNATOR = {designator: size for size, designator in METRIC_DESIGNATORS.items()}


@total_ordering
class TradeSize:
    """A trade size such as `3/4` (metric designator 21)."""

    __slots__ = ("designation", "order", "text")

    def __init__(self, designation: str, text: str) -> None:
        self.designation = designation
        self.order = sum(Fraction(part) for part in designation.split("-"))
        self.text = text

    @classmethod
    def parse(cls, text: str) -> TradeSize:
        """`3/4 in`, `3/4`, `1-1/4 in`, `1 1/4` or `MD 21`; QuantityError for a size not made."""
        return _parse(text)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, TradeSize) and self.designation == other.designation

    def __lt__(self, other: TradeSize) -> bool:
        return self.order < other.order

    def __hash__(self) -> int:
        return hash(self.designation)

    def __str__(self) -> str:
        return f"{self.designation} in"

    def __repr__(self) -> str:
        return f"TradeSize({self.designation!r})"


@lru_cache(maxsize=256)
def _parse(text: str) -> TradeSize:
    bare = " ".join(text.split())
    if bare.upper().startswith("MD "):
        designation = _BY_DESIGNATOR.get(int(bare[3:])) if bare[3:].isdecimal() and len(bare) < 8 else None
    else:
        stem = bare.removesuffix('"').removesuffix(" in").removesuffix("in").strip().replace(" ", "-")
        designation = stem if stem in METRIC_DESIGNATORS else None
    if designation is None:
        made = ", ".join(METRIC_DESIGNATORS)
        raise QuantityError(
            f"`{text[:40]}` is not a trade size", f"sizes made: {made} (in), or a metric designator like `MD 21`"
        )
    return TradeSize(designation, bare)
