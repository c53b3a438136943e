"""Tables and limits: data with a unit and a source for every value."""

from __future__ import annotations

import csv
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any, Final, TypeVar

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


Key = tuple[str, ...]


class Table:
    """Cells by key. The key columns are those before `holds` in the file, in their order.

    A table of a file is read when something of it is first asked for, and a cell is made of its row when it is: few plans
    need them all. `made` holds the cells that there are so far.
    """

    __slots__ = ("_arranged", "_columns", "_is_read", "_read", "_rows", "_set_by", "made", "name")

    _read: Callable[[], Table]

    def __init__(self, name: str, columns: tuple[str, ...], cells: dict[Key, Cell]) -> None:
        self.name = name
        self.made = cells
        self._columns = columns
        self._rows: dict[Key, list[str]] = {}
        self._set_by = ""
        self._is_read = True
        self._arranged: dict[object, Any] = {}

    @classmethod
    def unread(cls, name: str, read: Callable[[], Table]) -> Table:
        """A table that `read` gives when something of it is first asked for; PackUnreadable then, where it is none."""
        table = cls(name, (), {})
        table._read, table._is_read = read, False
        return table

    @classmethod
    def of_rows(cls, name: str, columns: tuple[str, ...], rows: dict[Key, list[str]], set_by: str) -> Table:
        """A table of the rows of a file."""
        table = cls(name, columns, {})
        table._rows, table._set_by = rows, set_by
        return table

    @property
    def columns(self) -> tuple[str, ...]:
        """What the parts of a key are."""
        self._open()
        return self._columns

    @property
    def cells(self) -> dict[Key, Cell]:
        """Every cell, in the table's order."""
        self._open()
        if self._rows:
            cells = {key: self.made.get(key) or self._cell(key) for key in self._rows}
            self.made.clear()
            self.made.update(cells)
            self._rows = {}
        return self.made

    @property
    def keys(self) -> Iterable[Key]:
        """The keys, in the table's order."""
        self._open()
        return self._rows or self.made

    def find(self, key: Key) -> Cell | None:
        """The cell of a key; None where there is none."""
        cell = self.made.get(key)
        if cell is None and not self._is_read:
            self._open()
            cell = self.made.get(key)
        if cell is None and key in self._rows:
            cell = self.made[key] = self._cell(key)
        return cell

    def __getitem__(self, key: Key) -> Cell:
        cell = self.find(key)
        if cell is None:
            from difflib import get_close_matches  # only for a name that is wrong

            near = get_close_matches(" / ".join(key), [" / ".join(known) for known in self.keys], n=1)
            raise MissingCell(f"table {self.name} has no cell {list(key)}{f'; nearest: {near[0]}' if near else ''}")
        return cell

    def arranged(self, how: Callable[[Iterable[Key]], T]) -> T:
        """What a function makes of the keys, in their order: once, for a table is not changed when it is in force."""
        found: T | None = self._arranged.get(how)
        if found is None:
            found = self._arranged[how] = how(self.keys)
        return found

    def _open(self) -> None:
        if not self._is_read:
            read = self._read()
            self.made.update(read.made)
            self._columns, self._rows, self._set_by, self._is_read = read._columns, read._rows, read._set_by, True

    def _cell(self, key: Key) -> Cell:
        return Cell(self.name, key, self._rows[key][len(key) :], self._set_by)


def read_table(path: Path, set_by: str) -> Table:
    """The table in a CSV file; ValueError with file and line where it is not one."""
    columns, rows = _read(path)
    keys = len(columns)
    by_key = {tuple(row[:keys]): row for row in rows}
    if len(by_key) < len(rows):
        seen: set[Key] = set()
        for line, key, _ in rows_of(path):
            if key in seen:
                raise ValueError(f"{path.name}:{line}: {list(key)} stands here twice")
            seen.add(key)
    return Table.of_rows(path.stem.replace("_", "-"), columns, by_key, set_by)


def rows_of(path: Path) -> Iterator[tuple[int, Key, list[str]]]:
    """The rows of a table's CSV file: line, key, and the fixed columns (`holds` and so on); ValueError as for a table."""
    keys = len(_read(path)[0])
    with path.open(encoding="utf-8", newline="") as lines:
        rows = csv.reader(lines)
        next(rows)
        for row in rows:
            yield rows.line_num, tuple(row[:keys]), row[keys:]


def _read(path: Path) -> tuple[tuple[str, ...], list[list[str]]]:
    """The key columns, and the rows."""
    with path.open(encoding="utf-8", newline="") as lines:
        header, *rows = csv.reader(lines)
    keys = len(header) - len(_FIXED)
    if tuple(header[keys:]) != _FIXED or keys < 1:
        raise ValueError(f"{path.name}:1: the columns after the keys are {', '.join(_FIXED)}")
    if set(map(len, rows)) - {len(header)}:
        raise _uneven(path, len(header))
    return tuple(header[:keys]), rows


def _uneven(path: Path, columns: int) -> ValueError:
    with path.open(encoding="utf-8", newline="") as lines:
        rows = csv.reader(lines)
        line, found = next((rows.line_num, len(row)) for row in rows if len(row) != columns)
    return ValueError(f"{path.name}:{line}: {found} columns, not {columns}")


def files_in(folder: Path) -> list[tuple[str, Path]]:
    """The tables of a folder by name, each with its CSV file; none where the folder is not there."""
    try:
        with os.scandir(folder) as entries:
            names = sorted(entry.name for entry in entries if entry.name.endswith(".csv"))
    except FileNotFoundError:
        return []
    return [(name.removesuffix(".csv").replace("_", "-"), folder / name) for name in names]
