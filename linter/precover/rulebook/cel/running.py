"""What an expression runs with: the thing it is about, a look at the plan, and a bound on its cost."""

from __future__ import annotations

from typing import Any, Final

from precover.plan import Unstated
from precover.rulebook.look import Look

MOST_STEPS: Final = 20_000
"""Things that one evaluation may go through."""
MOST_STEPS_OF_A_PLAN: Final = 1_000_000
"""Things that all evaluations of pack requirements over one plan may go through."""


class TooCostly(Exception):
    """An expression goes through more things than it may."""


class Scope:
    """One evaluation: names and their values, and what was read on the way."""

    __slots__ = ("look", "names", "read", "steps")

    def __init__(self, look: Look, names: dict[str, Any]) -> None:
        self.look = look
        self.names = names
        self.read: list[tuple[str, str, Any]] = []
        """Facts that were read: place of the thing, key, value."""
        self.steps = 0
        self._spent()

    def stated(self, owner: str, key: str, value: Any) -> Any:
        """The value of a fact, noted; Missing is raised where the plan leaves it out and it is not supposed."""
        if value.__class__ is Unstated:
            value = self.look.stated(value)
        self.read.append((owner, key, value))
        return value

    def step(self) -> None:
        """Count one thing gone through."""
        self.steps += 1
        if self.steps > MOST_STEPS:
            raise TooCostly(f"an expression of a rule pack goes through more than {MOST_STEPS:,} things")

    def close(self) -> None:
        """Add what this evaluation cost to what all have cost in the plan."""
        if not self.steps:
            return
        known = self.look.trace.worked_out
        known[_SPENT] = known.get(_SPENT, 0) + self.steps
        self._spent()

    def _spent(self) -> None:
        if self.look.trace.worked_out.get(_SPENT, 0) > MOST_STEPS_OF_A_PLAN:
            told = (
                f"the requirements of the rule packs go through more than {MOST_STEPS_OF_A_PLAN:,} things of the plan"
            )
            raise TooCostly(told)


_SPENT: Final = "steps of pack requirements"
