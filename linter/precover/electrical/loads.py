"""The calculated load of a feeder or panel."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from precover.electrical.working import Worked
from precover.record import Record
from precover.units import Apparent, Current, plain

Legs = Literal["L1", "L2", "both"]


class Connected(Record):
    """One load of a 120/240 V panel: between a leg and the neutral, or across `both` legs.

    A `motor` is counted by its table current times its voltage, and never as continuous: the share of the largest
    motor covers it.
    """

    name: str
    load: Apparent
    legs: Legs
    continuous: bool = False
    motor: bool = False


class CalculatedLoad(Record):
    """`connected` is the plain sum and `calculated` what the feeder is sized for, spread evenly over both legs as
    `amps`; `leg_1` and `leg_2` are the legs as the circuits are placed; `neutral` is the largest unbalance, with all of
    one leg running and none of the other."""

    connected: Apparent
    calculated: Apparent
    amps: Current
    leg_1: Current
    leg_2: Current
    neutral: Current

    @property
    def heavier_leg(self) -> Current:
        """The current of the leg that carries more."""
        return max(self.leg_1, self.leg_2)


def feeder_load(
    loads: Sequence[Connected], volts: Fraction, continuous: Fraction, largest_motor: Fraction
) -> Worked[CalculatedLoad]:
    """The load of a two-leg feeder of `volts` between the legs (240).

    Continuous loads are counted `continuous` (125 %), the largest motor `largest_motor` (125 %), everything else as it
    stands: no demand factor is taken off. Neutral loads count without the 125 %.
    """
    motors = [load for load in loads if load.motor]
    largest = max(motors, key=lambda load: load.load.amount, default=None)

    steps: list[str] = []
    connected = calculated = Fraction(0)
    placed: dict[Legs, Fraction] = {"L1": Fraction(0), "L2": Fraction(0), "both": Fraction(0)}
    unfactored = dict(placed)
    for load in loads:
        va = counted = load.load.amount
        if load is largest:
            counted *= largest_motor
        elif load.continuous and not load.motor:
            counted *= continuous
        if counted != va:
            steps.append(f"{load.name} counts {plain(counted)} VA")
        connected, calculated = connected + va, calculated + counted
        placed[load.legs] += counted
        unfactored[load.legs] += va
    amps = Current.of(calculated / volts, "A")
    steps.insert(0, f"connected: {plain(connected)} VA")
    steps.append(f"calculated: {plain(calculated)} VA / {plain(volts)} V = {amps}")
    result = CalculatedLoad(
        Apparent.of(connected, "VA"),
        Apparent.of(calculated, "VA"),
        amps,
        Current.of((placed["both"] + 2 * placed["L1"]) / volts, "A"),
        Current.of((placed["both"] + 2 * placed["L2"]) / volts, "A"),
        Current.of(2 * max(unfactored["L1"], unfactored["L2"]) / volts, "A"),
    )
    return Worked(result, tuple(steps))


def larger_of(groups: Sequence[Sequence[Connected]]) -> tuple[Connected, ...]:
    """Of groups that cannot run together (heating and cooling), the one with the larger sum; the others are left out."""
    return tuple(max(groups, key=lambda group: sum(load.load.amount for load in group), default=()))
