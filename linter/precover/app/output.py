"""Where the outcome of a command goes: a file, a pipe, or a terminal."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path
from typing import Final

from precover.app.refused import Refused
from precover.showing.sheet import Sheet
from precover.showing.visible import visible

NARROWEST: Final = 40
USUAL: Final = 80
WIDEST: Final = 100


def new_sheet(to: str | None = None) -> Sheet:
    """An empty sheet as wide as the terminal, within what reads well; for a pipe or a file 80 columns in plain signs."""
    if not on_terminal(to):
        return Sheet(USUAL)
    width = min(max(os.get_terminal_size(sys.stdout.fileno()).columns or USUAL, NARROWEST), WIDEST)
    drawn = (sys.stdout.encoding or "").lower().replace("-", "") == "utf8"
    return Sheet(width, "─" if drawn else "-")


def put_sheet(sheet: Sheet, to: str | None = None) -> None:
    """Write a sheet; on a terminal with some weight of type, as far as `NO_COLOR` and `TERM` allow."""
    if on_terminal(to):
        from precover.showing.ink import inked

        inked(sheet)
    else:
        put(sheet.plain(), to)


def put(text: str, to: str | None = None) -> None:
    """Write text to a file or to standard output; Refused where that cannot be done."""
    if to == "-":
        to = None
    try:
        if to is not None:
            Path(to).write_text(text, encoding="utf-8", newline="\n")
        elif sys.stdout is None:
            raise Refused("standard output is closed; write elsewhere with --output")
        else:
            sys.stdout.write(text)
            sys.stdout.flush()
    except BrokenPipeError:
        raise
    except (OSError, ValueError) as problem:
        if to is None:
            leave_stdout()
        what = to if to is not None else "standard output"
        raise Refused(f"{what} cannot be written: {reason(problem)}; write elsewhere with --output") from None


def tell(text: str) -> None:
    """A line for the person at the keyboard, beside the output. Where it cannot be written, the exit status is all that
    is left to tell."""
    if sys.stderr is not None:
        with suppress(OSError, ValueError):
            sys.stderr.write(f"{visible(text)}\n")
            sys.stderr.flush()


def leave_stdout() -> None:
    """Nobody reads on, or nothing more fits: what is still waiting goes nowhere, so that Python does not try it again."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def on_terminal(to: str | None = None) -> bool:
    """The output goes to a terminal that can place characters."""
    return to is None and sys.stdout is not None and sys.stdout.isatty() and os.environ.get("TERM") != "dumb"


def reason(problem: Exception) -> str:
    """Why the system could not do something, in its words."""
    return (getattr(problem, "strerror", None) or str(problem)).lower()
