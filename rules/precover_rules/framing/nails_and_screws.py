"""Cable in framing, out of the way of nails and screws."""

from precover.plan import FramingLeg, Plan, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    does_not_apply,
    inspection,
    met,
    rule,
)
from precover_rules.framing.sheathed import named, runs_in

STRONG = ("RMC", "IMC", "EMT", "PVC-40", "PVC-80", "RTRC", "RTRC-XW")
"""Raceways that need no guard in framing."""


@rule(
    looks_at=FramingLeg,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("bored-hole-distance", "parallel-framing-clearance"),
)
def distance_to_the_face(leg: FramingLeg, look: Look) -> Answer:
    """In framing, cable and thin raceway keep their distance to the face where nails go in, or steel plates guard them."""
    distance = leg.edge_distance
    if isinstance(distance, Unstated):
        return does_not_apply("not stated: it is on the inspection list")
    needed = look.limit("distance to the face of framing")
    at = f"{leg.place}/edge-distance"
    plated: tuple[Proposal, ...] = ()
    if distance < needed.like(distance):
        if look.stated(look.trace.raceway_around(leg)).type in STRONG:
            return does_not_apply("in a raceway that needs no guard")
        if look.stated(leg.plates):
            return met("guard", "steel plates", "steel plates where the distance is short", at=f"{leg.place}/plates")
        plated = (Proposal.state("guard it with steel plates", Effort.PART, (leg, "plates", True)),)
    return at_least("distance to the face", distance, needed, at=at, amend=plated)


@inspection(
    looks_at=Plan,
    stage=Stage.ROUGH,
    rows=(
        "bored-hole-distance",
        "parallel-framing-clearance",
        "notch-plate",
        "shallow-groove-plate",
        "metal-stud-grommet",
        "roof-deck-clearance",
    ),
)
def holes_and_notches(plan: Plan, look: Look) -> str | None:
    """Cable in framing, before it is closed."""
    runs = list(runs_in(plan, look, FramingLeg))
    if not runs:
        return None
    face, plate = look.limit("distance to the face of framing").text, look.limit("plate over wiring in framing").text
    deck = look.limit("distance to metal roof decking").text
    return (
        f"Cable in framing ({named([route for route, _ in runs])}): {face} from holes and along studs to the face, else "
        f"steel plates of {plate}, as over every notch and shallow groove; bushings in metal studs; {deck} below metal "
        "roof decking."
    )
