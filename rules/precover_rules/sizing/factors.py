"""The factors that an ampacity is corrected and adjusted by."""

from __future__ import annotations

from functools import lru_cache

from precover.electrical.bands import band
from precover.rulebook import Cell, Look
from precover.units import Temperature
from precover_rules.sizing.company import FEW


def correction_for(ambient: Temperature, column: str, look: Look) -> Cell | None:
    """The factor for a temperature; None where insulation of the column is not made for it. Cooler surroundings than
    the table is for are not counted in a circuit's favour."""
    name = _band(tuple(look.keys("ambient-bands")), ambient)
    if name is None or not look.has("ambient-correction", name, column):
        return None
    look.cell("ambient-bands", name)
    cell = look.cell("ambient-correction", name, column)
    look.because(f"surroundings of up to {ambient}: × {cell.text}", "/site/design-high")
    return cell


def adjustment_for(count: int, look: Look) -> Cell | None:
    if count <= FEW:
        return None
    ends = ((int(key[0]), key[0]) for key in look.keys("bundling-adjustment") if key[0] != "more")
    return look.cell("bundling-adjustment", band(count, ends, "more") or "more")


@lru_cache(maxsize=256)
def _band(bands: tuple[tuple[str, ...], ...], ambient: Temperature) -> str | None:
    """The band of a temperature. The ends of the bands are the same temperatures in both systems of units."""
    ends = ((Temperature.parse(name.removeprefix("to ")), name) for (name,) in bands)
    return band(ambient, ends)
