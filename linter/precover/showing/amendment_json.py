"""The JSON form of amendments: patches (RFC 6902) that were tried on the plan."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from precover.amending.amendment import Amendment
from precover.amending.rewriting import why_not
from precover.reviewing import Review
from precover.showing.as_json import dumped
from precover.showing.asking import Query, to_settle
from precover.showing.cautions import CAUTIONS
from precover.showing.changes import changes

FORMAT: Final = "precover-amendments/1"


def amendments_json(review: Review, offered: Sequence[Amendment]) -> str:
    """The document of every amendment offered for one plan."""
    asked = [item for item in to_settle(review) if isinstance(item, Query)]
    return dumped(
        {
            "format": FORMAT,
            "file": review.document.source.name,
            "amendments": [_record(review, amendment) for amendment in offered],
            "to_state": [{"pointer": query.place, "written": query.written} for query in asked],
            "cautions": list(CAUTIONS),
        }
    )


def _record(review: Review, amendment: Amendment) -> dict[str, Any]:
    return {
        "name": amendment.name,
        "words": list(dict.fromkeys(proposal.words for proposal in amendment.proposals)),
        "efforts": sorted({proposal.effort.name.lower() for proposal in amendment.proposals}),
        "patch": list(amendment.patch),
        "by_hand": why_not(review.document, amendment.patch),
        "changes": [
            {"pointer": change.place, "was": change.was, "becomes": change.becomes}
            for change in changes(review.document, amendment)
        ],
        "left": [{"rule": left.line.rule.id, "subject": left.line.subject} for left in amendment.left],
        "to_state": [{"rule": ask.line.rule.id, "pointer": ask.line.place} for ask in amendment.ask],
    }
