"""Edits of a plan that bring an equipment grounding conductor with a circuit, all the way."""

from collections.abc import Iterable
from typing import Any

from precover.electrical.bands import band
from precover.plan import BuriedLeg, Cable, Carried, Circuit, Route, Unstated
from precover.plan.thing import Thing
from precover.rulebook import Cell, Effort, Look, Missing, Proposal
from precover.units import Current
from precover_rules.assembly_for_burial import laid_as_assembly
from precover_rules.circuit_conductors import carried_on, grounding_path

TABLE = "equipment-grounding-conductor"

_Change = tuple[Thing | Unstated, str, Any]


def least_ground(rating: Current, metal: str, look: Look) -> Cell | None:
    """The least equipment grounding wire behind an overcurrent device; None beyond the end of the table."""
    up_to = band(rating, look.arranged(TABLE, _ratings).get(metal, ()))
    return None if up_to is None else look.cell(TABLE, up_to, metal)


def _ratings(keys: Iterable[tuple[str, ...]]) -> dict[str, list[tuple[Current, str]]]:
    """Metal -> the ratings that its rows of the table go up to, ascending, each with its key."""
    found: dict[str, list[tuple[Current, str]]] = {}
    for up_to, metal in keys:
        found.setdefault(metal, []).append((Current.parse(up_to), up_to))
    return found


def brings_a_ground(circuit: Circuit, look: Look) -> bool:
    """The plan shows that an equipment grounding conductor goes with the circuit all the way."""
    return _shows_path(look.trace.tree.routes[circuit.id], circuit, look)


def with_a_ground(circuit: Circuit, look: Look) -> tuple[Proposal, ...]:
    """A ground in every part that lacks one, and the neutral of the panel behind it isolated in the same step: a panel
    bonded twice, and one with neither bond nor ground, are as bad."""
    changes: list[_Change] = []
    words: list[str] = []
    for route, carried in carried_on(circuit, look):
        if _shows_path([route], circuit, look):
            continue
        found = _grounded(circuit, route, carried, look)
        if found is None:
            return ()
        doing, some = found
        words.append(f"{doing} on {route.id}")
        changes += some
    if not changes:
        return ()
    panel = look.trace.panel_fed_by(circuit)
    if panel is not None and panel.neutral == "bonded":
        words.append(f"then isolate the neutral of {panel.id}")
        changes.append((panel, "neutral", "isolated"))
        if panel.ground_bar is not True:
            changes.append((panel, "ground-bar", True))
    return (Proposal.state("; ".join(words), Effort.WIRE, *changes),)


def _shows_path(way: list[Route] | tuple[Route, ...], circuit: Circuit, look: Look) -> bool:
    try:
        return grounding_path(way, circuit, look)[0] == "yes"
    except Missing:
        return False  # what the plan does not show is not taken for a fault path


def _grounded(circuit: Circuit, route: Route, carried: Carried, look: Look) -> tuple[str, list[_Change]] | None:
    rating = circuit.breaker.rating
    if carried.wires is None:
        cable = carried.cable
        text = None if isinstance(cable, Unstated) else _cable_with_ground(cable, route, rating, look)
        if text is None:
            return None
        laid: list[_Change] = [(carried, "cable", text)]
        if text.startswith("MHF"):
            laid = [*laid_as_assembly(route, carried, text, look)]
        return (f"use {text}, with its ground,", laid) if laid else None
    least = None if isinstance(rating, Unstated) else least_ground(rating, "Cu", look)
    if least is None:
        return None
    text = f"{least.text} Cu THWN-2"
    return f"pull {text} as the equipment ground", [(carried.wires, "ground", text)]


def _cable_with_ground(cable: Cable, route: Route, rating: Current | Unstated, look: Look) -> str | None:
    """The same cable with its ground; for service cable, which is made without, a feeder cable of the same sizes."""
    if cable.type == "low-voltage":
        return None  # no wiring method for power, with a ground or without
    text = cable.text.removesuffix(" no ground")
    if text != cable.text:
        return text
    least = None if isinstance(rating, Unstated) else least_ground(rating, cable.material, look)
    if cable.type not in ("SE", "SEU") or least is None:
        return None
    buried = any(isinstance(leg, BuriedLeg) for leg in route.legs)
    if buried and cable.material != "Al":
        return None
    sizes = "-".join(size.designation for size in (*cable.insulated, least.value))
    return f"{'MHF' if buried else 'SER'} {sizes} {cable.material}"
