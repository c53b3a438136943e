"""Runs every rule over every subject it looks at."""

from __future__ import annotations

from pathlib import Path

from precover.reading import Document
from precover.reading.collecting import nothing_is_garbage
from precover.reviewing.inspecting import fault
from precover.reviewing.opening import OpenPlan
from precover.reviewing.review import Line, Review
from precover.reviewing.supposing import suppose
from precover.rulebook import Look, Missing, Outcome, PackUnreadable, Rule, Rulebook
from precover.rulebook.book import DEFAULT_PACK, Library
from precover.tracing import Trace
from precover.tracing.around import stop_of


def review(opened: OpenPlan, library: Library, packs: tuple[str, ...] = ()) -> Review:
    """The review of a plan under the packs given, else those it names, else the default pack; PackUnreadable if one
    of them is not there or cannot be read. A pack file that the plan names lies in the plan's folder or below it. A rule
    that fails is noted in the review's `failures`, and costs only itself."""
    book = book_for(opened, library, packs)
    with nothing_is_garbage():
        ran, faults = run_rules(opened.trace, book)
    defaulted = not (packs or opened.plan.rules)
    return Review(opened.document, opened.trace, book, defaulted, tuple(ran), (*library.failures, *faults.items()))


def book_for(opened: OpenPlan, library: Library, packs: tuple[str, ...] = ()) -> Rulebook:
    """The rulebook that a plan is reviewed by, as `review` chooses it; the same object as long as nothing in it changes."""
    named = packs or opened.plan.rules or (DEFAULT_PACK,)
    return library.book(named, None if packs else folder_of(opened.document))


def folder_of(document: Document) -> Path:
    """The folder that pack files named in a plan lie in: that of the plan's file."""
    return Path(document.source.name).parent


def run_rules(trace: Trace, book: Rulebook, only: frozenset[str] | None = None) -> tuple[list[Line], dict[str, str]]:
    """Every rule on every subject it looks at (with `only`, on those at these stops of the plan and on the plan and the
    site themselves), and the rules that failed: id and reason."""
    look = Look(trace, book.tables)
    ran: list[Line] = []
    faults: dict[str, str] = {}
    for subject in trace.subjects():
        place = subject.place
        if only is not None and place.count("/") > 1 and stop_of(place) not in only:
            continue
        for rule in book.about(type(subject))[0]:
            try:
                ran.append(_line(rule, subject, place, look))
            except PackUnreadable:
                raise
            except Exception as problem:  # a rule, perhaps a third party's, may fail in any way
                faults.setdefault(rule.id, fault(place, problem))
    return ran, faults


def _line(rule: Rule, subject: object, place: str, look: Look) -> Line:
    look.begin()
    try:
        answer = rule.check(subject, look)
    except Missing as missing:
        answer = suppose(rule, subject, look, missing.fact)
    if answer.outcome is _DOES_NOT_APPLY or answer.outcome is _CANNOT_TELL:
        # Without a derivation: what was noted on the way belongs to values that were only tried.
        return Line(rule, place, answer)
    return Line(rule, place, answer, tuple(look.steps), tuple(look.cells))


_DOES_NOT_APPLY, _CANNOT_TELL = Outcome.DOES_NOT_APPLY, Outcome.CANNOT_TELL
