"""References between the things of a plan: every id that is named must be there."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from typing import Any

from precover.plan import Plan, Problem
from precover.plan.thing import Thing
from precover.reading.schema import short


def dangling(plan: Plan) -> list[Problem]:
    """Every reference of the plan that leads nowhere."""
    return list(_dangling(plan))


def _dangling(plan: Plan) -> Iterator[Problem]:
    for things in (plan.panels, plan.boxes):
        for thing in things.values():
            yield from _named(thing, "at", thing.at, plan.structures, "structure")
    for name in plan.boxes:
        if name in plan.panels:
            yield Problem(
                f"/boxes/{name}", f"`{name}` is the name of a panel too", "give the box a name of its own", key=True
            )
    for circuit in plan.circuits.values():
        yield from _origin(plan, circuit.place, circuit.from_)
    ends = {**plan.panels, **plan.boxes}
    for route in plan.routes.values():
        yield from _named(route, "from", route.from_, ends, "panel or box")
        yield from _named(route, "to", route.to, ends, "panel or box")
        for carried in route.carries.values():
            yield from _named(carried, "", carried.id, plan.circuits, "circuit", at_key=True)
    yield from _in_boxes(plan)


def _in_boxes(plan: Plan) -> Iterator[Problem]:
    for box in plan.boxes.values():
        for device in box.devices.values():
            if device.circuit is not None:
                yield from _named(device, "circuit", device.circuit, plan.circuits, "circuit")
            if device.after is not None:
                yield from _named(device, "after", device.after, box.devices, "device of this box")


def _origin(plan: Plan, place: str, origin: str) -> Iterator[Problem]:
    box, _, device = origin.partition("/")
    if device and box in plan.boxes and device in plan.boxes[box].devices:
        return
    if origin not in plan.panels:
        yield Problem(f"{place}/from", f"there is no panel `{short(origin)}`", _near(origin, plan.panels))


def _named(
    thing: Thing, key: str, name: str, among: Mapping[str, Any], what: str, *, at_key: bool = False
) -> Iterator[Problem]:
    if name not in among:
        place = f"{thing.place}/{key}" if key else thing.place
        yield Problem(place, f"there is no {what} `{short(name)}`", _near(name, among), key=at_key)


def _near(name: str, among: Mapping[str, Any]) -> str:
    near = difflib.get_close_matches(name, list(among), n=1, cutoff=0.6)
    if near:
        return f"did you mean `{near[0]}`?"
    listed = ", ".join(list(among)[:8])
    return f"there are: {listed}{' ...' if len(among) > 8 else ''}" if listed else "none is in the plan"
