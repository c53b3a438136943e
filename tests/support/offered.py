"""What is offered for a finding, and what the plan is like after it."""

from __future__ import annotations

from typing import Any

from precover.amending.patch import applied, complete
from precover.amending.way import mark
from precover.reviewing import Review
from precover.rulebook import Severity
from support.reviews import reviewed
from support.trenches import line_at


def offered(data: dict[str, Any], rule: str, place: str) -> list[str]:
    """The ways out of the finding of a rule at a place, in words."""
    return [way.words for way in line_at(reviewed(data), rule, place).answer.proposals]


def taken(data: dict[str, Any], rule: str, place: str, words: str) -> dict[str, Any]:
    """The plan with that way out taken."""
    (way,) = [way for way in line_at(reviewed(data), rule, place).answer.proposals if way.words == words]
    return dict(applied(data, complete(data, way.patch)))


def brought(before: Review, after: Review) -> list[str]:
    """The rules and places of what is wanting only after it, but for advice."""
    known = {mark(finding) for finding in before.wanting}
    new = [finding for finding in after.wanting if mark(finding) not in known and finding.severity > Severity.ADVICE]
    return [f"{finding.line.rule.id} at {finding.line.subject}" for finding in new]


def settled(data: dict[str, Any], rule: str, place: str) -> dict[str, list[str]]:
    """For each way out of a finding that settles it: what it brings."""
    before = reviewed(data)
    found: dict[str, list[str]] = {}
    for words in offered(data, rule, place):
        after = reviewed(taken(data, rule, place, words))
        if line_at(after, rule, place).answer.outcome.value in ("met", "does not apply"):
            found[words] = brought(before, after)
    return found
