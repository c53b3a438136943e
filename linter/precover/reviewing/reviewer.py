"""Runs every rule over every subject it looks at."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from precover.reading import Document
from precover.reading.collecting import nothing_is_garbage
from precover.reviewing.inspecting import fault
from precover.reviewing.opening import OpenPlan
from precover.reviewing.review import Line, PassedOver, Ran, Review
from precover.reviewing.supposing import suppose
from precover.rulebook import Cell, Look, Missing, Outcome, PackUnreadable, Rule, Rulebook
from precover.rulebook.book import DEFAULT_PACK, Library
from precover.rulebook.rule import Condition
from precover.tracing import Trace
from precover.tracing.around import stop_of


def review(opened: OpenPlan, library: Library, packs: tuple[str, ...] = ()) -> Review:
    """The review of a plan under the packs given, else those it names, else the default pack; PackUnreadable if one
    of them is not there or cannot be read. A pack file that the plan names lies in the plan's folder or below it. A rule
    that fails is noted in the review's `failures`, and costs only itself."""
    book = book_for(opened, library, packs)
    with nothing_is_garbage():
        ran = run_rules(opened.trace, book)
    defaulted = not (packs or opened.plan.rules)
    return Review(opened.document, opened.trace, book, defaulted, ran, library.failures)


def book_for(opened: OpenPlan, library: Library, packs: tuple[str, ...] = ()) -> Rulebook:
    """The rulebook that a plan is reviewed by, as `review` chooses it; the same object as long as nothing in it changes."""
    named = packs or opened.plan.rules or (DEFAULT_PACK,)
    return library.book(named, None if packs else folder_of(opened.document))


def folder_of(document: Document) -> Path:
    """The folder that pack files named in a plan lie in: that of the plan's file."""
    return Path(document.source.name).parent


def run_rules(trace: Trace, book: Rulebook, only: frozenset[str] | None = None) -> Ran:
    """Every rule on every subject it looks at (with `only`, on those at these stops of the plan and on the plan and the
    site themselves)."""
    look = Look(trace, book.tables)
    ran = Ran([], [], {})
    for subject in trace.subjects():
        place = subject.place
        if only is not None and place.count("/") > 1 and stop_of(place) not in only:
            continue
        asked: dict[Condition, _Asked | None] = {}
        for unless, rules in book.about(type(subject))[0]:
            before = _ask(unless, subject, look, asked)
            if before is not None and before.why:
                ran.passed_over.append(PassedOver(rules, place, before.why))
                continue
            for rule in rules:
                try:
                    ran.lines.append(_line(rule, subject, place, look, before))
                except PackUnreadable:
                    raise
                except Exception as problem:  # a rule, perhaps a third party's, may fail in any way
                    ran.faults.setdefault(rule.id, fault(place, problem))
    return ran


class _Asked(NamedTuple):
    """What a condition, or several in their order, said of a subject, and what they noted for the derivation."""

    why: str
    steps: tuple[tuple[str, str | None], ...] = ()
    cells: tuple[Cell, ...] = ()


_NOTHING = _Asked("")


def _ask(
    unless: tuple[Condition, ...], subject: object, look: Look, asked: dict[Condition, _Asked | None]
) -> _Asked | None:
    """What conditions say of a subject, each asked once; None where one of them cannot say, so that each rule has to be
    asked by itself."""
    noted = _NOTHING
    for condition in unless:
        if condition not in asked:
            asked[condition] = _ask_one(condition, subject, look)
        said = asked[condition]
        if said is None or said.why:
            return said
        if said.steps or said.cells:
            noted = _Asked("", noted.steps + said.steps, noted.cells + said.cells)
    return noted


def _ask_one(condition: Condition, subject: object, look: Look) -> _Asked | None:
    look.begin()
    try:
        return _Asked(condition(subject, look), tuple(look.steps), tuple(look.cells))
    except PackUnreadable:
        raise
    except Exception:  # a fact that is not stated, or a fault: each rule meets it again, and answers for itself
        return None


def _line(rule: Rule, subject: object, place: str, look: Look, before: _Asked | None) -> Line:
    look.begin()
    try:
        if before is None:
            answer = rule.answer(subject, look)
        else:
            if before is not _NOTHING:
                look.steps, look.cells = list(before.steps), list(before.cells)
            answer = rule.check(subject, look)
    except Missing as missing:
        answer = suppose(rule, subject, look, missing.fact)
    if answer.outcome is _DOES_NOT_APPLY or answer.outcome is _CANNOT_TELL:
        # Without a derivation: what was noted on the way belongs to values that were only tried.
        return Line(rule, place, answer)
    if before is None or before is _NOTHING:
        return Line(rule, place, answer, tuple(look.steps), tuple(look.cells))
    # What a condition noted, and the rule on its way once more, is told once.
    return Line(rule, place, answer, tuple(dict.fromkeys(look.steps)), tuple(dict.fromkeys(look.cells)))


_DOES_NOT_APPLY, _CANNOT_TELL = Outcome.DOES_NOT_APPLY, Outcome.CANNOT_TELL
