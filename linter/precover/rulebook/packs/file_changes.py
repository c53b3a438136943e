"""The changes that a pack file's document describes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from precover.plan.thing import Fact, escaped
from precover.reading import Document, Located, PlanUnreadable
from precover.rulebook.pack import PackUnreadable
from precover.rulebook.packs.change import (
    Changes,
    Except,
    Grade,
    Inspect,
    PartChange,
    Place,
    Require,
    Rewrite,
    SetCell,
    Switch,
)
from precover.rulebook.severity import Severity
from precover.rulebook.table import Table


class FileChanges(Changes):
    """The changes in a document, and the problems found in its expressions."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.data: dict[str, Any] = document.data
        self.problems: list[Located] = []
        cells: dict[str, tuple[SetCell, ...]] = {}
        for change in self._cell_changes():
            cells[change.table] = (*cells.get(change.table, ()), change)
        self.extends = self.at("/extends")
        self._day("/effective", self.data.get("effective"))
        super().__init__(cells, [*self._switches(), *self._grades(), *self._rewrites()])

    def _day(self, pointer: str, day: str | None) -> None:
        """The schema tells how a day is written, not that there is one."""
        try:
            date.fromisoformat(day or "2000-01-01")
        except ValueError:
            self.problem(pointer, f"there is no day `{day}`", "write year, month and day, like `2026-07-01`")

    def _cell_changes(self) -> Iterator[SetCell]:
        for name, said in self.data.get("limits", {}).items():
            yield self._cell("limits", (name,), said, f"/limits/{escaped(name)}")
        for number, said in enumerate(self.data.get("cells", ())):
            yield self._cell(said["table"], tuple(said["key"]), said, f"/cells/{number}")

    def _cell(self, table: str, key: tuple[str, ...], said: dict[str, Any], place: str) -> SetCell:
        adds = said.get("adds", False)
        if adds and "holds" not in said:
            self.problem(place, "a new cell does not say what it holds", "add `holds`, like `holds: length`")
        source = said.get("look-up") or self.data.get("look-up") or self.data["title"]
        return SetCell(
            table,
            key,
            said["value"],
            said.get("metric", ""),
            source,
            "high",
            said.get("because", ""),
            adds,
            said.get("holds", ""),
            self.at(place),
        )

    def _switches(self) -> Iterator[PartChange]:
        for name, said in self.data.get("on", {}).items():
            yield Switch(name, True, said["because"], place=self.at(f"/on/{escaped(name)}"))
        for name, said in self.data.get("off", {}).items():
            place = f"/off/{escaped(name)}"
            if name in self.data.get("on", {}):
                self.problem(place, f"`{name}` is put in force and out of force", "keep one of the two")
            self._day(f"{place}/until", said.get("until"))
            yield Switch(name, False, said["because"], said.get("until", ""), self.at(place))

    def _grades(self) -> Iterator[PartChange]:
        for name, said in self.data.get("severities", {}).items():
            severity = Severity[said["severity"].upper()]
            yield Grade(name, severity, said["because"], self.at(f"/severities/{escaped(name)}"))

    def _rewrites(self) -> Iterator[PartChange]:
        for name, said in self.data.get("topics", {}).items():
            place = self.at(f"/topics/{escaped(name)}")
            yield Rewrite(name, said.get("title", ""), said.get("text", ""), said.get("look-up", ""), place)

    @property
    def asks(self) -> Mapping[str, str]:
        """What it asks plans to state, in words, by name."""
        return {name: said["asks"] for name, said in self.data.get("statements", {}).items()}

    def statements(self) -> Mapping[str, Fact]:
        """What it asks plans to state, by name."""
        if "statements" not in self.data:
            return {}
        from precover.rulebook.cel.statements import statement_facts  # only for a pack with expressions

        return statement_facts(self.data["statements"])

    def own(
        self, tables: Mapping[str, Table], statements: Mapping[str, Fact]
    ) -> tuple[Require | Except | Inspect, ...]:
        """The rules and entries that it brings; PackUnreadable for an expression that is wrong."""
        if not any(key in self.data for key in ("requirements", "exceptions", "inspections")):
            return ()
        from precover.rulebook.packs.own_parts import own_parts  # only for a pack with expressions

        self.problems = []
        found = tuple(own_parts(self, tables, statements))
        if self.problems:
            raise unreadable(self.document.source.name, PlanUnreadable(self.problems).problems)
        return found

    def at(self, pointer: str) -> Place:
        """Where the key of a JSON Pointer stands in the file."""
        at = self.document.range(pointer, key=True)
        return Place(self.document.source.name, at.line, at.column)

    def problem(self, pointer: str, message: str, hint: str) -> None:
        """Note that something in the file cannot be used."""
        self.problems.append(self.document.locate(pointer, message, hint))

    def problem_within(self, pointer: str, text: str, offset: int | None, message: str, hint: str) -> None:
        """The same of a place within a text, as far as the text stands in the file as it is."""
        at = self.document.locate(pointer, message, hint)
        if offset:
            line = self.document.source.text.splitlines()[at.line - 1] if at.line else ""
            begin = at.column - 1 + (line[at.column - 1 : at.column] in ("'", '"'))
            if line[begin : begin + offset] == text[:offset]:
                at = at._replace(column=begin + offset + 1)
        self.problems.append(at)


def unreadable(name: str, problems: Sequence[Located]) -> PackUnreadable:
    """A pack file with problems: the first is its message, the others stand with it."""
    first = problems[0]
    where = f"{name}:{first.line}:{first.column}" if first.line else name
    return PackUnreadable(f"{where}: {first.message}", first.hint, problems)
