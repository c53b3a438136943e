"""Plans of many shapes, for properties: valid plain data whose circuits spread as a supply tree does."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from precover.plan import (
    Box,
    Carried,
    Circuit,
    Device,
    Electrode,
    Leg,
    Panel,
    Route,
    Site,
    Structure,
    Transformer,
)
from support.facts import facts_of

Data = dict[str, Any]

STRUCTURES = ("house", "studio", "pump-post", "greenhouse")


@st.composite
def plans(draw: st.DrawFn, *, whole: bool = False) -> Data:
    """A plan that can be traced; `whole` states every fact of what it lists."""
    return _Making(draw, whole).plan()


def sizes(most: int, least: int = 0) -> st.SearchStrategy[int]:
    """How many of something."""
    return st.integers(least, most)


class _Making:
    """A plan in the making. `reached` has, for each circuit, the panels and boxes that it comes to, its origin first."""

    def __init__(self, draw: st.DrawFn, whole: bool) -> None:
        self.draw = draw
        self.whole = whole
        self.data: Data = {"format": "precover-plan/1", "structures": {}, "panels": {}, "circuits": {}}
        self.data |= {"boxes": {}, "routes": {}}
        self.reached: dict[str, list[str]] = {}

    def plan(self) -> Data:
        """All of it."""
        self.data["site"] = self.draw(facts_of(Site, whole=self.whole))
        for name in STRUCTURES[: self.draw(sizes(4, 1))]:
            self.structure(name)
        self.panel("service", "house", "service equipment")
        for name in [*self.data["structures"]][1:]:
            if self.draw(st.booleans()):
                self.feeder(name)
        for number in range(self.draw(sizes(3))):
            self.branch_circuit(f"circuit-{number + 1}")
        if self.draw(st.booleans()):
            self.low_voltage()
        for box in self.data["boxes"]:
            self.devices(box)
        self.join()
        return self.data

    def facts(self, kind: type, *apart: str) -> Data:
        """Facts of a thing, without the keys that join it to others."""
        return dict(self.draw(facts_of(kind, *apart, whole=self.whole)))

    def one_of(self, names: Any) -> Any:
        """One of several, the first for choice."""
        return self.draw(st.sampled_from([*names]))

    def structure(self, name: str) -> None:
        """A structure with its grounding."""
        made = self.data["structures"][name] = self.facts(Structure)
        rods = {f"electrode-{n + 1}": self.facts(Electrode) for n in range(self.draw(sizes(2)))}
        if rods:
            made["grounding"] = {**made.get("grounding", {}), "electrodes": rods}

    def panel(self, name: str, at: str, duty: str) -> None:
        """A panel at a structure."""
        self.data["panels"][name] = {"at": at, "duty": duty, **self.facts(Panel, "at", "duty")}

    def circuit(self, name: str, kind: str, origin: str) -> None:
        """A circuit that reaches nothing yet."""
        self.data["circuits"][name] = {"kind": kind, "from": origin, **self.facts(Circuit, "kind", "from", "not-with")}
        self.reached[name] = [origin.partition("/")[0]]

    def feeder(self, structure: str) -> None:
        """A panel at a structure, with its feeder from an earlier panel, perhaps through a box on the way."""
        origin, panel, feeder = self.one_of(self.data["panels"]), f"{structure}-panel", f"{structure}-feeder"
        self.panel(panel, structure, "feeder panel")
        self.circuit(feeder, "feeder", origin)
        if self.draw(st.booleans()):
            self.extend(feeder, self.box())
        self.extend(feeder, panel)

    def branch_circuit(self, name: str) -> None:
        """A branch circuit to some boxes, its own or those of an earlier circuit."""
        self.circuit(name, "branch circuit", self.one_of(self.data["panels"]))
        for _ in range(self.draw(sizes(3, 1))):
            self.onward(name)

    def onward(self, name: str) -> None:
        """A circuit one box on: along a route of others, on a route of its own to a box of others, or to a new one."""
        reached = self.reached[name]
        boxes = [box for box in self.data["boxes"] if box not in reached]
        shared = [route for route in self.data["routes"].values() if route["from"] in reached and route["to"] in boxes]
        way = self.one_of(("new", *["shared"] * bool(shared), *["box"] * bool(boxes)))
        if way == "shared":
            self.carry(name, self.one_of(shared))
        else:
            self.extend(name, self.one_of(boxes) if way == "box" else self.box())

    def low_voltage(self) -> None:
        """A low-voltage circuit from a transformer in a box that a circuit reaches."""
        fed = [box for box in self.data["boxes"] if self.arriving(box)]
        if not fed:
            return
        box = self.one_of(fed)
        transformer = {**self.facts(Transformer, "circuit", "after"), "circuit": self.one_of(self.arriving(box))}
        self.data["boxes"][box]["devices"] = {"transformer": transformer}
        self.circuit("garden", "low-voltage", f"{box}/transformer")
        self.onward("garden")

    def box(self) -> str:
        """Another box."""
        name = f"box-{len(self.data['boxes']) + 1}"
        self.data["boxes"][name] = {"at": self.one_of(self.data["structures"]), **self.facts(Box, "at")}
        return name

    def extend(self, circuit: str, to: str) -> None:
        """A new route for a circuit, from anywhere that it reaches."""
        route: Data = {"from": self.one_of(reversed(self.reached[circuit])), "to": to}
        route |= self.facts(Route, "from", "to")
        route |= {"carries": {}, "legs": [self.leg() for _ in range(self.draw(sizes(3, 1)))]}
        self.data["routes"][f"route-{len(self.data['routes']) + 1}"] = route
        self.carry(circuit, route)

    def leg(self) -> Data:
        """A leg of any kind."""
        return self.facts(self.one_of(Leg.__subclasses__()))

    def carry(self, circuit: str, route: Data) -> None:
        """A circuit on a route, in a cable or as wires, or neither said."""
        carried = self.facts(Carried)
        if "cable" in carried and "wires" in carried:
            del carried[self.one_of(("wires", "cable"))]
        route["carries"][circuit] = carried
        self.reached[circuit].append(route["to"])

    def arriving(self, box: str) -> list[str]:
        """The circuits that reach a box from elsewhere."""
        return [name for name, nodes in self.reached.items() if box in nodes[1:]]

    def devices(self, box: str) -> None:
        """Devices of any kind in a box, each on a circuit that reaches it, some fed from the load side of another."""
        arriving = self.arriving(box)
        made = self.data["boxes"][box].setdefault("devices", {})
        for number in range(self.draw(sizes(2)) if arriving else 0):
            kind = self.one_of(Device.__subclasses__())
            device = self.facts(kind, "circuit", "after", "switched-by")
            if len(arriving) > 1 or self.draw(st.booleans()):
                device["circuit"] = self.one_of(arriving)
            on = device.get("circuit", arriving[0] if arriving else "")
            ahead = [name for name, other in made.items() if _feeds(other) and other.get("circuit", arriving[0]) == on]
            if ahead and self.draw(st.booleans()):
                device["after"] = self.one_of(ahead)
            made[f"device-{number + 1}"] = device
        if not made:
            del self.data["boxes"][box]["devices"]

    def join(self) -> None:
        """Some of the references that a plan may make or not: circuits that do not run together, lamps and switches."""
        for circuit in self.data["circuits"].values():
            if self.draw(st.integers(0, 3)) == 3:
                circuit["not-with"] = self.one_of(self.data["circuits"])
        devices = {
            f"{at}/{name}": device
            for at, box in self.data["boxes"].items()
            for name, device in box.get("devices", {}).items()
        }
        switches = [path for path, device in devices.items() if "switch" in device]
        for device in devices.values():
            if "luminaire" in device and switches and (self.whole or self.draw(st.booleans())):
                device["switched-by"] = self.one_of(switches)


def _feeds(device: Data) -> bool:
    return "receptacle" in device or "ground-fault-device" in device
