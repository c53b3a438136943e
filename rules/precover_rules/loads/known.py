"""Facts that may be read at the most they can be, before anyone is asked."""

from typing import TypeVar, cast

from precover.plan import Unstated
from precover.rulebook import Look

T = TypeVar("T")


def known(value: T | Unstated, look: Look) -> T | None:
    """The value of a fact, stated or just supposed; None where the plan leaves it out."""
    if isinstance(value, Unstated):
        return cast("T | None", look.supposed.get(value.place))
    return value
