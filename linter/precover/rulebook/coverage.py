"""How far the requirement map is covered: each row is decided, looked at on site, out of scope, or still open."""

from __future__ import annotations

import csv
import difflib
from collections import defaultdict
from collections.abc import Mapping
from enum import Enum
from pathlib import Path
from typing import NamedTuple, TypeVar

from precover.rulebook.book import Rulebook
from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.requirement import Requirement
from precover.rulebook.rule import Inspection, Rule

Part = TypeVar("Part", Rule, Inspection)


class State(Enum):
    """What becomes of a row."""

    DECIDED = "decided by a rule"
    INSPECTED = "on the inspection list"
    LEFT_OUT = "out of scope"
    OPEN = "not yet covered"


class Covered(NamedTuple):
    """A row with its state. What a rule decides may be on the inspection list as well. `reason` is why it is out of scope."""

    row: Requirement
    state: State
    rules: tuple[Rule, ...]
    inspections: tuple[Inspection, ...]
    reason: str


def coverage(book: Rulebook) -> tuple[Covered, ...]:
    """Every row of the map in its order; PackUnreadable where the rows out of scope cannot be right."""
    rules, inspections = _by_row(book.rules), _by_row(book.inspections)
    reasons = {name: reason for layer in book.layers for name, reason in _left_out(layer.pack, book).items()}
    return tuple(
        _covered(row, rules.get(name, ()), inspections.get(name, ()), reasons.get(name, ""))
        for name, row in book.requirements.items()
    )


def _covered(row: Requirement, rules: tuple[Rule, ...], inspections: tuple[Inspection, ...], reason: str) -> Covered:
    if rules:
        state = State.DECIDED
    elif inspections:
        state = State.INSPECTED
    else:
        state = State.LEFT_OUT if reason else State.OPEN
    return Covered(row, state, rules, inspections, reason)


def _by_row(parts: tuple[Part, ...]) -> Mapping[str, tuple[Part, ...]]:
    found: dict[str, tuple[Part, ...]] = defaultdict(tuple)
    for part in parts:
        for row in part.rows:
            found[row] += (part,)
    return found


def _left_out(pack: Pack, book: Rulebook) -> dict[str, str]:
    """Why rows are out of scope, by row. No rule names such a row, or one of the two is wrong."""
    if pack.out_of_scope is None:
        return {}
    reasons = _read(pack.out_of_scope, pack.id)
    parts: tuple[Rule | Inspection, ...] = (*book.rules, *book.inspections)
    named = {row: part.id for part in parts for row in part.rows}
    for name in reasons:
        if name not in book.requirements:
            near = difflib.get_close_matches(name, list(book.requirements), n=1, cutoff=0.5)
            hint = f"did you mean `{near[0]}`?" if near else "name a row of the requirement map"
            raise PackUnreadable(f"pack `{pack.id}` says that `{name}` is out of scope, which is no requirement", hint)
        if name in named:
            raise PackUnreadable(
                f"pack `{pack.id}` says that `{name}` is out of scope, but {named[name]} covers it",
                f"take it out of {pack.out_of_scope.name}",
            )
    return reasons


def _read(path: Path, pack: str) -> dict[str, str]:
    """The columns id and reason of a CSV file."""
    found: dict[str, str] = {}
    with path.open(encoding="utf-8", newline="") as lines:
        rows = csv.reader(lines)
        if next(rows, None) != ["id", "reason"]:
            raise PackUnreadable(f"pack `{pack}`: {path.name}:1: the columns are not id, reason", "correct the file")
        for row in rows:
            at = f"pack `{pack}`: {path.name}:{rows.line_num}"
            if len(row) != 2 or not all(part.strip() for part in row):
                raise PackUnreadable(f"{at}: not a row and its reason", "correct the file")
            if row[0] in found:
                raise PackUnreadable(f"{at}: `{row[0]}` stands here twice", "name a row once")
            found[row[0]] = row[1]
    return found
