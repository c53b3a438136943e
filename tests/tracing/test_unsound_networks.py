"""Plans whose circuits do not make a supply tree: each fault told once, where it is, with a way out."""

from __future__ import annotations

import random
from typing import Any

import networkx as nx
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from precover.plan import Plan, Problem
from precover.reading import build
from precover.tracing import trace
from support.edits import copied
from support.plans import plans

Data = dict[str, Any]

BASE: Data = {
    "format": "precover-plan/1",
    "structures": {"house": {"use": "dwelling"}, "shop": {"use": "accessory"}},
    "panels": {
        "main": {"at": "house", "duty": "service equipment"},
        "sub": {"at": "shop", "duty": "feeder panel"},
    },
    "circuits": {
        "feeder": {"kind": "feeder", "from": "main"},
        "lights": {"kind": "branch circuit", "from": "main"},
        "tools": {"kind": "branch circuit", "from": "main"},
    },
    "boxes": {
        "porch": {"at": "house", "devices": {"lamp": {"luminaire": "12 W"}}},
        "bench": {"at": "shop", "devices": {"outlet": {"receptacle": "20 A"}}},
    },
    "routes": {
        "trench": {"from": "main", "to": "sub", "carries": {"feeder": {}}, "legs": [{"through": "wall"}]},
        "eaves": {"from": "main", "to": "porch", "carries": {"lights": {}}, "legs": [{"through": "wall"}]},
        "yard": {"from": "main", "to": "bench", "carries": {"tools": {}}, "legs": [{"through": "wall"}]},
    },
}


def problems(change: Data) -> list[Problem]:
    """What is said of the base with a change; keys are paths, None removes."""
    data = copied(BASE)
    for path, value in change.items():
        *way, key = path.split("/")
        at = data
        for token in way:
            at = at.setdefault(token, {})
        if value is None:
            del at[key]
        else:
            at[key] = value
    plan, unread = build(data)
    assert not unread
    return trace(plan)[1]


def only(change: Data) -> Problem:
    """The one problem of a change."""
    (problem,) = problems(change)
    assert problem.hint
    return problem


def test_the_base_is_sound() -> None:
    """Else the rest shows nothing."""
    assert problems({}) == []


def test_a_circuit_that_is_never_fed() -> None:
    """A route that carries it from where it never comes."""
    problem = only(
        {"routes/spur": {"from": "porch", "to": "attic", "carries": {"tools": {}}}, "boxes/attic": {"at": "house"}}
    )
    assert (problem.place, problem.key) == ("/routes/spur/carries/tools", True)
    assert "circuit `tools` is never fed here: nothing brings it to `porch`" in problem.message
    assert "from `main` to `porch`" in problem.hint
    assert "turned round" not in problem.hint


def test_a_route_that_is_turned_round() -> None:
    """From the load to the supply: the hint says so. The box at its end is then not reached."""
    told = problems({"routes/yard/from": "bench", "routes/yard/to": "main"})
    assert [problem.place for problem in told] == ["/routes/yard/carries/tools", "/boxes/bench"]
    assert "turned round" in told[0].hint
    assert told[1].message == "the box `bench` has devices, and no circuit reaches it"


def test_a_circuit_that_comes_round() -> None:
    """To a box that it has reached, and to where it began."""
    twice = only({"routes/back": {"from": "main", "to": "porch", "carries": {"lights": {}}}})
    assert twice.place == "/routes/back/carries/lights"
    assert "a second time (first by `eaves`)" in twice.message
    home = only({"routes/back": {"from": "porch", "to": "main", "carries": {"lights": {}}}})
    assert "comes round to `main` a second time (it begins there)" in home.message


def test_a_ring_through_two_boxes() -> None:
    """Told once, not for every route in it."""
    problem = only(
        {
            "boxes/attic": {"at": "house"},
            "routes/up": {"from": "porch", "to": "attic", "carries": {"lights": {}}},
            "routes/down": {"from": "attic", "to": "porch", "carries": {"lights": {}}},
        }
    )
    assert problem.place == "/routes/down/carries/lights"


def test_a_panel_that_is_fed_twice() -> None:
    """By two feeders."""
    problem = only(
        {
            "circuits/second": {"kind": "feeder", "from": "main"},
            "routes/other": {"from": "main", "to": "sub", "carries": {"second": {}}},
        }
    )
    assert problem.place == "/routes/other/carries/second"
    assert problem.message == "the panel `sub` is fed twice, by `feeder` and by `second`"


def test_a_panel_that_is_never_fed() -> None:
    """No feeder reaches it."""
    problem = only({"routes/trench": None, "circuits/feeder": None})
    assert (problem.place, problem.message) == ("/panels/sub", "the panel `sub` is never fed")


def test_a_branch_circuit_that_ends_in_a_panel() -> None:
    """What feeds a panel is a feeder; the panel is then not fed."""
    told = problems({"circuits/feeder/kind": "branch circuit"})
    assert [problem.message for problem in told] == [
        "the branch circuit `feeder` ends in the panel `sub`",
        "the panel `sub` is never fed",
    ]


def test_a_feeder_to_service_equipment() -> None:
    """Two services are two supplies: the second is a feeder panel."""
    problem = only({"panels/sub/duty": "service equipment"})
    assert "ends in the service equipment `sub`" in problem.message
    assert problem.hint == "its duty is then `feeder panel`"


def test_panels_that_feed_each_other() -> None:
    """Each is fed, and none from a service."""
    told = problems(
        {
            "panels/third": {"at": "shop", "duty": "feeder panel"},
            "circuits/feeder/from": "third",
            "routes/trench/from": "third",
            "circuits/over": {"kind": "feeder", "from": "sub"},
            "routes/over": {"from": "sub", "to": "third", "carries": {"over": {}}},
        }
    )
    assert [problem.message for problem in told] == ["circuits feed each other in a loop: feeder <- over <- feeder"]
    assert told[0].place == "/circuits/feeder"


def test_transformers_that_feed_each_other() -> None:
    """Two low-voltage circuits, each from a transformer on the other."""
    told = problems(
        {
            "boxes/one": {"at": "house", "devices": {"t": {"transformer": "60 VA", "circuit": "high"}}},
            "boxes/two": {"at": "house", "devices": {"t": {"transformer": "60 VA", "circuit": "low"}}},
            "circuits/low": {"kind": "low-voltage", "from": "one/t"},
            "circuits/high": {"kind": "low-voltage", "from": "two/t"},
            "routes/there": {"from": "one", "to": "two", "carries": {"low": {}}},
            "routes/back": {"from": "two", "to": "one", "carries": {"high": {}}},
        }
    )
    assert [problem.message for problem in told] == ["circuits feed each other in a loop: low <- high <- low"]


def test_a_long_loop_is_cut() -> None:
    """A message has its bounds."""
    count = 100
    change: Data = {}
    for n in range(count):
        change[f"panels/p{n}"] = {"at": "shop", "duty": "feeder panel"}
        change[f"circuits/f{n}"] = {"kind": "feeder", "from": f"p{n}"}
        change[f"routes/r{n}"] = {"from": f"p{n}", "to": f"p{(n + 1) % count}", "carries": {f"f{n}": {}}}
    problem = only(change)
    assert problem.message.endswith("...")
    assert len(problem.message) < 200


def test_a_device_that_does_not_say_which_circuit_it_is_on() -> None:
    """Only where there are two to choose from."""
    problem = only(
        {"routes/eaves/carries/tools": {}, "routes/yard/carries": {"feeder": {}}, "boxes/bench/devices": None}
    )
    assert (problem.place, problem.key) == ("/boxes/porch/devices/lamp", True)
    assert problem.message == "`porch` has the circuits lights and tools, and `lamp` does not say which it is on"
    assert problem.hint == "add `circuit: lights`"


def test_a_device_on_a_circuit_that_is_not_there() -> None:
    """It names one that does not reach its box."""
    problem = only({"boxes/porch/devices/lamp/circuit": "tools"})
    assert problem.place == "/boxes/porch/devices/lamp/circuit"
    assert problem.message == "circuit `tools` does not reach `porch`"
    assert problem.hint == "circuits in the box: lights"


def test_a_device_on_the_circuit_of_its_own_boxes_transformer() -> None:
    """A lamp beside the transformer that feeds it."""
    garden = {"kind": "low-voltage", "from": "porch/t"}
    devices = {"t": {"transformer": "60 VA"}, "spot": {"luminaire": "5 W", "circuit": "garden"}}
    assert problems({"circuits/garden": garden, "boxes/porch/devices": devices}) == []


def test_a_device_that_is_fed_by_one_of_another_circuit() -> None:
    """The load side of a receptacle is of its own circuit: it protects nothing else."""
    devices = {
        "guard": {"receptacle": "20 A", "circuit": "lights"},
        "outlet": {"receptacle": "20 A", "circuit": "tools", "after": "guard"},
    }
    problem = only(
        {
            "routes/eaves/carries/tools": {},
            "routes/yard/carries": {"feeder": {}},
            "boxes/bench/devices": None,
            "boxes/porch/devices": devices,
        }
    )
    assert problem.place == "/boxes/porch/devices/outlet/after"
    assert problem.message == "`outlet` is on circuit `tools`, and `guard` on `lights`"


@settings(max_examples=80, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(plans(), st.randoms(use_true_random=False))
def test_a_route_moved_anywhere_is_told_if_and_only_if_the_tree_is_lost(data: Data, chance: random.Random) -> None:
    """A graph library says for each circuit whether its routes still spread from its origin as a tree does."""
    assume(data["routes"])
    moved = copied(data)
    route = moved["routes"][chance.choice(sorted(moved["routes"]))]
    route["from"] = chance.choice([*moved["panels"], *moved["boxes"]])
    plan, _ = build(moved)
    told = {problem.place for problem in trace(plan)[1] if any(says in problem.message for says in SPREADING)}
    for name in plan.circuits:
        assert any(place.endswith(f"/carries/{name}") for place in told) != _is_tree(plan, name), (name, told)


SPREADING = ("is never fed here", "a second time")
"""What is said of circuits that do not spread as a tree."""


def _is_tree(plan: Plan, circuit: str) -> bool:
    graph = nx.MultiDiGraph()
    graph.add_node(plan.circuits[circuit].from_.partition("/")[0])
    for route in plan.routes.values():
        if circuit in route.carries:
            graph.add_edge(route.from_, route.to)
    origin = plan.circuits[circuit].from_.partition("/")[0]
    return bool(nx.is_arborescence(graph)) and graph.in_degree(origin) == 0
