"""Amendments of a whole plan: the least sets of edits that leave it without a finding that an edit could settle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from precover.amending.patch import Patch, complete
from precover.amending.prover import Prover, sets_of
from precover.amending.way import Mark, mark
from precover.reviewing import Finding, Review
from precover.rulebook import Effort, Outcome, Proposal

MOST_REVIEWS: Final = 400
"""Reviews that one search may cost."""

MANY: Final = 12
"""With more findings than this a search goes straight on with its cheapest draft."""

MOST_BRANCHES: Final = 6
"""Ways out of one finding that a search follows."""

BEAM: Final = 4
"""Drafts that a search carries on from one finding to the next."""


class Amendment(NamedTuple):
    """A named set of edits and the review of the plan with them. `left` are findings that no edit settles; `ask` are the facts
    that the plan must state, which no tool can."""

    name: str
    proposals: tuple[Proposal, ...]
    patch: Patch
    after: Review

    @property
    def left(self) -> tuple[Finding, ...]:
        """What is still not met."""
        return tuple(finding for finding in self.after.wanting if finding.line.answer.outcome is Outcome.NOT_MET)

    @property
    def ask(self) -> tuple[Finding, ...]:
        """What still cannot be told."""
        return tuple(finding for finding in self.after.wanting if finding.line.answer.outcome is Outcome.CANNOT_TELL)

    @property
    def cost(self) -> int:
        """The efforts of its edits together."""
        return sum(proposal.effort**2 for proposal in self.proposals)


_NAMES: Final = {
    Effort.PAPER: "On paper instead",
    Effort.DEEPER: "Digging a little deeper instead",
    Effort.PART: "Other parts instead",
    Effort.WIRE: "Other wire or raceway instead",
    Effort.DIGGING: "Digging instead",
}
"""What a later amendment is called: by the hardest of its edits that the first has not."""

AGAIN: Final = 25
"""What an edit costs more for having been offered before: the next amendment is to differ where it can."""


def amendments(prover: Prover, most: int = 3) -> list[Amendment]:
    """Up to `most` amendments that differ in kind, the one of least effort first. Empty where nothing is not met."""
    found: list[Amendment] = []
    offered: set[str] = set()
    wanting = _left(prover.of)
    for _ in range(min(most, wanting and (most if wanting <= MANY else 1))):
        amendment = _search(prover, frozenset(offered))
        if amendment is None or any(_keys(amendment) == _keys(other) for other in found):
            break
        if found and len(amendment.left) > len(found[0].left):
            break
        found.append(amendment._replace(name=_name(amendment, offered)) if found else amendment)
        offered |= _keys(amendment)
    return found


def _name(amendment: Amendment, offered: set[str]) -> str:
    new = [proposal.effort for proposal in amendment.proposals if repr(proposal.patch) not in offered]
    return _NAMES[max(new)] if new else "Fewer changes"


def _keys(amendment: Amendment) -> set[str]:
    return {repr(proposal.patch) for proposal in amendment.proposals}


class _Draft(NamedTuple):
    """A set of edits on the way to an amendment."""

    chosen: tuple[Proposal, ...]
    now: Review
    given_up: frozenset[Mark]
    cost: int

    @property
    def key(self) -> tuple[frozenset[str], frozenset[Mark]]:
        return frozenset(repr(proposal.patch) for proposal in self.chosen), self.given_up


def _weight(proposal: Proposal, offered: frozenset[str]) -> int:
    return proposal.effort**2 + (AGAIN if repr(proposal.patch) in offered else 0)


def _search(prover: Prover, offered: frozenset[str]) -> Amendment | None:
    """Beam search: each draft settles the first finding that it has left, in every minimal way, and the cheapest drafts
    go on. What is found is then freed of edits that turned out not to be needed."""
    start = prover.reviews
    drafts = [_Draft((), prover.of, frozenset(), 0)]
    wanting = _left(prover.of)
    beam, most = (BEAM, MOST_REVIEWS) if wanting <= MANY else (1, MOST_REVIEWS + 8 * wanting)
    done: list[_Draft] = []
    while drafts and prover.reviews - start < most:
        grown: dict[object, _Draft] = {}
        for draft in drafts:
            todo = _first_left(draft.now, draft.given_up)
            if todo is None:
                done.append(draft)
                continue
            branches = list(_branches(todo, draft, prover))
            for proposals, after in branches:
                price = draft.cost + sum(_weight(proposal, offered) for proposal in proposals)
                child = _Draft((*draft.chosen, *proposals), after, draft.given_up, price)
                grown.setdefault(child.key, child)
            if not branches:
                stuck = _Draft(draft.chosen, draft.now, draft.given_up | {mark(todo)}, draft.cost)
                grown.setdefault(stuck.key, stuck)
        drafts = sorted(grown.values(), key=lambda draft: draft.cost + _left(draft.now))[:beam]
    done += drafts  # of a search that was cut short, the best so far
    chosen = min(
        (draft for draft in done if draft.chosen), key=lambda draft: (_left(draft.now), draft.cost), default=None
    )
    return _reduced(chosen, prover) if chosen is not None else None


def _reduced(draft: _Draft, prover: Prover) -> Amendment:
    """Without the edits whose removal changes no finding. Where there are many, each is left as it is: trying them all
    would take longer than the search."""
    chosen, now = draft.chosen, draft.now
    wanted = {mark(finding) for finding in now.wanting}
    for proposal in () if len(chosen) > 2 * MANY else sorted(chosen, key=lambda proposal: -proposal.effort):
        fewer = tuple(other for other in chosen if other is not proposal)
        patch = prover.as_one(fewer) if fewer else None
        after = prover.after(patch) if patch is not None else None
        if after is not None and {mark(finding) for finding in after.wanting} <= wanted:
            chosen, now = fewer, after
    patch = complete(prover.data, _steps(chosen))
    return Amendment("Least effort", chosen, patch, prover.whole(patch) or now)


def _left(now: Review) -> int:
    return sum(finding.line.answer.outcome is Outcome.NOT_MET for finding in now.wanting)


def _first_left(now: Review, given_up: frozenset[Mark]) -> Finding | None:
    return next(
        (
            finding
            for finding in now.findings
            if finding.line.answer.outcome is Outcome.NOT_MET and mark(finding) not in given_up
        ),
        None,
    )


def _branches(todo: Finding, draft: _Draft, prover: Prover) -> Iterator[tuple[tuple[Proposal, ...], Review]]:
    """The minimal sets of edits that settle a finding without bringing one as bad, the least effort first. An edit that
    the draft has taken already, and undone since, would only take it round in a circle."""
    taken = {repr(proposal.patch) for proposal in draft.chosen}
    before = frozenset(mark(finding) for finding in draft.now.wanting)
    found: list[set[int]] = []
    for proposals in sets_of(todo.line.answer.proposals):
        if len(found) >= MOST_BRANCHES:
            return
        members = {id(proposal) for proposal in proposals}
        if any(settled <= members for settled in found) or any(repr(one.patch) in taken for one in proposals):
            continue
        patch = prover.as_one((*draft.chosen, *proposals))
        after = prover.after(patch, draft.now, _steps(proposals)) if patch is not None else None
        if after is None or any(mark(finding) == mark(todo) for finding in after.wanting):
            continue
        came = [new for new in after.wanting if new.severity >= todo.severity and mark(new) not in before]
        if came and (_left(after) > _left(draft.now) or not all(new.line.answer.proposals for new in came)):
            continue  # what it brings can be settled next, as long as there is no more to settle than before
        found.append(members)
        yield proposals, after


def _steps(proposals: Sequence[Proposal]) -> list[dict[str, object]]:
    return [step for proposal in proposals for step in proposal.patch]
