"""Locations that a plan states against their own place."""

from precover.plan import Box, Panel, SurfaceLeg, Unstated
from precover.plan.legs import Location
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, met, not_met, rule
from precover_rules.location import OUTDOOR_SURFACES, suits

LOOK_UP = "Article 100, definitions of dry, damp and wet locations, in 2017, 2020 and 2023 (from memory)"


def _may_be_as_stated(thing: Box | Panel | SurfaceLeg, _look: Look) -> str:
    if _driest(thing)[0] == "dry":
        return "a place that may be dry, damp or wet"
    return "no location is stated" if isinstance(thing.location, Unstated) else ""


def _driest(thing: Box | Panel | SurfaceLeg) -> tuple[Location, str]:
    """The driest that a place can be, and why."""
    if isinstance(thing, SurfaceLeg):
        return ("damp", thing.on) if thing.on in OUTDOOR_SURFACES else ("dry", "")
    if isinstance(thing, Box) and thing.box.kind == "handhole":
        return "wet", "a handhole"
    if thing.area == "ground":
        return "wet", "in the ground"
    return ("damp", "outdoors") if thing.area == "outdoors" else ("dry", "")


@rule(
    looks_at=Box,
    unless=_may_be_as_stated,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    look_up=LOOK_UP,
    hazard="shock",
)
def location_of_a_box(box: Box, look: Look) -> Answer:
    """A box outdoors is not called dry, and a box in the earth is not called dry or damp."""
    return _fits(box, look)


@rule(
    looks_at=Panel,
    unless=_may_be_as_stated,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    look_up=LOOK_UP,
    hazard="shock",
)
def location_of_a_panel(panel: Panel, look: Look) -> Answer:
    """A panel outdoors is not called dry."""
    return _fits(panel, look)


@rule(
    looks_at=SurfaceLeg,
    unless=_may_be_as_stated,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    look_up=LOOK_UP,
    hazard="shock",
)
def location_of_a_leg(leg: SurfaceLeg, look: Look) -> Answer:
    """Wiring on the outside of a building, on a pole, fence, deck or tree is not called dry."""
    return _fits(leg, look)


def _fits(thing: Box | Panel | SurfaceLeg, look: Look) -> Answer:
    driest, why = _driest(thing)
    location: Location = look.stated(thing.location)
    at = f"{thing.place}/location"
    look.because(f"{why}: {driest} at the least", thing.place)
    if suits(location, driest):
        return met("location", location, f"{driest} at the least", at=at)
    # Whether a roof shelters it is for the drawing to say: a relabelling must not spare the hood that rain asks for.
    wet = Proposal.state("call the place wet", Effort.PAPER, (thing, "location", "wet"))
    return not_met("location", location, f"{driest} at the least", why=f"It is {why}.", at=at, amend=(wet,))
