"""What another set of rules would change for a plan: its findings under both, and the numbers that moved."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from precover.reviewing.review import Review
from precover.rulebook import Severity


class Found(NamedTuple):
    """A finding as far as two reviews of one plan can be compared by it."""

    severity: Severity
    rule: str
    subject: str
    answer: str

    @property
    def topic(self) -> str:
        """Id of the rule's topic."""
        return self.rule.rpartition("/")[0]


class Moved(NamedTuple):
    """A value that a plan was measured by under both sets of rules, and that is not the same."""

    table: str
    key: tuple[str, ...]
    was: str
    becomes: str


class Impact(NamedTuple):
    """One plan under two sets of rules. `before` and `after` are the worst severities found, None for no finding."""

    file: str
    title: str
    before: Severity | None
    after: Severity | None
    gained: tuple[Found, ...]
    lost: tuple[Found, ...]
    moved: tuple[Moved, ...]
    failures: tuple[tuple[str, str], ...]

    def newly_fails(self, threshold: Severity) -> bool:
        """Whether only the new rules find something as bad as the threshold."""
        return _at_least(self.after, threshold) and not _at_least(self.before, threshold)

    def newly_passes(self, threshold: Severity) -> bool:
        """Whether only the old rules find something as bad as the threshold."""
        return _at_least(self.before, threshold) and not _at_least(self.after, threshold)


def impact(before: Review, after: Review) -> Impact:
    """What becomes of a plan when it is reviewed by other rules."""
    was, now = _found(before), _found(after)
    return Impact(
        before.document.source.name,
        before.trace.plan.title or "",
        before.worst(),
        after.worst(),
        tuple(sorted(now - was)),
        tuple(sorted(was - now)),
        tuple(sorted(_moved(before, after))),
        tuple(dict.fromkeys((*before.failures, *after.failures))),
    )


def _found(review: Review) -> frozenset[Found]:
    return frozenset(
        Found(one.severity, one.line.rule.id, one.line.subject, one.line.answer.outcome.value) for one in review.wanting
    )


def _moved(before: Review, after: Review) -> Iterable[Moved]:
    was, now = _values(before), _values(after)
    return (Moved(*name, text, now[name]) for name, text in was.items() if now.get(name, text) != text)


def _values(review: Review) -> dict[tuple[str, tuple[str, ...]], str]:
    """The values that the checks which apply have read."""
    return {(cell.table, cell.key): cell.text for line in review.told for cell in line.cells}


def _at_least(worst: Severity | None, threshold: Severity) -> bool:
    return worst is not None and worst >= threshold
