"""Edits of a plan that cut a route in two at a new box."""

from __future__ import annotations

from typing import Any

from precover.plan import Route
from precover.plan.thing import escaped
from precover_rules.as_written import as_written


def cut(route: Route, before: int, name: str, box: dict[str, Any], onward: str) -> tuple[dict[str, Any], ...]:
    """The route ends in a new box ahead of its leg `before`, counted from 0, and the route `onward` goes on from there with
    the rest of its legs. Each is sealed where it was; what the plan says of either end of the box is left open."""
    whole = as_written(route)
    rest = {**whole, "from": name, "legs": whole["legs"][before:]}
    rest.pop("seal-at-from", None)
    edits: list[dict[str, Any]] = [
        {"op": "add", "path": f"/boxes/{escaped(name)}", "value": box},
        {"op": "add", "path": f"{route.place}/to", "value": name},
        {"op": "add", "path": f"{route.place}/legs", "value": whole["legs"][:before]},
        {"op": "add", "path": f"/routes/{escaped(onward)}", "value": rest},
    ]
    if "seal-at-to" in whole:
        edits.insert(3, {"op": "remove", "path": f"{route.place}/seal-at-to"})
    return tuple(edits)
