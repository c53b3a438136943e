"""Low-voltage and communication wiring, kept apart from power."""

from __future__ import annotations

from collections.abc import Iterable

from precover.plan import Box, Cable, Carried, Plan, Route
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
    return _together(low[0], route.carries[low[0]], "raceway")


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


def _together(name: str, carried: Carried, where: str) -> Answer:
    has = f"{name} in one {where} with power"
    at = f"{carried.place}"
    if isinstance(carried.cable, Cable) and carried.cable.type == "low-voltage":
        return not_met(
            "low-voltage conductors",
            has,
            NEEDS,
            why="low-voltage cable is not insulated for the power beside it",
            at=at,
        )
    why = "allowed only where they are insulated for the highest voltage there, and the circuit is not class 2"
    return authority_decides("low-voltage conductors", has, NEEDS, why=why, at=at)
