"""The JSON form: one document for all plans of a call. Pure ASCII, the same bytes for the same reviews."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, Final

from precover.amending.way import Proved
from precover.reading import Located
from precover.showing.cautions import CAUTIONS
from precover.showing.record import review_record
from precover.showing.tool import NAME, version

FORMAT: Final = "precover-review/1"


def review_json(reviews: Sequence[Proved], unreadable: Sequence[Sequence[Located]], *, ledger: bool = False) -> str:
    """The document of reviews, and of the files that could not be read."""
    return dumped(
        {
            "format": FORMAT,
            "tool": {"name": NAME, "version": version()},
            "reviews": [review_record(made.review, made.ways, ledger=ledger) for made in reviews],
            "unreadable": [
                {
                    "file": problems[0].file,
                    "problems": [
                        {"line": one.line, "column": one.column, "message": one.message, "hint": one.hint}
                        for one in problems
                    ],
                }
                for problems in unreadable
            ],
            "cautions": list(CAUTIONS),
        }
    )


def dumped(data: Any) -> str:
    """Plain data as JSON text."""
    return json.dumps(data, indent=2, ensure_ascii=True) + "\n"
