"""The number-with-unit that every dimension shares."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from math import lcm
from typing import ClassVar, Self, cast

LONGEST_TEXT = 40
"""A quantity longer than this is refused before any number is made of it."""

_NUMBER = r"(?:[0-9]{1,9} [0-9]{1,4}/[0-9]{1,4}|[0-9]{1,9}/[0-9]{1,4}|[0-9]{1,9}(?:\.[0-9]{1,9})?|\.[0-9]{1,9})"
_NUMBER_RE = re.compile(_NUMBER)


class QuantityError(ValueError):
    """A text that is not the quantity it should be. `hint` says what to write instead."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


def number(text: str) -> Fraction:
    """`12`, `0.75`, `3/4` or `1 1/2` as an exact fraction; ZeroDivisionError for a zero denominator."""
    whole, _, rest = text.strip().partition(" ")
    rest = rest.strip()
    return Fraction(whole) + Fraction(rest) if rest else Fraction(whole)


class Quantity:
    """A quantity of one dimension.

    `amount` is exact, in the dimension's base unit; `text` is the quantity as its author wrote it; `metric` tells
    which of a limit's twin values (inch or millimetre) it is to be compared with.
    """

    __slots__ = ("_bottom", "_top", "amount", "metric", "text")

    name: ClassVar[str]
    base: ClassVar[str]
    factors: ClassVar[dict[str, Fraction]]
    """Unit as written (lower case) -> how many base units it is."""
    metric_units: ClassVar[frozenset[str]] = frozenset()
    units: ClassVar[str]
    """The units as people write them; `factors` has other spellings besides."""
    example: ClassVar[str]
    compound: ClassVar[bool] = False
    """Whether several terms may follow each other, largest unit first (`12 ft 6 in`)."""
    lowest: ClassVar[str]
    highest: ClassVar[str]
    """Texts of a very small and a very large value: what the reviewer tries where the plan does not say."""

    def __init__(self, amount: Fraction, text: str, metric: bool = False) -> None:
        self.amount = amount
        self._top, self._bottom = amount.as_integer_ratio()  # to compare whole numbers is several times as quick
        self.text = text
        self.metric = metric

    @classmethod
    def parse(cls, text: str) -> Self:
        """The quantity written in `text`; QuantityError if it is none of this dimension."""
        found = _PARSED.get((cls, text))
        if found is None:
            if len(_PARSED) > 8192:
                _PARSED.clear()
            found = _PARSED[cls, text] = _parse(cls, text)
        return cast(Self, found)

    @classmethod
    def of(cls, amount: Fraction | int, unit: str) -> Self:
        """A computed quantity, `amount` in `unit`."""
        factor = cls.factors[unit.lower()]
        exact = amount if isinstance(amount, Fraction) else Fraction(amount)
        exact = exact if factor == 1 else exact * factor
        return cls(exact, f"{plain(amount)} {unit}", unit in cls.metric_units)

    @classmethod
    def probes(cls) -> tuple[Self, ...]:
        """A very small and a very large value."""
        return (cls.parse(cls.lowest), cls.parse(cls.highest))

    def in_unit(self, unit: str) -> Fraction:
        """The amount in another unit of the dimension."""
        factor = self.factors[unit.lower()]
        return self.amount if factor == 1 else self.amount / factor  # a division takes ten times as long

    def __eq__(self, other: object) -> bool:
        return isinstance(other, type(self)) and self.amount == other.amount

    def __lt__(self, other: Self) -> bool:
        return (
            self._top * other._bottom < other._top * self._bottom if isinstance(other, type(self)) else NotImplemented
        )

    def __le__(self, other: Self) -> bool:
        return (
            self._top * other._bottom <= other._top * self._bottom if isinstance(other, type(self)) else NotImplemented
        )

    def __gt__(self, other: Self) -> bool:
        return (
            self._top * other._bottom > other._top * self._bottom if isinstance(other, type(self)) else NotImplemented
        )

    def __ge__(self, other: Self) -> bool:
        return (
            self._top * other._bottom >= other._top * self._bottom if isinstance(other, type(self)) else NotImplemented
        )

    def __hash__(self) -> int:
        return hash((self.name, self.amount))

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r})"


def total(amounts: Iterable[Fraction]) -> Fraction:
    """The sum of exact numbers. To bring numerators to one denominator takes a fraction of the time of adding fractions,
    each of which is reduced."""
    over, under = 0, 1
    for amount in amounts:
        top, bottom = amount.as_integer_ratio()
        if bottom != under:
            common = lcm(bottom, under)
            over, top, under = over * (common // under), top * (common // bottom), common
        over += top
    return Fraction(over, under)


def plain(amount: Fraction | int) -> str:
    """An exact number as people read it: whole, or decimals to three places without trailing zeros."""
    whole, parts = amount.as_integer_ratio()
    if parts == 1:
        return str(whole)
    return f"{whole / parts:.3f}".rstrip("0").rstrip(".")


@cache
def _longest_first(names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(sorted(names, key=len, reverse=True))


_LETTERS = frozenset("abcdefghijklmnopqrstuvwxyz")
_SMALL = str.maketrans({letter.upper(): letter for letter in _LETTERS})
"""Only these: the case of a few other letters (a long s, a dotless i) folds to ASCII ones as well."""


def _unit_at(cls: type[Quantity], small: str, at: int) -> str | None:
    """The unit that begins at an index, not followed by another letter."""
    for unit in _longest_first(tuple(cls.factors)):
        if small.startswith(unit, at) and small[at + len(unit) : at + len(unit) + 1] not in _LETTERS:
            return unit
    return None


_PARSED: dict[tuple[type[Quantity], str], Quantity] = {}
"""A plan writes the same few quantities many times."""


def _parse(cls: type[Quantity], text: str) -> Quantity:
    if len(text) > LONGEST_TEXT:
        raise QuantityError(f"this {cls.name} is {len(text):,} characters long", f"write it like `{cls.example}`")
    text = " ".join(text.split())
    small = text.translate(_SMALL)
    total, at, last, units = Fraction(0), 0, None, set[str]()
    while at < len(text):
        term = _NUMBER_RE.match(text, at)
        if term is None or (last is not None and not cls.compound):
            raise _not_a(cls, text)
        at = _past_space(text, term.end())
        unit = _unit_at(cls, small, at)
        if unit is None:
            raise _not_a(cls, text)
        factor = cls.factors[unit]
        if last is not None and factor >= last:
            wrong = "a unit twice" if factor == last else "a smaller unit first"
            raise QuantityError(f"`{text}` puts {wrong}", f"write the larger unit first, like `{cls.example}`")
        try:
            total += number(term[0]) * factor
        except ZeroDivisionError:
            raise QuantityError(f"`{text}` divides by zero", f"write it like `{cls.example}`") from None
        units.add(unit)
        at, last = _past_space(text, at + len(unit)), factor
    if last is None:
        raise _not_a(cls, text)
    return cls(total, text, units <= cls.metric_units)


def _past_space(text: str, at: int) -> int:
    return at + 1 if text[at : at + 1] == " " else at


def _not_a(cls: type[Quantity], text: str) -> QuantityError:
    if not text:
        return QuantityError(f"{_a(cls.name)} is missing here", f"write it like `{cls.example}`")
    if _NUMBER_RE.fullmatch(text):
        return QuantityError(f"`{text}` has no unit", f"write it like `{cls.example}`; units: {cls.units}")
    return QuantityError(f"`{text}` is not {_a(cls.name)}", f"write it like `{cls.example}`; units: {cls.units}")


def _a(noun: str) -> str:
    return f"an {noun}" if noun[0] in "aeiou" else f"a {noun}"
