"""Checked expressions as rules: an answer with what was read, and what is needed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal

from precover.plan.thing import escaped
from precover.rulebook.answer import Answer, Outcome, does_not_apply, met, not_met
from precover.rulebook.cel.running import Scope
from precover.rulebook.cel.statements import OWNER, Unfit
from precover.rulebook.cel.typed import Comparison, Expression
from precover.rulebook.look import Look
from precover.units import Quantity

MOST_SHOWN = 8
"""Facts that an answer lists."""


def judging(about: str, says: str, when: Expression | None, require: Expression) -> Callable[[Any, Look], Answer]:
    """The check of a requirement."""
    name, needs = about.replace("-", "_"), says.strip().removesuffix(".")

    def check(subject: Any, look: Look) -> Answer:
        scope = Scope(look, {name: subject, "plan": look.plan, "site": look.plan.site})
        try:
            if when is not None and not when.run(scope):
                return does_not_apply(f"not where {when.text}")
            asked = len(scope.read)
            holds = bool(require.run(scope))
        except Unfit as unfit:
            at = f"{OWNER}/{escaped(unfit.name)}"
            return not_met(f"statement {unfit.name}", str(unfit.given), unfit.wanted, at=at)
        finally:
            scope.close()
        _note(scope, look)
        return _answer(holds, needs, require, scope.read[asked:], look)

    check.__doc__ = says
    check.reads = (*(when.cells if when is not None else ()), *require.cells)  # type: ignore[attr-defined]
    return check


def listing(about: str, says: str, when: Expression | None) -> Callable[[Any, Look], str | None]:
    """An entry of the inspection list."""
    name = about.replace("-", "_")

    def comes_up(subject: Any, look: Look) -> str | None:
        if when is None:
            return says
        scope = Scope(look, {name: subject, "plan": look.plan, "site": look.plan.site})
        try:
            return says if when.run(scope) else None
        except Unfit:
            return says
        finally:
            scope.close()

    comes_up.__doc__ = says
    return comes_up


def holding(about: str, when: Expression) -> Callable[[Any, Look], bool]:
    """Whether an expression is true of a thing; false where a statement is answered with something that is no answer."""
    name = about.replace("-", "_")

    def holds(subject: Any, look: Look) -> bool:
        scope = Scope(look, {name: subject, "plan": look.plan, "site": look.plan.site})
        try:
            return bool(when.run(scope))
        except Unfit:
            return False
        finally:
            scope.close()

    return holds


def _answer(holds: bool, needs: str, require: Expression, read: list[tuple[str, str, Any]], look: Look) -> Answer:
    whole = require.whole
    facts = dict.fromkeys((place, key, _shown(value)) for place, key, value in read)
    at = None
    if len({(place, key) for place, key, _ in facts}) == 1:
        place, key, _ = next(iter(facts))
        at = f"{place}/{escaped(key)}"
    if whole is not None and whole.relation in ("at least", "at most") and at is not None and len(read) == 1:
        return _measured(holds, needs, whole, read[0], at, look)
    has = ", ".join(f"{key} {value}" for _, key, value in list(facts)[:MOST_SHOWN]) or "not so"
    return met("", has, needs, at=at) if holds else not_met("", has, needs, at=at)


def _measured(holds: bool, needs: str, whole: Comparison, read: tuple[str, str, Any], at: str, look: Look) -> Answer:
    """The answer of one fact compared with one value: measured and needed."""
    _, key, value = read
    scope = Scope(look, {})
    limit = whole.other.cell(scope) if whole.other.cell is not None else None
    if limit is not None:
        wanted = limit.like(value) if isinstance(value, Quantity) else limit.value
    else:
        wanted = whole.other.run(scope) if whole.other.written is not None else None
    if wanted is None or value is None:
        return met(key, _shown(value), needs, at=at) if holds else not_met(key, _shown(value), needs, at=at)
    outcome = Outcome.MET if holds else Outcome.NOT_MET
    relation: Literal["at least", "at most"] = "at least" if whole.relation == "at least" else "at most"
    return Answer(outcome, key, value, wanted, relation, needs, at, None, (), limit)


def _note(scope: Scope, look: Look) -> None:
    for place, key, value in list(dict.fromkeys(_hashable(scope.read)))[:MOST_SHOWN]:
        look.because(f"{key}: {value}", f"{place}/{escaped(key)}")


def _hashable(read: list[tuple[str, str, Any]]) -> list[tuple[str, str, str]]:
    return [(place, key, _shown(value)) for place, key, value in read]


def _shown(value: Any) -> str:
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "true" if value else "false"
    return ", ".join(map(str, value)) if type(value) is tuple else str(value)
