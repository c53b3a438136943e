"""How long routes are."""

from typing import Final

from precover.plan import Bend, PassageLeg, RiseLeg, Route
from precover.rulebook import Look, once
from precover.units import Length
from precover_rules.loads.known import known

IN_A_METRE: Final = float(Length.factors["m"])

_NO_LENGTH = (Bend, PassageLeg)


@once
def metres_of(route: Route, ask: bool, look: Look) -> float | None:
    """The length of a route. Bends, and passages of unstated length, add nothing to it; a rise of unstated length counts
    twice its height, for its part below grade. Any other length is asked for where `ask`; else None."""
    amount = 0.0
    for leg in route.legs:
        length = known(leg.length, look)
        if length is not None:
            millimetres, parts = length.amount.as_integer_ratio()
            amount += millimetres / parts
        elif isinstance(leg, RiseLeg):
            amount += 2 * float(leg.rise.amount)
        elif not isinstance(leg, _NO_LENGTH):
            if not ask:
                return None
            look.stated(leg.length)
    return amount / IN_A_METRE
