"""Rule packs: where limits, tables, locators and the rules in force come from."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from precover.reading.errors import Located
from precover.record import Record

if TYPE_CHECKING:
    from precover.rulebook.packs.change import Changes


class PackUnreadable(Exception):
    """A pack that is not there or cannot be used. `hint` says what to do; `problems` are places in the pack's own file,
    where it has one."""

    def __init__(self, message: str, hint: str, problems: Sequence[Located] = ()) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint
        self.problems = tuple(problems)


class Pack(Record):
    """A pack: a base, which brings tables, or a change of another pack.

    `edition` is the year of the model code whose locators hold under this pack; `notes` says what its user must know. A
    base may bring a requirement map with a list of the rows that are out of scope. `changes` names the pack that this
    one changes ("" for a base); what it changes stands in `folder` (see `packs/folder.py`) or was read from one file
    (`read`). `is_edition` is for editions of the model code: they stand for themselves, and the editions that they
    build on are not named beside them.
    """

    id: str
    title: str
    edition: str
    tables: Path | None = None
    requirements: Path | None = None
    notes: str = ""
    out_of_scope: Path | None = None
    changes: str = ""
    folder: Path | None = None
    read: Changes | None = None
    is_edition: bool = False
    stricter: Path | None = None
    adopted_by: str = ""
    effective: str = ""
    file: Path | None = None
    """The file that it was read from."""

    def __hash__(self) -> int:
        return hash(self.id)
