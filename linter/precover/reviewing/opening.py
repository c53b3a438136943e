"""Opens a plan file: everything between its bytes and a traced plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from precover.plan import Plan, Problem
from precover.reading import Document, PlanUnreadable, against_schema, build, dangling, decode, parse
from precover.tracing import Trace, trace


@dataclass(frozen=True, slots=True)
class OpenPlan:
    """A readable plan: its document (for positions), itself, and its trace."""

    document: Document
    plan: Plan
    trace: Trace


FORMAT: Final = "precover-plan/1"


def open_plan(name: str, raw: bytes) -> OpenPlan:
    """The plan in a file's bytes; PlanUnreadable with everything that is wrong with it."""
    document = parse(decode(name, raw))
    _refuse(document, against_schema(document.data))
    plan, problems = build(document.data)
    _refuse(document, problems)
    _refuse(document, dangling(plan))
    traced, problems = trace(plan)
    _refuse(document, problems)
    return OpenPlan(document, plan, traced)


def _refuse(document: Document, problems: Sequence[Problem]) -> None:
    if problems:
        raise PlanUnreadable(
            [document.locate(problem.place, problem.message, problem.hint, key=problem.key) for problem in problems]
        )
