"""Tables and limits: data with a unit and a source for every value."""

from __future__ import annotations

import csv
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeVar

from precover.units import (
    Angle,
    Apparent,
    Area,
    ConductorArea,
    ConductorSize,
    Current,
    Length,
    Mass,
    Quantity,
    Resistance,
    ResistancePerLength,
    Temperature,
    TemperatureDifference,
    Voltage,
    Volume,
    number,
)

T = TypeVar("T")


def _percent(text: str) -> Fraction:
    return number(text.removesuffix("%")) / 100


HOLDS: Final[dict[str, Callable[[str], Any]]] = {
    "length": Length.parse,
    "current": Current.parse,
    "voltage": Voltage.parse,
    "apparent power": Apparent.parse,
    "area": Area.parse,
    "volume": Volume.parse,
    "weight": Mass.parse,
    "resistance": Resistance.parse,
    "angle": Angle.parse,
    "temperature": Temperature.parse,
    "temperature difference": TemperatureDifference.parse,
    "resistance per length": ResistancePerLength.parse,
    "conductor area": ConductorArea.parse,
    "size": ConductorSize.parse,
    "count": int,
    "number": number,
    "percent": _percent,
    "word": str,
    "yes or no": lambda text: {"yes": True, "no": False}[text],
}
"""What a cell can hold, and how its text is read."""

_FIXED = ("holds", "value", "metric", "source", "confidence", "note")


def leading_number(text: str) -> Fraction | None:
    """The number that a key begins with (`20` of `20 A`), or None."""
    try:
        return number(text.partition(" ")[0])
    except (ValueError, ZeroDivisionError):
        return None


class MissingCell(LookupError):
    """A lookup that no cell answers: a fault of the rule or the pack, never a pass."""


class Cell:
    """One value of a table.

    It is made of a row's fixed columns. `value`, typed by what the cell holds, is read from its text when first asked for;
    `set_by` names the pack; `confidence` is "high", "medium" or "low", and a source that says "from memory" is shown with
    the value. `was` is the cell that a pack on top of the edition replaced; `earlier` the cell of the edition before, where
    this edition changed it.
    """

    __slots__ = (
        "_twin",
        "_value",
        "confidence",
        "earlier",
        "holds",
        "key",
        "note",
        "set_by",
        "source",
        "table",
        "text",
        "twin_text",
        "was",
    )

    def __init__(
        self, table: str, key: tuple[str, ...], row: Sequence[str], set_by: str, was: Cell | None = None
    ) -> None:
        self.earlier: Cell | None = None
        self.table = table
        self.key = key
        self.holds, self.text, self.twin_text, self.source, self.confidence, self.note = row
        self.set_by = set_by
        self.was = was
        self._value: Any = None
        self._twin: Any = None

    @property
    def value(self) -> Any:
        """The value, typed by what the cell holds."""
        if self._value is None:
            self._value = HOLDS[self.holds](self.text)
        return self._value

    def like(self, measured: Quantity) -> Any:
        """The value in the system of units that `measured` is written in: inch and metric limits are a pair of rounded
        numbers, each exact for plans in its own system."""
        if self.twin_text and measured.metric:
            if self._twin is None:
                self._twin = HOLDS[self.holds](self.twin_text)
            return self._twin
        return self.value

    def line(self) -> Iterator[Cell]:
        """The cell and those that it replaced, the newest first."""
        cell: Cell | None = self
        while cell is not None:
            yield cell
            cell = cell.was

    @property
    def from_memory(self) -> bool:
        """No published page was seen for it, or only a doubtful one."""
        return self.confidence != "high" or "from memory" in self.source

    def __repr__(self) -> str:
        return f"<Cell {self.table}{list(self.key)} {self.text}>"


class Table:
    """Cells by key. The key columns are those before `holds` in the file, in their order.

    A table of a file is read when something of it is first asked for: few plans need them all.
    """

    __slots__ = ("_arranged", "_read", "cells", "columns", "name")
    _read: Callable[[], Table]

    def __init__(self, name: str, columns: tuple[str, ...], cells: dict[tuple[str, ...], Cell]) -> None:
        self.name = name
        self.columns = columns
        self.cells = cells
        self._arranged: dict[object, Any] = {}

    @classmethod
    def unread(cls, name: str, read: Callable[[], Table]) -> Table:
        """A table that `read` gives when something of it is first asked for; PackUnreadable then, where it is none."""
        table = cls.__new__(cls)
        table.name = name
        table._read = read
        table._arranged = {}
        return table

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            if name not in ("cells", "columns"):
                raise AttributeError(f"{type(self).__name__} has no {name}")
            read = self._read()
            self.columns, self.cells = read.columns, read.cells
            return getattr(self, name)

    def arranged(self, how: Callable[[Iterable[tuple[str, ...]]], T]) -> T:
        """What a function makes of the keys, in their order: once, for a table is not changed when it is in force."""
        found: T | None = self._arranged.get(how)
        if found is None:
            found = self._arranged[how] = how(self.cells)
        return found

    def __getitem__(self, key: tuple[str, ...]) -> Cell:
        cell = self.cells.get(key)
        if cell is None:
            from difflib import get_close_matches  # only for a name that is wrong

            near = get_close_matches(" / ".join(key), [" / ".join(known) for known in self.cells], n=1)
            raise MissingCell(f"table {self.name} has no cell {list(key)}{f'; nearest: {near[0]}' if near else ''}")
        return cell


def read_table(path: Path, set_by: str) -> Table:
    """The table in a CSV file; ValueError with file and line where it is not one."""
    name = path.stem.replace("_", "-")
    columns, rows = rows_of(path)
    cells: dict[tuple[str, ...], Cell] = {}
    for line, key, row in rows:
        if key in cells:
            raise ValueError(f"{path.name}:{line}: {list(key)} stands here twice")
        cells[key] = Cell(name, key, row, set_by)
    return Table(name, columns, cells)


def rows_of(path: Path) -> tuple[tuple[str, ...], list[tuple[int, tuple[str, ...], list[str]]]]:
    """The key columns of a table's CSV file, and its rows: line, key, and the fixed columns (`holds` and so on)."""
    found: list[tuple[int, tuple[str, ...], list[str]]] = []
    with path.open(encoding="utf-8", newline="") as lines:
        rows = csv.reader(lines)
        header = next(rows)
        keys = len(header) - len(_FIXED)
        if tuple(header[keys:]) != _FIXED or keys < 1:
            raise ValueError(f"{path.name}:1: the columns after the keys are {', '.join(_FIXED)}")
        for row in rows:
            if len(row) != len(header):
                raise ValueError(f"{path.name}:{rows.line_num}: {len(row)} columns, not {len(header)}")
            found.append((rows.line_num, tuple(row[:keys]), row[keys:]))
    return tuple(header[:keys]), found


def files_in(folder: Path) -> list[tuple[str, Path]]:
    """The tables of a folder by name, each with its CSV file; none where the folder is not there."""
    try:
        with os.scandir(folder) as entries:
            names = sorted(entry.name for entry in entries if entry.name.endswith(".csv"))
    except FileNotFoundError:
        return []
    return [(name.removesuffix(".csv").replace("_", "-"), folder / name) for name in names]
