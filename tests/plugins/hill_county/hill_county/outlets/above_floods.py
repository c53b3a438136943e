"""Receptacles outdoors stand above the floods."""

from pathlib import Path

from precover.plan import Receptacle
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, at_least, does_not_apply, rule
from precover.rulebook.table import read_table

HEIGHTS = read_table(Path(__file__).parent / "flood_heights.csv", "hill-county")


@rule(
    looks_at=Receptacle,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    look_up="Hill County amendments, 7",
    hazard="shock",
)
def receptacle_above_floods(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle outdoors is not lower than the county's flood height."""
    if look.stated(look.trace.box_of(receptacle).area) != "outdoors":
        return does_not_apply("indoors")
    needed = HEIGHTS[("receptacle outdoors",)]
    raise_it = Proposal.state("mount it higher", Effort.PART, (receptacle, "height", needed.text))
    return at_least("height", look.stated(receptacle.height), needed, amend=(raise_it,))
