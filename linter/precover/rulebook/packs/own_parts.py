"""Requirements and inspections that a pack file brings: expressions made into rules like any other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from precover.plan.thing import Fact
from precover.rulebook.cel.checking import checked
from precover.rulebook.cel.kinds import NUMBER, TEXT, YES, Kind, subjects, thing
from precover.rulebook.cel.ruling import holding, judging, listing
from precover.rulebook.cel.statements import typed_statements
from precover.rulebook.cel.syntax import Refusal
from precover.rulebook.cel.typed import Expression, Known
from precover.rulebook.packs.change import Except, Inspect, Require
from precover.rulebook.rule import Inspection, Rule, Stage
from precover.rulebook.severity import Severity
from precover.rulebook.table import Table
from precover.units import (
    Angle,
    Apparent,
    Area,
    ConductorSize,
    Current,
    Length,
    Mass,
    Quantity,
    Resistance,
    Temperature,
    Voltage,
    Volume,
)

if TYPE_CHECKING:
    from precover.rulebook.packs.file_changes import FileChanges

QUANTITIES: Mapping[str, type[Quantity]] = {
    "length": Length,
    "current": Current,
    "voltage": Voltage,
    "apparent power": Apparent,
    "area": Area,
    "volume": Volume,
    "weight": Mass,
    "resistance": Resistance,
    "angle": Angle,
    "temperature": Temperature,
}
"""Kinds of cells that an expression can compare with a fact of that dimension."""


def own_parts(
    changes: FileChanges, tables: Mapping[str, Table], statements: Mapping[str, Fact]
) -> Iterator[Require | Except | Inspect]:
    """The rules and entries of a pack file; what is wrong with an expression is noted in its changes."""
    data = changes.data
    maker = _Maker(changes, tables, statements)
    for name, said in data.get("requirements", {}).items():
        rule = maker.rule(name, said, f"/requirements/{name}")
        if rule is not None:
            yield Require(rule, changes.at(f"/requirements/{name}"))
    for name, said in data.get("exceptions", {}).items():
        when = maker.expression(said, "when", f"/exceptions/{name}")
        if when is not None:
            about = subjects()[said["about"]]
            at = changes.at(f"/exceptions/{name}")
            yield Except(said["rule"], about, holding(said["about"], when), said["because"], at)
    for name, said in data.get("inspections", {}).items():
        item = maker.inspection(name, said, f"/inspections/{name}")
        if item is not None:
            yield Inspect(item, changes.at(f"/inspections/{name}"))


class _Maker:
    def __init__(self, changes: FileChanges, tables: Mapping[str, Table], statements: Mapping[str, Fact]) -> None:
        self.changes = changes
        self.tables = tables
        self.statements = typed_statements(statements)
        self.pack: str = changes.data["id"]

    def rule(self, name: str, said: dict[str, Any], place: str) -> Rule | None:
        """The rule of a requirement."""
        when = self.expression(said, "when", place)
        require = self.expression(said, "require", place)
        if require is None or (when is None and "when" in said):
            return None
        topic = said.get("topic", self.pack)
        return Rule(
            judging(said["about"], said["says"], when, require),
            subjects()[said["about"]],
            Severity[said.get("severity", "correction").upper()],
            Stage(said.get("stage", Stage.PLAN.value)),
            (),
            said.get("look-up", self.changes.data.get("look-up", "")),
            said.get("hazard", ""),
            f"{topic}/{name}",
            self.pack,
        )

    def inspection(self, name: str, said: dict[str, Any], place: str) -> Inspection | None:
        """The entry of the inspection list."""
        when = self.expression(said, "when", place)
        if when is None and "when" in said:
            return None
        about, topic = said.get("about", "plan"), said.get("topic", self.pack)
        return Inspection(
            listing(about, said["says"], when),
            subjects()[about],
            Stage(said["stage"]),
            (),
            f"{topic}/{name}",
            said.get("look-up", self.changes.data.get("look-up", "")),
            self.pack,
        )

    def expression(self, said: dict[str, Any], key: str, place: str) -> Expression | None:
        """The checked expression under a key; None where there is none, or where it is wrong, which is noted."""
        if key not in said:
            return None
        text = said[key]
        about = said.get("about", "plan")
        names = {about.replace("-", "_"): thing(subjects()[about])}
        names |= {name: thing(subjects()[name]) for name in ("plan", "site")}
        try:
            return checked(text, Known(names, self._cell_kind, self.statements))
        except Refusal as problem:
            self.changes.problem_within(f"{place}/{key}", text, problem.offset, problem.message, problem.hint)
            return None

    def _cell_kind(self, table: str, key: tuple[str, ...]) -> Kind:
        if table not in self.tables:
            raise Refusal(f"there is no table `{table}`", f"tables: {', '.join(sorted(self.tables))}")
        cell = self.tables[table].cells.get(key)
        if cell is None:
            from precover.rulebook.packs.tables import no_cell

            raise Refusal(*no_cell(self.tables[table], key))
        if cell.holds in QUANTITIES:
            return Kind("quantity", QUANTITIES[cell.holds])
        if cell.holds == "size":
            return Kind("notation", ConductorSize)
        kinds = {"count": NUMBER, "number": NUMBER, "percent": NUMBER, "word": TEXT, "yes or no": YES}
        if cell.holds not in kinds:
            raise Refusal(f"a {cell.holds} cannot be compared here", "quantities, numbers and words can")
        return kinds[cell.holds]
