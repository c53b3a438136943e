"""The SARIF form: one log (OASIS SARIF 2.1.0) with one run for all plans of a call. Pure ASCII, the same bytes for the
same reviews."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Sequence
from typing import Any, Final

from precover.amending.way import Proved
from precover.reading import Located
from precover.reviewing import Line, Review
from precover.rulebook import Outcome, Severity
from precover.rulebook.packs.weighing import Direction
from precover.showing.as_json import dumped
from precover.showing.cautions import CAUTIONS
from precover.showing.in_force import in_words, required_by_record
from precover.showing.record import cell_record
from precover.showing.sarif_fixes import fixes
from precover.showing.sarif_places import NEWLINES, located, location, message, uri_of
from precover.showing.sarif_rules import LEVELS, descriptors
from precover.showing.sentences import sentence, where
from precover.showing.tool import NAME, version

SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_KINDS: Final = {Outcome.MET: "pass", Outcome.DOES_NOT_APPLY: "notApplicable"}


def sarif_log(proved: Sequence[Proved], unreadable: Sequence[Sequence[Located]], *, ledger: bool = False) -> str:
    """The log of reviews, and of the files that could not be read. With `ledger` also what is met or does not apply."""
    reviews = [made.review for made in proved]
    lines = [(made, line, severity) for made in proved for line, severity in _lines(made.review, ledger)]
    rules = {line.rule.id: (made.review, line.rule) for made, line, _ in lines}
    described = descriptors(rules[name] for name in sorted(rules))
    index = {rule["id"]: number for number, rule in enumerate(described)}
    driver = {
        "name": NAME,
        "version": version(),
        "semanticVersion": version(),
        "fullDescription": {"text": " ".join(CAUTIONS)},
        "rules": described,
    }
    run = {
        "tool": {"driver": driver},
        "columnKind": "utf16CodeUnits",
        "newlineSequences": list(NEWLINES),
        "artifacts": [
            {"location": {"uri": uri_of(file)}, "roles": ["analysisTarget"], "mimeType": "application/yaml"}
            for file in _files(reviews, unreadable)
        ],
        "invocations": [_invocation(reviews, unreadable)],
        "results": [_result(made, line, severity, index) for made, line, severity in lines],
    }
    return dumped({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]})


def _lines(review: Review, ledger: bool) -> Iterable[tuple[Line, Severity | None]]:
    for finding in review.findings:
        yield finding.line, finding.severity
    if ledger:
        for line in review.ledger:
            if line.answer.outcome in _KINDS:
                yield line, None


def _result(made: Proved, line: Line, severity: Severity | None, index: dict[str, int]) -> dict[str, Any]:
    review, answer = made.review, line.answer
    name = f"{review.document.source.name}\n{line.rule.id}\n{line.subject}\n{line.place}"
    result: dict[str, Any] = {
        "ruleId": line.rule.id,
        "ruleIndex": index[line.rule.id],
        "level": LEVELS[severity] if severity is not None else "none",
        "kind": _KINDS.get(answer.outcome, "fail"),
        "message": message(f"{where(review, line.place)}: {sentence(line)}"),
        "locations": [location(review, line.place)],
        "partialFingerprints": {"ruleAndPlace/v1": hashlib.sha256(os.fsencode(name)).hexdigest()[:32]},
        "properties": {
            "answer": answer.outcome.value,
            "severity": severity.word if severity is not None else "none",
            "limits": [cell_record(cell) for cell in dict.fromkeys(line.cells)],
            "waysOut": [way.words for way in answer.proposals],
            **required_by_record(line.rule),
        },
    }
    steps = [(step, place) for step, place in line.steps if place is not None]
    if steps:
        result["relatedLocations"] = [
            location(review, place) | {"id": number, "message": message(step)}
            for number, (step, place) in enumerate(steps, 1)
        ]
    way = made.ways.get((line.rule.id, line.subject)) if severity is not None else None
    if way is not None:
        result["fixes"] = fixes(review, way)
    return result


def _said_of_packs(reviews: Sequence[Review]) -> Iterable[str]:
    """What the packs of a review ask less than the edition, and what two of them set."""
    for review in reviews:
        for effect in review.book.effects:
            if effect.direction is Direction.LOOSENS:
                yield f"rule pack {effect.pack} asks less than the edition: {in_words(effect)}"
        for one in review.book.conflicts:
            yield f"rule packs {one.first} and {one.last} both set {one.what}; {one.last} has its way"


def _files(reviews: Sequence[Review], unreadable: Sequence[Sequence[Located]]) -> list[str]:
    names = [review.document.source.name for review in reviews]
    return list(dict.fromkeys([*names, *(problem.file for problems in unreadable for problem in problems)]))


def _invocation(reviews: Sequence[Review], unreadable: Sequence[Sequence[Located]]) -> dict[str, Any]:
    failures = dict.fromkeys(failure for review in reviews for failure in review.failures)
    return {
        "executionSuccessful": not unreadable and not failures,
        "toolExecutionNotifications": [
            {
                "level": "error",
                "message": message(f"{problem.message}; {problem.hint}"),
                "locations": [located(problem)],
            }
            for problems in unreadable
            for problem in problems
        ],
        "toolConfigurationNotifications": [
            {"level": "error", "message": message(f"rules of plugin {name} did not run: {reason}")}
            for name, reason in failures
        ]
        + [{"level": "note", "message": message(words)} for words in dict.fromkeys(_said_of_packs(reviews))],
    }
