"""Rule packs: where limits, tables and locators come from."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


class PackUnreadable(Exception):
    """A pack that is not there or cannot be used. `hint` says what to do."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Pack:
    """A pack: a folder with `tables/*.csv`, and perhaps a requirement map.

    `edition` is the year of the model code whose locators hold under this pack; `notes` says what its user must know.
    """

    id: str
    title: str
    edition: str
    tables: Path
    requirements: Path | None = None
    notes: str = ""
