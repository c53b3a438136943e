"""Wire that is too small for any power circuit, and wire of a kind that has to be looked at on site."""

from __future__ import annotations

from collections.abc import Iterator

from precover.plan import Cable, Carried, Circuit, Conductor, Plan, Route, Switch, Thing
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import ConductorSize
from precover_rules.circuit_conductors import carried_on, hots
from precover_rules.circuits import devices_on
from precover_rules.conditions import low_voltage
from precover_rules.sizing.ampacity import least_for
from precover_rules.sizing.laid import Laid, smallest_made
from precover_rules.sizing.rewiring import cable_of, wire_of
from precover_rules.worst import worst


@rule(looks_at=Circuit, unless=low_voltage, severity=Severity.DANGER, stage=Stage.PLAN, rows=("min-conductor-size",))
def smallest_wire(circuit: Circuit, look: Look) -> Answer:
    """No hot or neutral of a power circuit is smaller than building wire is made."""
    answers = [
        _large_enough(thing, key, wire, look)
        for _, carried in carried_on(circuit, look)
        for thing, key, wire in _wires(carried)
    ]
    return worst(answers) if answers else does_not_apply("no wire of it is stated, or it is flexible cord")


@rule(
    looks_at=Circuit,
    unless=low_voltage,
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    look_up="310.10(G) in 2020 and 2023, 310.10(H) in 2017 (from memory)",
    hazard="fire",
)
def wires_side_by_side(circuit: Circuit, look: Look) -> Answer:
    """No small wires are connected in parallel for one hot."""
    several = [part for part in _hot_wires(circuit, look) if part[2].count > 1]
    if not several:
        return does_not_apply("no more than one hot wire on any part of its way")
    if any(isinstance(device, Switch) for device in devices_on(circuit, look)):
        return does_not_apply("a switch is on it: its wires may be switched ones")
    count, least = hots(circuit, look), look.limit("smallest conductors in parallel").value
    needs = f"one wire for each hot, or {least} and larger side by side"
    small = [part for part in several if part[2].count > count and part[2].size < least]
    if not small:
        return met("hot wires", several[0][2].text, needs)
    _, carried, hot = small[0]
    at = f"{carried.place}/wires/hot"
    return not_met("hot wires", hot.text, needs, at=at, amend=_one_each(circuit, small, count, look))


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("stranded-in-raceway",))
def stranded_wire(plan: Plan, look: Look) -> str | None:
    """Large wires in raceways."""
    least = look.limit("smallest stranded in a raceway").value
    large = [route.id for route in plan.routes.values() if _has_wires_from(least, route)]
    return f"Wires of {least} and larger are stranded ({', '.join(large)})." if large else None


@inspection(looks_at=Circuit, stage=Stage.ROUGH, rows=("aluminium-branch",))
def aluminum_terminals(circuit: Circuit, look: Look) -> str | None:
    """Aluminum needs the right alloy and terminals made for it."""
    if "Al" not in _metals(circuit, look):
        return None
    if circuit.kind == "branch circuit":
        return (
            f"{circuit.id}: the aluminum is an AA-8000 alloy on terminals marked for it (CO/ALR at 15 and 20 A devices), "
            "and the town allows it on branch circuits."
        )
    return f"{circuit.id}: the lugs are marked for aluminum, and tightened to the torque on their label."


@inspection(looks_at=Circuit, stage=Stage.ROUGH, rows=("dissimilar-metals",))
def copper_meets_aluminum(circuit: Circuit, look: Look) -> str | None:
    """A circuit of both metals."""
    if len(_metals(circuit, look)) < 2:
        return None
    return f"{circuit.id}: copper and aluminum are joined only in connectors listed for both."


Part = tuple[Route, Carried, Conductor]
"""A route, what a circuit is carried by on it, and its hot wires there."""


def _hot_wires(circuit: Circuit, look: Look) -> Iterator[Part]:
    for route, carried in carried_on(circuit, look):
        if carried.wires is not None and isinstance(carried.wires.hot, Conductor):
            yield route, carried, carried.wires.hot


def _one_each(circuit: Circuit, small: list[Part], count: int, look: Look) -> tuple[Proposal, ...]:
    """One wire for each hot and for the neutral, of a size for the breaker."""
    rating = look.stated(circuit.breaker.rating)
    changes: list[tuple[Thing, str, str]] = []
    for route, carried, hot in small:
        laid = Laid(circuit, route, carried, hot.size, hot.material, hot.insulation)
        size = None if hot.insulation == "bare" else least_for(laid, rating, look)
        if size is None or carried.wires is None:
            return ()
        number = f"{count} × " if count > 1 else ""
        changes.append((carried.wires, "hot", f"{number}{size} {hot.material} {hot.insulation}"))
        neutral = carried.wires.neutral
        if neutral is not None:
            changes.append((carried.wires, "neutral", f"{size} {neutral.material} {neutral.insulation}"))
    return (Proposal.state(f"use one wire each: {changes[0][2]}", Effort.WIRE, *changes),)


def _has_wires_from(least: ConductorSize, route: Route) -> bool:
    hots = [carried.wires.hot for carried in route.carries.values() if carried.wires is not None]
    return any(isinstance(hot, Conductor) and hot.size >= least for hot in hots)


def _metals(circuit: Circuit, look: Look) -> set[str]:
    """The metals of its hots, as far as the plan names them."""
    found: set[str] = set()
    for _, carried in carried_on(circuit, look):
        of = carried.cable if carried.wires is None else carried.wires.hot
        if isinstance(of, Cable | Conductor):
            found.add(of.material)
    return found


def _wires(carried: Carried) -> Iterator[tuple[Thing, str, Cable | Conductor]]:
    """Hots and neutral that the plan states (the breaker's rules ask for the others): the thing and key that they are written at, and what is written there."""
    if carried.wires is None:
        if isinstance(carried.cable, Cable) and carried.cable.type != "cord":
            yield carried, "cable", carried.cable
        return
    if isinstance(carried.wires.hot, Conductor):
        yield carried.wires, "hot", carried.wires.hot
    if carried.wires.neutral is not None:
        yield carried.wires, "neutral", carried.wires.neutral


def _large_enough(thing: Thing, key: str, wire: Cable | Conductor, look: Look) -> Answer:
    size = min(wire.insulated) if isinstance(wire, Cable) else wire.size
    least = smallest_made(wire.material, look)
    has, needs, at = f"{size} {wire.material}", f"at least {least} {wire.material}", f"{thing.place}/{key}"
    if size >= least:
        return met("conductor", has, needs, at=at)
    if isinstance(wire, Cable):
        text = cable_of(wire, [max(one, least) for one in wire.insulated])
    else:
        text = wire_of(wire, least)
    ways = () if text is None else (Proposal.state(f"use {text}", Effort.WIRE, (thing, key, text)),)
    return not_met("conductor", has, needs, at=at, amend=ways)
