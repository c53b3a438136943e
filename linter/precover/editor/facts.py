"""What a review has worked out about a thing of the plan, for whoever points at it. Nothing is computed here: the
numbers are those of the ledger, the company of things that of the trace."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from precover.plan import Bend, Box, Breaker, Circuit, Leg, Panel, Route, Unstated
from precover.plan.thing import Thing, tokens_of
from precover.reviewing import Line, Review
from precover.rulebook import Outcome
from precover.showing.sentences import deciding, needed, open_to_authority, planned, provenance, where
from precover.units import Length
from precover.units.quantity import plain

MOST: Final = 12
"""Lines of the ledger that are shown of one thing."""

_TOLD: Final = (Outcome.NOT_MET, Outcome.CANNOT_TELL, Outcome.MET)


def thing_at(review: Review, pointer: str) -> Thing | None:
    """The structure, panel, circuit, box, route, leg or device that a place of the plan belongs to."""
    plan, tokens = review.trace.plan, tokens_of(pointer)
    if len(tokens) < 2:
        return None
    sections = {
        "structures": plan.structures,
        "panels": plan.panels,
        "circuits": plan.circuits,
        "boxes": plan.boxes,
        "routes": plan.routes,
    }
    found: Thing | None = sections.get(tokens[0], {}).get(tokens[1])
    if isinstance(found, Box) and len(tokens) > 3 and tokens[2] == "devices":
        return found.devices.get(tokens[3], found)
    if isinstance(found, Route) and len(tokens) > 3 and tokens[2] == "legs" and tokens[3].isdecimal():
        return next((leg for leg in found.legs if leg.number == int(tokens[3]) + 1), found)
    return found


def facts_of(review: Review, thing: Thing) -> list[str]:
    """Facts about a thing in Markdown: its company, then every number that a rule compared."""
    lines = [line for line in review.ledger if thing.place in (line.subject, line.place)]
    return [*company(review, thing), *told(lines)]


def facts_at(review: Review, pointer: str) -> list[str]:
    """The numbers that rules compared with the very value at a place."""
    return told([line for line in review.ledger if line.place == pointer and line.subject != pointer])


def told(lines: list[Line]) -> list[str]:
    """Lines of the ledger in words: what is not met first, then what cannot be told, then the numbers of what is met."""
    chosen = [
        line
        for outcome in _TOLD
        for line in lines
        if line.answer.outcome is outcome and (outcome is not Outcome.MET or compares(line))
    ]
    says = list(dict.fromkeys(_in_words(line) for line in chosen))
    return says[:MOST] + ([f"and {len(says) - MOST} more"] if len(says) > MOST else [])


def compares(line: Line) -> bool:
    """A number of the plan was held against another."""
    return line.answer.limit is not None or any(mark.isdigit() for mark in str(line.answer.needs))


def _in_words(line: Line) -> str:
    parts = [planned(line)]
    if str(line.answer.needs):
        parts.append(f"needed: {needed(line)}")
    parts.append("for the authority to decide" if open_to_authority(line) else line.answer.outcome.value)
    words = "; ".join(part for part in parts if part)
    limits = [provenance(cell) for cell in deciding(line)[:2]]
    return f"{words} ({'; '.join([line.rule.topic, *limits])})"


def company(review: Review, thing: Thing) -> Iterator[str]:
    """What a thing has to do with: how long it is, what it carries, what protects it."""
    trace = review.trace
    if isinstance(thing, Route):
        yield from _length(thing)
        yield f"carries: {', '.join(thing.carries) or 'nothing'}"
    elif isinstance(thing, Leg) and not isinstance(thing, Bend):
        for circuit, _ in trace.circuits_on(trace.route_of(thing)):
            ahead = [_protector(review, one) for one in trace.protectors_ahead_of_leg(circuit, thing)]
            yield f"protected on {circuit.id} by: {'; '.join(ahead) or 'nothing that the plan shows'}"
    elif isinstance(thing, Box):
        yield f"circuits in it: {', '.join(trace.tree.circuits_in.get(thing.id, ())) or 'none'}"
    elif isinstance(thing, Panel):
        yield f"circuits from it: {', '.join(circuit.id for circuit in trace.circuits_from(thing)) or 'none'}"
    elif isinstance(thing, Circuit):
        yield f"protected by: {_protector(review, thing.breaker)}"
        yield f"routes: {', '.join(route.id for route in trace.tree.routes[thing.id]) or 'none'}"


def _length(route: Route) -> Iterator[str]:
    stated = [leg.length for leg in route.legs if isinstance(leg.length, Length)]
    missing = sum(isinstance(leg.length, Unstated) and not isinstance(leg, Bend) for leg in route.legs)
    feet = sum((length.in_unit("ft") for length in stated), start=Length.of(0, "ft").in_unit("ft"))
    yield f"length of its legs: {plain(feet)} ft" + (f", and {missing} of them without a length" if missing else "")
    bends = [leg for leg in route.legs if isinstance(leg, Bend)]
    if bends:
        yield f"bends: {', '.join(str(leg.bend) for leg in bends)}"


def _protector(review: Review, one: Thing) -> str:
    fault = getattr(one, "ground_fault", None)
    stated = "not stated" if isinstance(fault, Unstated) or fault is None else str(fault).lower()
    rating = f"{one.rating}, " if isinstance(one, Breaker) and not isinstance(one.rating, Unstated) else ""
    return f"{where(review, one.place)} ({rating}ground fault: {stated})"
