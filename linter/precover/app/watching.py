"""Plans looked at again and again, whenever one of them is saved."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Final

from precover.app.files import plans_named
from precover.app.output import on_terminal, put, tell

EVERY: Final = 0.3
"""Seconds between two looks at the files."""

State = tuple[tuple[str, int, int], ...]

_CLEARED: Final = "\x1b[H\x1b[2J\x1b[3J"
"""Clears the screen and what was scrolled out of it (ECMA-48)."""


def watch(names: Sequence[str], review: Callable[[], int]) -> int:
    """Review now and after every change of the files named (of a folder, also when one comes or goes), until it is
    interrupted: the exit status of the last review."""
    status = 0
    try:
        for state in states(names):
            if on_terminal():
                put(_CLEARED)
            status = review()
            tell(f"watching {len(state)} {'file' if len(state) == 1 else 'files'}; Ctrl-C ends it")
    except KeyboardInterrupt:
        sys.stderr.write("\n")
    return status


def states(names: Sequence[str]) -> Iterator[State]:
    """The state of the files, once now and once after each change. A file that is being written is waited for: its state
    must be the same in two looks."""
    shown: State | None = None
    while True:
        state = _state(names)
        if state != shown and state == _after_a_moment(names, shown is not None):
            shown = state
            yield state
        time.sleep(EVERY)


def _after_a_moment(names: Sequence[str], wait: bool) -> State:
    if wait:
        time.sleep(EVERY / 6)
    return _state(names)


def _state(names: Sequence[str]) -> State:
    found = []
    for name in plans_named(names):
        try:
            told = Path(name).stat()
            found.append((name, told.st_mtime_ns, told.st_size))
        except (OSError, ValueError):
            found.append((name, 0, -1))  # gone, or not there yet: the review says so
    return tuple(found)
