"""How many current-carrying conductors heat each other on a route."""

from __future__ import annotations

from fractions import Fraction

from precover.electrical.ampacity import CircuitWires, current_carrying
from precover.plan import Bend, Raceway, Route
from precover.rulebook import Effort, Look, Proposal
from precover_rules.circuit_conductors import has_neutral, hots


def has_company(route: Route, look: Look) -> bool:
    """Other power circuits are carried with this one."""
    return (
        len(route.carries) > 1
        and sum(circuit.kind != "low-voltage" for circuit, _ in look.trace.circuits_on(route)) > 1
    )


def together(route: Route, look: Look) -> int:
    """The current-carrying conductors of all power circuits on a route."""
    counted = current_carrying(
        CircuitWires(
            hots(circuit, look),
            has_neutral(circuit, carried, look),
            wye=look.stated(circuit.voltage).line_to_line == 208,
        )
        for circuit, carried in look.trace.circuits_on(route)
        if circuit.kind != "low-voltage"
    )
    for step in counted.steps:
        look.because(step, route.place)
    return counted.value


def heat_each_other(route: Route, look: Look) -> bool:
    """They lie together for longer than a nipple: in a raceway, or as cables that are not kept apart."""
    enclosed = open_air = Fraction(0)
    nipple = look.limit("nipple length").value.amount
    for leg in route.legs:
        if isinstance(leg, Bend):
            continue
        length = look.stated(leg.length).amount
        if look.stated(look.trace.raceway_around(leg)).absent:
            open_air += length
        else:
            enclosed += length
    return enclosed > nipple or (open_air > nipple and not look.stated(route.spaced))


def kept_apart(routes: list[Route]) -> tuple[Proposal, ...]:
    """The way out for cables that are bundled in the open: they are not, on any of the routes."""
    if not all(isinstance(route.raceway, Raceway) and route.raceway.absent for route in routes):
        return ()
    words = f"keep the cables apart on {', '.join(route.id for route in routes)}"
    return (Proposal.state(words, Effort.PART, *((route, "spaced", True) for route in routes)),)
