"""Amendments of a whole plan: the least sets of edits that leave it without a finding that an edit could settle."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final, NamedTuple

from precover.amending.patch import Patch, complete
from precover.amending.prover import Mark, Prover, mark, sets_of
from precover.reviewing import Finding, Review
from precover.rulebook import Effort, Outcome, Proposal

MOST_REVIEWS: Final = 400
"""Reviews that one search may cost."""

MOST_BRANCHES: Final = 6
"""Ways out of one finding that a search follows."""

BEAM: Final = 4
"""Drafts that a search carries on from one finding to the next."""


class Amendment(NamedTuple):
    """A set of edits and the review of the plan with them. `left` are findings that no edit settles; `ask` are the facts
    that the plan must state, which no tool can."""

    name: str
    proposals: tuple[Proposal, ...]
    patch: Patch
    after: Review

    @property
    def left(self) -> tuple[Finding, ...]:
        """What is still not met."""
        return tuple(finding for finding in self.after.findings if finding.line.answer.outcome is Outcome.NOT_MET)

    @property
    def ask(self) -> tuple[Finding, ...]:
        """What still cannot be told."""
        return tuple(finding for finding in self.after.findings if finding.line.answer.outcome is Outcome.CANNOT_TELL)

    @property
    def cost(self) -> int:
        """The efforts of its edits together."""
        return sum(proposal.effort**2 for proposal in self.proposals)


Weight = Callable[[Proposal], int]

_LIKINGS: Final[tuple[tuple[str, Weight], ...]] = (
    ("Least effort", lambda proposal: proposal.effort**2),
    ("Other parts rather than other wiring or digging", lambda proposal: 1 if proposal.effort <= Effort.PART else 40),
    (
        "Other raceway or wire rather than digging",
        lambda proposal: 1 if proposal.effort == Effort.WIRE else 20 + proposal.effort,
    ),
    (
        "Digging rather than other wiring",
        lambda proposal: 1 if proposal.effort == Effort.DIGGING else 20 + proposal.effort,
    ),
)
"""What a search prefers, with the name of what comes of it."""


def amendments(of: Review, prover: Prover, most: int = 3) -> list[Amendment]:
    """Up to `most` amendments that differ in their edits, the least effort first. Empty where nothing is not met."""
    if not any(finding.line.answer.outcome is Outcome.NOT_MET for finding in of.findings):
        return []
    found: list[Amendment] = []
    for name, weight in _LIKINGS:
        amendment = _search(name, of, prover, weight)
        if amendment is not None and all(set(_keys(amendment)) != set(_keys(other)) for other in found):
            found.append(amendment)
    cleanest = min((len(amendment.left) for amendment in found), default=0)
    return sorted((one for one in found if len(one.left) == cleanest), key=lambda one: one.cost)[:most]


def _keys(amendment: Amendment) -> list[str]:
    return [repr(proposal.patch) for proposal in amendment.proposals]


class _Draft(NamedTuple):
    """A set of edits on the way to an amendment."""

    chosen: tuple[Proposal, ...]
    now: Review
    given_up: frozenset[Mark]
    cost: int

    @property
    def key(self) -> tuple[frozenset[str], frozenset[Mark]]:
        return frozenset(repr(proposal.patch) for proposal in self.chosen), self.given_up


def _search(name: str, of: Review, prover: Prover, weight: Weight) -> Amendment | None:
    """Beam search: each draft settles the first finding that it has left, in every minimal way, and the cheapest drafts
    go on. What is found is then freed of edits that turned out not to be needed."""
    start = prover.reviews
    drafts = [_Draft((), of, frozenset(), 0)]
    done: list[_Draft] = []
    while drafts and prover.reviews - start < MOST_REVIEWS:
        grown: dict[object, _Draft] = {}
        for draft in drafts:
            todo = _first_left(draft.now, draft.given_up)
            if todo is None:
                done.append(draft)
                continue
            branches = list(_branches(todo, draft, prover))
            for proposals, after in branches:
                price = draft.cost + sum(weight(proposal) for proposal in proposals)
                child = _Draft((*draft.chosen, *proposals), after, draft.given_up, price)
                grown.setdefault(child.key, child)
            if not branches:
                stuck = _Draft(draft.chosen, draft.now, draft.given_up | {mark(todo)}, draft.cost)
                grown.setdefault(stuck.key, stuck)
        drafts = sorted(grown.values(), key=lambda draft: draft.cost + _left(draft.now))[:BEAM]
    chosen = min(
        (draft for draft in done if draft.chosen), key=lambda draft: (_left(draft.now), draft.cost), default=None
    )
    return _reduced(name, chosen, prover) if chosen is not None else None


def _reduced(name: str, draft: _Draft, prover: Prover) -> Amendment:
    """Without the edits whose removal changes no finding."""
    chosen, now = draft.chosen, draft.now
    wanted = {mark(finding) for finding in now.findings}
    for proposal in sorted(chosen, key=lambda proposal: -proposal.effort):
        fewer = tuple(other for other in chosen if other is not proposal)
        after = prover.after(complete(prover.data, _steps(fewer))) if fewer else None
        if after is not None and {mark(finding) for finding in after.findings} <= wanted:
            chosen, now = fewer, after
    return Amendment(name, chosen, complete(prover.data, _steps(chosen)), now)


def _left(now: Review) -> int:
    return sum(finding.line.answer.outcome is Outcome.NOT_MET for finding in now.findings)


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
    """The minimal sets of edits that settle a finding without bringing one as bad, the least effort first."""
    before = frozenset(mark(finding) for finding in draft.now.findings)
    found: list[set[int]] = []
    for proposals in sets_of(todo.line.answer.proposals):
        if len(found) >= MOST_BRANCHES:
            return
        members = {id(proposal) for proposal in proposals}
        if any(settled <= members for settled in found):
            continue
        after = prover.after(complete(prover.data, _steps((*draft.chosen, *proposals))))
        if after is None or any(mark(finding) == mark(todo) for finding in after.findings):
            continue
        if any(new.severity >= todo.severity and mark(new) not in before for new in after.findings):
            continue
        found.append(members)
        yield proposals, after


def _steps(proposals: Sequence[Proposal]) -> list[dict[str, object]]:
    return [step for proposal in proposals for step in proposal.patch]
