"""Questions that many rules ask about the same things of a plan."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

from precover.rulebook.look import Look

F = TypeVar("F", bound=Callable[..., Any])

_Known = tuple[Any, list[Any], list[Any]]
"""The value of a question, and the steps and cells of its derivation."""


def once(question: F) -> F:
    """Works a question out once for a plan as it is stated, and notes its derivation for every rule that asks it.

    The last argument is the `Look`; the others are things of the plan, or values that are equal when they are alike.
    While the engine tries values for an unstated fact, the question is worked out anew.
    """

    def work_out(key: object, about: tuple[Any, ...], look: Look) -> Any:
        steps, cells = len(look.steps), len(look.cells)
        value = question(*about)
        look.trace.worked_out[key] = value, look.steps[steps:], look.cells[cells:]
        return value

    @wraps(question)
    def asked(*about: Any) -> Any:
        look: Look = about[-1]
        if look.supposed:
            return question(*about)
        key = question, about[:-1]
        known = look.trace.worked_out.get(key)
        return work_out(key, about, look) if known is None else _told(known, look)

    @wraps(question)
    def asked_of_one(thing: Any, look: Look) -> Any:  # most are, and it takes half the time
        if look.supposed:
            return question(thing, look)
        key = question, thing
        known = look.trace.worked_out.get(key)
        return work_out(key, (thing, look), look) if known is None else _told(known, look)

    return asked_of_one if question.__code__.co_argcount == 2 else asked  # type: ignore[return-value]


def _told(known: _Known, look: Look) -> Any:
    value, noted, read = known
    if noted:
        look.steps += noted
    if read:
        look.cells += read
    return value
