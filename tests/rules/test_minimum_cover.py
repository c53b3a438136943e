"""The minimum-cover table, cell by cell, against what was published, and through the whole tool."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from precover.units import Length
from support.reviews import library, reviewed
from support.trenches import answer_at, garden, line_at, protected, trench

RULE = "cover-over-a-buried-leg"
PUBLISHED = Path(__file__).parents[1] / "published" / "minimum_cover.csv"

ROWS: dict[str, tuple[str, dict[str, Any]]] = {
    "open-ground": ("open ground", {"buried": "lawn"}),
    "trench-two-inch-concrete": ("concrete in trench", {"buried": "lawn", "concrete-cap": "2 in"}),
    "under-building": ("under a building", {"buried": "building"}),
    "exterior-slab-four-inch": (
        "exterior slab",
        {"buried": "slab", "slab": {"thickness": "4 in", "reaches-past": "6 in", "vehicles": False}},
    ),
    "street-road-parking": ("street, road or parking", {"buried": "street"}),
    "dwelling-driveway": ("dwelling driveway", {"buried": "driveway", "dwelling-use-only": True}),
    "airport": ("airport", {"buried": "airport"}),
}
"""Row of the published table -> our row, and a leg that stands in it."""

COLUMNS = {
    "1": "direct burial",
    "2": "rigid metal conduit",
    "3": "nonmetallic raceway",
    "4": "small ground-fault protected branch circuit",
    "5": "low-voltage control or lighting",
}

Case = tuple[str, str, str, int, int]


def _cases() -> list[Case]:
    """Row, column, how it is laid, inches and millimetres: one case for each way to stand in a published cell."""
    with PUBLISHED.open(encoding="utf-8", newline="") as lines:
        cells = list(csv.DictReader(lines))
    cases: list[Case] = []
    for cell in cells:
        for laid in _ways_laid(cell["column"], cell["condition"]):
            cases.append((cell["location"], cell["column"], laid, int(cell["inches"]), int(cell["millimetres"])))
    return cases


def _ways_laid(column: str, condition: str) -> tuple[str, ...]:
    if column in "123":
        return ("direct",) if column == "1" else ("raceway",)
    if condition == "direct burial":
        return ("direct",)
    return ("raceway",) if condition == "in raceway" else ("direct", "raceway")


CASES = _cases()
REACHED = [case for case in CASES if case[0] != "under-building"]


def _plan(case: Case, cover: str) -> dict[str, Any]:
    row, column, laid, _, _ = case
    leg = {**ROWS[row][1], "length": "30 ft", "cover": cover}
    if laid == "raceway":
        leg["raceway"] = "RMC 3/4 in" if column == "2" else "PVC-40 3/4 in"
    if column == "5":
        return garden(leg)
    return protected(leg) if column == "4" else trench(leg)


def test_every_cell_of_the_published_table_is_here() -> None:
    """Seven rows, five columns, and the pairs that differ by how the wiring is laid."""
    assert len(CASES) == 7 * 3 + 7 * 2 * 2
    table = library().book().tables["minimum-cover"]
    assert {(ROWS[row][0], COLUMNS[column], laid) for row, column, laid, _, _ in CASES} == set(table.cells)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_cell_is_what_was_published(case: Case) -> None:
    """Inches and millimetres of the table in the pack."""
    row, column, laid, inches, millimetres = case
    cell = library().book().tables["minimum-cover"][ROWS[row][0], COLUMNS[column], laid]
    assert cell.value == Length.of(inches, "in")
    assert cell.like(Length.parse("1 mm")) == Length.of(millimetres, "mm")


@pytest.mark.parametrize("case", REACHED, ids=str)
def test_below_at_and_above_each_cell_in_inches(case: Case) -> None:
    """An eighth of an inch too shallow is not met, and the finding asks for the depth; the depth itself and more are."""
    inches = case[3]
    found = [answer_at(_plan(case, f"{inches - 1} 7/8 in"), RULE)]
    found += [answer_at(_plan(case, depth), RULE) for depth in (f"{inches} in", f"{inches} 1/8 in")]
    assert found == ["not met", "met", "met"]
    needed = line_at(reviewed(_plan(case, f"{inches - 1} 7/8 in")), RULE).answer.needs
    assert needed == Length.of(inches, "in")


@pytest.mark.parametrize("case", REACHED, ids=str)
def test_below_at_and_above_each_cell_in_millimetres(case: Case) -> None:
    """The metric twin is exact for a metric plan: 450 mm is enough where 18 in is asked for."""
    depth = case[4]
    plans = [_plan(case, f"{depth + step} mm") for step in (-1, 0, 1)]
    assert [answer_at(plan, RULE) for plan in plans] == ["not met", "met", "met"]


@pytest.mark.parametrize("column", list(COLUMNS))
def test_under_a_building_no_depth_is_asked_for(column: str) -> None:
    """Zero in every column: the rule does not apply, at any depth."""
    for case in CASES:
        if case[:2] == ("under-building", column):
            assert answer_at(_plan(case, "0 in"), RULE) == "does not apply"


@pytest.mark.parametrize("case", REACHED, ids=str)
def test_the_depth_that_was_met_is_the_one_of_the_cell(case: Case) -> None:
    """At the depth of a cell, the answer shows that depth, and the source of a cell that asks for it is noted."""
    line = line_at(reviewed(_plan(case, f"{case[3]} in")), RULE)
    assert line.answer.needs == Length.of(case[3], "in")
    assert [cell for cell in line.cells if cell.table == "minimum-cover" and cell.value == line.answer.needs]


@pytest.mark.parametrize("inches", [Fraction(1, 8), 1, 6])
def test_deeper_is_never_worse(inches: Fraction) -> None:
    """What is met at a depth is met deeper."""
    for case in REACHED[::5]:
        depth = case[3] + inches
        whole, part = int(depth), Fraction(depth) % 1
        assert answer_at(_plan(case, f"{whole} {part} in" if part else f"{whole} in"), RULE) == "met"
