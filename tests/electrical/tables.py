"""The tables of the default edition, and published copies of them, for tests."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from precover.rulebook.table import Table
from support.reviews import library

PUBLISHED = Path(__file__).parents[1] / "published"


@cache
def table(name: str) -> Table:
    """A table of the default edition, by the name that rules use."""
    return library().book().tables[name]


def value(name: str, *key: str) -> Any:
    """The typed value of a cell, as a rule reads it."""
    return table(name)[key].value


def limit(name: str) -> Any:
    """The typed value of a named limit."""
    return value("limits", name)


def keys(name: str, *start: str) -> Iterator[tuple[str, ...]]:
    """The keys of a table that begin with `start`, in its order."""
    return (key for key in table(name).cells if key[: len(start)] == start)


def published(name: str) -> list[dict[str, str]]:
    """The rows of a published table."""
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))
