"""The factors that an ampacity is corrected and adjusted by."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable

from precover.electrical.bands import band
from precover.rulebook import Cell, Look
from precover.units import Temperature


def correction_for(ambient: Temperature, column: str, look: Look) -> Cell | None:
    """The factor for a temperature; None where insulation of the column is not made for it. Cooler surroundings than
    the table is for are not counted in a circuit's favour."""
    ends, names = look.arranged("ambient-bands", _bands)
    at = bisect_left(ends, ambient)
    if at == len(names) or not look.has("ambient-correction", names[at], column):
        return None
    name = names[at]
    look.cell("ambient-bands", name)
    cell = look.cell("ambient-correction", name, column)
    look.because(f"surroundings of up to {ambient}: × {cell.text}", "/site/design-high")
    return cell


def adjustment_for(count: int, look: Look) -> Cell | None:
    """The factor for so many current-carrying conductors together; None for no more than the first row of the table has, which
    is what the table of ampacities is for."""
    ends = look.arranged("bundling-adjustment", _counts)
    if count <= ends[0][0]:
        return None
    return look.cell("bundling-adjustment", band(count, ends, "more") or "more")


def _bands(keys: Iterable[tuple[str, ...]]) -> tuple[list[Temperature], list[str]]:
    """The ends of the bands of temperature, which are the same in both systems of units, and the bands' names."""
    names = [name for (name,) in keys]
    return [Temperature.parse(name.removeprefix("to ")) for name in names], names


def _counts(keys: Iterable[tuple[str, ...]]) -> tuple[tuple[int, str], ...]:
    return tuple((int(count), count) for count, *_ in keys if count != "more")
