"""Questions that many rules ask about the same things of a plan."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

from precover.rulebook.look import Look

F = TypeVar("F", bound=Callable[..., Any])


def once(question: F) -> F:
    """Works a question out once for a plan as it is stated, and notes its derivation for every rule that asks it.

    The last argument is the `Look`; the others are things of the plan, or values that are equal when they are alike.
    While the engine tries values for an unstated fact, the question is worked out anew.
    """

    @wraps(question)
    def asked(*about: Any) -> Any:
        look: Look = about[-1]
        if look.supposed:
            return question(*about)
        key = (question, *about[:-1])
        known = look.trace.worked_out.get(key)
        if known is None:
            steps, cells = len(look.steps), len(look.cells)
            value = question(*about)
            look.trace.worked_out[key] = value, look.steps[steps:], look.cells[cells:]
            return value
        value, noted, read = known
        if noted:
            look.steps += noted
        if read:
            look.cells += read
        return value

    return asked  # type: ignore[return-value]
