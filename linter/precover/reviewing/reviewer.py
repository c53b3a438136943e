"""Runs every rule over every subject it looks at."""

from __future__ import annotations

from precover.reviewing.opening import OpenPlan
from precover.reviewing.review import Line, Review, ToInspect
from precover.reviewing.supposing import suppose
from precover.rulebook import Inspection, Look, Missing, Outcome, Rule
from precover.rulebook.book import DEFAULT_PACK, Library


def review(opened: OpenPlan, library: Library, packs: tuple[str, ...] = ()) -> Review:
    """The review of a plan under the packs given, else those it names, else the default pack; PackUnreadable if one
    of them is not there."""
    named = packs or opened.plan.rules or ()
    book = library.book(named or (DEFAULT_PACK,))
    look = Look(opened.trace, book.tables)
    ran: list[Line] = []
    inspect: list[ToInspect] = []
    for subject in opened.trace.subjects():
        rules, inspections = book.about(type(subject))
        place = subject.place
        for rule in rules:
            ran.append(_line(rule, subject, place, look))
        for item in inspections:
            says = _says(item, subject, look)
            if says is not None:
                inspect.append(ToInspect(item, place, says))
    return Review(opened.document, opened.trace, book, not named, tuple(ran), tuple(inspect), library.failures)


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


def _says(item: Inspection, subject: object, look: Look) -> str | None:
    """What is to be looked at; where that hangs on a fact the plan leaves out, the inspector looks at it."""
    look.begin()
    try:
        return item.says(subject, look)
    except Missing as missing:
        probes = missing.fact.fact.probes()
        for value in probes:
            look.supposed[missing.fact.place] = value
            try:
                says = _says(item, subject, look)
            finally:
                del look.supposed[missing.fact.place]
            if says is not None:
                return says
        return None
