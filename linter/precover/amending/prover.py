"""Proves ways out: an edit is applied, the plan reviewed again, and the edit kept only if the finding is gone and nothing
as bad has come."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations
from typing import Any, Final, NamedTuple

from precover.amending.patch import Patch, PatchError, applied, complete
from precover.reading import PlanUnreadable
from precover.reviewing import Finding, OpenPlan, Review, open_data, review
from precover.rulebook import Effort, Outcome, Proposal, Severity
from precover.rulebook.book import Library

MOST_EDITS: Final = 3
"""Edits that are combined to settle one finding."""

MOST_TRIES: Final = 40
"""Reviews spent on one finding."""

Mark = tuple[str, str]
"""A finding as it is known again in another review: its rule and the place of its subject."""


class Way(NamedTuple):
    """A proved way out of one finding. `brings` are lesser findings that it brings with it."""

    proposals: tuple[Proposal, ...]
    patch: Patch
    brings: tuple[Finding, ...] = ()

    @property
    def words(self) -> str:
        """What is done, in one line."""
        return " and ".join(dict.fromkeys(proposal.words for proposal in self.proposals))

    @property
    def effort(self) -> Effort:
        """The hardest of its edits."""
        return max(proposal.effort for proposal in self.proposals)


class Proved(NamedTuple):
    """A review with the proved way out of each finding that has one."""

    review: Review
    ways: Mapping[Mark, Way]


def mark(finding: Finding) -> Mark:
    """What a finding is known by from one review to the next."""
    return finding.line.rule.id, finding.line.subject


class Prover:
    """Tries edits of one plan. What was reviewed once is not reviewed again."""

    def __init__(self, opened: OpenPlan, library: Library, packs: tuple[str, ...] = ()) -> None:
        self.opened = opened
        self.library = library
        self.packs = packs
        self.data: Any = opened.document.data
        self._tried: dict[str, Review | None] = {}
        self.reviews = 0

    def after(self, patch: Sequence[dict[str, Any]]) -> Review | None:
        """The review of the plan with a patch applied; None where the patch does not fit or leaves no readable plan."""
        key = repr(patch)
        if key not in self._tried:
            self._tried[key] = self._review(patch)
        return self._tried[key]

    def _review(self, patch: Sequence[dict[str, Any]]) -> Review | None:
        self.reviews += 1
        try:
            edited = applied(self.data, patch)
            return review(open_data(self.opened.document, edited), self.library, self.packs)
        except (PatchError, PlanUnreadable):
            return None

    def proves(self, finding: Finding, proposals: Sequence[Proposal], before: frozenset[Mark]) -> Way | None:
        """The way out that a set of edits is, if the finding is gone and nothing at or above its severity came."""
        try:
            patch = complete(self.data, [step for proposal in proposals for step in proposal.patch])
        except (PatchError, LookupError, ValueError):
            return None
        after = self.after(patch)
        if after is None or any(mark(left) == mark(finding) for left in after.findings):
            return None
        came = tuple(new for new in after.findings if mark(new) not in before)
        if any(new.severity >= finding.severity for new in came):
            return None
        return Way(tuple(proposals), patch, came)


def ways_out(
    of: Review, opened: OpenPlan, library: Library, packs: tuple[str, ...] = (), *, trades: bool = False
) -> dict[Mark, Way]:
    """The best proved way out of every finding that is not met and has one.

    A way that brings lesser findings is left out unless `trades` is asked for.
    """
    prover = Prover(opened, library, packs)
    before = frozenset(mark(finding) for finding in of.findings)
    found: dict[Mark, Way] = {}
    for finding in of.findings:
        if finding.line.answer.outcome is Outcome.NOT_MET:
            way = _best(finding, prover, before, trades)
            if way is not None:
                found[mark(finding)] = way
    return found


def _best(finding: Finding, prover: Prover, before: frozenset[Mark], trades: bool) -> Way | None:
    for tries, proposals in enumerate(sets_of(finding.line.answer.proposals)):
        if tries >= MOST_TRIES:
            return None
        way = prover.proves(finding, proposals, before)
        if way is not None and (trades or not _troublesome(way)):
            return way
    return None


def _troublesome(way: Way) -> bool:
    return any(finding.severity > Severity.ADVICE for finding in way.brings)


def sets_of(proposals: tuple[Proposal, ...]) -> Iterator[tuple[Proposal, ...]]:
    """Sets of edits to try: the smallest first, and among these the least effort first."""
    for size in range(1, MOST_EDITS + 1):
        yield from sorted(combinations(proposals, size), key=lambda chosen: sum(proposal.effort for proposal in chosen))
