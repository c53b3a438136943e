"""Spans as a plan tells them: overhead legs one after the other, up to the next thing that holds the wiring."""

from precover.plan import Circuit, OverheadLeg, Route
from precover.rulebook import Look

LATER_PART = "part of a span that an earlier leg begins"
LOW_VOLTAGE_ONLY = "it carries no branch circuit or feeder"


def span_of(leg: OverheadLeg, look: Look) -> list[OverheadLeg]:
    """The legs of the span that a leg begins; empty if it only goes on with one."""
    legs = look.trace.route_of(leg).legs
    first = leg.number - 1
    if first > 0 and isinstance(legs[first - 1], OverheadLeg):
        return []
    span: list[OverheadLeg] = []
    for part in legs[first:]:
        if not isinstance(part, OverheadLeg):
            break
        span.append(part)
    return span


def has_span(route: Route) -> bool:
    """Part of the route is in the air."""
    return any(isinstance(leg, OverheadLeg) for leg in route.legs)


def power_on(leg: OverheadLeg, look: Look) -> list[Circuit]:
    """The branch circuits and feeders of a span: low-voltage circuits do not count."""
    route = look.trace.route_of(leg)
    return [circuit for circuit, _ in look.trace.circuits_on(route) if circuit.kind != "low-voltage"]
