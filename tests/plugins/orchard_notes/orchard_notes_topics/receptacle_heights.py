"""Receptacles stand above the usual flood."""

from precover.plan import Receptacle
from precover.rulebook import Answer, Look, Severity, Stage, at_least, does_not_apply, rule


@rule(
    looks_at=Receptacle,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    look_up="Orchard Valley notes, 3 (invented)",
    hazard="shock",
)
def height_above_the_flood(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle outdoors stands above the height that water has reached."""
    if look.stated(look.trace.box_of(receptacle).area) != "outdoors":
        return does_not_apply("not outdoors")
    if "orchard-valley" not in (look.plan.rules or ()):
        return does_not_apply("the plan does not name the notes of Orchard Valley")
    height = look.cell("orchard-valley", "flood")
    return at_least("height", look.stated(receptacle.height), height, at=f"{receptacle.place}/height")
