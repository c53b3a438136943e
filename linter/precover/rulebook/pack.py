"""Rule packs: where limits, tables and locators come from."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple


class PackUnreadable(Exception):
    """A pack that is not there or cannot be used. `hint` says what to do."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


class Pack(NamedTuple):
    """A pack: a folder with `tables/*.csv`, and perhaps a requirement map with a list of the rows that are out of scope.

    `edition` is the year of the model code whose locators hold under this pack; `notes` says what its user must know.
    """

    id: str
    title: str
    edition: str
    tables: Path
    requirements: Path | None = None
    notes: str = ""
    out_of_scope: Path | None = None
