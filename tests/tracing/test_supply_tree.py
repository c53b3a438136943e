"""The supply tree and what is asked of it, held against a graph library on plans of many shapes."""

from __future__ import annotations

import random
from itertools import pairwise
from typing import Any

import networkx as nx
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from precover.plan import Bend, Circuit, Plan
from precover.plan.thing import escaped
from precover.reviewing import open_plan
from precover.tracing import Lying, Trace, walk_order
from support.edits import shuffled
from support.plans import plans
from support.reviews import written

Data = dict[str, Any]

quickly = settings(max_examples=80, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))


def traced(data: Data) -> Trace:
    """The trace of a plan that can be traced."""
    return open_plan("test.plan.yaml", written(data)).trace


def graph_of(plan: Plan, circuit: str) -> nx.DiGraph:
    """The routes that carry a circuit, as edges from supply side to load side."""
    graph = nx.DiGraph()
    graph.add_node(origin(plan.circuits[circuit]))
    for route in plan.routes.values():
        if circuit in route.carries:
            graph.add_edge(route.from_, route.to, route=route.id)
    return graph


def origin(circuit: Circuit) -> str:
    """The panel or box where a circuit begins."""
    return circuit.from_.partition("/")[0]


@quickly
@given(plans())
def test_a_circuit_reaches_what_its_graph_reaches(data: Data) -> None:
    """Every node that a path leads to, and no other; along that very path."""
    trace = traced(data)
    for name, circuit in trace.plan.circuits.items():
        graph = graph_of(trace.plan, name)
        assert nx.is_arborescence(graph)
        paths = nx.single_source_shortest_path(graph, origin(circuit))
        assert set(trace.tree.arrival[name]) == set(paths) - {origin(circuit)}
        for node, path in paths.items():
            edges = [graph.edges[edge]["route"] for edge in pairwise(path)]
            assert [route.id for route in trace.tree.way_to(name, node)] == edges
            assert trace.tree.passed(name, node) == path[::-1]
        assert {route.id for route in trace.tree.routes[name]} == set(nx.get_edge_attributes(graph, "route").values())


@quickly
@given(plans())
def test_routes_come_nearest_first(data: Data) -> None:
    """No route of a circuit is listed ahead of one that leads to it."""
    trace = traced(data)
    for name, circuit in trace.plan.circuits.items():
        depth = nx.single_source_shortest_path_length(graph_of(trace.plan, name), origin(circuit))
        assert [depth[route.from_] for route in trace.tree.routes[name]] == sorted(
            depth[route.from_] for route in trace.tree.routes[name]
        )


@quickly
@given(plans())
def test_circuits_in_a_box_and_feeders_of_panels(data: Data) -> None:
    """The same facts read from the other end."""
    trace = traced(data)
    graphs = {name: graph_of(trace.plan, name) for name in trace.plan.circuits}
    for node in (*trace.plan.boxes, *trace.plan.panels):
        there = tuple(name for name, graph in graphs.items() if node in graph and graph.in_degree(node))
        assert trace.tree.circuits_in.get(node, ()) == there
    for name, panel in trace.plan.panels.items():
        feeders = [trace.plan.circuits[circuit] for circuit in trace.tree.circuits_in.get(name, ())]
        assert trace.feeder_of(panel) is (feeders[0] if feeders else None)
        assert trace.circuits_from(panel) == [c for c in trace.plan.circuits.values() if c.from_ == name]
    for circuit in trace.plan.circuits.values():
        fed = trace.panel_fed_by(circuit)
        assert (fed is not None) == (circuit.kind == "feeder")
        assert fed is None or trace.feeder_of(fed) is circuit


@quickly
@given(plans())
def test_what_is_ahead_of_a_circuit(data: Data) -> None:
    """Breakers from the circuit's own up to the service, and ground-fault devices passed on the way: the nodes from
    which a leg or device can be reached in the graph of all that feeds it."""
    trace = traced(data)
    supply = nx.DiGraph()
    supply.add_nodes_from(trace.plan.circuits)
    for circuit in trace.plan.circuits.values():
        feeder = trace.tree.fed_by.get(circuit.from_)
        if feeder is not None:
            supply.add_edge(feeder.id, circuit.id)
    for route in trace.plan.routes.values():
        for circuit, _ in trace.circuits_on(route):
            for leg in route.legs:
                found = trace.protectors_ahead_of_leg(circuit, leg)
                expected = _ahead(trace, supply, circuit, route.from_)
                assert [thing.place for thing in found] == expected


def _ahead(trace: Trace, supply: nx.DiGraph, circuit: Circuit, node: str) -> list[str]:
    """Places of the protectors, nearest first, from paths in graphs."""
    places: list[str] = []
    while True:
        path = nx.shortest_path(graph_of(trace.plan, circuit.id), origin(circuit), node)
        for name in reversed(path[1:]):
            box = trace.plan.boxes.get(name)
            for device in box.devices.values() if box is not None else ():
                head = type(device).__name__
                if head in ("Receptacle", "GroundFaultDevice") and trace.circuit_of(device) is circuit:
                    places.append(device.place)
        if "/" in circuit.from_:
            return places
        places.append(circuit.breaker.place)
        above = list(supply.predecessors(circuit.id))
        if not above:
            return places
        node = circuit.from_
        circuit = trace.plan.circuits[above[0]]


@quickly
@given(plans())
def test_supplies_of_a_structure(data: Data) -> None:
    """A circuit that comes in from another structure, each once, with the route on which it first does."""
    trace = traced(data)
    at = {name: thing.at for name, thing in {**trace.plan.panels, **trace.plan.boxes}.items()}
    for name, structure in trace.plan.structures.items():
        coming = {
            circuit
            for circuit in trace.plan.circuits
            for here, there in graph_of(trace.plan, circuit).edges
            if at[here] != name == at[there]
        }
        supplies = trace.supplies(structure)
        assert {supply.circuit.id for supply in supplies} == coming
        assert len(supplies) == len(coming)
        for supply in supplies:
            assert at[supply.route.from_] != name == at[supply.route.to]
            assert supply.circuit.id in supply.route.carries
        depths = [_depth(trace, panel.id) for panel in trace.panels_at(structure)]
        assert depths == sorted(depths)
        assert {panel.id for panel in trace.panels_at(structure)} == {
            p.id for p in trace.plan.panels.values() if p.at == name
        }


def _depth(trace: Trace, panel: str) -> int:
    feeder = trace.tree.fed_by.get(panel)
    return 0 if feeder is None else 1 + _depth(trace, origin(feeder))


@quickly
@given(plans())
def test_every_subject_is_there_once(data: Data) -> None:
    """Each thing of the plan, and each circuit in each leg but a bend."""
    trace = traced(data)
    subjects = list(trace.subjects())
    things = [subject for subject in subjects if not isinstance(subject, Lying)]
    assert len({thing.place for thing in things}) == len(things)
    lying = [(subject.leg.place, subject.circuit.id) for subject in subjects if isinstance(subject, Lying)]
    assert sorted(lying) == sorted(
        (leg.place, name)
        for route in trace.plan.routes.values()
        for leg in route.legs
        if not isinstance(leg, Bend)
        for name in route.carries
    )
    for route in trace.plan.routes.values():
        assert all(trace.route_of(leg) is route for leg in route.legs)
    for box in trace.plan.boxes.values():
        for device in box.devices.values():
            assert trace.box_of(device) is box
            assert trace.structure_of(device) is trace.structure_of(box) is trace.plan.structures[box.at]


@quickly
@given(plans(), st.randoms(use_true_random=False))
def test_the_walk_passes_everything_once_and_from_the_supply(data: Data, chance: random.Random) -> None:
    """Every place has its own number; a route comes after the circuit that it carries, and after the panel or box that
    it leaves; and the order of keys changes the walk of siblings only, not what is in it."""
    trace = traced(data)
    walk = walk_order(trace.plan, trace.tree)
    kinds = ("structures", "panels", "circuits", "routes", "boxes")
    assert set(walk) == {"", "/site"} | {
        f"/{kind}/{escaped(name)}" for kind in kinds for name in getattr(trace.plan, kind)
    }
    assert sorted(walk.values()) == list(range(len(walk)))
    for circuit in trace.plan.circuits.values():
        if "/" not in circuit.from_:
            assert walk[f"/panels/{circuit.from_}"] < walk[circuit.place]
    for route in trace.plan.routes.values():
        assert min(walk[f"/circuits/{name}"] for name in route.carries) < walk[route.place]
    assert walk == walk_order(trace.plan, trace.tree)
    other = traced(shuffled(data, chance))
    assert set(walk_order(other.plan, other.tree)) == set(walk)


def test_an_existing_example_by_hand() -> None:
    """A house, its feeder to a workshop, and what the workshop's panel feeds."""
    trace = traced(
        {
            "format": "precover-plan/1",
            "structures": {"house": {"use": "dwelling"}, "shop": {"use": "accessory"}},
            "panels": {
                "main": {"at": "house", "duty": "service equipment"},
                "sub": {"at": "shop", "duty": "feeder panel"},
            },
            "circuits": {
                "lathe": {"kind": "branch circuit", "from": "sub"},
                "feeder": {"kind": "feeder", "from": "main"},
            },
            "boxes": {
                "lathe-box": {
                    "at": "shop",
                    "devices": {
                        "guard": {"ground-fault-device": "20 A"},
                        "near": {"receptacle": "20 A", "after": "guard"},
                        "far": {"receptacle": "20 A", "after": "near"},
                    },
                }
            },
            "routes": {
                "wall": {"from": "sub", "to": "lathe-box", "carries": {"lathe": {}}, "legs": [{"through": "wall"}]},
                "trench": {"from": "main", "to": "sub", "carries": {"feeder": {}}, "legs": [{"buried": "lawn"}]},
            },
        }
    )
    box = trace.plan.boxes["lathe-box"]
    assert [thing.place.rpartition("/")[2] for thing in trace.protectors_of(box.devices["far"])] == [
        "far",
        "near",
        "guard",
        "breaker",
        "breaker",
    ]
    assert [thing.place for thing in trace.protectors_of(box.devices["guard"])] == [
        "/circuits/lathe/breaker",
        "/circuits/feeder/breaker",
    ]
    assert list(walk_order(trace.plan, trace.tree)) == [
        "",
        "/site",
        "/structures/house",
        "/panels/main",
        "/circuits/feeder",
        "/routes/trench",
        "/structures/shop",
        "/panels/sub",
        "/circuits/lathe",
        "/routes/wall",
        "/boxes/lathe-box",
    ]
    assert [supply.route.id for supply in trace.supplies(trace.plan.structures["shop"])] == ["trench"]


@pytest.mark.parametrize("own", [None, "EMT 1 in", "none"])
def test_the_raceway_around_a_leg(own: str | None) -> None:
    """The leg's own where it names one, be it `none`; else the route's."""
    leg: Data = {"buried": "lawn"} | ({"raceway": own} if own else {})
    trace = traced(
        {
            "format": "precover-plan/1",
            "structures": {"house": {"use": "dwelling"}},
            "panels": {"main": {"at": "house", "duty": "service equipment"}},
            "circuits": {"c": {"kind": "branch circuit", "from": "main"}},
            "boxes": {"b": {"at": "house"}},
            "routes": {"r": {"from": "main", "to": "b", "raceway": "PVC-40 1 in", "carries": {"c": {}}, "legs": [leg]}},
        }
    )
    around = trace.raceway_around(trace.plan.routes["r"].legs[0])
    assert getattr(around, "text", None) == (own or "PVC-40 1 in")
