"""The installed rules, and the packs named on the command line."""

from __future__ import annotations

from functools import cache

from precover.app.files import not_an_input
from precover.app.output import tell
from precover.app.refused import Refused
from precover.reading import PlanUnreadable
from precover.reviewing import OpenPlan, Review, review
from precover.rulebook import PackUnreadable, Rulebook, gather
from precover.rulebook.book import Library


@cache
def library() -> Library:
    """Everything that the installed plugins give."""
    return gather()


def checked(names: tuple[str, ...]) -> tuple[str, ...]:
    """The names, all of packs that can be used; Refused for the first that cannot."""
    if names:
        book_of(names)
    return names


def book_of(names: tuple[str, ...]) -> Rulebook:
    """The rulebook of packs named on the command line; Refused where there is none, with every place that is wrong."""
    try:
        return library().book(names)
    except PackUnreadable as problem:
        from precover.showing.error_lines import problem_lines

        _tell_what_is_not_there()

        if len(problem.problems) > 1:
            for line in problem_lines(problem.problems):
                tell(line)
            raise Refused(f"the rule packs {', '.join(names)} cannot be used; settle what stands above") from None
        if problem.problems:
            raise Refused(problem_lines(problem.problems)[0]) from None
        raise Refused(f"{problem.message}; {problem.hint}") from None


def _tell_what_is_not_there() -> None:
    """What could not be loaded may be why a pack is not there."""
    for name, why in library().failures:
        tell(f"precover: the plugin {name} cannot be used: {why}")


def not_a_pack(output: str | None, *books: Rulebook) -> None:
    """Refused where what is written would take the place of a pack file that a rulebook is made of."""
    files = (str(layer.pack.file) for book in books for layer in book.layers if layer.pack.file is not None)
    not_an_input(output, files, "a rule pack in use")


def reviewed(opened: OpenPlan, packs: tuple[str, ...]) -> Review:
    """The review of a plan under the packs given, else its own; PlanUnreadable where the plan names a pack that is not
    there."""
    try:
        return review(opened, library(), packs)
    except PackUnreadable as problem:
        _tell_what_is_not_there()
        there = [opened.document.locate("/rules", problem.message, problem.hint)]
        raise PlanUnreadable([*there, *problem.problems[1:]]) from None
