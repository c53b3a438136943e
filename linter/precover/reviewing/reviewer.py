"""Runs every rule over every subject it looks at."""

from collections.abc import Sequence
from pathlib import Path

from precover.reading import Document
from precover.reading.collecting import nothing_is_garbage
from precover.reviewing.inspecting import fault
from precover.reviewing.opening import OpenPlan
from precover.reviewing.review import Line, Ran, Review
from precover.reviewing.supposing import suppose
from precover.rulebook import Look, Missing, Outcome, PackUnreadable, Rule, Rulebook
from precover.rulebook.book import DEFAULT_PACK, Library, is_path
from precover.rulebook.look import Noted
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
    if packs:
        return library.book(packs)
    named = opened.plan.rules or (DEFAULT_PACK,)
    return library.book(named, folder_of(opened.document) if any(map(is_path, named)) else None)


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
        asked: dict[Condition, str] = {}
        noted: dict[Condition, Noted] = {}
        for unless, rules in book.about(type(subject))[0]:
            for condition in unless:
                why = asked.get(condition)
                if why is None:
                    why = asked[condition] = _ask(condition, subject, look, noted)
                if why:
                    if why is _CANNOT_SAY:
                        _run(rules, subject, place, look, ran)
                    else:
                        ran.passed_over.append((rules, place, why))
                    break
            else:
                before = [noted[one] for one in unless if one in noted] if noted else ()
                _run(rules, subject, place, look, ran, before)
    return ran


_CANNOT_SAY = "cannot say"


def _ask(condition: Condition, subject: object, look: Look, noted: dict[Condition, Noted]) -> str:
    """What a condition says of a subject; _CANNOT_SAY where it meets a fact that is not stated, or fails: then each of its
    rules has to be asked by itself."""
    try:
        why = condition(subject, look)
    except PackUnreadable:
        raise
    except Exception:  # each of its rules meets it again, and answers for itself
        look.begin()
        return _CANNOT_SAY
    if look.steps or look.cells:
        noted[condition] = look.take()
    return why


def _run(
    rules: tuple[Rule, ...], subject: object, place: str, look: Look, ran: Ran, before: Sequence[Noted] | None = None
) -> None:
    """Run rules on a subject, after conditions that noted `before`; with None, each with its conditions."""
    for rule in rules:
        try:
            if before is None:
                answer = rule.answer(subject, look)
            else:
                for steps, cells in before:
                    look.steps += steps
                    look.cells += cells
                answer = rule.check(subject, look)
        except Missing as missing:
            answer = suppose(rule, subject, look, missing.fact)
        except PackUnreadable:
            raise
        except Exception as problem:  # a rule, perhaps a third party's, may fail in any way
            ran.faults.setdefault(rule.id, fault(place, problem))
            look.begin()
            continue
        steps, cells = look.steps, look.cells
        if not steps and not cells:
            ran.lines.append(_line(Line, (rule, place, answer, (), ())))
            continue
        outcome = answer.outcome
        if outcome is _DOES_NOT_APPLY or outcome is _CANNOT_TELL:
            # Without a derivation: what was noted on the way belongs to values that were only tried.
            line = Line(rule, place, answer)
        elif before:  # what a condition noted, and the rule on its way once more, is told once
            line = Line(rule, place, answer, tuple(dict.fromkeys(steps)), tuple(dict.fromkeys(cells)))
        else:
            line = Line(rule, place, answer, tuple(steps), tuple(cells))
        ran.lines.append(line)
        look.begin()


_line = tuple.__new__
"""Makes a line of all its fields, without the call of the class, which takes as long again."""
_DOES_NOT_APPLY, _CANNOT_TELL = Outcome.DOES_NOT_APPLY, Outcome.CANNOT_TELL
