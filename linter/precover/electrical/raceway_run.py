"""A raceway's way: bends between pull points, supports, and how heat moves it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise

from precover.electrical.working import Worked
from precover.units import Angle, Length, Temperature, TemperatureDifference, plain, total


def bends_between_pull_points(along: Iterable[Angle | None]) -> tuple[Angle, ...]:
    """The total of the bends in each stretch between pull points; `along` names bends in order, None at a pull point.

    Every bend counts, offsets and kicks with each of their angles.
    """
    stretches: list[list[Fraction]] = [[]]
    for bend in along:
        if bend is None:
            stretches.append([])
        else:
            stretches[-1].append(bend.amount)
    return tuple(Angle.of(total(bends), "°") for bends in stretches)


def least_supports(run: Length, spacing: Length, from_end: Length) -> int:
    """The fewest supports of a run between two boxes: one within `from_end` of either, no two farther apart than
    `spacing`."""
    if run.amount <= 2 * from_end.amount:
        return 1 if run.amount else 0
    return 1 + math.ceil((run.amount - 2 * from_end.amount) / spacing.amount)


def support_gaps(run: Length, supports: Sequence[Length], spacing: Length, from_end: Length) -> tuple[str, ...]:
    """What is too far apart among supports at the given distances from the start: nothing where all is well."""
    if not supports:
        return ("no support",) if run.amount else ()
    at = sorted(support.amount for support in supports)
    found = []
    if at[0] > from_end.amount:
        found.append(f"first support {_feet(at[0])} from the start, {from_end} allowed")
    found += [f"{_feet(b - a)} between supports, {spacing} allowed" for a, b in pairwise(at) if b - a > spacing.amount]
    if run.amount - at[-1] > from_end.amount:
        found.append(f"last support {_feet(run.amount - at[-1])} from the end, {from_end} allowed")
    return tuple(found)


def swing(coldest: Temperature, hottest: Temperature) -> TemperatureDifference:
    """The difference between the coldest and the hottest that a raceway gets."""
    degrees = hottest.amount - coldest.amount
    if coldest.metric and hottest.metric:
        return TemperatureDifference.of(degrees, "°C")
    return TemperatureDifference.of(degrees * Fraction(9, 5), "°F")


def length_change(run: Length, change: TemperatureDifference, coefficient: Fraction) -> Worked[Length]:
    """How much a straight run grows and shrinks; `coefficient` is per °C, less that of what the raceway is fixed to
    where that moves too (steel under PVC)."""
    moved = run.amount * change.amount * coefficient
    inches = Length.of(moved / Length.factors["in"], "in")
    return Worked(inches, (f"{run} over {change}: {inches}",))


def longest_without_fitting(change: TemperatureDifference, coefficient: Fraction, limit: Length) -> Length:
    """The length of a straight run whose change just reaches `limit` (1/4 in, from which a fitting is needed)."""
    return Length.of(limit.amount / (change.amount * coefficient) / Length.factors["ft"], "ft")


def fittings_needed(change: Length, travel: Length) -> int:
    """How many expansion fittings of this travel take up a change of length."""
    return math.ceil(change.amount / travel.amount)


def piston_setting(coldest: Temperature, hottest: Temperature, installed: Temperature, travel: Length) -> Length:
    """How far to draw out the fitting's piston when it is set: its share of the travel left for warming up.

    Source: maker's manual for expansion joints, p. 4,
    https://azmanual.top/manuals/321621/carlon-expansion-joints-for-pvc-rigid-nonmetallic-conduit.html?page=4.
    """
    part = (hottest.amount - installed.amount) / (hottest.amount - coldest.amount)
    return Length.of(part * travel.in_unit("in"), "in")


def _feet(amount: Fraction) -> str:
    return f"{plain(amount / Length.factors['ft'])} ft"
