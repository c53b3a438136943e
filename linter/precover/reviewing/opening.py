"""Opens a plan file: everything between its bytes and a traced plan."""

from __future__ import annotations

from typing import Any, Final

from precover.plan import Plan, Problem
from precover.reading import (
    MOST_PROBLEMS,
    Document,
    PlanUnreadable,
    against_schema,
    build,
    dangling,
    decode,
    parse,
)
from precover.reading.collecting import nothing_is_garbage
from precover.record import Record
from precover.tracing import Trace, trace


class OpenPlan(Record):
    """A readable plan: its document (for positions), itself, and its trace."""

    document: Document
    plan: Plan
    trace: Trace


FORMAT: Final = "precover-plan/1"


def open_plan(name: str, raw: bytes) -> OpenPlan:
    """The plan in a file's bytes; PlanUnreadable with everything that is wrong with it."""
    with nothing_is_garbage():
        document = parse(decode(name, raw))
        return open_data(document, document.data)


def open_data(document: Document, data: Any) -> OpenPlan:
    """The plan in plain data: a document's own, or the same with an edit that is only tried. Places that the edit adds
    have the position of their nearest parent. PlanUnreadable as for a file."""
    plan, problems = _read(data)
    if plan is not None and (not problems or _hangs_together(problems)):
        lost = dangling(plan)
        problems += lost
        if not lost:
            traced, unsound = trace(plan)
            problems += unsound
            if not problems:
                return OpenPlan(document, plan, traced)
    raise PlanUnreadable(
        [
            document.locate(problem.place, problem.message, problem.hint, key=problem.key)
            for problem in problems[: MOST_PROBLEMS + 1]
        ]
    )


def _read(data: Any) -> tuple[Plan | None, list[Problem]]:
    """The plan, with whatever can be read of it, and what is wrong with its values; None where there is too much."""
    problems = against_schema(data)
    if not problems:
        return build(data)
    from precover.reading.remains import without  # only for a plan with mistakes

    if len(problems) > MOST_PROBLEMS or not isinstance(data, dict):
        return None, problems
    plan, unread = build(without(data, problems))
    return plan, problems + unread


def _hangs_together(problems: list[Problem]) -> bool:
    """Whether references and circuits can be looked at in a plan with these mistakes."""
    from precover.reading.remains import keeps_its_network

    return len(problems) <= MOST_PROBLEMS and keeps_its_network(problems)
