"""Low-voltage and communication wiring, kept apart from power."""

from __future__ import annotations

from collections.abc import Iterable

from precover.plan import Box, Cable, Plan, Raceway, Route
from precover.plan.thing import escaped
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.as_written import as_written
from precover_rules.free_names import free_names
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import is_raceway

NEEDS = "a raceway of its own, or a barrier between"


def one_circuit_only(route: Route, _look: Look) -> str:
    """Only routes of several circuits are looked at."""
    return "one circuit only" if len(route.carries) < 2 else ""


def _all_of_one_kind(box: Box, look: Look) -> str:
    # What begins in the box is not counted: a transformer keeps its two sides apart by its listing.
    names = look.trace.tree.circuits_in.get(box.id, ())
    return "all of one kind" if len(_low(names, look)) in (0, len(names)) else ""


def _low(names: Iterable[str], look: Look) -> list[str]:
    return [name for name in names if look.plan.circuits[name].kind == "low-voltage"]


@rule(
    looks_at=Route,
    unless=one_circuit_only,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("conductor-separation-lv",),
)
def low_voltage_in_a_raceway_with_power(route: Route, look: Look) -> Answer:
    """Low-voltage conductors are not in one raceway with power conductors."""
    low = _low(route.carries, look)
    if not low or len(low) == len(route.carries):
        return does_not_apply("all of one kind")
    if look.stated(route.raceway).absent:
        return met("low-voltage conductors", "in no raceway with power", NEEDS)
    return _together(low[0], route, _raceway_of_its_own(route, low, look))


@rule(
    looks_at=Box,
    unless=_all_of_one_kind,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("conductor-separation-lv",),
)
def low_voltage_in_a_box_with_power(box: Box, look: Look) -> Answer:
    """Low-voltage conductors are not in one box with power conductors, unless a barrier keeps them apart."""
    low = _low(look.trace.tree.circuits_in[box.id], look)
    at = f"{box.box.place}/barrier"
    if look.stated(box.box.barrier):
        return met("low-voltage conductors", "behind a barrier", "a box of their own, or a barrier", at=at)
    wall = Proposal.state("put a barrier between them", Effort.PART, (box.box, "barrier", True))
    return not_met("low-voltage conductors", f"{low[0]} in one box with power", "a box of their own, or a barrier",
                   at=at, amend=(wall,))  # fmt: skip


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("communication-separation", "conductor-separation-lv"))
def other_cables_apart(plan: Plan, look: Look) -> str | None:
    """Data and control cables beside the power."""
    if not any(route.carries for route in plan.routes.values()):
        return None
    apart = look.limit("communication cable beside power wiring").text
    return f"Data, telephone and control cables: in no raceway or box of these circuits, and {apart} from open power wiring."


def _raceway_of_its_own(route: Route, low: list[str], look: Look) -> tuple[Proposal, ...]:
    """A second raceway of the same type, on the same way, for the low-voltage circuits: the smallest that is sure to hold
    them."""
    raceway = route.raceway
    if not isinstance(raceway, Raceway) or not is_raceway(raceway):
        return ()
    power = [circuit for circuit in route.carries if circuit not in low]
    own_size = fitting(raceway.type, route, look, without=power)
    if own_size is None:
        return ()
    name = next(free_names(f"{route.id}-low-voltage", look.plan.routes))
    whole = as_written(route)
    own = {**whole, "raceway": own_size, "carries": {circuit: whole["carries"][circuit] for circuit in low}}
    gone = ({"op": "remove", "path": route.carries[circuit].place} for circuit in low)
    add = {"op": "add", "path": f"/routes/{escaped(name)}", "value": own}
    words = f"lay {' and '.join(low)} in {own_size} of {'its' if len(low) == 1 else 'their'} own, beside {route.id}"
    return (Proposal(words, Effort.WIRE, (*gone, add)),)


def _together(name: str, route: Route, ways: tuple[Proposal, ...]) -> Answer:
    carried = route.carries[name]
    has = f"{name} in one raceway with power"
    at = carried.place
    if isinstance(carried.cable, Cable) and carried.cable.type == "low-voltage":
        return not_met(
            "low-voltage conductors",
            has,
            NEEDS,
            why="low-voltage cable is not insulated for the power beside it",
            at=at,
            amend=ways,
        )
    why = "allowed only where they are insulated for the highest voltage there, and the circuit is not class 2"
    return authority_decides("low-voltage conductors", has, NEEDS, why=why, at=at)
