"""The way of a route in and out of the ground: which leg lies beside which."""

from precover.plan import Bend, BuriedLeg, Leg, RiseLeg, Route
from precover.rulebook import Look

_GROUND = (BuriedLeg, RiseLeg)


def beside(leg: Leg, route: Route) -> tuple[Leg | None, Leg | None]:
    """The legs before and after a leg, bends left out; None where the route begins or ends."""
    return _nearest(route.legs, leg.number - 2, -1), _nearest(route.legs, leg.number, 1)


def _nearest(legs: tuple[Leg, ...], index: int, step: int) -> Leg | None:
    while 0 <= index < len(legs):
        if not isinstance(legs[index], Bend):
            return legs[index]
        index += step
    return None


def before(leg: Leg, route: Route) -> list[Leg]:
    """The legs before a leg, the nearest first, bends left out."""
    return [other for other in reversed(route.legs[: leg.number - 1]) if not isinstance(other, Bend)]


def after(leg: Leg, route: Route) -> list[Leg]:
    """The legs after a leg, the nearest first, bends left out."""
    return [other for other in route.legs[leg.number :] if not isinstance(other, Bend)]


def buried_part(leg: RiseLeg, route: Route) -> BuriedLeg | None:
    """The buried leg that a rise comes out of."""
    one = _nearest(route.legs, leg.number - 2, -1)
    if isinstance(one, BuriedLeg):
        return one
    other = _nearest(route.legs, leg.number, 1)
    return other if isinstance(other, BuriedLeg) else None


def onward(leg: RiseLeg, route: Route) -> tuple[list[Leg], str]:
    """The legs that a rise leads on to, away from the ground, up to the end of the route or back into the earth; and
    the id of the panel or box at that end of the route."""
    ahead = isinstance(_nearest(route.legs, leg.number - 2, -1), BuriedLeg)
    on: list[Leg] = []
    for other in after(leg, route) if ahead else before(leg, route):
        if isinstance(other, _GROUND):
            break
        on.append(other)
    return on, route.to if ahead else route.from_


def only_low_voltage(route: Route, look: Look) -> bool:
    """Nothing but low-voltage circuits is carried: what is asked of direct-burial wiring is not asked of them."""
    circuits = look.plan.circuits
    return bool(route.carries) and all(circuits[name].kind == "low-voltage" for name in route.carries)
