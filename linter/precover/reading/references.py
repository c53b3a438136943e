"""References between the things of a plan: every id that is named must be there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice
from typing import Any, Final

from precover.plan import (
    Box,
    Device,
    DisconnectSwitch,
    GroundFaultDevice,
    Luminaire,
    Panel,
    Plan,
    Problem,
    Receptacle,
    Route,
    Switch,
    Transformer,
)
from precover.plan.thing import Thing
from precover.reading.errors import MOST_PROBLEMS, short

MOST_COMPARED: Final = 1000
"""Names among which the nearest is looked for."""


FEEDS_THROUGH: Final = (Receptacle, GroundFaultDevice)
"""Devices with a load side that feeds others."""

SWITCHES: Final = (Switch, DisconnectSwitch)


def dangling(plan: Plan) -> list[Problem]:
    """Every reference of the plan that leads nowhere; of very many the first."""
    return list(islice(_dangling(plan), MOST_PROBLEMS + 1))


def _dangling(plan: Plan) -> Iterator[Problem]:
    yield from _of_nodes(plan)
    for circuit in plan.circuits.values():
        yield from _origin(plan, circuit.place, circuit.from_)
        if circuit.not_with is not None and circuit.not_with not in plan.circuits:
            yield _named(circuit, "not-with", circuit.not_with, plan.circuits, "circuit")
    ends: dict[str, Panel | Box] = {**plan.panels, **plan.boxes}
    for route in plan.routes.values():
        yield from _of_route(plan, route, ends)
    for box in plan.boxes.values():
        for device in box.devices.values():
            yield from _of_device(plan, box, device)


def _of_nodes(plan: Plan) -> Iterator[Problem]:
    for things in (plan.panels, plan.boxes):
        for thing in things.values():
            if thing.at not in plan.structures:
                yield _named(thing, "at", thing.at, plan.structures, "structure")
    for name in plan.boxes:
        if name in plan.panels:
            yield Problem(
                f"/boxes/{name}", f"`{name}` is the name of a panel too", "give the box a name of its own", key=True
            )


def _of_route(plan: Plan, route: Route, ends: Mapping[str, Panel | Box]) -> Iterator[Problem]:
    for key, name in (("from", route.from_), ("to", route.to)):
        if name not in ends:
            yield _named(route, key, name, ends, "panel or box")
    if route.from_ == route.to:
        yield Problem(f"{route.place}/to", "this route ends where it begins", "name what it leads to")
    for carried in route.carries.values():
        if carried.id not in plan.circuits:
            yield _named(carried, "", carried.id, plan.circuits, "circuit", at_key=True)


def _of_device(plan: Plan, box: Box, device: Device) -> Iterator[Problem]:
    if device.circuit is not None and device.circuit not in plan.circuits:
        yield _named(device, "circuit", device.circuit, plan.circuits, "circuit")
    if device.after is not None:
        feeders = {name: other for name, other in box.devices.items() if isinstance(other, FEEDS_THROUGH)}
        feeders.pop(device.id, None)
        if device.after not in feeders:
            what = "other ground-fault device or receptacle in this box"
            yield _named(device, "after", device.after, feeders, what)
        elif _comes_round(box, device):
            yield Problem(
                f"{device.place}/after", "these devices feed each other in a loop", "one of them is fed first"
            )
    if isinstance(device, Luminaire) and isinstance(device.switched_by, str):
        yield from _in_box(plan, f"{device.place}/switched-by", device.switched_by, SWITCHES, "switch")


def _comes_round(box: Box, device: Device) -> bool:
    seen: set[str] = set()
    at: str | None = device.id
    while at is not None and at in box.devices and at not in seen:
        seen.add(at)
        at = box.devices[at].after
    return at == device.id


def _origin(plan: Plan, place: str, origin: str) -> Iterator[Problem]:
    if "/" in origin:
        yield from _in_box(plan, f"{place}/from", origin, (Transformer,), "transformer")
    elif origin not in plan.panels:
        yield Problem(f"{place}/from", f"there is no panel `{short(origin)}`", _near(origin, plan.panels))


def _in_box(plan: Plan, place: str, name: str, kinds: tuple[type[Device], ...], what: str) -> Iterator[Problem]:
    """A device of one of these kinds, named by its box and its id: `box/device`."""
    box, _, device = name.partition("/")
    found = plan.boxes[box].devices.get(device) if box in plan.boxes else None
    if not isinstance(found, kinds):
        known = {
            f"{box.id}/{device.id}": device
            for box in plan.boxes.values()
            for device in box.devices.values()
            if isinstance(device, kinds)
        }
        yield Problem(place, f"there is no {what} `{short(name)}`", _near(name, known))


def _named(thing: Thing, key: str, name: str, among: Mapping[str, Any], what: str, *, at_key: bool = False) -> Problem:
    place = f"{thing.place}/{key}" if key else thing.place
    return Problem(place, f"there is no {what} `{short(name)}`", _near(name, among), key=at_key)


def _near(name: str, among: Mapping[str, Any]) -> str:
    from difflib import get_close_matches  # only for a name that is wrong

    near = get_close_matches(short(name), islice(among, MOST_COMPARED), n=1, cutoff=0.6)
    if near:
        return f"did you mean `{near[0]}`?"
    listed = ", ".join(list(among)[:8])
    return f"there are: {listed}{' ...' if len(among) > 8 else ''}" if listed else "none is in the plan"
