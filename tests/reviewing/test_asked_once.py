"""What is worked out once: questions that several rules ask of a plan, and what is made of a table's keys."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from precover.plan import Circuit, Structure
from precover.rulebook import Look, once
from precover.rulebook.table import Cell, Table
from precover_rules.sizing.standard import ratings
from support.reviews import library, reviewed_example

ROW = ("count", "1", "", "none", "high", "")


@pytest.fixture
def look() -> Look:
    """At an example."""
    of = reviewed_example("pottery-studio", {})
    return Look(of.trace, of.book.tables)


def of_keys(name: str, *keys: str) -> Table:
    """A table with these keys."""
    return Table(name, ("key",), {(key,): Cell(name, (key,), ROW, "us-2017") for key in keys})


def test_a_question_about_one_thing_is_worked_out_once(look: Look) -> None:
    """Each who asks has its derivation; another thing is another question."""
    asked: list[str] = []

    @once
    def question(circuit: Circuit, look: Look) -> int:
        asked.append(circuit.id)
        look.limit("nipple length")
        look.because("worked out", circuit.place)
        return len(asked)

    circuit = look.plan.circuits["studio"]
    for _ in range(2):
        look.begin()
        assert question(circuit, look) == 1
        assert look.steps == [("worked out", circuit.place)]
        assert [cell.key for cell in look.cells] == [("nipple length",)]
    assert question(next(iter(look.plan.circuits.values())), look) == 1
    assert asked == ["studio"]


def test_a_question_about_several_is_worked_out_once_for_each_combination(look: Look) -> None:
    """And values that are equal are the same question."""
    asked: list[tuple[str, str]] = []

    @once
    def question(structure: Structure, word: str, look: Look) -> int:
        asked.append((structure.id, word))
        look.because(word)
        return len(asked)

    one, other = list(look.plan.structures.values())[:2]
    said = [question(*about, look) for about in ((one, "a"), (one, "b"), (other, "a"), (one, "".join("a")))]
    assert said == [1, 2, 3, 1]
    assert [step for step, _ in look.steps] == ["a", "b", "a", "a"]
    assert len(asked) == 3


def test_while_a_value_is_tried_it_is_worked_out_anew(look: Look) -> None:
    """What holds for a value that was only tried is not kept."""
    asked: list[str] = []

    @once
    def question(circuit: Circuit, look: Look) -> int:
        asked.append(circuit.id)
        return len(look.supposed)

    circuit = look.plan.circuits["studio"]
    look.supposed["/somewhere"] = True
    assert (question(circuit, look), question(circuit, look)) == (1, 1)
    look.supposed.clear()
    assert question(circuit, look) == 0
    assert len(asked) == 3


def test_keys_are_arranged_once_for_each_table() -> None:
    """By each function that arranges them, in their order."""
    made: list[tuple[str, ...]] = []

    def joined(keys: Iterable[tuple[str, ...]]) -> str:
        made.append(tuple(key for (key,) in keys))
        return "+".join(made[-1])

    def counted(keys: Iterable[tuple[str, ...]]) -> int:
        return sum(1 for _ in keys)

    one, other = of_keys("one", "b", "a"), of_keys("one", "c")
    assert (one.arranged(joined), one.arranged(counted), one.arranged(joined)) == ("b+a", 2, "b+a")
    assert other.arranged(joined) == "c"
    assert made == [("b", "a"), ("c",)]


def test_a_table_that_is_read_late_is_arranged_when_it_is_read() -> None:
    """Not before, and not as an empty one."""
    read: list[str] = []

    def late() -> Table:
        read.append("late")
        return of_keys("late", "a", "b")

    table = Table.unread("late", late)
    assert read == []
    assert table.arranged(lambda keys: [key for (key,) in keys]) == ["a", "b"]
    assert read == ["late"]


def test_each_book_has_its_own_standard_ratings() -> None:
    """A rating is found in the table of the book in force, not in that of the book before it."""
    of = reviewed_example("pottery-studio", {})
    tables = of.book.tables
    fewer = {key: cell for key, cell in tables["standard-overcurrent"].cells.items() if key[1] != "20"}
    without = {**tables, "standard-overcurrent": Table("standard-overcurrent", ("device", "rating"), fewer)}
    all_made = [str(rating) for rating in ratings(Look(of.trace, tables))]
    assert "20 A" in all_made
    made = [str(rating) for rating in ratings(Look(of.trace, without))]
    assert made == [rating for rating in all_made if rating != "20 A"]
    assert [str(rating) for rating in ratings(Look(of.trace, library().book().tables))] == all_made
