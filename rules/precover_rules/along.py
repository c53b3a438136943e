"""One answer for a circuit's conductors along a route, of which a rule looks at every leg."""

from collections.abc import Callable, Sequence

from precover.plan import Carried, Leg
from precover.rulebook import Answer, Look, Outcome, Proposal, does_not_apply
from precover.tracing import Lying
from precover_rules.worst import worst

_FINE = (Outcome.MET, Outcome.DOES_NOT_APPLY)


def along(
    carried: Carried, look: Look, check: Callable[[Lying, Look], Answer], *, among: tuple[type[Leg], ...] | None = None
) -> Answer:
    """The worst answer of all legs, or of those `among` certain kinds, of which there has to be one; where something is
    wrong, every leg that it is wrong in is named."""
    where_it_lies = look.trace.lying(carried)
    if not where_it_lies:
        return does_not_apply("the route has no legs")
    if among is not None:
        where_it_lies = [lying for lying in where_it_lies if isinstance(lying.leg, among)]
    answers = [check(lying, look) for lying in where_it_lies]
    telling = worst(answers)
    if telling.outcome in _FINE:
        return telling
    wrong = [
        (lying.leg.number, answer)
        for lying, answer in zip(where_it_lies, answers, strict=True)
        if answer.outcome is telling.outcome
    ]
    where = in_legs([number for number, _ in wrong])
    why = f"{where}; {telling.why}" if telling.why else where
    return telling._replace(why=why, proposals=_for_every_leg([answer for _, answer in wrong]))


def _for_every_leg(answers: Sequence[Answer]) -> tuple[Proposal, ...]:
    """The ways out that each of the answers offers, as one edit for all of them."""
    first, *others = answers
    ways: list[Proposal] = []
    for way in first.proposals:
        alike = [next((one for one in other.proposals if one.words == way.words), None) for other in others]
        same = [one for one in alike if one is not None]
        if len(same) == len(others):
            edits = {repr(edit): edit for one in (way, *same) for edit in one.patch}
            ways.append(way._replace(patch=tuple(edits.values())))
    return tuple(ways)


def in_legs(numbers: Sequence[int]) -> str:
    """Legs in words: `in leg 2`, `in legs 2, 4 and 5`."""
    if len(numbers) == 1:
        return f"in leg {numbers[0]}"
    return f"in legs {', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"
