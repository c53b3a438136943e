"""How full a raceway is, and how many conductors it takes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Literal

from precover.electrical.working import Worked
from precover.record import Record
from precover.units import Area, Length, plain

Case = Literal["one conductor or cable", "two conductors or cables", "more than two", "nipple"]
"""The rows of the fill table."""


class Filling(Record):
    """`number` equal wires or cables, each with the cross-section `each`; bare and grounding ones count as all others."""

    name: str
    number: int
    each: Area


def circle(diameter: Length) -> Area:
    """The cross-section of a round conductor; of a flat cable, that of the circle over its major width."""
    inches = diameter.in_unit("in")
    return Area.of(Fraction(math.pi) / 4 * inches**2, "in²")


def occupied(fillings: Iterable[Filling]) -> Worked[Area]:
    """The cross-section that everything in a raceway takes together."""
    total, steps = Fraction(0), []
    for filling in fillings:
        area = filling.number * filling.each.in_unit("in²")
        total += area
        steps.append(f"{filling.number} × {filling.name}: {_square_inches(area)}")
    return Worked(Area.of(total, "in²"), (*steps, f"together {_square_inches(total)}"))


def case_of(fillings: Iterable[Filling], *, nipple: bool) -> Case:
    """The row of the fill table that holds: by how many wires and cables there are, or the nipple's own."""
    if nipple:
        return "nipple"
    count = sum(filling.number for filling in fillings)
    return "one conductor or cable" if count == 1 else "two conductors or cables" if count == 2 else "more than two"


def share(taken: Area, whole: Area) -> Fraction:
    """The part of a raceway's whole cross-section that is taken."""
    return taken.amount / whole.amount


def equal_conductors(allowed: Area, each: Area, round_up_from: Fraction) -> int:
    """How many equal conductors an allowed area takes: the whole number, and one more where the remainder is at least
    `round_up_from` of one conductor (0.8, note 7 to the tables of chapter 9)."""
    ratio = allowed.amount / each.amount
    whole = math.floor(ratio)
    return whole + (ratio - whole >= round_up_from)


def most_conductors(
    inside: Length, each: Area, percents: tuple[Fraction, Fraction, Fraction], round_up_from: Fraction
) -> int:
    """The maximum number of equal conductors in a raceway of internal diameter `inside`, as published tables count it.

    `percents` are the shares for one, two, and more than two; `each` is the area printed for the conductor. The rule
    reproduces 649 of 650 counts published for five raceway types.
    """
    whole = circle(inside).in_unit("in²")
    one, two, more = (equal_conductors(Area.of(whole * percent, "in²"), each, round_up_from) for percent in percents)
    return more if more >= 3 else 2 if two >= 2 else min(one, 1)


def jam_ratio(inside: Length, wire: Length, ovality: Fraction = Fraction(105, 100)) -> Fraction:
    """Internal diameter of the raceway, somewhat oval in a bend, over the wire's: three equal wires can wedge side by
    side where it is near 3 (2.8 to 3.2). Ovality of 5 % and these bounds: common practice, from memory."""
    return inside.amount * ovality / wire.amount


def may_jam(ratio: Fraction, low: Fraction, high: Fraction, wires: int) -> bool:
    """Whether `wires` equal wires pulled together can jam."""
    return wires == 3 and low <= ratio <= high


def conduit_body_holds(body: Area, raceways: Sequence[Area], factor: int) -> bool:
    """Whether a conduit body for 6 AWG and smaller has `factor` times (2) the cross-section of its largest raceway.

    Source: trade magazine on 314.16(C)(1),
    https://www.ecmag.com/section/codes-standards/square-peg-round-hole?qt-issues_block=1.
    """
    return all(body.amount >= factor * raceway.amount for raceway in raceways)


def pull_box_length(largest: Fraction, others: Sequence[Fraction], *, straight: int, angle: int, turns: bool) -> Length:
    """The least length of a box for 4 AWG and larger, from trade sizes in inches of the raceways in one wall.

    A straight pull asks for `straight` times (8) the largest. An angle or U pull, or a splice, asks for `angle` times
    (6) the largest, plus all others in the row, to the opposite wall. Source: trade magazine quiz on 314.28(A),
    http://www.ecmweb.com/code-quiz-day/raceway-restrictions-pull-box.
    """
    return Length.of(largest * angle + sum(others) if turns else largest * straight, "in")


def _square_inches(area: Fraction) -> str:
    return f"{float(area):.4f} in²" if area.denominator != 1 else f"{plain(area)} in²"
