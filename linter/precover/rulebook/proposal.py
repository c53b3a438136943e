"""Ways out that a rule proposes, as edits of the plan."""

from __future__ import annotations

from enum import IntEnum
from typing import Any

from precover.plan import Unstated
from precover.plan.thing import Thing, escaped
from precover.record import Record


class Effort(IntEnum):
    """Rough order of what an edit of the plan costs when it is built, least first."""

    PAPER = 1
    """A statement, a label, a setting."""
    DEEPER = 2
    """A trench a little deeper than planned, which is dug before anything is exchanged."""
    PART = 3
    """Another device, cover or fitting."""
    WIRE = 4
    """Other conductors, or another raceway."""
    DIGGING = 5
    """A deeper or another trench."""


class Proposal(Record):
    """One way out: what it does in words, what it costs, and the edit as a JSON Patch (RFC 6902)."""

    words: str
    effort: Effort
    patch: tuple[dict[str, Any], ...]

    @classmethod
    def state(cls, words: str, effort: Effort, *changes: tuple[Thing | Unstated, str, Any]) -> Proposal:
        """Set facts of things: each change is the thing, the fact's key as the plan writes it, and the new value."""
        return cls(
            words,
            effort,
            tuple(
                {"op": "add", "path": f"{thing.place}/{escaped(key)}", "value": value} for thing, key, value in changes
            ),
        )
