"""The one error of the reading floor: everything wrong with a file, each with its place."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from precover.record import Record

MOST_PROBLEMS: Final = 50
"""A file with more problems than this is told the first ones."""


class Located(Record):
    """A problem at a place in a file. `line` and `column` count from 1, in code points; 0 where there is no text."""

    file: str
    line: int
    column: int
    message: str
    hint: str


class PlanUnreadable(Exception):
    """A file that cannot be reviewed. `problems` has every reason found, in the order of the text; where they are
    more than MOST_PROBLEMS, the first ones and a last entry that says so."""

    def __init__(self, problems: Sequence[Located]) -> None:
        super().__init__(f"{len(problems)} problems")
        told = sorted(problems, key=lambda p: (p.file, p.line, p.column, p.message))[:MOST_PROBLEMS]
        if len(problems) > MOST_PROBLEMS:
            last = told[-1]
            more = f"there are more problems than the {MOST_PROBLEMS} told here"
            told.append(Located(last.file, last.line, last.column, more, "settle these first"))
        self.problems = tuple(told)


def short(text: str) -> str:
    """A text of the plan, cut to what a message can hold."""
    return text if len(text) <= 60 else f"{text[:57]}..."
