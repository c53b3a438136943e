"""Rules as SARIF describes them: with the document of their topic as help."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any, Final

from precover.reviewing import Review
from precover.rulebook import Rule, Severity, Topic

LEVELS: Final = {
    Severity.DANGER: "error",
    Severity.CORRECTION: "error",
    Severity.QUERY: "warning",
    Severity.ADVICE: "note",
}


def descriptors(rules: Iterable[tuple[Review, Rule]]) -> list[dict[str, Any]]:
    """The reporting descriptors of rules, each with the review that it ran in."""
    return [_descriptor(review, rule) for review, rule in rules]


def _descriptor(review: Review, rule: Rule) -> dict[str, Any]:
    document = _document(review.book.topics[rule.topic])
    return {
        "id": rule.id,
        "name": "".join(word.capitalize() for word in rule.id.rpartition("/")[2].split("-")),
        "shortDescription": {"text": rule.asks},
        "fullDescription": {"text": f"{rule.asks} Looked at: {rule.stage.value}."},
        "help": {"text": document, "markdown": document},
        "defaultConfiguration": {"level": LEVELS[rule.severity]},
        "properties": {
            "topic": rule.topic,
            "severity": rule.severity.word,
            "stage": rule.stage.value,
            "hazard": review.book.hazard(rule),
            "lookUp": list(review.book.look_up(rule)),
            "edition": review.book.edition,
            "requirements": list(rule.rows),
        },
    }


@cache
def _document(topic: Topic) -> str:
    return topic.text()
