"""The JSON form of an impact: what `impact.schema.json` describes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any, Final

from precover.reading import Located
from precover.reviewing.impact import Found, Impact, Moved
from precover.rulebook import Rulebook, Severity
from precover.showing.as_json import dumped
from precover.showing.cautions import CAUTIONS
from precover.showing.tool import NAME, version

FORMAT: Final = "precover-impact/1"


def impact_json(
    books: tuple[Rulebook, Rulebook], rows: Sequence[Impact | tuple[Located, ...]], threshold: Severity
) -> str:
    """The document of all plans, and what they come to together."""
    read = [row for row in rows if isinstance(row, Impact)]
    return dumped(
        {
            "format": FORMAT,
            "tool": {"name": NAME, "version": version()},
            "from": [pack.id for pack in books[0].packs],
            "to": [pack.id for pack in books[1].packs],
            "fail_at": threshold.word,
            "plans": len(rows),
            "newly_fail": sum(row.newly_fails(threshold) for row in read),
            "newly_pass": sum(row.newly_passes(threshold) for row in read),
            "topics": topics(read),
            "moved": moved(read),
            "rows": [_row(row, threshold) for row in rows],
            "cautions": list(CAUTIONS),
        }
    )


def topics(read: Sequence[Impact]) -> list[dict[str, Any]]:
    """Findings gained and lost by topic, and in how many plans; the topics with most first."""
    gained = Counter(found.topic for row in read for found in row.gained)
    lost = Counter(found.topic for row in read for found in row.lost)
    plans = Counter(topic for row in read for topic in {found.topic for found in (*row.gained, *row.lost)})
    order = sorted(plans, key=lambda topic: (-gained[topic] - lost[topic], topic))
    return [{"topic": topic, "gained": gained[topic], "lost": lost[topic], "plans": plans[topic]} for topic in order]


def moved(read: Sequence[Impact]) -> list[dict[str, Any]]:
    """Values that moved, and in how many plans they were measured by."""
    counted: Counter[Moved] = Counter(one for row in read for one in row.moved)
    return [{**_moved(one), "plans": counted[one]} for one in sorted(counted, key=lambda one: (-counted[one], one))]


def _moved(one: Moved) -> dict[str, Any]:
    return {"table": one.table, "key": list(one.key), "was": one.was, "becomes": one.becomes}


def _row(row: Impact | tuple[Located, ...], threshold: Severity) -> dict[str, Any]:
    if not isinstance(row, Impact):
        return {
            "file": row[0].file,
            "state": "unreadable",
            "problems": [
                {"line": one.line, "column": one.column, "message": one.message, "hint": one.hint} for one in row
            ],
        }
    return {
        "file": row.file,
        "state": state(row, threshold),
        "title": row.title,
        "worst_before": row.before.word if row.before is not None else None,
        "worst_after": row.after.word if row.after is not None else None,
        "gained": [_found(found) for found in row.gained],
        "lost": [_found(found) for found in row.lost],
        "moved": [_moved(one) for one in row.moved],
        "failures": [{"plugin": name, "reason": reason} for name, reason in row.failures],
    }


def state(row: Impact, threshold: Severity) -> str:
    """What becomes of a plan, in a word or two."""
    if row.newly_fails(threshold):
        return "newly fails"
    if row.newly_passes(threshold):
        return "newly passes"
    return "other findings" if row.gained or row.lost else "as before"


def _found(found: Found) -> dict[str, Any]:
    return {
        "severity": found.severity.word,
        "rule": found.rule,
        "topic": found.topic,
        "subject": found.subject,
        "answer": found.answer,
    }
