"""Outbuildings that people live in."""

from precover.plan import Box, BuriedLeg, DisconnectSwitch, OverheadLeg, Panel, PassageLeg, Route, Structure, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.tracing import Supply
from precover_rules.circuits import devices_on
from precover_rules.cutting_a_route import cut
from precover_rules.disconnect.means import panel_on
from precover_rules.disconnect.ways import first_place
from precover_rules.free_names import free_names
from precover_rules.separate_structures import NOT_SUPPLIED, supplies_to
from precover_rules.worst import worst

SEVERAL_HOMES = "multifamily dwelling"
NEW = "emergency-disconnect"
"""The name of the one that is proposed."""


@rule(looks_at=Structure, severity=Severity.QUERY, stage=Stage.PLAN, rows=("outbuilding-dwelling-flag",))
def habitable_building_is_planned_as_a_dwelling(structure: Structure, look: Look) -> Answer:
    """An outbuilding with rooms to live in is planned as a dwelling, if the authority takes it for one."""
    if structure.use in ("dwelling", "post", "lighting pole"):
        return does_not_apply(f"planned as a {structure.use}")
    if not supplies_to(structure, look):
        return does_not_apply(NOT_SUPPLIED)
    at = f"{structure.place}/habitable"
    if not look.stated(structure.habitable):
        return met("rooms to live in", "none", "none, or planned as a dwelling", at=at)
    return not_met(
        "rooms to live in",
        f"in a structure planned as {structure.use}",
        "none, or planned as a dwelling",
        why="with living, sleeping, cooking and sanitation it is a dwelling unit, under other rules; the authority decides",
        at=at,
    )


@rule(looks_at=Structure, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("emergency-disconnect",))
def emergency_disconnect_outside(structure: Structure, look: Look) -> Answer:
    """A dwelling that a feeder supplies has a disconnecting means outdoors for an emergency."""
    if structure.use != "dwelling":
        return does_not_apply("not a dwelling")
    feeders = [supply for supply in supplies_to(structure, look) if supply.circuit.kind == "feeder"]
    if not feeders or look.stated(look.plan.site.premises) == SEVERAL_HOMES:
        return does_not_apply("no one- or two-family dwelling with a feeder")
    return worst([_outside(structure, supply, look) for supply in feeders])


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("emergency-disconnect",))
def emergency_disconnect_marked(structure: Structure, look: Look) -> str | None:
    """The marking of an emergency disconnect."""
    if structure.use != "dwelling" or not supplies_to(structure, look):
        return None
    return f"The outside disconnect of {structure.id} is marked as its emergency disconnect."


def _outside(structure: Structure, supply: Supply, look: Look) -> Answer:
    of, needs = "emergency disconnect", "a disconnecting means outdoors, at the dwelling"
    places: list[Box | Panel] = [
        look.trace.box_of(device)
        for device in devices_on(supply.circuit, look)
        if isinstance(device, DisconnectSwitch) and look.trace.structure_of(device) is structure
    ]
    panel = panel_on(structure, supply, look)
    if panel is not None and look.stated(panel.main).rating is not None:
        places.append(panel)
    for place in places:
        if look.stated(place.area) == "outdoors":
            return met(of, place.id, needs, at=place.place)
    ways = _ways(structure, supply, look)
    if _serves_from_ahead(look):
        why = "an outside disconnect ahead may serve this dwelling too, under an exception: ask for its conditions"
        return authority_decides(of, "none outdoors", needs, why=why, amend=ways)
    return not_met(of, "none outdoors", needs, amend=ways)


def _serves_from_ahead(look: Look) -> bool:
    """The service has an emergency disconnect outdoors, and the edition has an exception for what stands behind one."""
    if look.limit("emergency disconnect of the service for a dwelling behind it").text != "may count":
        return False
    return any(
        panel.duty == "service equipment" and look.stated(panel.emergency_disconnect)
        for panel in look.plan.panels.values()
    )


def _ways(structure: Structure, supply: Supply, look: Look) -> tuple[Proposal, ...]:
    """A breaker in the outdoor box where the supply comes in, or in a new one outside the wall that it goes through."""
    route, node = supply.route, first_place(supply, look)
    ahead, least = supply.circuit.breaker.rating, look.cell("building-disconnect-rating", "one-family dwelling")
    if isinstance(ahead, Unstated):
        return ()  # how large it has to be is not known
    rating = least.text if ahead <= least.value else ahead.text
    device = {
        "disconnect": rating,
        "type": "breaker",
        "opens": "all hots",
        "enclosure": "3R",
        "service-rated": True,
        "indicating": True,
        "identified": True,
        "readily-accessible": True,
        "at-entry": True,
        "height": "5 ft",
    }
    what = f"put an enclosed breaker of {rating}, which is the emergency disconnect,"
    if isinstance(node, Box) and node.at == structure.id and node.area == "outdoors":
        if NEW in node.devices:
            return ()
        edit = {"op": "add", "path": f"{node.place}/devices/{NEW}", "value": device}
        return (Proposal(f"{what} into {node.id}", Effort.PART, (edit,)),)
    wall = _wall(route)
    if wall is None or len(route.carries) > 1:
        return ()
    name = next(free_names(f"{structure.id}-{NEW}", {**look.plan.boxes, **look.plan.panels}))
    box = {
        "at": structure.id,
        "area": "outdoors",
        "location": "wet",
        "box": {"kind": "box", "listed-for": "wet", "mounting": "surface"},
        "devices": {NEW: device},
    }
    patch = cut(route, wall, name, box, next(free_names(f"{route.id}-onward", look.plan.routes)))
    words = f"{what} outdoors, where {route.id} goes through the wall of {structure.id}"
    return (Proposal(words, Effort.PART, patch),)


def _wall(route: Route) -> int | None:
    """The number of the leg, counted from 0, on which a route that comes over the yard goes through the wall."""
    yard = [number for number, leg in enumerate(route.legs) if isinstance(leg, BuriedLeg | OverheadLeg)]
    for number in range(yard[-1] + 1 if yard else len(route.legs), len(route.legs)):
        leg = route.legs[number]
        if isinstance(leg, PassageLeg):
            return number if leg.through == "wall" else None
    return None
