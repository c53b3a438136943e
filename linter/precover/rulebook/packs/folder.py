"""Changes from a folder: how editions and packs of installed distributions are written.

`replaced/*.csv` and `added/*.csv` hold rows of tables, in the columns of the table; `parts.csv` says which rules come
into force or go out of it. A table's rows are read when the table is.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path
from typing import Final

from precover.rulebook.packs.change import Changes, PartChange, Place, SetCell, Switch
from precover.rulebook.table import files_in, rows_of

PARTS: Final = ["part", "becomes", "reason", "source", "confidence"]
_BECOMES: Final = {"on": True, "off": False}


class FolderChanges(Changes):
    """The changes in a folder."""

    def __init__(self, folder: Path) -> None:
        super().__init__(parts=_parts(folder / "parts.csv"))
        self._files: dict[str, list[tuple[Path, bool]]] = {}
        for name, adds in (("replaced", False), ("added", True)):
            for table, path in files_in(folder / name):
                self._files.setdefault(table, []).append((path, adds))

    @property
    def tables(self) -> tuple[str, ...]:
        """Names of the tables that are changed."""
        return tuple(self._files)

    def cells(self, table: str) -> tuple[SetCell, ...]:
        """The changes of a table's cells; ValueError with file and line where a file is not one of a table."""
        found = self._read.get(table)
        if found is None:
            found = self._read[table] = tuple(
                change for path, adds in self._files.get(table, ()) for change in _changes(table, path, adds)
            )
        return found

    @cached_property
    def _read(self) -> dict[str, tuple[SetCell, ...]]:
        return {}


def _changes(table: str, path: Path, adds: bool) -> Iterator[SetCell]:
    for line, key, (holds, text, metric, source, confidence, note) in rows_of(path):
        place = Place(path.name, line, 1)
        yield SetCell(table, key, text, metric, source, confidence, note, adds, holds, place)


def _parts(path: Path) -> list[PartChange]:
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as lines:
        rows = csv.reader(lines)
        if next(rows, None) != PARTS:
            raise ValueError(f"{path.name}:1: the columns are {', '.join(PARTS)}")
        found: list[PartChange] = []
        for row in rows:
            if len(row) != len(PARTS) or row[1] not in _BECOMES:
                raise ValueError(
                    f"{path.name}:{rows.line_num}: a part becomes `on` or `off`, with a reason and a source"
                )
            found.append(Switch(row[0], _BECOMES[row[1]], row[2], place=Place(path.name, rows.line_num, 1)))
        return found
