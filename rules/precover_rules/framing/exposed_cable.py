"""Nonmetallic-sheathed cable that is not hidden: on walls, ceilings and open joists."""

from precover.plan import FramingLeg, Plan, SurfaceLeg
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.framing.sheathed import TYPES, cables_of, named, runs_in
from precover_rules.location import OUTDOOR_SURFACES
from precover_rules.raceway.fitting import fitting

GUARD = "a raceway or guard that stands being hit"
OPEN_JOISTS = ("basement", "crawl space")


@rule(looks_at=SurfaceLeg, severity=Severity.CORRECTION, stage=Stage.FINAL, rows=("nm-exposed-protection",))
def guarded_where_it_can_be_hit(leg: SurfaceLeg, look: Look) -> Answer:
    """Exposed sheathed cable is guarded where it can be hit."""
    carried = [one for one in look.trace.route_of(leg).carries.values() if one.wires is None]
    if not any(look.stated(one.cable).type in TYPES for one in carried):
        return does_not_apply("no nonmetallic-sheathed cable")
    raceway = look.stated(look.trace.raceway_around(leg))
    if raceway.type.startswith("PVC"):
        return does_not_apply("in PVC conduit: looked at as such")
    if not look.stated(leg.physical_damage):
        return does_not_apply("it cannot be hit here")
    if not raceway.absent and look.cell("raceways-against-damage", raceway.type).value:
        return met("guard", raceway.text, GUARD)
    # Thick-walled plastic stands any knock, and needs no bonding; tubing does indoors, if nothing drives into it.
    kinds = ("PVC-80",) if leg.on in OUTDOOR_SURFACES else ("PVC-80", "EMT")
    sizes = [text for kind in kinds if (text := fitting(kind, look.trace.route_of(leg), look)) is not None]
    ways = [Proposal.state(f"run this leg in {text}", Effort.WIRE, (leg, "raceway", text)) for text in sizes]
    return not_met("guard", "none" if raceway.absent else raceway.text, GUARD, amend=tuple(ways))


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("nm-follow-surface", "nm-exposed-protection"))
def exposed_cable_along_the_surface(plan: Plan, look: Look) -> str | None:
    """How exposed cable lies."""
    runs = list(runs_in(plan, look, SurfaceLeg))
    if not runs:
        return None
    sleeve = look.limit("sleeve of cable through a floor").text
    return (
        f"Exposed cable ({named([route for route, _ in runs])}) follows the surface or a running board; through a floor it "
        f"is in a sleeve that stands {sleeve} above it."
    )


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("unfinished-ceiling-nm",))
def under_open_joists(plan: Plan, look: Look) -> str | None:
    """Small cable below a ceiling that is not closed."""
    framed = [route for route, leg in runs_in(plan, look, FramingLeg) if getattr(leg, "in_", "") in OPEN_JOISTS]
    hung = [route for route, leg in runs_in(plan, look, SurfaceLeg) if getattr(leg, "on", "") == "ceiling"]
    least = look.limit("two-wire cable below open joists").value, look.limit("three-wire cable below open joists").value
    small = [
        route
        for route in (*framed, *hung)
        if any(min(cable.insulated) < least[len(cable.insulated) > 2] for cable in cables_of(route))
    ]
    if not small:
        return None
    return (
        f"Under open joists of a basement, crawl space or shop, small cable ({named(small)}) goes through bored holes or "
        f"on running boards; only two {least[0]}, three {least[1]} or larger may be fastened to the lower edges."
    )
