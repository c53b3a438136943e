"""The installed rules, and the packs named on the command line."""

from __future__ import annotations

from functools import cache

from precover.app.refused import Refused
from precover.reading import PlanUnreadable
from precover.reviewing import OpenPlan, Review, review
from precover.rulebook import PackUnreadable, gather
from precover.rulebook.book import Library


@cache
def library() -> Library:
    """Everything that the installed plugins give."""
    return gather()


def checked(names: tuple[str, ...]) -> tuple[str, ...]:
    """The names, all of packs that can be used; Refused for the first that cannot."""
    if names:
        try:
            library().book(names)
        except PackUnreadable as problem:
            raise Refused(f"{problem.message}; {problem.hint}") from None
    return names


def reviewed(opened: OpenPlan, packs: tuple[str, ...]) -> Review:
    """The review of a plan under the packs given, else its own; PlanUnreadable where the plan names a pack that is not
    there."""
    try:
        return review(opened, library(), packs)
    except PackUnreadable as problem:
        raise PlanUnreadable([opened.document.locate("/rules", problem.message, problem.hint)]) from None
