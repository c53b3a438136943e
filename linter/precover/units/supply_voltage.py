"""The voltage of a circuit: one figure, or line-to-ground and line-to-line."""

from __future__ import annotations

import re
from functools import lru_cache

from precover.units.quantity import QuantityError

_FORM = re.compile(r"\s*([0-9]{1,4})(?:\s*/\s*([0-9]{1,4}))?\s*V\s*")


class SupplyVoltage:
    """`120 V`, `240 V`, `12 V` or `120/240 V`.

    `line_to_line` is the highest voltage between any two conductors, `line_to_ground` the highest to ground, in volts.
    A plain `240 V` circuit comes from a 120/240 V system (the only single-phase system of a North American dwelling)
    and so stands at 120 V to ground; `208 V` comes from 120/208 V. Common practice.
    """

    __slots__ = ("line_to_ground", "line_to_line", "text")

    def __init__(self, line_to_ground: int, line_to_line: int, text: str) -> None:
        self.line_to_ground = line_to_ground
        self.line_to_line = line_to_line
        self.text = text

    @classmethod
    def parse(cls, text: str) -> SupplyVoltage:
        """The voltage written in `text`; QuantityError if it is none."""
        return _parse(text)

    @classmethod
    def probes(cls) -> tuple[SupplyVoltage, ...]:
        """One of each kind that a small plan has."""
        return tuple(cls.parse(text) for text in ("12 V", "120 V", "240 V", "120/240 V"))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, SupplyVoltage) and (self.line_to_ground, self.line_to_line) == (
            other.line_to_ground,
            other.line_to_line,
        )

    def __hash__(self) -> int:
        return hash((self.line_to_ground, self.line_to_line))

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"SupplyVoltage({self.text!r})"


@lru_cache(maxsize=256)
def _parse(text: str) -> SupplyVoltage:
    form = _FORM.fullmatch(text) if len(text) <= 40 else None
    if form is None:
        raise QuantityError(f"`{text[:40]}` is not a circuit voltage", "write it like `120 V`, `240 V` or `120/240 V`")
    low, high = int(form[1]), int(form[2] or form[1])
    if low == 0:
        raise QuantityError(f"`{text.strip()}` is no voltage at all", "write it like `120 V`, `240 V` or `120/240 V`")
    if low > high:
        raise QuantityError(f"`{text.strip()}` puts the higher voltage first", "write it like `120/240 V`")
    to_ground = {240: 120, 208: 120}.get(low, low) if form[2] is None else low
    return SupplyVoltage(to_ground, high, " ".join(text.split()))
