"""Proved ways out as SARIF fixes: the stretch of text that changes, and what stands there then."""

from __future__ import annotations

from typing import Any

from precover.amending.rewriting import Unwritable, changed_stretch, rewritten
from precover.amending.way import Way
from precover.reviewing import Review
from precover.showing.sarif_places import message, span, uri_of


def fixes(review: Review, way: Way) -> list[dict[str, Any]]:
    """The way out as one fix; none where the text cannot be edited in place."""
    before = review.document.source.text
    try:
        after = rewritten(review.document, way.patch)
    except Unwritable:
        return []
    start, end, inserted = changed_stretch(before, after)
    replacement = {"deletedRegion": span(before, start, end), "insertedContent": {"text": inserted}}
    change = {"artifactLocation": {"uri": uri_of(review.document.source.name)}, "replacements": [replacement]}
    return [{"description": message(way.words), "artifactChanges": [change]}]
