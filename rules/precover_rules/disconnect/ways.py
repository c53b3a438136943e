"""Edits of a plan that give a structure a disconnecting means."""

from typing import Any

from precover.plan import Box, Panel, Structure, Unstated
from precover.plan.thing import escaped
from precover.rulebook import Effort, Look, Proposal
from precover.tracing import Supply
from precover_rules.boxes.for_devices import switch_height, takes_devices
from precover_rules.free_names import free_names


def ways_to_disconnect(structure: Structure, supply: Supply, look: Look) -> tuple[Proposal, ...]:
    """A switch in the box where the supply comes in, or a main in the panel there."""
    node = first_place(supply, look)
    if node is None or node.at != structure.id:
        return ()
    if isinstance(node, Panel):
        rating = _switch_rating(supply, look)
        return (Proposal.state(f"fit {node.id} with a {rating} main breaker", Effort.PART, (node, "main", rating)),)
    name = next(free_names("disconnect", node.devices))
    more: dict[str, Any] = {}
    if len(look.trace.tree.circuits_in[node.id]) > 1:
        more["circuit"] = supply.circuit.id
    if structure.use not in ("post", "lighting pole"):
        more["at-entry"] = True
    height = switch_height(node, look) if _is_small(supply, look) else None
    devices = {"a switch": _snap_switch(node, height)} if height is not None else {}
    if height is None or supply.circuit.limited_load is not True:  # it is large enough whatever the load may be
        devices["an enclosed switch"] = enclosed_switch(supply, look)
    path = f"{node.place}/devices/{escaped(name)}"
    return tuple(
        Proposal(
            f"put {what} that opens every hot into {node.id}, ahead of all else, and mark it",
            Effort.PART,
            ({"op": "add", "path": path, "value": {**device, **more}},),
        )
        for what, device in devices.items()
    )


def first_place(supply: Supply, look: Look) -> Box | Panel | None:
    """The panel, or the box that takes devices, to which a supply comes first: behind fittings from which it goes on by one
    route alone. None where it parts in one, or ends there."""
    arrival, node = look.trace.tree.arrival[supply.circuit.id], look.trace.node(supply.route.to)
    while isinstance(node, Box) and not takes_devices(node):
        onward = [name for name, route in arrival.items() if route.from_ == node.id]
        if len(onward) != 1:
            return None
        node = look.trace.node(onward[0])
    return node


def _is_small(supply: Supply, look: Look) -> bool:
    rating = supply.circuit.breaker.rating
    if supply.circuit.kind != "branch circuit" or isinstance(rating, Unstated):
        return False
    return bool(rating <= look.limit("circuit behind a snap switch").value)


def _snap_switch(box: Box, height: str) -> dict[str, Any]:
    switch = {
        "switch": "20 A",
        "role": "disconnect",
        "opens": "all hots",
        "identified": True,
        "readily-accessible": True,
        "height": height,
    }
    if box.location != "dry":
        switch |= {"weatherproof": True, "mounting": "surface"}
    return switch


def enclosed_switch(supply: Supply, look: Look) -> dict[str, Any]:
    """An enclosed switch as it is commonly sold, large enough for the supply."""
    return {
        "disconnect": _switch_rating(supply, look),
        "type": "general-use switch",
        "opens": "all hots",
        "enclosure": "3R",
        "service-rated": True,
        "indicating": True,
        "identified": True,
        "readily-accessible": True,
        "height": "5 ft",
    }


def _switch_rating(supply: Supply, look: Look) -> str:
    """Enough for any structure but a dwelling, and not less than the breaker ahead."""
    least = look.cell("building-disconnect-rating", "any other")
    rating = supply.circuit.breaker.rating
    return least.text if isinstance(rating, Unstated) or rating <= least.value else rating.text
