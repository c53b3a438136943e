"""Questions about a plan that need more than one of its things to answer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any

from precover.plan import (
    Bend,
    Box,
    Breaker,
    Carried,
    Circuit,
    Device,
    Electrode,
    GroundFaultDevice,
    Leg,
    Panel,
    Plan,
    Problem,
    Raceway,
    Receptacle,
    Route,
    Structure,
    Unstated,
)
from precover.plan.thing import Thing
from precover.tracing.lying import Lying
from precover.tracing.soundness import loops, unclear_devices
from precover.tracing.supply_tree import Supply, SupplyTree, grow, origin_of

Protector = Breaker | Receptacle | GroundFaultDevice
"""What can give ground-fault protection to what lies behind it."""

_PROTECTING = (Receptacle, GroundFaultDevice)


class Trace:
    """A plan with its supply tree, and the questions that rules ask of both.

    Nothing here decides a rule: where an answer depends on a fact that the plan leaves out, the fact itself is handed
    on, stated or not.
    """

    def __init__(self, plan: Plan, tree: SupplyTree) -> None:
        self.plan = plan
        self.tree = tree
        self.worked_out: dict[object, Any] = {}
        """What rules have worked out from the plan alone, as it is stated, for the rules after them."""
        self._route_of = {leg.place: route for route in plan.routes.values() for leg in route.legs}
        self._box_of = {device.place: box for box in plan.boxes.values() for device in box.devices.values()}

    def route_of(self, leg: Leg) -> Route:
        """The route a leg belongs to."""
        return self._route_of[leg.place]

    def box_of(self, device: Device) -> Box:
        """The box a device is in."""
        return self._box_of[device.place]

    def structure_of(self, thing: Device | Box | Panel) -> Structure:
        """The structure a device, box or panel is at."""
        where = self._box_of[thing.place] if isinstance(thing, Device) else thing
        return self.plan.structures[where.at]

    def circuit_of(self, device: Device) -> Circuit:
        """The circuit a device is on."""
        return self._circuit_of[device.place]

    @cached_property
    def _circuit_of(self) -> Mapping[str, Circuit]:
        return {
            device.place: self.plan.circuits[device.circuit or self.tree.circuits_in[box.id][0]]
            for box in self.plan.boxes.values()
            for device in box.devices.values()
        }

    def devices_on(self, circuit: Circuit) -> tuple[Device, ...]:
        """The devices on a circuit, those nearer its origin first."""
        return self._devices_on.get(circuit.id, ())

    @cached_property
    def _devices_on(self) -> Mapping[str, tuple[Device, ...]]:
        found: dict[str, tuple[Device, ...]] = {}
        for name, arrival in self.tree.arrival.items():
            boxes = (self.plan.boxes[node] for node in arrival if node in self.plan.boxes)
            found[name] = tuple(
                device for box in boxes for device in box.devices.values() if self._circuit_of[device.place].id == name
            )
        return found

    def node(self, name: str) -> Panel | Box:
        """The panel or box of that id."""
        return self.plan.panels[name] if name in self.plan.panels else self.plan.boxes[name]

    def circuits_on(self, route: Route) -> list[tuple[Circuit, Carried]]:
        """The circuits a route carries, with what carries them."""
        return [(self.plan.circuits[name], carried) for name, carried in route.carries.items()]

    def raceway_around(self, leg: Leg) -> Raceway | Unstated:
        """The raceway that holds in a leg: the leg's own, else its route's."""
        own = leg.raceway
        return self._route_of[leg.place].raceway if isinstance(own, Unstated) else own

    def lying(self, carried: Carried) -> list[Lying]:
        """Where one circuit's conductors lie along a route, leg by leg; a bend is no place to lie in."""
        return self._lying[carried.place]

    @cached_property
    def _lying(self) -> Mapping[str, list[Lying]]:
        found: dict[str, list[Lying]] = {}
        for route in self.plan.routes.values():
            legs = [leg for leg in route.legs if not isinstance(leg, Bend)]
            for circuit, carried in self.circuits_on(route):
                found[carried.place] = [Lying(leg, route, circuit, carried) for leg in legs]
        return found

    def routes_at(self, node: Panel | Box) -> list[Route]:
        """The routes that begin or end at a panel or box."""
        return self._routes_at.get(node.id, [])

    @cached_property
    def _routes_at(self) -> Mapping[str, list[Route]]:
        found: dict[str, list[Route]] = {}
        for route in self.plan.routes.values():
            found.setdefault(route.from_, []).append(route)
            found.setdefault(route.to, []).append(route)
        return found

    def circuits_from(self, panel: Panel) -> list[Circuit]:
        """The circuits that begin in a panel."""
        return self._circuits_from.get(panel.id, [])

    @cached_property
    def _circuits_from(self) -> Mapping[str, list[Circuit]]:
        found: dict[str, list[Circuit]] = {}
        for circuit in self.plan.circuits.values():
            found.setdefault(circuit.from_, []).append(circuit)
        return found

    def feeder_of(self, panel: Panel) -> Circuit | None:
        """The feeder that feeds a panel; None for service equipment."""
        return self.tree.fed_by.get(panel.id)

    def panel_fed_by(self, feeder: Circuit) -> Panel | None:
        """The panel at the end of a feeder, if it ends in one."""
        return next((self.plan.panels[name] for name, circuit in self.tree.fed_by.items() if circuit is feeder), None)

    def supplies(self, structure: Structure) -> tuple[Supply, ...]:
        """The circuits that come into a structure from another, each once."""
        return self._supplies.get(structure.id, ())

    @cached_property
    def _supplies(self) -> Mapping[str, tuple[Supply, ...]]:
        found: dict[str, dict[str, Supply]] = {}
        for name, arrival in self.tree.arrival.items():
            for node, route in arrival.items():
                here, there = self.node(node).at, self.node(route.from_).at
                if here != there:
                    found.setdefault(here, {}).setdefault(name, Supply(self.plan.circuits[name], route))
        return {name: tuple(by_circuit.values()) for name, by_circuit in found.items()}

    def panels_at(self, structure: Structure) -> list[Panel]:
        """The panels at a structure, those nearer the supply first."""
        return self._panels_at.get(structure.id, [])

    @cached_property
    def _panels_at(self) -> Mapping[str, list[Panel]]:
        found: dict[str, list[Panel]] = {}
        for panel in sorted(self.plan.panels.values(), key=self._depth):
            found.setdefault(panel.at, []).append(panel)
        return found

    def _depth(self, panel: Panel) -> int:
        depth, at = 0, panel.id
        while at in self.tree.fed_by:
            depth, at = depth + 1, origin_of(self.tree.fed_by[at])
        return depth

    def structure_with(self, electrode: Electrode) -> Structure:
        """The structure an electrode is at."""
        return self._structure_with[electrode.place]

    @cached_property
    def _structure_with(self) -> Mapping[str, Structure]:
        return {
            electrode.place: structure
            for structure in self.plan.structures.values()
            for electrode in structure.grounding.electrodes.values()
        }

    @cached_property
    def names(self) -> tuple[tuple[str, str], ...]:
        """The plan's own words for its things, each with the place it stands for: the title, ids, what serves what."""
        plan = self.plan
        found = [(plan.title or "", "")]
        for things in (plan.structures, plan.circuits, plan.boxes):
            found += [(thing.id, thing.place) for thing in things.values()]
        found += [(circuit.serves, circuit.place) for circuit in plan.circuits.values() if circuit.serves]
        for box in plan.boxes.values():
            for device in box.devices.values():
                told = (getattr(device, name) for name in ("equipment", "serves") if name in device.facts)
                found.append((f"{device.id} {next(filter(None, told), '')}", device.place))
        return tuple(found)

    def devices_at(self, structure: Structure) -> list[Device]:
        """Every device in a box at a structure."""
        return [device for box in self.plan.boxes.values() if box.at == structure.id for device in box.devices.values()]

    def protectors_ahead_of_leg(self, circuit: Circuit, leg: Leg) -> list[Protector]:
        """What could give ground-fault protection to a circuit in a leg of a route that carries it."""
        return self._ahead(circuit, self.route_of(leg).from_)

    def protectors_of(self, device: Device) -> list[Protector]:
        """What could give ground-fault protection to a device: itself, what feeds it in its box, and what is ahead of the box."""
        box = self.box_of(device)
        found: list[Protector] = [device] if isinstance(device, Receptacle) else []
        before = device
        while before.after is not None:
            before = box.devices[before.after]
            if isinstance(before, _PROTECTING):
                found.append(before)
        circuit = self.circuit_of(device)
        arrival = self.tree.arrival[circuit.id].get(box.id)
        return found + self._ahead(circuit, arrival.from_ if arrival is not None else origin_of(circuit))

    def _ahead(self, circuit: Circuit, node: str) -> list[Protector]:
        """Protectors that a circuit has passed when it leaves a panel or box, nearest first."""
        found: list[Protector] = []
        origin, boxes = origin_of(circuit), self.plan.boxes
        for name in self.tree.passed(circuit.id, node):
            if name in boxes and name != origin:
                found += [
                    device
                    for device in boxes[name].devices.values()
                    if isinstance(device, _PROTECTING) and self.circuit_of(device) is circuit
                ]
        if "/" in circuit.from_:
            return found  # a transformer's secondary is not protected by what stands ahead of its primary
        found.append(circuit.breaker)
        feeder = self.tree.fed_by.get(circuit.from_)
        if feeder is not None:
            found.extend(self._ahead(feeder, circuit.from_))
        return found

    def subjects(self) -> Iterator[Thing | Lying]:
        """Everything that a rule can look at."""
        plan = self.plan
        yield plan
        yield plan.site
        yield from plan.structures.values()
        for structure in plan.structures.values():
            yield structure.grounding
            yield from structure.grounding.electrodes.values()
        yield from plan.panels.values()
        yield from plan.circuits.values()
        for box in plan.boxes.values():
            yield box
            yield from box.devices.values()
        for route in plan.routes.values():
            yield route
            yield from route.carries.values()
            yield from route.legs
            for carried in route.carries.values():
                yield from self._lying[carried.place]


def trace(plan: Plan) -> tuple[Trace, list[Problem]]:
    """The trace of a plan whose references hold, and what keeps its circuits from being a supply tree."""
    tree, problems = grow(plan)
    problems += unclear_devices(plan, tree)
    problems += loops(plan, tree)
    return Trace(plan, tree), problems
