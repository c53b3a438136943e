"""What a pack changes: each change a piece of data that names what it is about, why, and where it is written."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from precover.plan.thing import Fact
from precover.record import Record
from precover.rulebook.look import Look
from precover.rulebook.rule import Inspection, Rule
from precover.rulebook.severity import Severity
from precover.rulebook.table import Table

Key = tuple[str, ...]


class Place(Record):
    """Where a change is written: file, line and column (0 where there is no text)."""

    file: str
    line: int = 0
    column: int = 0


NOWHERE = Place("")


class SetCell(Record):
    """A cell gets another value; with `adds` the table gets a cell that it does not have.

    `metric` is the twin for plans in metric units, "" for none. `holds` is needed only for a cell that is added.
    """

    table: str
    key: Key
    text: str
    metric: str = ""
    source: str = ""
    confidence: str = "high"
    note: str = ""
    adds: bool = False
    holds: str = ""
    place: Place = NOWHERE


class Switch(Record):
    """A rule, an entry of the inspection list, or all of a topic comes into force or goes out of it.

    `until` is the day to which it was put off, as its author wrote it: a review does not hang on the day it is made.
    """

    part: str
    on: bool
    reason: str
    until: str = ""
    place: Place = NOWHERE


class Grade(Record):
    """A rule's findings get another severity."""

    rule: str
    severity: Severity
    reason: str
    place: Place = NOWHERE


class Rewrite(Record):
    """A topic gets another title, text or place to look up ("" leaves it as it is)."""

    topic: str
    title: str = ""
    text: str = ""
    look_up: str = ""
    place: Place = NOWHERE


class Require(Record):
    """A rule comes on top."""

    rule: Rule
    place: Place = NOWHERE


class Except(Record):
    """A rule is not about some of the things that it looks at: those of a class for which `holds` is true."""

    rule: str
    about: type
    holds: Callable[[Any, Look], bool]
    reason: str
    place: Place = NOWHERE


class Inspect(Record):
    """An entry of the inspection list comes on top."""

    item: Inspection
    place: Place = NOWHERE


PartChange = Switch | Grade | Rewrite | Require | Except | Inspect


class Changes:
    """All that one pack changes: cells table by table, and parts in the order they are written. `extends` is where it
    names the pack that it changes."""

    extends: Place = NOWHERE

    def __init__(
        self, cells: Mapping[str, tuple[SetCell, ...]] | None = None, parts: Iterable[PartChange] = ()
    ) -> None:
        self._cells = dict(cells or {})
        self.parts = tuple(parts)

    @property
    def asks(self) -> Mapping[str, str]:
        """What it asks plans to state, in words, by name."""
        return {}

    @property
    def tables(self) -> tuple[str, ...]:
        """Names of the tables that are changed."""
        return tuple(self._cells)

    def cells(self, table: str) -> tuple[SetCell, ...]:
        """The changes of a table's cells, in the order they are written."""
        return self._cells.get(table, ())

    def statements(self) -> Mapping[str, Fact]:
        """What it asks plans to state, by name."""
        return {}

    def own(
        self, _tables: Mapping[str, Table], _statements: Mapping[str, Fact]
    ) -> tuple[Require | Except | Inspect, ...]:
        """The rules and entries that it brings, which may compare with limits and ask for the statements in force."""
        return ()


NOTHING = Changes()
