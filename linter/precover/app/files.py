"""The plans named on the command line: files, folders, standard input."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Final

from precover.app.output import reason
from precover.app.refused import Refused
from precover.reading import Located, PlanUnreadable
from precover.reading.source import LARGEST_FILE

STDIN: Final = "-"
PATTERN: Final = "*.plan.yaml"


def plans_named(names: Sequence[str]) -> Iterator[str]:
    """Each plan once: a folder stands for every plan below it, sorted (for itself, which cannot be read,
    where there is none)."""
    seen: set[str] = set()
    for name in names:
        found = _below(name) if name != STDIN and Path(name).is_dir() else [name]
        for plan in found:
            if plan not in seen:
                seen.add(plan)
                yield plan


def not_an_input(output: str | None, names: Iterable[str], what: str = "the plan") -> None:
    """Refused where what is written would take the place of a file that is read."""
    if output is None or not Path(output).exists():
        return
    for name in names:
        if name != STDIN and Path(name).exists() and Path(output).samefile(name):
            raise Refused(f"{output} is {what} itself; write what is shown to another file")


def _below(folder: str) -> list[str]:
    found = sorted(str(path) for path in Path(folder).rglob(PATTERN) if not path.is_dir())
    return found or [folder]


def _waits(path: Path) -> bool:
    """A named pipe, which nobody may ever write to; not one that a shell has opened for a command (`<(...)`), whose name
    leads to no file."""
    return path.is_fifo() and path.resolve().exists()


def read(name: str) -> tuple[str, bytes]:
    """A plan's bytes with the name to show for it; PlanUnreadable where there is no such file or it may not be read."""
    if name == STDIN:
        if sys.stdin is None:
            raise PlanUnreadable([Located("stdin", 0, 0, "is closed", "name a file, or send the plan through a pipe")])
        return "stdin", sys.stdin.buffer.read(LARGEST_FILE + 1)
    if Path(name).is_dir():
        told = Located(
            name, 0, 0, "is a folder without a plan", f"plan files are named {PATTERN}; `amend` takes one file"
        )
        raise PlanUnreadable([told])
    try:
        if _waits(Path(name)):
            raise PlanUnreadable(
                [Located(name, 0, 0, "is a named pipe, which may never end", "name a file, or - for standard input")]
            )
        with Path(name).open("rb") as file:
            return name, file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as problem:
        raise PlanUnreadable(
            [Located(name, 0, 0, f"cannot be read: {reason(problem)}", "check the name and the permissions")]
        ) from None
