"""Tables under trial: which rows a test looks up, and how a running process is made to read them again.

`precover` is imported in the functions: it has to come from the copy, which is first on the path only when a run begins.
"""

from __future__ import annotations

import contextlib
import gc
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Final

_LOOK_UPS: Final = ("cell", "find", "limit", "has", "keys")


class RowsLookedUp:
    """Notes the rows of tables that rules look up. `files`: path of a table -> its name."""

    def __init__(self, files: Mapping[str, str]) -> None:
        from precover.rulebook.table import rows_of

        self.rows: dict[str, list[tuple[str, int, tuple[str, ...]]]] = {}
        for place, name in files.items():
            path = Path(place)
            found = [(name, number, key) for number, (_, key, _) in enumerate(rows_of(path))]
            self.rows.setdefault(path.stem.replace("_", "-"), []).extend(found)

    @contextlib.contextmanager
    def noted(self) -> Iterator[dict[str, set[int]]]:
        """File and rows, filled while the block runs. Who asks for the keys of a table has looked up all of it; where no
        rule looks anything up, the test has all tables before it."""
        from precover.rulebook import Look

        found: dict[str, set[int]] = {}
        usual = {name: getattr(Look, name) for name in _LOOK_UPS}

        def noting(name: str) -> Any:
            def look_up(look: Any, *words: str) -> Any:
                table, *key = ("limits", *words) if name == "limit" else words
                self._note(found, table, None if name == "keys" else tuple(key))
                return usual[name](look, *words)

            return look_up

        for name in _LOOK_UPS:
            setattr(Look, name, noting(name))
        try:
            yield found
        finally:
            for name, method in usual.items():
                setattr(Look, name, method)
            if not found:
                for table in self.rows:
                    self._note(found, table, None)

    def _note(self, found: dict[str, set[int]], table: str, key: tuple[str, ...] | None) -> None:
        for name, number, own in self.rows.get(table, ()):
            if key is None or key == own:
                found.setdefault(name, set()).add(number)


def read_again() -> None:
    """Every table of this process is read from its file again when something of it is next asked for."""
    from precover.rulebook.packs.folder import FolderChanges
    from precover.rulebook.table import Table

    gc.unfreeze()  # or what is frozen would not be listed
    for thing in gc.get_objects():
        if type(thing) is Table:
            with contextlib.suppress(AttributeError):  # of a table that is of no file
                thing._read  # noqa: B018
                thing.made.clear()
                thing._is_read = False
        elif type(thing) is FolderChanges:
            vars(thing).pop("_read", None)
