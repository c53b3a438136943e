"""Ways out that give a structure a light with a wall switch, inside or outside its entrance."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precover.plan import Box, Cable, Circuit, Conductor, Structure, Switch
from precover.plan.thing import escaped
from precover.rulebook import Effort, Look, Proposal
from precover_rules.boxes.contents import straps
from precover_rules.free_names import free_names
from precover_rules.required_outlets.inventory import boxes_of_one_hot

LAMP = "10 W"
"""Of a light as it is commonly sold (common practice); only these proposals use it."""

WALL = "8 in"
"""Through a framed wall with what covers it (common practice); only these proposals use it."""

CABLES = ("14", "12", "10")
"""Sizes in AWG of the cable that is run through the wall, which is sold in copper (common practice)."""

Edit = dict[str, Any]


def adding_a_light(structure: Structure, look: Look, *, outdoors: bool) -> tuple[Proposal, ...]:
    """For each circuit of one hot there, those that have a light switch first: a light at a box on the right side of the
    wall, or where there is none outdoors one through the wall, with that switch or a new one."""
    boxes: dict[str, list[Box]] = {}
    for box, circuit in boxes_of_one_hot(structure, look):
        boxes.setdefault(circuit.id, []).append(box)
    ways = [way for name, there in boxes.items() for way in _on(look.plan.circuits[name], there, look, outdoors)]
    return tuple(sorted(ways, key=lambda way: len(way.patch)))


def _on(circuit: Circuit, there: list[Box], look: Look, outdoors: bool) -> Iterator[Proposal]:
    found = _switch_on(there)
    if found is None:
        return
    switch, edits = found
    light: Edit = {"luminaire": LAMP, "listed-for": "wet" if outdoors else "dry", "switched-by": switch}
    told = f"switched by {switch}" if not edits else f"with a switch in {switch.partition('/')[0]}"
    right = [box for box in there if _is_right(box, outdoors)]
    if right:
        box = min(right, key=lambda box: bool(straps(box)))  # rather where no device is in the way
        name = next(free_names("light", box.devices))
        put = {"op": "add", "path": f"{box.place}/devices/{escaped(name)}", "value": light}
        yield Proposal(f"put a light at {box.id}, {told}", Effort.PART, (put, *edits))
    elif outdoors and (through := _through_the_wall(circuit, there, light, look)) is not None:
        box, added = through
        words = f"put a light onto the outside wall, by a cable from {box.id}, {told}"
        yield Proposal(words, Effort.WIRE, (*added, *edits))


def _is_right(box: Box, outdoors: bool) -> bool:
    return box.area == "outdoors" if outdoors else _is_dry_inside(box)


def _is_dry_inside(box: Box) -> bool:
    return box.location == "dry" and isinstance(box.area, str) and box.area != "outdoors"


def _switch_on(there: list[Box]) -> tuple[str, tuple[Edit, ...]] | None:
    """`box/device` of a light switch in one of these boxes, or of a new one in a dry box inside, with the edit that puts it
    there."""
    for box in there:
        for device in box.devices.values():
            if isinstance(device, Switch) and device.role == "lighting":
                return f"{box.id}/{device.id}", ()
    for box in filter(_is_dry_inside, there):
        name = next(free_names("light-switch", box.devices))
        switch = {"switch": "15 A", "role": "lighting", "opens": "all hots", "height": "48 in"}
        return f"{box.id}/{name}", ({"op": "add", "path": f"{box.place}/devices/{escaped(name)}", "value": switch},)
    return None


def _through_the_wall(
    circuit: Circuit, there: list[Box], light: Edit, look: Look
) -> tuple[Box, tuple[Edit, ...]] | None:
    """A box with the light on the outside of the wall, and the cable to it from the first dry box inside: that box, and the
    edits; None where no cable as large as the wire there is sold."""
    for box in filter(_is_dry_inside, there):
        carried = look.trace.tree.arrival[circuit.id][box.id].carries[circuit.id]
        wire = carried.cable if carried.wires is None else carried.wires.hot
        if isinstance(wire, Cable | Conductor) and wire.material == "Cu" and wire.size.designation in CABLES:
            name = next(free_names(f"{box.at}-entrance-light", {**look.plan.boxes, **look.plan.panels}))
            cable = {
                "from": box.id,
                "to": name,
                "raceway": "none",
                "carries": {circuit.id: {"cable": f"UF-B {wire.size.designation}/2"}},
                "legs": [{"through": "wall", "length": WALL, "sealed": True}],
            }
            route = next(free_names(f"to-{name}", look.plan.routes))
            added = ((f"/boxes/{escaped(name)}", _outside(box.at, light)), (f"/routes/{escaped(route)}", cable))
            return box, tuple({"op": "add", "path": path, "value": value} for path, value in added)
    return None


def _outside(structure: str, light: Edit) -> Edit:
    """A box on an outside wall, with a light."""
    return {
        "at": structure,
        "area": "outdoors",
        "location": "wet",
        "box": {"kind": "box", "material": "PVC", "volume": "20 in³", "listed-for": "wet", "mounting": "surface"},
        "devices": {"light": light},
    }
