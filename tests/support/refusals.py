"""What is said of a text that is no plan."""

from __future__ import annotations

from precover.reading import Located, PlanUnreadable
from precover.reviewing import open_plan
from support.reviews import EXAMPLES

STUDIO = (EXAMPLES / "pottery-studio.plan.yaml").read_text(encoding="utf-8")

LONGEST_MESSAGE = 600
"""Characters of a message or hint; the lists of words and keys in them come from the plan language, not from the file."""


def refusals(text: str | bytes) -> tuple[Located, ...]:
    """Every problem told of a file; none for a plan that can be reviewed. Each has a place, a message and a hint of
    bounded length."""
    try:
        open_plan("my.plan.yaml", text if isinstance(text, bytes) else text.encode())
    except PlanUnreadable as refused:
        for problem in refused.problems:
            assert problem.file == "my.plan.yaml"
            assert 0 < len(problem.message) < LONGEST_MESSAGE
            assert 0 < len(problem.hint) < LONGEST_MESSAGE
            assert (problem.line > 0) == (problem.column > 0)
        assert refused.problems
        return refused.problems
    return ()


def refusal(text: str | bytes) -> Located:
    """The one problem told of a file."""
    (problem,) = refusals(text)
    return problem


def studio(old: str, new: str) -> str:
    """The pottery studio with its first `old` written as `new`."""
    assert old in STUDIO
    return STUDIO.replace(old, new, 1)


def at(problem: Located) -> tuple[int, int]:
    """Line and column."""
    return problem.line, problem.column
