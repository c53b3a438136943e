"""The requirement map: what a reviewer or inspector asks of a small plan, row by row, in our own words."""

from __future__ import annotations

import csv
from pathlib import Path

from precover.record import Record


class Requirement(Record):
    """One row of the map. `locators` has the section number by edition; the text of a code is never quoted."""

    id: str
    subject: str
    says: str
    hazard: str
    locators: dict[str, str]
    source: str
    confidence: str


def read_requirements(path: Path) -> dict[str, Requirement]:
    """The rows of a requirement map by id, from CSV with the columns id, subject, says, hazard, one per edition, source, confidence."""
    with path.open(encoding="utf-8", newline="") as lines:
        return {
            row["id"]: Requirement(
                row["id"],
                row["subject"],
                row["says"],
                row["hazard"],
                {key: value for key, value in row.items() if key.isdecimal() and value},
                row["source"],
                row["confidence"],
            )
            for row in csv.DictReader(lines)
        }
