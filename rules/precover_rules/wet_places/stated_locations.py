"""Locations that a plan states against their own place."""

from precover.plan import Box, Panel, SurfaceLeg, Unstated
from precover.plan.legs import Location
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.location import OUTDOOR_SURFACES, suits

LOOK_UP = "Article 100, definitions of dry, damp and wet locations, in 2017, 2020 and 2023 (from memory)"


@rule(looks_at=Box, severity=Severity.CORRECTION, stage=Stage.PLAN, look_up=LOOK_UP, hazard="shock")
def location_of_a_box(box: Box, look: Look) -> Answer:
    """A box outdoors is not called dry, and a box in the earth is not called dry or damp."""
    return _fits(box, _least(box), look)


@rule(looks_at=Panel, severity=Severity.CORRECTION, stage=Stage.PLAN, look_up=LOOK_UP, hazard="shock")
def location_of_a_panel(panel: Panel, look: Look) -> Answer:
    """A panel outdoors is not called dry."""
    return _fits(panel, _least(panel), look)


@rule(looks_at=SurfaceLeg, severity=Severity.CORRECTION, stage=Stage.PLAN, look_up=LOOK_UP, hazard="shock")
def location_of_a_leg(leg: SurfaceLeg, look: Look) -> Answer:
    """Wiring on the outside of a building, on a pole, fence, deck or tree is not called dry."""
    return _fits(leg, ("damp", leg.on) if leg.on in OUTDOOR_SURFACES else None, look)


def _least(place: Box | Panel) -> tuple[Location, str] | None:
    """The driest that a place can be, and why; None where it can be anything."""
    if isinstance(place, Box) and place.box.kind == "handhole":
        return "wet", "a handhole"
    if place.area == "ground":
        return "wet", "in the ground"
    return ("damp", "outdoors") if place.area == "outdoors" else None


def _fits(thing: Box | Panel | SurfaceLeg, least: tuple[Location, str] | None, look: Look) -> Answer:
    if least is None:
        return does_not_apply("a place that may be dry, damp or wet")
    if isinstance(thing.location, Unstated):
        return does_not_apply("no location is stated")
    driest, why = least
    at = f"{thing.place}/location"
    look.because(f"{why}: {driest} at the least", thing.place)
    if suits(thing.location, driest):
        return met("location", thing.location, f"{driest} at the least", at=at)
    # Whether a roof shelters it is for the drawing to say: a relabelling must not spare the hood that rain asks for.
    wet = Proposal.state("call the place wet", Effort.PAPER, (thing, "location", "wet"))
    return not_met("location", thing.location, f"{driest} at the least", why=f"It is {why}.", at=at, amend=(wet,))
