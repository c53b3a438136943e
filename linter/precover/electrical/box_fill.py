"""The volume that conductors and devices need in a box."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from precover.electrical.working import Worked
from precover.record import Record
from precover.units import Volume, plain


class GroundsRule(Record):
    """How equipment grounds count: `together` of them as one of the largest, each further one as a `share`.

    `together` None: all as one, whatever their number.
    """

    together: int | None
    share: Fraction


ALL_AS_ONE: Final = GroundsRule(None, Fraction(0))
"""Editions through 2017."""

FOUR_THEN_QUARTERS: Final = GroundsRule(4, Fraction(1, 4))
"""The 2020 edition and later."""


class Yoke(Record):
    """A strap with its devices: the allowance of the largest conductor on it, and the gangs it needs to be mounted."""

    largest: Volume
    gangs: int = 1


def box_fill(
    conductors: Sequence[Volume],
    grounds: Sequence[Volume],
    yokes: Sequence[Yoke],
    *,
    internal_clamps: bool,
    fittings: int,
    rule: GroundsRule,
) -> Worked[Volume]:
    """The volume needed, from the allowance of each conductor by its size.

    `conductors`: every one that comes in from outside and is used, spliced or passes through, once each; those that
    begin and end in the box do not count, nor up to four fixture wires smaller than 14 AWG under a canopy. `fittings`
    counts studs and hickeys. Clamps and fittings take the largest conductor in the box. Source: 314.16(B), as given in
    a training lesson on box fill, http://electrician2.com/weltrain05/lpage110.html.
    """
    largest = max([*conductors, *grounds], default=None)
    parts = {
        _counted(len(conductors), "conductor"): sum((each.amount for each in conductors), Fraction(0)),
        _counted(len(yokes), "yoke"): sum((2 * yoke.gangs * yoke.largest.amount for yoke in yokes), Fraction(0)),
        _counted(len(grounds), "ground"): _grounds(grounds, rule),
    }
    if largest is not None:
        parts["clamps"] = largest.amount * internal_clamps
        parts["fittings"] = largest.amount * fittings
    needed = Volume.of(sum(parts.values(), Fraction(0)) / Volume.factors["in³"], "in³")
    steps = [f"{what}: {_cubic_inches(amount)}" for what, amount in parts.items() if amount]
    return Worked(needed, (*steps, f"together {needed}"))


def room_for(volume: Volume, allowance: Volume) -> int:
    """How many conductors of one size a volume holds: as many whole allowances as go into it."""
    return int(volume.amount // allowance.amount)


def _grounds(grounds: Sequence[Volume], rule: GroundsRule) -> Fraction:
    if not grounds:
        return Fraction(0)
    beyond = 0 if rule.together is None else max(0, len(grounds) - rule.together)
    return max(grounds).amount * (1 + beyond * rule.share)


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def _cubic_inches(amount: Fraction) -> str:
    return f"{plain(amount / Volume.factors['in³'])} in³"
