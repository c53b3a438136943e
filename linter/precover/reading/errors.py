"""The one error of the reading floor: everything wrong with a file, each with its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Located:
    """A problem at a place in a file. `line` and `column` count from 1, in code points; 0 where there is no text."""

    file: str
    line: int
    column: int
    message: str
    hint: str


class PlanUnreadable(Exception):
    """A file that cannot be reviewed. `problems` has every reason found, in the order of the text."""

    def __init__(self, problems: Sequence[Located]) -> None:
        super().__init__(f"{len(problems)} problems")
        self.problems = tuple(sorted(problems, key=lambda p: (p.file, p.line, p.column, p.message)))
