"""What people call things, and what the plan language calls them: data that hints are made from.

No plan is read by these words: they only lead an author to the ones that a plan knows.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files


def meant(kind: str, said: str) -> tuple[str, ...]:
    """What a person may mean who says this for a `key`, a `word`, a type of `cable` or of `raceway`, the likeliest
    first; empty for a word that is not listed."""
    said = " ".join(said[:40].lower().replace("_", " ").replace("-", " ").split())
    return _listed().get((kind, said), ())


@cache
def _listed() -> dict[tuple[str, str], tuple[str, ...]]:
    with files("precover.reading").joinpath("everyday.csv").open(encoding="utf-8") as lines:
        return {
            (row["kind"], row["said"].replace("-", " ")): tuple(row["meant"].split("|"))
            for row in csv.DictReader(lines)
        }
