"""The order in which an inspector walks a plan: from the supply, along each route, to the outbuilding."""

from __future__ import annotations

from precover.plan import Plan
from precover.plan.thing import escaped
from precover.tracing.supply_tree import SupplyTree, origin_of


def walk_order(plan: Plan, tree: SupplyTree) -> dict[str, int]:
    """JSON Pointer of every panel, circuit, route, box and structure -> its place in the walk."""
    order: dict[str, int] = {}

    def pass_by(kind: str, name: str) -> None:
        order.setdefault(f"/{kind}/{escaped(name)}", len(order))

    def stand_at(node: str) -> None:
        kind, at = ("panels", plan.panels[node].at) if node in plan.panels else ("boxes", plan.boxes[node].at)
        pass_by("structures", at)
        pass_by(kind, node)

    order[""] = 0
    order["/site"] = 1
    waiting = [panel.id for panel in plan.panels.values() if panel.id not in tree.fed_by]
    seen: set[str] = set()
    while waiting:
        panel = waiting.pop(0)
        seen.add(panel)
        stand_at(panel)
        for circuit in plan.circuits.values():
            if origin_of(circuit) == panel:
                pass_by("circuits", circuit.id)
                for route in tree.routes[circuit.id]:
                    pass_by("routes", route.id)
                    stand_at(route.to)
        fed = [name for name, feeder in tree.fed_by.items() if origin_of(feeder) == panel and name not in seen]
        waiting = fed + waiting
    for kind in ("circuits", "routes", "boxes", "panels", "structures"):
        for name in getattr(plan, kind):
            pass_by(kind, name)
    return order
