"""A proved way out of a finding: all that showing one needs, without what looks for them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from precover.amending.patch import Patch
    from precover.reviewing import Finding, Review
    from precover.rulebook import Effort, Proposal

Mark = tuple[str, str]
"""A finding as it is known again in another review: its rule and the place of its subject."""


def mark(finding: Finding) -> Mark:
    """What a finding is known by from one review to the next."""
    return finding.line.rule.id, finding.line.subject


class Way:
    """A proved way out of one finding. `brings` are lesser findings that it brings with it."""

    __slots__ = ("brings", "patch", "proposals")

    def __init__(self, proposals: tuple[Proposal, ...], patch: Patch, brings: tuple[Finding, ...] = ()) -> None:
        self.proposals = proposals
        self.patch = patch
        self.brings = brings

    @property
    def words(self) -> str:
        """What is done, in one line."""
        return " and ".join(dict.fromkeys(proposal.words for proposal in self.proposals))

    @property
    def effort(self) -> Effort:
        """The hardest of its edits."""
        return max(proposal.effort for proposal in self.proposals)


class Proved:
    """A review with the proved way out of each finding that has one."""

    __slots__ = ("review", "ways")

    def __init__(self, review: Review, ways: Mapping[Mark, Way]) -> None:
        self.review = review
        self.ways = ways
