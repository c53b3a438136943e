"""What a change at some places of a plan can touch."""

from __future__ import annotations

from collections.abc import Iterable

from precover.plan.thing import escaped, tokens_of
from precover.tracing.supply_tree import origin_of
from precover.tracing.trace import Trace


def stop_of(place: str) -> str:
    """The panel, circuit, route, box or structure that a place belongs to, as a JSON Pointer; else its first key."""
    tokens = place.split("/")
    return "/".join(tokens[:3])


def around(trace: Trace, places: Iterable[str]) -> frozenset[str] | None:
    """The stops that share a circuit with these places: the circuits there, all that they feed and that feeds them, the
    routes that carry them with what else those carry, and the panels, boxes and structures that they come to. None for a
    place whose change can touch everything (the site, the plan as a whole)."""
    circuits: set[str] = set()
    found: set[str] = set()
    for place in places:
        tokens = tokens_of(place)
        if len(tokens) < 2 or tokens[0] == "site":
            return None
        found.add(stop_of(place))
        circuits |= _circuits_at(trace, tokens[0], tokens[1])
    for name in _downstream(trace, circuits) | _upstream(trace, circuits):
        found |= _stops_on(trace, name)
    return frozenset(found)


def _circuits_at(trace: Trace, kind: str, name: str) -> set[str]:
    plan, tree = trace.plan, trace.tree
    if kind == "circuits":
        return {name} & set(plan.circuits)
    if kind == "routes":
        return set(plan.routes[name].carries) if name in plan.routes else set()
    if kind in ("boxes", "panels"):
        fed = {tree.fed_by[name].id} if name in tree.fed_by else set()
        begun = (
            {circuit.id for circuit in plan.circuits.values() if origin_of(circuit) == name}
            if kind == "boxes"
            else set()
        )
        return set(tree.circuits_in.get(name, ())) | fed | begun | _begun_in(trace, name)
    structure = plan.structures.get(name)
    if structure is None:
        return set()
    here = {supply.circuit.id for supply in trace.supplies(structure)}
    for panel in trace.panels_at(structure):
        here |= _circuits_at(trace, "panels", panel.id)
    return here


def _begun_in(trace: Trace, name: str) -> set[str]:
    panel = trace.plan.panels.get(name)
    return {circuit.id for circuit in trace.circuits_from(panel)} if panel is not None else set()


def _downstream(trace: Trace, circuits: set[str]) -> set[str]:
    found: set[str] = set()
    waiting = list(circuits)
    while waiting:
        name = waiting.pop()
        if name in found:
            continue
        found.add(name)
        panel = trace.panel_fed_by(trace.plan.circuits[name])
        if panel is not None:
            waiting += [circuit.id for circuit in trace.circuits_from(panel)]
        waiting += [
            other.id
            for other in trace.plan.circuits.values()
            if "/" in other.from_ and _reaches(trace, name, other.from_)
        ]
    return found


def _upstream(trace: Trace, circuits: set[str]) -> set[str]:
    found: set[str] = set()
    for name in circuits:
        ahead = trace.tree.ahead_of(trace.plan.circuits[name], trace.plan)
        while ahead is not None and ahead.id not in found:
            found.add(ahead.id)
            ahead = trace.tree.ahead_of(ahead, trace.plan)
    return found


def _reaches(trace: Trace, circuit: str, transformer: str) -> bool:
    return transformer.partition("/")[0] in trace.tree.arrival[circuit]


def _stops_on(trace: Trace, name: str) -> set[str]:
    circuit = trace.plan.circuits[name]
    nodes = {origin_of(circuit), *trace.tree.arrival[name]}
    found = {f"/circuits/{escaped(name)}"}
    for route in trace.tree.routes[name]:
        found.add(route.place)
        found |= {f"/circuits/{escaped(other)}" for other in route.carries}
        nodes |= {route.from_, route.to}
    for node in nodes:
        thing = trace.node(node)
        found |= {thing.place, f"/structures/{escaped(thing.at)}"}
    return found
