"""What holds for any pack: a stricter one never finds less, packs of different things commute, an empty one changes
nothing."""

from __future__ import annotations

import csv
import json
import re
import tempfile
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from precover.reviewing import Review
from precover.rulebook import Cell
from precover.rulebook.packs.weighing import Direction
from precover.units import plain
from precover_rules.packs import US_2017
from support.reviews import example, library, reviewed, written

PLANS = [
    f"{name}{ending}"
    for name in ("joinery-workshop", "pottery-studio", "orchard-pump")
    for ending in ("", "-uncorrected")
]
SIMPLE = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?([^0-9]+)?")


@cache
def plan(name: str) -> bytes:
    """The bytes of an example."""
    return written(example(name))


@cache
def senses() -> list[tuple[str, tuple[str, ...], str]]:
    """Which way values are stricter: table, key pattern, way."""
    assert US_2017.stricter is not None
    with US_2017.stricter.open(encoding="utf-8", newline="") as lines:
        return [(row["table"], tuple(row["key"].split(" | ")), row["stricter"]) for row in csv.DictReader(lines)]


def stricter(cell: Cell, way: str) -> str | None:
    """Another text of a cell that asks more; None where there is none, or none that is written simply."""
    if way in ("yes", "no"):
        return way if cell.text != way else None
    if " > " in way:
        first = way.split(" > ")[0]
        return first if cell.text != first else None
    form = SIMPLE.fullmatch(cell.text)
    if form is None or cell.holds == "size" or not Fraction(form[1]):
        return None
    number = Fraction(form[1]) * (2 if way == "higher" else Fraction(1, 2))
    if cell.holds == "count":
        number = Fraction(int(number))
    return f"{plain(number)} {form[2] or ''}".strip()


@cache
def tightenings() -> list[tuple[str, tuple[str, ...], str]]:
    """Every cell that can be made stricter: table, key, and the stricter text."""
    tables = library().book().tables
    found = []
    for table, pattern, way in senses():
        for key, cell in tables[table].cells.items():
            if all(part in ("*", held) for part, held in zip(pattern, key, strict=False)):
                text = stricter(cell, way)
                if text is not None:
                    found.append((table, key, text))
    return found


def book_file(folder: Path, name: str, cells: list[tuple[str, tuple[str, ...], str]]) -> str:
    """A pack file that sets cells; JSON is YAML."""
    data: dict[str, Any] = {"format": "precover-pack/1", "id": name, "title": name, "extends": "us-2023"}
    if cells:
        data["cells"] = [{"table": table, "key": list(key), "value": text} for table, key, text in cells]
    path = folder / f"{name}.pack.yaml"
    path.write_text(json.dumps(data, ensure_ascii=False, indent=1), encoding="utf-8")
    return str(path)


def found(review: Review) -> set[tuple[str, str]]:
    """What is to be settled: rule and subject."""
    return {(one.line.rule.id, one.line.subject) for one in review.wanting}


def told(review: Review) -> list[tuple[str, str, str, str, str]]:
    """Every line of a review, as far as it does not name a pack."""
    return [
        (line.rule.id, line.subject, line.answer.outcome.value, str(line.answer.has), str(line.answer.needs))
        for line in review.ledger
    ]


some = st.lists(st.integers(0, len(tightenings()) - 1), min_size=1, max_size=6, unique=True)


@settings(max_examples=25, deadline=None)
@given(chosen=some, name=st.sampled_from(PLANS))
def test_a_stricter_pack_never_finds_less(chosen: list[int], name: str) -> None:
    """And it is told that it tightens, in each of its values."""
    with tempfile.TemporaryDirectory() as folder:
        pack = book_file(Path(folder), "strict", [tightenings()[index] for index in chosen])
        ways = {effect.direction for effect in library().book((pack,)).effects}
        before, after = reviewed(plan(name)), reviewed(plan(name), (pack,))
    assert ways == {Direction.TIGHTENS}
    assert after.failures == ()
    assert len(found(after)) >= len(found(before))


def test_each_table_made_stricter_as_a_whole_finds_no_less() -> None:
    """One pack for each table, all of its cells at once: what random choice may miss."""
    with tempfile.TemporaryDirectory() as folder:
        for table in dict.fromkeys(table for table, _, _ in senses()):
            cells = [one for one in tightenings() if one[0] == table]
            if not cells:
                continue
            pack = book_file(Path(folder), table, cells)
            for name in PLANS:
                before, after = reviewed(plan(name)), reviewed(plan(name), (pack,))
                assert len(found(after)) >= len(found(before)), (table, name, found(before) - found(after))


@settings(max_examples=15, deadline=None)
@given(chosen=some.filter(lambda one: len(one) > 1), name=st.sampled_from(PLANS))
def test_packs_of_different_things_commute(chosen: list[int], name: str) -> None:
    """The same lines, values and sources in either order, and nothing that is set twice."""
    cells = [tightenings()[index] for index in chosen]
    with tempfile.TemporaryDirectory() as folder:
        one = book_file(Path(folder), "one", cells[: len(cells) // 2])
        other = book_file(Path(folder), "other", cells[len(cells) // 2 :])
        left, right = reviewed(plan(name), (one, other)), reviewed(plan(name), (other, one))
    assert told(left) == told(right)
    assert left.book.conflicts == right.book.conflicts == ()
    for table, key, text in cells:
        cell, same = left.book.tables[table][key], right.book.tables[table][key]
        assert (cell.text, cell.set_by) == (same.text, same.set_by)
        assert cell.text == text


def test_an_empty_pack_changes_nothing() -> None:
    """Not a line, on any example."""
    with tempfile.TemporaryDirectory() as folder:
        pack = book_file(Path(folder), "empty", [])
        for name in PLANS:
            assert told(reviewed(plan(name), (pack,))) == told(reviewed(plan(name)))
        assert library().book((pack,)).effects == ()


@settings(max_examples=15, deadline=None)
@given(chosen=some)
def test_a_loosened_value_is_told(chosen: list[int]) -> None:
    """A pack that takes a tightening back loosens, and is told so."""
    cells = [tightenings()[index] for index in chosen]
    tables = library().book().tables
    with tempfile.TemporaryDirectory() as folder:
        strict = book_file(Path(folder), "strict", cells)
        back = book_file(Path(folder), "back", [(table, key, tables[table][key].text) for table, key, _ in cells])
        made = library().book((strict, back))
    assert {effect.direction for effect in made.effects if effect.pack == "back"} == {Direction.LOOSENS}
    assert len(made.conflicts) == len(cells)
