"""One answer for a circuit's conductors along a route, of which a rule looks at every leg."""

from collections.abc import Callable, Sequence

from precover.plan import Carried
from precover.rulebook import Answer, Look, Outcome, does_not_apply
from precover.tracing import Lying
from precover_rules.worst import worst


def along(carried: Carried, look: Look, check: Callable[[Lying, Look], Answer]) -> Answer:
    """The worst answer of all legs; where something is wrong, every leg that it is wrong in is named."""
    answers = [(lying.leg.number, check(lying, look)) for lying in look.trace.lying(carried)]
    if not answers:
        return does_not_apply("the route has no legs")
    telling = worst([answer for _, answer in answers])
    if telling.outcome is not Outcome.NOT_MET and telling.outcome is not Outcome.CANNOT_TELL:
        return telling
    where = in_legs([number for number, answer in answers if answer.outcome is telling.outcome])
    return telling._replace(why=f"{where}; {telling.why}" if telling.why else where)


def in_legs(numbers: Sequence[int]) -> str:
    """Legs in words: `in leg 2`, `in legs 2, 4 and 5`."""
    if len(numbers) == 1:
        return f"in leg {numbers[0]}"
    return f"in legs {', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"
