"""What a rule is, and how one is written."""

from collections.abc import Callable
from enum import Enum
from types import UnionType
from typing import Any, NamedTuple, TypeVar, cast, get_args

from precover.rulebook.answer import Answer, does_not_apply
from precover.rulebook.look import Look
from precover.rulebook.severity import Severity

Subject = TypeVar("Subject")

Condition = Callable[[Any, Look], str]
"""Why a rule is not about a subject, in a few words, or "" where it is."""


class Stage(Enum):
    """When an inspector looks at it."""

    PLAN = "plan review"
    TRENCH = "open trench"
    POUR = "before a pour"
    ROUGH = "rough-in"
    ENERGIZE = "before energizing"
    FINAL = "final"


class Rule(NamedTuple):
    """One requirement as a function of one kind of subject.

    `rows` are the rows of the requirement map that it decides: they give the place to look up, by edition, and the
    hazard. A rule outside the map (a third party's) names its own `look_up` and `hazard`. `id` is filled in from the
    topic it stands in. `set_by` names the pack that brought it or changed its severity, `was` is the rule before that.
    `unless` are conditions asked before `check`, in their order; rules of one condition share it, and it is asked once
    of a subject for all of them.
    """

    check: Callable[[Any, Look], Answer]
    looks_at: type | UnionType
    severity: Severity
    stage: Stage
    rows: tuple[str, ...]
    look_up: str = ""
    hazard: str = ""
    id: str = ""
    set_by: str = ""
    was: "Rule | None" = None
    unless: tuple[Condition, ...] = ()

    def answer(self, subject: Any, look: Look) -> Answer:
        """What it says of a subject; Missing where it needs a fact that the plan leaves out."""
        for condition in self.unless:
            why = condition(subject, look)
            if why:
                return does_not_apply(why)
        return self.check(subject, look)

    @property
    def kinds(self) -> tuple[type, ...]:
        """The classes that it looks at."""
        return get_args(self.looks_at) or (cast(type, self.looks_at),)

    @property
    def topic(self) -> str:
        """Id of its topic."""
        return self.id.rpartition("/")[0]

    @property
    def asks(self) -> str:
        """What it checks, in one sentence: the first line of its docstring."""
        return (self.check.__doc__ or "").strip().partition("\n")[0]

    def named(self, topic: str, name: str) -> "Rule":
        """The rule with its id."""
        return self._replace(id=f"{topic}/{name.replace('_', '-')}")


class Together(NamedTuple):
    """Rules of the same conditions: none of them is about a subject for which one of the conditions says why."""

    unless: tuple[Condition, ...]
    rules: tuple[Rule, ...]


class Inspection(NamedTuple):
    """Something only a person on site can see. `says` gives the text for a subject, or None where it does not come up."""

    says: Callable[[Any, Look], str | None]
    looks_at: type
    stage: Stage
    rows: tuple[str, ...]
    id: str = ""
    look_up: str = ""
    set_by: str = ""

    @property
    def topic(self) -> str:
        """Id of its topic."""
        return self.id.rpartition("/")[0]

    def named(self, topic: str, name: str) -> "Inspection":
        """The inspection with its id."""
        return self._replace(id=f"{topic}/{name.replace('_', '-')}")


def rule(
    *,
    looks_at: type[Subject] | UnionType,
    severity: Severity,
    stage: Stage,
    rows: tuple[str, ...] = (),
    look_up: str = "",
    hazard: str = "",
    unless: Condition | tuple[Condition, ...] = (),
) -> Callable[[Callable[[Subject, Look], Answer]], Rule]:
    """Make a rule of a function from a subject (and the look at it) to an answer. `looks_at` is a class, or
    several joined by `|`; `unless` a condition, or several."""

    conditions = unless if isinstance(unless, tuple) else (unless,)

    def made(check: Callable[[Subject, Look], Answer]) -> Rule:
        return Rule(check, looks_at, severity, stage, rows, look_up, hazard, unless=conditions)

    return made


def inspection(
    *, looks_at: type[Subject], stage: Stage, rows: tuple[str, ...]
) -> Callable[[Callable[[Subject, Look], str | None]], Inspection]:
    """Make an entry of the inspection list of a function from a subject to its text."""

    def made(says: Callable[[Subject, Look], str | None]) -> Inspection:
        return Inspection(says, looks_at, stage, rows)

    return made
