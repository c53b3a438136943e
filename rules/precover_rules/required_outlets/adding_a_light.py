"""Ways out that give a structure a light with a wall switch, inside or outside its entrance."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precover.plan import Box, Cable, Circuit, Conductor, Luminaire, Structure, Switch
from precover.plan.thing import escaped
from precover.rulebook import Effort, Look, Proposal
from precover_rules.boxes.for_devices import switch_height, takes_devices
from precover_rules.free_names import free_names
from precover_rules.required_outlets.inventory import boxes_of_one_hot

LAMP = "10 W"
"""Of a light as it is commonly sold (common practice); only these proposals use it."""

WALL = "8 in"
"""Through a framed wall with what covers it (common practice); only these proposals use it."""

TO_THE_CEILING, FROM_THE_EDGE = "12 ft", "1 1/2 in"
"""Of a cable from a wall box to the ceiling, and how far it is from the edge of the framing, in the middle of a stud of
3 1/2 in (common practice); only these proposals use them."""

CABLES = ("14", "12", "10")
"""Sizes in AWG of the cable that is run through the wall, which is sold in copper (common practice)."""

Edit = dict[str, Any]


def adding_a_light(structure: Structure, look: Look, *, outdoors: bool) -> tuple[Proposal, ...]:
    """For each circuit of one hot there, those that have a light switch first: a light at a box on the right side of the
    wall that has no device in it, or where there is none at a new one, with that switch or a new one."""
    boxes: dict[str, list[Box]] = {}
    for box, circuit in boxes_of_one_hot(structure, look):
        if takes_devices(box):
            boxes.setdefault(circuit.id, []).append(box)
    ways = [way for name, there in boxes.items() for way in _on(look.plan.circuits[name], there, look, outdoors)]
    return tuple(sorted(ways, key=lambda way: len(way.patch)))


def _on(circuit: Circuit, there: list[Box], look: Look, outdoors: bool) -> Iterator[Proposal]:
    found = _switch_on(there, look)
    if found is None:
        return
    switch, edits = found
    light: Edit = {"luminaire": LAMP, "listed-for": "wet" if outdoors else "dry", "switched-by": switch}
    told = f"switched by {switch}" if not edits else f"with a switch in {switch.partition('/')[0]}"
    for box in there:
        if not box.devices and (box.area == "outdoors" if outdoors else _is_dry_inside(box)):
            put = {"op": "add", "path": f"{box.place}/devices/light", "value": light}
            yield Proposal(f"put a light at {box.id}, {told}", Effort.PART, (put, *edits))
            return
    new = _by_cable(circuit, there, light, look, outdoors)
    if new is not None:
        box, added = new
        where = "outside wall, by a cable" if outdoors else f"ceiling, by {TO_THE_CEILING} of cable in the framing"
        yield Proposal(f"put a light onto the {where} from {box.id}, {told}", Effort.WIRE, (*added, *edits))


def _is_dry_inside(box: Box) -> bool:
    return box.location == "dry" and isinstance(box.area, str) and box.area != "outdoors"


def _switch_on(there: list[Box], look: Look) -> tuple[str, tuple[Edit, ...]] | None:
    """`box/device` of a light switch in one of these boxes, or of a new one in a dry box inside at whose height a switch can
    be, with the edit that puts it there."""
    for box in there:
        for device in box.devices.values():
            if isinstance(device, Switch) and device.role == "lighting":
                return f"{box.id}/{device.id}", ()
    for box in filter(_is_on_a_wall, filter(_is_dry_inside, there)):
        height = switch_height(box, look)
        if height is not None:
            name = next(free_names("light-switch", box.devices))
            switch = {"switch": "15 A", "role": "lighting", "opens": "all hots", "height": height}
            return f"{box.id}/{name}", ({"op": "add", "path": f"{box.place}/devices/{escaped(name)}", "value": switch},)
    return None


def _is_on_a_wall(box: Box) -> bool:
    """Nothing in it tells that it is up at a light."""
    return not any(isinstance(device, Luminaire) for device in box.devices.values())


def _by_cable(
    circuit: Circuit, there: list[Box], light: Edit, look: Look, outdoors: bool
) -> tuple[Box, tuple[Edit, ...]] | None:
    """A new box with the light, on the outside of the wall or on the ceiling, and the cable to it from a dry box inside, if
    it can be that of the switch: that box, and the edits; None where no cable as large as the wire there is sold."""
    at_switch = light["switched-by"].partition("/")[0]
    for box in sorted(filter(_is_dry_inside, there), key=lambda box: box.id != at_switch):
        carried = look.trace.tree.arrival[circuit.id][box.id].carries[circuit.id]
        wire = carried.cable if carried.wires is None else carried.wires.hot
        if isinstance(wire, Cable | Conductor) and wire.material == "Cu" and wire.size.designation in CABLES:
            stem = f"{box.at}-{'entrance-' if outdoors else ''}light"
            name = next(free_names(stem, {**look.plan.boxes, **look.plan.panels}))
            kind, leg = ("UF-B", _THROUGH_THE_WALL) if outdoors else ("NM-B", _TO_THE_CEILING)
            cable = {
                "from": box.id,
                "to": name,
                "raceway": "none",
                "carries": {circuit.id: {"cable": f"{kind} {wire.size.designation}/2"}},
                "legs": [leg],
            }
            route = next(free_names(f"to-{name}", look.plan.routes))
            new = _with(light, box.at, "outdoors" if outdoors else str(box.area), outdoors)
            added = ((f"/boxes/{escaped(name)}", new), (f"/routes/{escaped(route)}", cable))
            return box, tuple({"op": "add", "path": path, "value": value} for path, value in added)
    return None


_THROUGH_THE_WALL: Edit = {"through": "wall", "length": WALL, "sealed": True}
_TO_THE_CEILING: Edit = {
    "in": "wall framing",
    "length": TO_THE_CEILING,
    "location": "dry",
    "edge-distance": FROM_THE_EDGE,
}


def _with(light: Edit, structure: str, area: str, outdoors: bool) -> Edit:
    """A box on an outside wall or in a ceiling, with a light."""
    location, mounting = ("wet", "surface") if outdoors else ("dry", "flush")
    return {
        "at": structure,
        "area": area,
        "location": location,
        "box": {"kind": "box", "material": "PVC", "volume": "20 in³", "listed-for": location, "mounting": mounting},
        "devices": {"light": light},
    }
