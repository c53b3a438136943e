"""How far the requirement map is covered, as plain data."""

from __future__ import annotations

from typing import Any

from precover.rulebook import Rulebook
from precover.rulebook.coverage import Covered, State, coverage


def coverage_record(book: Rulebook) -> dict[str, Any]:
    """Every row of the map with its state, by subject, and how many there are of each state.

    `decidable` counts the rows that a plan can decide: all that are neither for the inspector's eyes nor out of scope.
    """
    rows = coverage(book)
    counts = {state.value: sum(row.state is state for row in rows) for state in State}
    subjects = list(dict.fromkeys(covered.row.subject for covered in rows))
    return {
        "packs": [{"id": pack.id, "edition": pack.edition} for pack in book.packs],
        "subjects": [
            {"subject": subject, "rows": [_row(covered) for covered in rows if covered.row.subject == subject]}
            for subject in subjects
        ],
        "counts": counts,
        "decided": counts[State.DECIDED.value],
        "decidable": counts[State.DECIDED.value] + counts[State.OPEN.value],
    }


def _row(covered: Covered) -> dict[str, Any]:
    return {
        "id": covered.row.id,
        "says": covered.row.says,
        "state": covered.state.value,
        "rules": [rule.id for rule in covered.rules],
        "inspections": [{"id": item.id, "stage": item.stage.value} for item in covered.inspections],
        "reason": covered.reason,
    }
