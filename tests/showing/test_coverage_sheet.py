"""How far the requirement map is covered, as it is shown."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from barn_rules import barn_library

from precover.rulebook import PackUnreadable
from precover.rulebook.book import Library, Rulebook
from precover.showing.coverage import coverage_record
from precover.showing.coverage_sheet import put_coverage
from precover.showing.sheet import Sheet

COLUMNS = ["id", "subject", "says", "hazard", "2023", "source", "confidence"]
ROWS = {
    "depth": ("ground", "Wiring in the ground lies deep enough"),
    "outlet": ("barn", "Outlets are protected"),
    "hay": ("barn", "Hay is kept away from lamps"),
    "owls": (
        "barn",
        "Owls are left in peace, and nothing is fixed where they nest from the spring to the end of August",
    ),
    "worms": ("ground", "Worms are put back"),
}


def book(folder: Path, out_of_scope: str | None, *, rows: tuple[str, ...] = tuple(ROWS)) -> Rulebook:
    """The barn's rules under a pack with these rows, of which some are out of scope."""
    with (folder / "map.csv").open("w", encoding="utf-8", newline="") as lines:
        written = csv.writer(lines)
        written.writerow(COLUMNS)
        written.writerows((name, *ROWS[name], "none", "Table 1", "Invented", "high") for name in rows)
    listed = folder / "left_out.csv"
    if out_of_scope is not None:
        listed.write_text(out_of_scope, encoding="utf-8")
    barns = barn_library()
    pack = barns.packs["barn-2023"]._replace(
        requirements=folder / "map.csv", out_of_scope=listed if out_of_scope is not None else None
    )
    return Library(barns.topics, {pack.id: pack}).book((pack.id,))


def states(of: Rulebook) -> dict[str, str]:
    """The state of each row."""
    return {row["id"]: row["state"] for subject in coverage_record(of)["subjects"] for row in subject["rows"]}


def test_the_sheet(tmp_path: Path) -> None:
    """Rows by subject and state, with what covers each, why not, or what it says; the share at the end."""
    sheet = Sheet()
    put_coverage(sheet, coverage_record(book(tmp_path, "id,reason\nworms,no plan shows worms\n")))
    assert sheet.plain() == EXPECTED


def test_a_row_that_only_an_inspection_names_is_not_for_a_plan_to_decide(tmp_path: Path) -> None:
    """It counts neither as decided nor as one that could be."""
    made = book(tmp_path, None)
    (trench, outlets) = made.topics["ground/trench"], made.topics["barn/outlets"]
    seen = trench._replace(inspections=tuple(item._replace(rows=("worms",)) for item in trench.inspections))
    again = Rulebook(made.packs, {topic.id: topic for topic in (seen, outlets)}, made.tables, made.layers)
    record = coverage_record(again)
    assert states(again)["worms"] == "on the inspection list"
    assert (record["decided"], record["decidable"]) == (2, 4)
    (row,) = [row for row in record["subjects"][0]["rows"] if row["id"] == "worms"]
    assert row["inspections"] == [{"id": "ground/trench/trench-open", "stage": "open trench"}]


def test_everything_decided_is_said_so(tmp_path: Path) -> None:
    """Nearly everything is not all, however the share is rounded."""
    sheet = Sheet()
    put_coverage(sheet, coverage_record(book(tmp_path, None, rows=("depth", "outlet"))))
    assert "Of 2 rows that a plan can decide, 2 are decided (all)." in sheet.plain()


def test_without_a_requirement_map(tmp_path: Path) -> None:
    """A pack need not bring one."""
    barns = barn_library()
    pack = barns.packs["barn-2023"]._replace(requirements=None)
    sheet = Sheet()
    put_coverage(sheet, coverage_record(Library(barns.topics, {pack.id: pack}).book((pack.id,))))
    assert "No pack in force brings a requirement map." in sheet.plain()
    assert "that a plan can decide" not in sheet.plain()


@pytest.mark.parametrize(
    ("text", "said", "hint"),
    [
        (
            "id,reason\ndepth,too deep\n",
            "pack `barn-2023` says that `depth` is out of scope, but ground/trench/trench-open covers it",
            "take it out of left_out.csv",
        ),
        (
            "id,reason\nworm,no plan shows worms\n",
            "pack `barn-2023` says that `worm` is out of scope, which is no requirement",
            "did you mean `worms`?",
        ),
        (
            "id,reason\nquite another,no plan shows it\n",
            "pack `barn-2023` says that `quite another` is out of scope, which is no requirement",
            "name a row of the requirement map",
        ),
        (
            "id,reason\nworms,no plan shows worms\nworms,nor these\n",
            "pack `barn-2023`: left_out.csv:3: `worms` stands here twice",
            "name a row once",
        ),
        (
            "id,reason\nworms, \n",
            "pack `barn-2023`: left_out.csv:2: not a row and its reason",
            "correct the file",
        ),
        (
            "id,reason\nworms,no plan shows worms,nor these\n",
            "pack `barn-2023`: left_out.csv:2: not a row and its reason",
            "correct the file",
        ),
        (
            "row,why\nworms,no plan shows worms\n",
            "pack `barn-2023`: left_out.csv:1: the columns are not id, reason",
            "correct the file",
        ),
        ("", "pack `barn-2023`: left_out.csv:1: the columns are not id, reason", "correct the file"),
    ],
)
def test_a_list_of_what_is_out_of_scope_that_cannot_be_right(tmp_path: Path, text: str, said: str, hint: str) -> None:
    """A row that something covers, one that is not there, one without a reason, or no such list at all."""
    with pytest.raises(PackUnreadable) as refused:
        coverage_record(book(tmp_path, text))
    assert (refused.value.message, refused.value.hint) == (said, hint)


EXPECTED = """\
Ground ------------------------------------------------------------------ 2 rows

decided by a rule
  depth
      ground/trench/deep-enough
      ground/trench/out-of-reach
      ground/trench/trench-open (open trench)

out of scope
  worms
      no plan shows worms

Barn -------------------------------------------------------------------- 3 rows

decided by a rule
  outlet
      barn/outlets/outlet-protected

not yet covered
  hay
      Hay is kept away from lamps
  owls
      Owls are left in peace, and nothing is fixed where they nest from the
      spring to the end of August

How much is covered ----------------------------------- barn-2023 (edition 2023)
    2  decided by a rule
    0  on the inspection list
    1  out of scope
    2  not yet covered

Of 4 rows that a plan can decide, 2 are decided (50 %).

"""
