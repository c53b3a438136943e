"""What a supply tree must be beyond its branches: fed from somewhere, and clear about what every device is on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from precover.plan import Box, Circuit, Plan, Problem
from precover.tracing.supply_tree import SupplyTree, origin_of


def loops(plan: Plan, tree: SupplyTree) -> Iterator[Problem]:
    """Circuits that feed each other in a loop, through panels or transformers, and so begin nowhere."""
    sound: set[str] = set()
    for start in plan.circuits.values():
        chain: dict[str, None] = {}
        at: Circuit | None = start
        while at is not None and at.id not in sound and at.id not in chain:
            chain[at.id] = None
            at = tree.ahead_of(at, plan)
        if at is not None and at.id in chain:
            names = list(chain)
            loop = [*names[names.index(at.id) :], at.id]
            yield Problem(
                at.place,
                f"circuits feed each other in a loop: {_some(loop, ' <- ')}",
                "a supply begins at a panel of duty `service equipment`",
                key=True,
            )
        sound.update(chain)


def unclear_devices(plan: Plan, tree: SupplyTree) -> Iterator[Problem]:
    """Devices of which the plan does not settle the circuit, and those that are fed by a device of another circuit."""
    begins: dict[str, list[str]] = {}
    for circuit in plan.circuits.values():
        begins.setdefault(origin_of(circuit), []).append(circuit.id)
    for box in plan.boxes.values():
        arriving = tree.circuits_in.get(box.id, ())
        if not box.devices:
            continue
        if not arriving:
            yield Problem(
                box.place,
                f"the box `{box.id}` has devices, and no circuit reaches it",
                f"carry a circuit on a route to `{box.id}`",
                key=True,
            )
        else:
            yield from _unclear(box, arriving, (*arriving, *begins.get(box.id, ())), tree)


def _unclear(box: Box, arriving: tuple[str, ...], there: tuple[str, ...], tree: SupplyTree) -> Iterator[Problem]:
    """`arriving` are the circuits that reach the box, `there` also those that begin in a transformer in it."""
    for device in box.devices.values():
        if device.circuit is None and len(arriving) > 1:
            yield Problem(
                device.place,
                f"`{box.id}` has the circuits {_some(arriving, ' and ')}, and `{device.id}` does not say which it is on",
                f"add `circuit: {arriving[0]}`",
                key=True,
            )
        elif device.circuit is not None and device.circuit not in there:
            yield Problem(
                f"{device.place}/circuit",
                f"circuit `{device.circuit}` does not reach `{box.id}`",
                f"circuits in the box: {_some(there, ', ')}",
            )
        elif device.after is not None:
            own, other = (tree.circuit_of(one, box.id) for one in (device, box.devices[device.after]))
            if own != other:
                yield Problem(
                    f"{device.place}/after",
                    f"`{device.id}` is on circuit `{own}`, and `{device.after}` on `{other}`",
                    "a device is fed by one of its own circuit",
                )


def _some(names: Iterable[str], between: str) -> str:
    """Names one after the other, as many as a message can hold."""
    listed = list(names)
    return between.join(listed[:6] + ["..."] * (len(listed) > 6))
