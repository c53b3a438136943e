"""How sheathed cable is fastened and bent."""

from fractions import Fraction
from math import ceil

from precover.plan import Bend, FramingLeg, Plan, SurfaceLeg
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
from precover_rules.conditions import no_radius
from precover_rules.framing.sheathed import TYPES, cables_of, named, runs_in


@rule(looks_at=Bend, unless=no_radius, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("cable-bend",))
def bend_of_a_cable(leg: Bend, look: Look) -> Answer:
    """Sheathed cable is not bent more sharply than its diameter allows."""
    radius = look.stated(leg.radius)
    route = look.trace.route_of(leg)
    if not look.stated(look.trace.raceway_around(leg)).absent:
        return does_not_apply("a bend of the raceway")
    cables = [cable.text.split() for cable in cables_of(route)]
    sizes = [(kind, size) for kind, size, *_ in cables if look.has("cable-dimensions", kind, size, "width")]
    if not sizes:
        return does_not_apply("no nonmetallic-sheathed cable of a size in the table: it is on the inspection list")
    times = look.limit("bend radius of sheathed cable").value
    width, thickness = (
        max(look.cell("cable-dimensions", *size, side).value for size in sizes) for side in ("width", "thickness")
    )
    needs = f"at least {times} times its diameter: {_inches(times * width.in_unit('in'))}"
    at = f"{leg.place}/radius"
    if radius.amount >= times * width.amount:
        return met("radius of the bend", radius, needs, at=at)
    if radius.amount >= times * thickness.amount:
        why = "flat cable: does its thickness count here, or its width?"
        return authority_decides("radius of the bend", radius, needs, why=why, at=at)
    wider = Proposal.state("bend it more gently", Effort.PAPER, (leg, "radius", _inches(times * width.in_unit("in"))))
    return not_met("radius of the bend", radius, needs, at=at, amend=(wider,))


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("nm-support-spacing", "cable-bend"))
def staples_and_bends(plan: Plan, look: Look) -> str | None:
    """Fastening of cable, before it is closed in."""
    runs = [*runs_in(plan, look, FramingLeg), *runs_in(plan, look, SurfaceLeg)]
    if not runs:
        return None
    kind = TYPES[0]
    apart = look.cell("support-spacing", kind, "any", "general", "between supports").text
    box = look.cell("support-spacing", kind, "any", "general", "from a box").text
    single = look.cell("support-spacing", kind, "any", "single-gang nonmetallic box without clamp", "from a box").text
    times = look.limit("bend radius of sheathed cable").text
    return (
        f"Cable ({named([route for route, _ in runs])}) is fastened every {apart} and within {box} of a box ({single} from "
        f"a single plastic box without a clamp), and bent to not less than {times} times its diameter."
    )


def _inches(exact: Fraction) -> str:
    """Rounded up to the next eighth of an inch, as a plan writes it."""
    return f"{ceil(exact * 8) / 8:g} in"
