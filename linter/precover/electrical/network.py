"""The exact solution of a radial supply: voltages and currents as phasors, in every wire, neutral included."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final, Literal

from precover.record import Record

Phasors = Mapping[str, complex]
"""Wire -> phasor, in volts or amperes (effective values)."""

SPLIT_PHASE: Final[Phasors] = {"L1": 120 + 0j, "N": 0j, "L2": -120 + 0j}
"""A 120/240 V supply."""

PRECISION: Final = 1e-9
"""Volts by which the last two rounds may differ."""

FULL_STEPS: Final = 40
"""Rounds that take each new voltage whole, which settles any usable supply within a few; after them, half the way."""

ROUNDS: Final = 1000


class VoltageCollapse(ArithmeticError):
    """The loads ask for more than the wires can deliver: most of the voltage is lost, or there is no solution."""


class Stretch(Record):
    """The wires between two nodes, each with the impedance of its whole length in ohms."""

    start: str
    end: str
    wires: Phasors


class Load(Record):
    """A load between two wires of a node.

    It draws a constant `current` (`amount` in A), constant `power` (in VA) or constant `impedance` (in ohms), at a
    power factor that lags where `lagging`, else leads.
    """

    at: str
    between: tuple[str, str]
    amount: float
    draws: Literal["current", "power", "impedance"]
    power_factor: float = 1.0
    lagging: bool = True

    def current(self, volts: complex) -> complex:
        """The current from the first wire to the second at a voltage between them."""
        size = abs(volts)
        if size < 1:
            raise VoltageCollapse(f"no voltage is left at {self.at}")
        amps = {"current": self.amount, "power": self.amount / size, "impedance": size / self.amount}[self.draws]
        sine = math.sqrt(1 - self.power_factor**2)
        return amps * (volts / size) * complex(self.power_factor, -sine if self.lagging else sine)


class Solution(Record):
    """`voltages`: of each wire at each node, against the source's reference; `currents`: in each wire of the stretch
    that ends at a node, towards the node."""

    source: str
    voltages: Mapping[str, Phasors]
    currents: Mapping[str, Phasors]

    def volts(self, node: str, between: tuple[str, str]) -> float:
        """The voltage between two wires of a node."""
        first, second = between
        return abs(self.voltages[node][first] - self.voltages[node][second])

    def drop(self, node: str, between: tuple[str, str], start: str | None = None) -> float:
        """The part of the voltage that is lost between `start` (the source) and a node: 0.03 for three percent."""
        return 1 - self.volts(node, between) / self.volts(start or self.source, between)

    def amps(self, node: str, wire: str) -> float:
        """The current in a wire of the stretch that ends at a node."""
        return abs(self.currents[node][wire])


def solve(source: str, supply: Phasors, stretches: Sequence[Stretch], loads: Sequence[Load]) -> Solution:
    """Voltages and currents of a radial supply.

    Each node but the source is the end of one stretch. Sweeps back and forth: currents from the voltages, summed
    towards the source; then voltages from the currents. VoltageCollapse where that does not settle; ValueError where
    the stretches are no tree or a load is on a wire that does not get there.
    """
    order = _outwards(source, supply, stretches)
    _check_loads(source, supply, order, loads)
    voltages = {source: dict(supply)}
    for stretch in order:
        voltages[stretch.end] = {wire: voltages[stretch.start][wire] for wire in stretch.wires}
    for turn in range(ROUNDS):
        step = 1.0 if turn < FULL_STEPS else 0.5
        currents = _currents(order, loads, voltages)
        moved = 0.0
        for stretch in order:
            for wire, impedance in stretch.wires.items():
                before = voltages[stretch.end][wire]
                change = voltages[stretch.start][wire] - impedance * currents[stretch.end][wire] - before
                moved = max(moved, abs(change))
                voltages[stretch.end][wire] = before + step * change
        if moved < PRECISION:
            return Solution(source, voltages, currents)
    raise VoltageCollapse("the loads do not settle at any voltage")


def _currents(
    order: Sequence[Stretch], loads: Sequence[Load], voltages: Mapping[str, Phasors]
) -> dict[str, dict[str, complex]]:
    currents = {stretch.end: dict.fromkeys(stretch.wires, 0j) for stretch in order}
    for load in loads:
        if load.at not in currents:
            continue
        first, second = load.between
        amps = load.current(voltages[load.at][first] - voltages[load.at][second])
        currents[load.at][first] += amps
        currents[load.at][second] -= amps
    for stretch in reversed(order):
        ahead = currents.get(stretch.start)
        if ahead is not None:
            for wire, amps in currents[stretch.end].items():
                ahead[wire] += amps
    return currents


def _outwards(source: str, supply: Phasors, stretches: Sequence[Stretch]) -> list[Stretch]:
    reached: dict[str, Phasors] = {source: supply}
    order: list[Stretch] = []
    waiting = list(stretches)
    while waiting:
        ready = [stretch for stretch in waiting if stretch.start in reached]
        if not ready:
            raise ValueError(f"not reached from {source}: {', '.join(stretch.end for stretch in waiting)}")
        for stretch in ready:
            if stretch.end in reached:
                raise ValueError(f"{stretch.end} is fed twice")
            missing = set(stretch.wires) - set(reached[stretch.start])
            if missing:
                raise ValueError(f"{', '.join(sorted(missing))} does not get to {stretch.start}")
            reached[stretch.end] = stretch.wires
            order.append(stretch)
        waiting = [stretch for stretch in waiting if stretch not in ready]
    return order


def _check_loads(source: str, supply: Phasors, order: Sequence[Stretch], loads: Sequence[Load]) -> None:
    wires = {source: set(supply)} | {stretch.end: set(stretch.wires) for stretch in order}
    for load in loads:
        if not set(load.between) <= wires.get(load.at, set()):
            raise ValueError(
                f"a load at {load.at} is between {' and '.join(load.between)}, which do not both get there"
            )
