"""The lines form: one line a finding, in the error-line form of the GNU coding standards, for editors and scripts.

`file:line.column-line.column: severity: place: sentence (topic)`, columns counted from 1, the last one included.
"""

from __future__ import annotations

from collections.abc import Sequence

from precover.reading import Document, Located
from precover.reviewing import Review
from precover.rulebook import Outcome
from precover.showing.asking import Query, to_settle
from precover.showing.sentences import sentence, where
from precover.showing.visible import visible


def review_lines(review: Review, *, ledger: bool = False) -> list[str]:
    """The lines of a review; with `ledger` also one for each check that found nothing."""
    document = review.document
    lines = [
        f"{document.source.name}: rules of plugin {name} did not run: {reason}" for name, reason in review.failures
    ]
    for item in to_settle(review):
        if isinstance(item, Query):
            said = f"{item.fact.field} is not stated; needed for {', '.join(item.topics)}"
            lines.append(_line(review, item.place, item.severity.word, said))
        else:
            said = f"{sentence(item.line)} ({item.line.rule.topic})"
            lines.append(_line(review, item.line.place, item.severity.word, said))
    if ledger:
        lines += [
            _line(review, line.place, line.answer.outcome.value, f"{sentence(line)} ({line.rule.id})")
            for line in review.ledger
            if line.answer.outcome in (Outcome.MET, Outcome.DOES_NOT_APPLY)
        ]
    return [visible(line) for line in lines]


def problem_lines(problems: Sequence[Located]) -> list[str]:
    """What keeps a file from being read, a line for each problem, with what to do."""
    return [visible(f"{_start(problem)}: {problem.message}; {problem.hint}") for problem in problems]


def _line(review: Review, place: str, word: str, said: str) -> str:
    return f"{review.document.source.name}:{_span(review.document, place)}: {word}: {where(review, place)}: {said}"


def _span(document: Document, place: str) -> str:
    at = document.range(place)
    last = max(at.end_column - 1, 1 if at.end_line > at.line else at.column)
    return f"{at.line}.{at.column}-{at.end_line}.{last}"


def _start(problem: Located) -> str:
    return f"{problem.file}:{problem.line}:{problem.column}" if problem.line else problem.file
