"""Which table cells the plans of the tests reach: `python tests/rules/cells_reached.py [more test paths]`.

Runs the tests of the rules and notes every cell that a review looks up, then lists those cells that rules may read but no
plan of the tests made them read. A report, not a gate: many cells of a large table are read the same way, and the values
themselves are compared with what was published elsewhere.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

import pytest

from precover.rulebook import Cell, Look, Rulebook, gather
from precover.showing.reads import cells_read

TESTS = Path(__file__).resolve().parents[1]
PLACES = (TESTS / "rules", TESTS / "golden", TESTS / "reviewing")
Place = tuple[str, tuple[str, ...]]
"""A table and a key."""


class Noting:
    """Notes every cell that a rule looks up while the tests run."""

    def __init__(self) -> None:
        self.reached: Counter[Place] = Counter()

    def pytest_configure(self) -> None:
        """Stand between the rules and their tables."""
        looked_up = Look.cell

        def cell(look: Look, table: str, *key: str) -> Cell:
            found = looked_up(look, table, *key)
            self.reached[found.table, found.key] += 1
            return found

        Look.cell = cell  # type: ignore[method-assign]


def read_by_rules(book: Rulebook) -> set[Place]:
    """Every cell that a rule or an inspection may read."""
    return {(cell.table, cell.key) for topic in book.topics.values() for cell in cells_read(topic, book)}


def main() -> int:
    """Run and report; the exit status is that of the tests."""
    noting = Noting()
    places = [*map(str, PLACES), *sys.argv[1:]]
    status = pytest.main(["-q", "-p", "no:cacheprovider", "--no-header", *places], plugins=[noting])
    book = gather().book()
    may_read = read_by_rules(book)
    print()
    for name, table in book.tables.items():
        inside = [(name, key) for key in table.cells if (name, key) in may_read]
        missed = [key for place, key in inside if (place, key) not in noting.reached]
        beside = sum(table_read == name and (name, key) not in may_read for table_read, key in noting.reached)
        print(
            f"{name}: {len(inside) - len(missed)} of {len(inside)} cells that rules may read, {len(table.cells)} in all"
        )
        if beside:
            print(f"  {beside} more were read than the topics show")
        for key in missed:
            print(f"  not reached: {' / '.join(key)}")
    reached = len(may_read & noting.reached.keys())
    print(f"{reached} of {len(may_read)} cells that rules may read were reached")
    return int(status)


if __name__ == "__main__":
    sys.exit(main())
