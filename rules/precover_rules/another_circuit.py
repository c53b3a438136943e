"""Ways out that put devices on another circuit: one that comes to their boxes already, or a new one beside theirs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from precover.plan import Carried, Circuit, Conductor, Device, Route, Unstated
from precover.plan.thing import escaped
from precover.rulebook import Effort, Look, Proposal
from precover_rules.as_written import as_written
from precover_rules.circuits import devices_on
from precover_rules.free_names import free_names
from precover_rules.planned_then import planned_with, planned_without
from precover_rules.separate_structures import leaves_its_structure
from precover_rules.sizing.own_circuit import PASSES_CURRENT
from precover_rules.what_goes_along import with_what_serves_them

OF_THE_OLD_ONE = ("load", "leg", "serves", "limited-load", "not-with", "existing")
"""Facts of a circuit that are no longer so of another one like it."""


def on_another_circuit(
    devices: Sequence[Device], look: Look, *, volts: str = "", suits: Callable[[Circuit], bool] = lambda _: True
) -> tuple[Proposal, ...]:
    """Devices of one circuit put on another of the same voltage, or of `volts` between a hot and the neutral: on each that
    `suits` and comes to all their boxes, and on a new one like theirs, along the same way from the same panel. What switches
    them or cuts them off goes along, the old circuit comes off where nothing of it is left, and what both are planned for is
    put right. Nothing is proposed where they are all that is on it, or one feeds another in a box."""
    circuit = look.trace.circuit_of(devices[0])
    moved = with_what_serves_them(devices, circuit, look)
    left = [device for device in devices_on(circuit, look) if device not in moved]
    if not moved or _feed_each_other(moved, look) or all(isinstance(device, PASSES_CURRENT) for device in left):
        return ()
    names = " and ".join(device.id for device in devices)
    along = " and ".join(device.id for device in moved if device not in devices)
    also = f", with {along}" if along else ""
    off = _no_longer_needed(circuit, moved, left, look)
    taken = f", and take {circuit.id} off {' and '.join(route.id for route in off)}" if off else ""
    leaving = (
        *planned_without(circuit, moved, left, look),
        *({"op": "remove", "path": f"{route.place}/carries/{escaped(circuit.id)}"} for route in off),
    )
    text = volts or ("" if isinstance(circuit.voltage, Unstated) else circuit.voltage.text)
    there = [
        way._replace(words=f"{way.words}{taken}", patch=(*way.patch, *leaving))
        for other in _in_their_boxes(moved, look)
        if other.kind == "branch circuit" and _is_of(text, other) and other is not circuit and suits(other)
        for way in _there(moved, other, f"put {names} on {other.id}{also}", look)
    ]
    new = _new(moved, circuit, volts, look)
    own = f"a {text} circuit" if volts else f"a circuit like {circuit.id}"
    words = f"give {names} {own} of {'their' if len(devices) > 1 else 'its'} own{also}{taken}"
    return (*there, *(Proposal(words, Effort.WIRE, (*patch, *leaving)) for patch in new))


def to_one_hot(carried: Carried) -> dict[str, Any] | None:
    """What carries a circuit, as the plan writes it, with one hot and a neutral: the two conductors of a cable as they are,
    and of two hots the second exchanged; None where the plan does not tell."""
    written = as_written(carried)
    wires = carried.wires
    if wires is None:
        return written if "cable" in written else None
    if not isinstance(wires.hot, Conductor):
        return None
    one = f"{wires.hot.size} {wires.hot.material} {wires.hot.insulation}"
    return {**written, "wires": {"neutral": one, **written["wires"], "hot": one}}


def _there(moved: Sequence[Device], other: Circuit, words: str, look: Look) -> Iterator[Proposal]:
    """The way out that puts devices on a circuit that comes to them; none where it is planned for a load, and what they add
    is more than its breaker carries, or the plan does not tell."""
    changes = [(device, "circuit", other.id) for device in moved]
    if isinstance(other.load, Unstated):
        yield Proposal.state(words, Effort.PAPER, *changes)
        return
    planned, rating = planned_with(other, moved, look), other.breaker.rating
    if planned is not None and (isinstance(rating, Unstated) or planned <= rating):
        then = f"{words}, planned for {planned} then"
        yield Proposal.state(then, Effort.PAPER, *changes, (other, "load", planned.text))


def _no_longer_needed(circuit: Circuit, moved: Sequence[Device], left: Sequence[Device], look: Look) -> list[Route]:
    """The routes on the way of a circuit to the boxes of devices that leave it, beyond which nothing of it is left, and those
    that go on from there."""
    needed = _ways(left, circuit, look)
    ended = [route for route in _ways(moved, circuit, look) if route not in needed]
    tree = look.trace.tree
    return [
        route
        for route in tree.routes[circuit.id]
        if any(passed in ended for passed in tree.way_to(circuit.id, route.to))
    ]


def _feed_each_other(moved: Sequence[Device], look: Look) -> bool:
    """One of them is fed from the load side of another device in its box, or another from its own."""
    boxes = [look.trace.box_of(device) for device in moved]
    feeding = {(box.id, one.after) for box in boxes for one in box.devices.values() if one.after is not None}
    return any(device.after is not None or (look.trace.box_of(device).id, device.id) in feeding for device in moved)


def _in_their_boxes(devices: Sequence[Device], look: Look) -> Iterator[Circuit]:
    """The circuits that come to the boxes of all these devices."""
    each = [look.trace.tree.circuits_in[look.trace.box_of(device).id] for device in devices]
    for name in each[0]:
        if all(name in names for names in each):
            yield look.plan.circuits[name]


def _is_of(text: str, circuit: Circuit) -> bool:
    return not isinstance(circuit.voltage, Unstated) and circuit.voltage.text == text


def _new(moved: Sequence[Device], circuit: Circuit, volts: str, look: Look) -> Iterator[tuple[dict[str, Any], ...]]:
    """The edit that brings a new circuit to the boxes of these devices, along the way of theirs, and puts them on it; none
    from another structure, which would be one supply more there."""
    if leaves_its_structure(circuit, look):
        return
    # Named by its box too: another one may be added for a device of the same name before the plan is looked at again.
    name = next(free_names(f"{look.trace.box_of(moved[0]).id}-{moved[0].id}", look.plan.circuits))
    written = {key: value for key, value in as_written(circuit).items() if key not in OF_THE_OLD_ONE}
    if volts:
        breaker = {key: value for key, value in written.get("breaker", {}).items() if key != "common-trip"}
        written |= {"voltage": volts, "multiwire": False, "breaker": {**breaker, "poles": 1}}
    patch: list[dict[str, Any]] = [{"op": "add", "path": f"/circuits/{escaped(name)}", "value": written}]
    for route in _ways(moved, circuit, look):
        carried = route.carries[circuit.id]
        value = to_one_hot(carried) if volts else as_written(carried)
        if not value:
            return
        patch.append({"op": "add", "path": f"{route.place}/carries/{escaped(name)}", "value": value})
        box = look.plan.boxes.get(route.to)
        for device in () if box is None else box.devices.values():
            if device not in moved and device.circuit is None:
                patch.append({"op": "add", "path": f"{device.place}/circuit", "value": circuit.id})
    patch += [{"op": "add", "path": f"{device.place}/circuit", "value": name} for device in moved]
    yield tuple(patch)


def _ways(devices: Sequence[Device], circuit: Circuit, look: Look) -> Sequence[Route]:
    """The routes on the way of a circuit to the boxes of these devices, each once."""
    tree = look.trace.tree
    found = (route for device in devices for route in tree.way_to(circuit.id, look.trace.box_of(device).id))
    return list({route.id: route for route in found}.values())
