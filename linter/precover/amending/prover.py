"""Proves ways out: an edit is applied, the plan reviewed again, and the edit kept only if the finding is gone and nothing
as bad has come."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Any, Final

from precover.amending.patch import Patch, PatchError, applied, complete
from precover.amending.way import Mark, Way, mark
from precover.reading import PlanUnreadable
from precover.reviewing import Finding, OpenPlan, Review, open_data
from precover.reviewing.again import review_again
from precover.rulebook import Outcome, Proposal, Severity

MOST_EDITS: Final = 3
"""Edits that are combined to settle one finding."""

MOST_FINDINGS: Final = 60
"""Findings of one plan for which a way out is looked for, one by one."""

MOST_TRIES: Final = 40
"""Reviews spent on one finding."""


class Prover:
    """Tries edits of one plan, whose review is `of`. What was tried once is not tried again."""

    def __init__(self, opened: OpenPlan, of: Review) -> None:
        self.document = opened.document
        self.of = of
        self.data: Any = opened.document.data
        self.marks = frozenset(mark(finding) for finding in of.wanting)
        self._tried: dict[str, Review | None] = {}
        self.reviews = 0

    def after(
        self,
        patch: Sequence[dict[str, Any]],
        before: Review | None = None,
        edit: Sequence[dict[str, Any]] | None = None,
    ) -> Review | None:
        """The review of the plan with a patch applied; None where the patch does not fit or leaves no readable plan.

        Where the patch is an `edit` on top of what the review `before` is of, only what the edit touches is reviewed.
        """
        key = repr(patch)
        if key not in self._tried:
            self._tried[key] = self._review(patch, before or self.of, patch if edit is None else edit)
        return self._tried[key]

    def after_edits(self, proposals: Sequence[Proposal]) -> Review | None:
        """The review of the plan with proposals taken; None where they do not fit."""
        patch = self.as_one(proposals)
        return None if patch is None else self.after(patch)

    def as_one(self, proposals: Sequence[Proposal]) -> Patch | None:
        """The edits of proposals as one patch; None where they do not fit, as where one takes away what another needs."""
        try:
            return complete(self.data, [step for proposal in proposals for step in proposal.patch])
        except (PatchError, LookupError, ValueError):
            return None

    def whole(self, patch: Sequence[dict[str, Any]]) -> Review | None:
        """The review of the whole plan with a patch applied: the last word on what is offered."""
        self.reviews += 1
        try:
            edited = open_data(self.document, applied(self.data, patch))
        except (PatchError, PlanUnreadable):
            return None
        return review_again(self.of, edited, [""])

    def _review(self, patch: Sequence[dict[str, Any]], before: Review, edit: Sequence[dict[str, Any]]) -> Review | None:
        self.reviews += 1
        try:
            edited = open_data(self.document, applied(self.data, patch))
        except (PatchError, PlanUnreadable):
            return None
        return review_again(before, edited, [step["path"] for step in edit])

    def proves(self, finding: Finding, proposals: Sequence[Proposal], before: frozenset[Mark]) -> Way | None:
        """The way out that a set of edits is, if the finding is gone and nothing at or above its severity came."""
        patch = self.as_one(proposals)
        if patch is None:
            return None
        after = self.after(patch)
        if after is None or any(mark(left) == mark(finding) for left in after.wanting):
            return None
        came = tuple(new for new in after.wanting if mark(new) not in before)
        if any(new.severity >= finding.severity for new in came):
            return None
        return Way(tuple(proposals), patch, came)


def ways_out(of: Review, opened: OpenPlan, *, trades: bool = False) -> dict[Mark, Way]:
    """The best proved way out of every finding that is not met and has one.

    A way that brings lesser findings is left out unless `trades` is asked for. In a plan with more findings than
    MOST_FINDINGS the first ones, in the order of the walk, are served.
    """
    prover = Prover(opened, of)
    found: dict[Mark, Way] = {}
    wanting = [finding for finding in of.findings if finding.line.answer.outcome is Outcome.NOT_MET]
    for finding in wanting[:MOST_FINDINGS]:
        way = way_out(finding, prover, trades=trades)
        if way is not None:
            found[mark(finding)] = way
    return found


def way_out(finding: Finding, prover: Prover, *, trades: bool = False) -> Way | None:
    """The best proved way out of one finding of the review that the prover tries edits of."""
    if finding.line.answer.outcome is not Outcome.NOT_MET or not finding.line.answer.proposals:
        return None
    return _best(finding, prover, prover.marks, trades)


def _best(finding: Finding, prover: Prover, before: frozenset[Mark], trades: bool) -> Way | None:
    proposals = finding.line.answer.proposals
    for tries, chosen in enumerate(sets_of(proposals)):
        if tries >= MOST_TRIES:
            return None
        way = prover.proves(finding, chosen, before)
        if way is not None and (trades or not _troublesome(way)):
            return way
    chains = (_followed(finding, (first,), prover, before, MOST_EDITS - 1) for first in proposals)
    return next((way for way in chains if way is not None), None)


def _followed(
    finding: Finding, chosen: tuple[Proposal, ...], prover: Prover, before: frozenset[Mark], more: int
) -> Way | None:
    """An edit that settles the finding, with the edits that settle what it brings (a larger breaker, and then the wire
    for it): at most `more` of them."""
    way = prover.proves(finding, chosen, before)
    if way is not None:
        return None if _troublesome(way) else way
    after = prover.after_edits(chosen) if more else None
    if after is None or any(mark(left) == mark(finding) for left in after.wanting):
        return None
    came = [new for new in after.findings if mark(new) not in before and new.severity >= finding.severity]
    ways = (
        _followed(finding, (*chosen, next_), prover, before, more - 1) for next_ in came[0].line.answer.proposals[:3]
    )
    return next((way for way in ways if way is not None), None)


def _troublesome(way: Way) -> bool:
    return any(finding.severity > Severity.ADVICE for finding in way.brings)


def sets_of(proposals: tuple[Proposal, ...]) -> Iterator[tuple[Proposal, ...]]:
    """Sets of edits to try: the smallest first, and among these the least effort first."""
    for size in range(1, MOST_EDITS + 1):
        yield from sorted(combinations(proposals, size), key=lambda chosen: sum(proposal.effort for proposal in chosen))
