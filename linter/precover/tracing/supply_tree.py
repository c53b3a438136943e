"""The supply tree: how each circuit gets from its origin to every panel and box it reaches."""

from collections import deque
from collections.abc import Mapping
from typing import NamedTuple

from precover.plan import Circuit, Device, Plan, Problem, Route
from precover.plan.thing import escaped
from precover.record import Record


class Supply(NamedTuple):
    """A circuit that enters a structure from another, with the route on which it does."""

    circuit: Circuit
    route: Route


class SupplyTree(Record):
    """Built by `grow`.

    `arrival[circuit][node]` is the route by which a circuit reaches a panel or box; `fed_by[panel]` the feeder of a
    panel; `routes[circuit]` its routes, those nearer the origin first.
    """

    arrival: Mapping[str, Mapping[str, Route]]
    fed_by: Mapping[str, Circuit]
    routes: Mapping[str, tuple[Route, ...]]
    circuits_in: Mapping[str, tuple[str, ...]]
    """Ids of the circuits that reach a box, in the order of the plan."""

    def way_to(self, circuit: str, node: str) -> tuple[Route, ...]:
        """The routes from a circuit's origin to one of the nodes it reaches, in order; empty at the origin."""
        back: list[Route] = []
        arrival = self.arrival[circuit]
        while node in arrival:
            route = arrival[node]
            back.append(route)
            node = route.from_
        return tuple(reversed(back))

    def passed(self, circuit: str, node: str) -> list[str]:
        """The nodes that a circuit has passed when it leaves one of them: that one, and so back to its origin."""
        arrival, passed = self.arrival[circuit], [node]
        while node in arrival:
            node = arrival[node].from_
            passed.append(node)
        return passed

    def circuit_of(self, device: Device, box: str) -> str | None:
        """Id of the circuit that a device in a box is on; None where none reaches the box."""
        return device.circuit or next(iter(self.circuits_in.get(box, ())), None)

    def ahead_of(self, circuit: Circuit, plan: Plan) -> Circuit | None:
        """The circuit that feeds the panel or the transformer where a circuit begins; None at service equipment."""
        box, _, transformer = circuit.from_.partition("/")
        if not transformer:
            return self.fed_by.get(box)
        name = self.circuit_of(plan.boxes[box].devices[transformer], box)
        return plan.circuits[name] if name is not None else None


def grow(plan: Plan) -> tuple[SupplyTree, list[Problem]]:
    """The supply tree of a plan whose references hold, and every circuit that does not spread as a tree does."""
    problems: list[Problem] = []
    carrying: dict[str, list[Route]] = {name: [] for name in plan.circuits}
    for route in plan.routes.values():
        for name in route.carries:
            carrying[name].append(route)
    arrival: dict[str, dict[str, Route]] = {}
    ordered: dict[str, tuple[Route, ...]] = {}
    for circuit in plan.circuits.values():
        reached, passed = _spread(circuit, carrying[circuit.id], problems)
        arrival[circuit.id] = reached
        ordered[circuit.id] = tuple(passed)
    circuits_in: dict[str, list[str]] = {}
    for name, reached in arrival.items():
        for node in reached:
            circuits_in.setdefault(node, []).append(name)
    fed_by = _feeders(plan, arrival, problems)
    return SupplyTree(arrival, fed_by, ordered, {node: tuple(names) for node, names in circuits_in.items()}), problems


def origin_of(circuit: Circuit) -> str:
    """The panel or box where a circuit begins (a transformer's circuit begins in the transformer's box)."""
    return circuit.from_.partition("/")[0]


def _spread(circuit: Circuit, routes: list[Route], problems: list[Problem]) -> tuple[dict[str, Route], list[Route]]:
    leaving: dict[str, list[Route]] = {}
    for route in routes:
        leaving.setdefault(route.from_, []).append(route)
    origin = origin_of(circuit)
    reached: dict[str, Route] = {}
    passed: list[Route] = []
    waiting = deque([origin])
    while waiting:
        for route in leaving.pop(waiting.popleft(), ()):
            passed.append(route)
            if route.to == origin or route.to in reached:
                by = f"first by `{reached[route.to].id}`" if route.to in reached else "it begins there"
                problems.append(
                    Problem(
                        f"{route.place}/carries/{escaped(circuit.id)}",
                        f"circuit `{circuit.id}` comes round to `{route.to}` a second time ({by})",
                        "a circuit spreads like a tree; remove it from one of the routes, or correct their ends",
                    )
                )
            else:
                reached[route.to] = route
                waiting.append(route.to)
    for rest in leaving.values():
        for route in rest:
            turned = "; is the route's direction turned round?" if route.to == origin or route.to in reached else ""
            problems.append(
                Problem(
                    f"{route.place}/carries/{escaped(circuit.id)}",
                    f"circuit `{circuit.id}` is never fed here: nothing brings it to `{route.from_}`",
                    f"carry it on a route from `{origin}` to `{route.from_}`{turned}",
                    key=True,
                )
            )
    return reached, passed


def _feeders(plan: Plan, arrival: Mapping[str, Mapping[str, Route]], problems: list[Problem]) -> dict[str, Circuit]:
    fed_by: dict[str, Circuit] = {}
    for circuit in plan.circuits.values():
        for node, route in arrival[circuit.id].items():
            panel = plan.panels.get(node)
            if panel is None:
                continue
            place = f"{route.place}/carries/{escaped(circuit.id)}"
            if circuit.kind != "feeder":
                problems.append(
                    Problem(
                        place,
                        f"the {circuit.kind} `{circuit.id}` ends in the panel `{node}`",
                        "what feeds a panel is of kind `feeder`",
                        key=True,
                    )
                )
            elif panel.duty == "service equipment":
                problems.append(
                    Problem(
                        place,
                        f"the feeder `{circuit.id}` ends in the service equipment `{node}`",
                        "its duty is then `feeder panel`",
                        key=True,
                    )
                )
            elif node in fed_by:
                problems.append(
                    Problem(
                        place,
                        f"the panel `{node}` is fed twice, by `{fed_by[node].id}` and by `{circuit.id}`",
                        "one feeder feeds a panel",
                        key=True,
                    )
                )
            else:
                fed_by[node] = circuit
    for panel in plan.panels.values():
        if panel.duty == "feeder panel" and panel.id not in fed_by:
            problems.append(
                Problem(
                    panel.place,
                    f"the panel `{panel.id}` is never fed",
                    "carry a circuit of kind `feeder` on a route to it, one that is there already too; a panel that takes "
                    "the supply from the utility has the duty `service equipment`",
                    key=True,
                )
            )
    return fed_by
