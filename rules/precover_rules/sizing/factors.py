"""The factors that an ampacity is corrected and adjusted by."""

from __future__ import annotations

from collections.abc import Iterable

from precover.electrical.bands import band
from precover.rulebook import Cell, Look
from precover.units import Temperature
from precover_rules.sizing.company import FEW


def correction_for(ambient: Temperature, column: str, look: Look) -> Cell | None:
    """The factor for a temperature; None where insulation of the column is not made for it. Cooler surroundings than
    the table is for are not counted in a circuit's favour."""
    name = band(ambient, look.arranged("ambient-bands", _bands))
    if name is None or not look.has("ambient-correction", name, column):
        return None
    look.cell("ambient-bands", name)
    cell = look.cell("ambient-correction", name, column)
    look.because(f"surroundings of up to {ambient}: × {cell.text}", "/site/design-high")
    return cell


def adjustment_for(count: int, look: Look) -> Cell | None:
    if count <= FEW:
        return None
    ends = look.arranged("bundling-adjustment", _counts)
    return look.cell("bundling-adjustment", band(count, ends, "more") or "more")


def _bands(names: Iterable[tuple[str, ...]]) -> tuple[tuple[Temperature, str], ...]:
    """The bands of temperature, by their ends, which are the same temperatures in both systems of units."""
    return tuple((Temperature.parse(name.removeprefix("to ")), name) for (name,) in names)


def _counts(keys: Iterable[tuple[str, ...]]) -> tuple[tuple[int, str], ...]:
    return tuple((int(count), count) for count, *_ in keys if count != "more")
