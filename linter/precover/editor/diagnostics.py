"""What an editor underlines: findings, queries, and what keeps a text from being read."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

import attrs
from lsprotocol import types

from precover.amending.way import Mark, mark
from precover.editor.moving import Moved
from precover.editor.positions import Positions
from precover.editor.texts import OpenText, Reviewed
from precover.reading import Located
from precover.reviewing import Finding, Review
from precover.rulebook import Severity, Topic
from precover.showing.asking import Query, to_settle
from precover.showing.sentences import deciding, provenance, sentence, where
from precover.showing.tool import NAME
from precover.showing.visible import visible

LEVELS: Final = {
    Severity.DANGER: types.DiagnosticSeverity.Error,
    Severity.CORRECTION: types.DiagnosticSeverity.Error,
    Severity.QUERY: types.DiagnosticSeverity.Warning,
    Severity.ADVICE: types.DiagnosticSeverity.Information,
}
_TOKEN: Final = re.compile(r"[^\s,\]}]+")


class Marked(NamedTuple):
    """A diagnostic, and the findings that it stands for."""

    diagnostic: types.Diagnostic
    marks: frozenset[Mark]


def diagnostics(text: OpenText) -> list[types.Diagnostic]:
    """Everything that is to be said of a text as the editor shows it. While it cannot be reviewed: why not, and what was
    found before, where it now stands."""
    found = [of_problem(problem, text.positions) for problem in text.problems]
    if text.last is None:
        return found
    before = [one.diagnostic for one in of_review(text.last, text.uri)]
    if text.now is None:
        moved = Moved(text.last.positions.text, text.positions.text)
        before = [attrs.evolve(one, range=moved.range(one.range), related_information=None) for one in before]
    return found + before


def of_problem(problem: Located, positions: Positions) -> types.Diagnostic:
    """A problem of a text: from where it is to the end of the word."""
    start = positions.start_of(problem.line, problem.column)
    token = _TOKEN.match(positions.text, start)
    return types.Diagnostic(
        range=positions.span(start, token.end() if token else start),
        message=visible(f"{problem.message}; {problem.hint}"),
        severity=types.DiagnosticSeverity.Error,
        source=NAME,
    )


def of_review(made: Reviewed, uri: str) -> list[Marked]:
    """What a review found, in the order of the walk, and the checks that could not be made."""
    review, positions = made.review, made.positions
    return [
        *(Marked(_of_failure(name, reason), frozenset()) for name, reason in review.faults),
        *(
            _of_query(review, item, positions) if isinstance(item, Query) else _of_finding(review, item, positions, uri)
            for item in to_settle(review)
        ),
    ]


def range_of(review: Review, place: str, positions: Positions) -> types.Range:
    """The range to mark for a place: of what goes over several lines, its key, or its first line."""
    at = review.document.range(place)
    if at.end_line > at.line:
        at = review.document.range(place, key=True)
    if at.end_line > at.line:
        start = positions.start_of(at.line, at.column)
        return types.Range(positions.position(start), positions.line_end(positions.position(start).line))
    return positions.range(at)


def _of_finding(review: Review, finding: Finding, positions: Positions, uri: str) -> Marked:
    line = finding.line
    says = [f"{finding.severity.word}: {where(review, line.place)}: {sentence(line)}"]
    says += [f"because {step}" for step, _ in line.steps]
    says += [f"limit: {provenance(cell)}" for cell in deciding(line)]
    locators = review.book.look_up(line.rule, line.answer.rows)
    if locators:
        says.append(f"look up: {'; '.join(locators)} ({review.book.edition} edition)")
    related = [
        types.DiagnosticRelatedInformation(types.Location(uri, range_of(review, place, positions)), visible(step))
        for step, place in line.steps
        if place is not None
    ]
    return Marked(
        _diagnostic(review, line.rule.topic, finding.severity, range_of(review, line.place, positions), says, related),
        frozenset({mark(finding)}),
    )


def _of_query(review: Review, query: Query, positions: Positions) -> Marked:
    thing = query.place.rpartition("/")[0]
    asks = dict.fromkeys(finding.line.rule.asks for finding in query.findings)
    says = [
        f"{query.severity.word}: {where(review, thing)}: {query.title.lower()} is not stated",
        str(query.field.get("description", "")),
        f"state it as {query.written}",
        *(f"needed for: {rule}" for rule in asks),
    ]
    at = range_of(review, query.place, positions)
    marks = frozenset(mark(finding) for finding in query.findings)
    return Marked(_diagnostic(review, query.topics[0], query.severity, at, says, []), marks)


def _of_failure(name: str, reason: str) -> types.Diagnostic:
    says = f"a check could not be made: {name} {reason}"
    first = types.Position(0, 0)
    return types.Diagnostic(
        range=types.Range(first, first), message=visible(says), severity=types.DiagnosticSeverity.Warning, source=NAME
    )


def _diagnostic(
    review: Review,
    topic: str,
    severity: Severity,
    at: types.Range,
    says: Sequence[str],
    related: list[types.DiagnosticRelatedInformation],
) -> types.Diagnostic:
    return types.Diagnostic(
        range=at,
        message="\n".join(visible(line) for line in says if line),
        severity=LEVELS[severity],
        code=topic,
        code_description=next(_documents(review.book.topics.get(topic)), None),
        source=NAME,
        related_information=related or None,
    )


def _documents(topic: Topic | None) -> Iterator[types.CodeDescription]:
    """The topic's document, where it is a file that an editor can open."""
    if topic is not None and topic.document.is_absolute() and topic.document.is_file():
        yield types.CodeDescription(topic.document.as_uri())
