"""What a rule sees: the plan, its trace, and the book, through one recorder."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

from precover.plan import Plan, Unstated
from precover.rulebook.table import Cell, Table
from precover.tracing import Trace

T = TypeVar("T")


_TABLES = "tables"
"""Where a trace notes from whose values something was worked out."""


Noted = tuple[list[tuple[str, str | None]], list[Cell]]
"""Steps of a derivation, each with the JSON Pointer it comes from, and the cells that were read for it."""


class Missing(Exception):
    """Raised by `Look.stated` where a rule needs a fact that the plan leaves out."""

    def __init__(self, fact: Unstated) -> None:
        super().__init__(fact.place)
        self.fact = fact


class Look:
    """One reviewer's look at one plan. It notes the cells a rule reads and the steps it takes, for the derivation."""

    __slots__ = ("_limits", "_tables", "cells", "plan", "steps", "supposed", "trace")

    def __init__(self, trace: Trace, tables: Mapping[str, Table]) -> None:
        self.plan: Plan = trace.plan
        self.trace = trace
        self._tables = tables
        if trace.worked_out.setdefault(_TABLES, tables) is not tables:
            trace.worked_out.clear()  # some of it was worked out from the values of another book
            trace.worked_out[_TABLES] = tables
        self._limits = tables["limits"].made
        self.cells: list[Cell] = []
        self.steps: list[tuple[str, str | None]] = []
        self.supposed: dict[str, Any] = {}
        """Values that the engine tries for unstated facts, by place."""

    def begin(self) -> None:
        """Forget what the last rule read."""
        if self.cells:
            self.cells = []
        if self.steps:
            self.steps = []

    def take(self) -> Noted:
        """What was read since, which is forgotten here."""
        noted = self.steps, self.cells
        self.steps, self.cells = [], []
        return noted

    def stated(self, value: T | Unstated) -> T:
        """The value of a fact. Where the plan leaves it out, the rule stops here, and the fact becomes the query unless
        no value of it could change the answer."""
        if value.__class__ is Unstated:
            fact: Any = value
            if self.supposed and fact.place in self.supposed:
                supposed: T = self.supposed[fact.place]
                return supposed
            raise Missing(fact)
        return value  # type: ignore[return-value]  # a cast would be a call, for every fact of every rule

    def cell(self, table: str, *key: str) -> Cell:
        """A cell of a table; MissingCell where there is none."""
        of = self._tables[table]
        cell = of.made.get(key) or of[key]
        self.cells.append(cell)
        return cell

    def find(self, table: str, *key: str) -> Cell | None:
        """A cell of a table that does not cover everything (makers' dimensions), or None."""
        cell = self._tables[table].find(key)
        if cell is not None:
            self.cells.append(cell)
        return cell

    def limit(self, name: str) -> Cell:
        """A named limit: a cell of the table `limits`."""
        cell = self._limits.get((name,)) or self._tables["limits"][(name,)]
        self.cells.append(cell)
        return cell

    def has(self, table: str, *key: str) -> bool:
        """Whether a table has a cell: for tables that are silent on purpose about what they are not for."""
        return self._tables[table].find(key) is not None

    def keys(self, table: str) -> list[tuple[str, ...]]:
        """The keys of a table, in its order: for lookups that search a table rather than know the cell."""
        return list(self._tables[table].keys)

    def arranged(self, table: str, how: Callable[[Iterable[tuple[str, ...]]], T]) -> T:
        """What a function makes of the keys of a table, worked out once for the table: to look a key up by its value."""
        return self._tables[table].arranged(how)

    def because(self, step: str, place: str | None = None) -> None:
        """Note a step of the derivation: a short fact, and the JSON Pointer it comes from."""
        self.steps.append((step, place))
