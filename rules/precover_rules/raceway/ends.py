"""How raceways end, and what only a person on site sees of them."""

from __future__ import annotations

from itertools import pairwise

from precover.plan import (
    Bend,
    BuriedLeg,
    Carried,
    Conductor,
    OverheadLeg,
    PassageLeg,
    Plan,
    Raceway,
    Route,
    SurfaceLeg,
    Unstated,
)
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import ConductorSize
from precover_rules.location import OUTDOOR_SURFACES
from precover_rules.raceways import METALLIC, holds_nothing, is_raceway, naming_a_raceway


def _no_such_opening(leg: PassageLeg, look: Look) -> str:
    if leg.through == "foundation" or isinstance(leg.sealed, Unstated):
        return "a foundation, or not stated: it is on the inspection list"
    between = _leads_from_garage_to_rooms(look.trace.route_of(leg), look)
    return "" if between else "not between a garage and the rooms of a dwelling"


@inspection(looks_at=Route, stage=Stage.ROUGH, rows=("insulated-bushing-4awg",))
def bushing_for_large_wires(route: Route, look: Look) -> str | None:
    """Large wires leave their raceway over a smooth insulating edge."""
    limit = look.limit("conductors that need an insulating fitting")
    if holds_nothing(route):
        return None
    large = [
        size for carried in route.carries.values() if (size := _largest(carried)) is not None and size >= limit.value
    ]
    if not large or not isinstance(route.raceway, Raceway) or not is_raceway(route.raceway):
        return None
    return f"A smooth insulating bushing or fitting at both ends of the {route.raceway}, where {max(large)} enters {route.from_} and {route.to}."


@inspection(looks_at=Route, stage=Stage.ROUGH, rows=("raceway-to-cable-bushing",))
def end_where_cable_goes_on(route: Route, look: Look) -> str | None:
    """Where wiring goes on without its raceway, above ground."""
    if holds_nothing(route):
        return None
    along = [leg for leg in route.legs if not isinstance(leg, Bend)]
    for leg, after in pairwise(along):
        one, other = look.trace.raceway_around(leg), look.trace.raceway_around(after)
        if not isinstance(one, Raceway) or not isinstance(other, Raceway):
            continue
        if one.absent != other.absent and not any(isinstance(part, BuriedLeg) for part in (leg, after)):
            raceway = other if one.absent else one
            return f"A bushing or terminal fitting, or a box, where the cable leaves the {raceway} above ground."
    return None


@inspection(looks_at=Route, stage=Stage.ROUGH, rows=("raceway-exterior-drain",))
def raceway_outdoors_drains(route: Route, look: Look) -> str | None:
    """Water that gets into a raceway outdoors can get out."""
    outside = [leg for leg in route.legs if isinstance(leg, SurfaceLeg) and leg.on in OUTDOOR_SURFACES]
    kinds = {str(raceway) for leg in outside if _held(raceway := look.trace.raceway_around(leg))}
    if not kinds:
        return None
    return f"{' and '.join(sorted(kinds))} outdoors: arranged to drain, with fittings for wet places."


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("metal-raceway-continuous", "raceway-secured-boxes"))
def metal_raceway_in_one_piece(plan: Plan, _look: Look) -> str | None:
    """Metal raceway is one electrical path, and every raceway runs from box to box."""
    along = [
        route for route in plan.routes.values() if isinstance(route.raceway, Raceway) and is_raceway(route.raceway)
    ]
    named = [thing.raceway for route in along for thing in naming_a_raceway(route)]
    kinds = {raceway.type for raceway in named if isinstance(raceway, Raceway)}
    if not kinds:
        return None
    metal = sorted(kinds & set(METALLIC))
    joined = (
        f" {' and '.join(metal)}: couplings and connectors tight, one electrical path to the panel." if metal else ""
    )
    return f"Raceways run complete from box to box, secured to each.{joined}"


@rule(
    looks_at=PassageLeg,
    unless=_no_such_opening,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("firestop-attached-wall",),
)
def opening_between_garage_and_dwelling(leg: PassageLeg, look: Look) -> Answer:
    """The opening for wiring between a garage and the dwelling that it is part of is closed again."""
    at = f"{leg.place}/sealed"
    if look.stated(leg.sealed):
        return met("opening", "closed", "closed, to keep the fire rating", at=at)
    close = Proposal.state("close the opening around the wiring", Effort.PART, (leg, "sealed", True))
    return not_met("opening", "left open", "closed, to keep the fire rating", at=at, amend=(close,))


@inspection(looks_at=PassageLeg, stage=Stage.ROUGH, rows=("firestop-attached-wall",))
def opening_in_a_rated_wall(leg: PassageLeg, look: Look) -> str | None:
    """A wall or ceiling between a garage and a dwelling keeps its rating."""
    if leg.through == "foundation" or not _leads_from_garage_to_rooms(look.trace.route_of(leg), look):
        return None
    return (
        f"Through the {leg.through} between garage and dwelling: the opening is closed around the wiring with what "
        "keeps its fire rating."
    )


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("circuit-conductors-together",))
def conductors_of_a_circuit_together(plan: Plan, _look: Look) -> str | None:
    """All wires of a circuit are in one raceway."""
    apart = [
        route.id
        for route in plan.routes.values()
        if any(carried.wires is not None for carried in route.carries.values())
        and not any(isinstance(leg, BuriedLeg | OverheadLeg) for leg in route.legs)
    ]
    if not apart:
        return None
    return (
        f"All conductors of a circuit, neutral and equipment ground included, in the same raceway: {', '.join(apart)}."
    )


def _held(raceway: object) -> bool:
    return isinstance(raceway, Raceway) and is_raceway(raceway)


def _largest(carried: Carried) -> ConductorSize | None:
    """Of the insulated wires that carry current; none in a cable, whose sheath guards it."""
    wires = [] if carried.wires is None else [carried.wires.hot, carried.wires.neutral]
    sizes = [wire.size for wire in wires if isinstance(wire, Conductor) and wire.insulation != "bare"]
    return max(sizes, default=None)


def _leads_from_garage_to_rooms(route: Route, look: Look) -> bool:
    one, other = look.trace.node(route.from_), look.trace.node(route.to)
    if one.at != other.at or look.plan.structures[one.at].use != "dwelling":
        return False
    areas = (one.area, other.area)
    return (
        "garage" in areas
        and not any(area in ("outdoors", "ground") or isinstance(area, Unstated) for area in areas)
        and areas != ("garage", "garage")
    )
