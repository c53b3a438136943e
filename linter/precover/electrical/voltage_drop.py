"""Voltage drop: at every outlet, the longest length, the smallest wire."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from typing import TypeVar

from precover.electrical.bands import longest, smallest
from precover.electrical.network import Load, Phasors, Solution, Stretch, VoltageCollapse, solve
from precover.electrical.wire import Metal, temperature_factor
from precover.electrical.working import Worked
from precover.record import Record
from precover.units import Length, ResistancePerLength

Size = TypeVar("Size")

TABLE_TEMPERATURE = 75
"""Conductor temperature of the published resistances, °C."""


class Drop(Record):
    """What one outlet loses: `share` of the source's voltage (0.03 is three percent), `volts` left there."""

    at: str
    between: tuple[str, str]
    volts: float
    share: float


def impedance(
    resistance: ResistancePerLength,
    reactance: ResistancePerLength,
    length: Length,
    metal: Metal,
    celsius: float = TABLE_TEMPERATURE,
) -> complex:
    """The impedance of one wire of a one-way length, in ohms.

    `resistance` is a published value at 75 °C, brought to the conductor temperature `celsius`; `reactance` depends on
    whether the raceway is steel. Two wires of one circuit each have their own.
    """
    kilometres = float(length.in_unit("m")) / 1000
    warmed = float(resistance.amount) * temperature_factor(metal, TABLE_TEMPERATURE, celsius)
    return complex(warmed, float(reactance.amount)) * kilometres


def drops(solution: Solution, loads: Iterable[Load]) -> tuple[Drop, ...]:
    """The drop at every load, the worst first."""
    found = [
        Drop(load.at, load.between, solution.volts(load.at, load.between), solution.drop(load.at, load.between))
        for load in loads
    ]
    return tuple(sorted(found, key=lambda drop: (-drop.share, drop.at)))


def worst_drop(
    source: str, supply: Phasors, stretches: Sequence[Stretch], loads: Sequence[Load]
) -> Worked[Drop | None]:
    """The worst drop of a supply, with the currents and voltages on the way to it; None without loads."""
    solution = solve(source, supply, stretches, loads)
    worst = next(iter(drops(solution, loads)), None)
    if worst is None:
        return Worked(None, ())
    feeding = {stretch.end: stretch for stretch in stretches}
    way, at = [], worst.at
    while at in feeding:
        way.append(at)
        at = feeding[at].start
    steps = [_step(solution, node) for node in reversed(way)]
    return Worked(worst, (*steps, f"{worst.volts:.2f} V left at {worst.at}, {100 * worst.share:.2f} % lost"))


def longest_length(lost: Callable[[float], float], share: float, upto: float) -> float:
    """The longest length up to `upto` at which no more than `share` is lost; `lost` gives the drop for a length."""
    return longest(_within(lost, share), upto)


def smallest_wire(sizes: Iterable[Size], lost: Callable[[Size], float], share: float) -> Size | None:
    """The first of ascending sizes with which no more than `share` is lost; None where even the largest loses more."""
    return smallest(sizes, _within(lost, share))


def _within(lost: Callable[[Size], float], share: float) -> Callable[[Size], bool]:
    """Whether a choice keeps within `share`; one that makes the voltage collapse does not."""

    def holds(choice: Size) -> bool:
        try:
            return lost(choice) <= share
        except VoltageCollapse:
            return False

    return holds


def _step(solution: Solution, node: str) -> str:
    amps = ", ".join(f"{abs(current):.2f} A in {wire}" for wire, current in solution.currents[node].items())
    volts = ", ".join(f"{solution.volts(node, pair):.2f} V {pair[0]}-{pair[1]}" for pair in _pairs(solution, node))
    return f"to {node}: {amps}; {volts}"


def _pairs(solution: Solution, node: str) -> list[tuple[str, str]]:
    return list(pairwise(solution.voltages[node]))
