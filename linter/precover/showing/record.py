"""A review as plain data: what `review.schema.json` describes. Plan text stands in it as it is; JSON escapes it."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from precover.amending.way import Mark, Way, mark
from precover.reviewing import Finding, Line, Review
from precover.rulebook import Cell, Outcome
from precover.rulebook.answer import Shown
from precover.showing.asking import Query, to_settle
from precover.showing.in_force import conflicts_record, packs_record, required_by_record
from precover.showing.sentences import counts, sentence, where
from precover.units import Quantity


def review_record(review: Review, ways: Mapping[Mark, Way], *, ledger: bool = False) -> dict[str, Any]:
    """The data of one review; with `ledger` every check that ran."""
    asked = [item for item in to_settle(review) if isinstance(item, Query)]
    tally = review.tally
    record: dict[str, Any] = {
        "file": review.document.source.name,
        "title": review.trace.plan.title,
        "packs": packs_record(review.book),
        "packs_defaulted": review.rules_defaulted,
        "findings": [_finding(review, finding, ways.get(mark(finding))) for finding in review.findings],
        "queries": [_query(review, query) for query in asked],
        "inspections": [
            {
                "id": entry.item.id,
                "stage": entry.item.stage.value,
                "says": entry.says,
                "place": _place(review, entry.subject),
                "look_up": list(review.book.look_up(entry.item)),
            }
            for entry in review.inspect
        ],
        "tally": {
            "answers": {outcome.value: tally[outcome] for outcome in Outcome},
            "severities": counts(finding.severity for finding in review.findings),
        },
        "failures": [{"plugin": name, "reason": reason} for name, reason in review.failures],
    }
    if review.book.conflicts:
        record["conflicts"] = conflicts_record(review.book)
    if ledger:
        record["ledger"] = [_line(review, line) for line in review.ledger]
    return record


def _finding(review: Review, finding: Finding, way: Way | None) -> dict[str, Any]:
    rule = finding.line.rule
    return {
        "severity": finding.severity.word,
        **_line(review, finding.line),
        "stage": rule.stage.value,
        "checks": rule.asks,
        "hazard": review.book.hazard(rule),
        "look_up": list(review.book.look_up(rule, finding.line.answer.rows)),
        "proposals": [
            {"words": one.words, "effort": one.effort.name.lower(), "patch": list(one.patch)}
            for one in finding.line.answer.proposals
        ],
        "way_out": way_record(way) if way is not None else None,
    }


def way_record(way: Way) -> dict[str, Any]:
    """A way out that was proved: applied to the plan and reviewed again."""
    return {
        "words": way.words,
        "effort": way.effort.name.lower(),
        "patch": list(way.patch),
        "brings": [
            {"severity": new.severity.word, "rule": new.line.rule.id, "subject": new.line.subject} for new in way.brings
        ],
    }


def _line(review: Review, line: Line) -> dict[str, Any]:
    answer = line.answer
    return {
        "rule": line.rule.id,
        "topic": line.rule.topic,
        "answer": answer.outcome.value,
        "says": sentence(line),
        "subject": line.subject,
        "place": _place(review, line.place),
        "of": answer.of,
        "has": shown(answer.has),
        "needs": shown(answer.needs),
        "relation": answer.relation,
        "why": answer.why,
        "steps": [
            {"says": step, "place": _place(review, place) if place is not None else None} for step, place in line.steps
        ],
        "limits": [cell_record(cell) for cell in dict.fromkeys(line.cells)],
        **required_by_record(line.rule),
    }


def _query(review: Review, query: Query) -> dict[str, Any]:
    return {
        "severity": query.severity.word,
        "place": _place(review, query.place),
        "key": query.fact.field,
        "title": query.title,
        "description": str(query.field.get("description", "")),
        "written": query.written,
        "needed_by": [finding.line.rule.id for finding in query.findings],
    }


def _place(review: Review, pointer: str) -> dict[str, Any]:
    at = review.document.range(pointer)
    return {
        "pointer": pointer,
        "words": where(review, pointer),
        "start": {"line": at.line, "column": at.column},
        "end": {"line": at.end_line, "column": at.end_column},
    }


def cell_record(cell: Cell) -> dict[str, Any]:
    """A limit or table value with where it comes from, and what it was before a later pack changed it."""
    return {
        "table": cell.table,
        "key": list(cell.key),
        "value": cell.text,
        "metric": cell.twin_text or None,
        "set_by": cell.set_by,
        "source": cell.source,
        "confidence": cell.confidence,
        "from_memory": cell.from_memory,
        "note": cell.note,
        "was": cell_record(cell.was) if cell.was is not None else None,
    }


def shown(value: Shown) -> dict[str, Any] | None:
    """A measured or needed side: its text, and for a number its amount in the base unit of its dimension."""
    if isinstance(value, Quantity):
        return {"text": str(value), "value": _number(value.amount), "unit": value.base}
    if isinstance(value, int) and not isinstance(value, bool):
        return {"text": str(value), "value": value, "unit": "1"}
    return {"text": str(value)} if str(value) else None


def _number(amount: Fraction) -> int | float:
    return amount.numerator if amount.denominator == 1 else float(amount)
