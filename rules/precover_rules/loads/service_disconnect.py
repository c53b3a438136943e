"""The emergency disconnect of a service that is replaced."""

from precover.plan import Panel
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
from precover_rules.premises import is_small_dwelling


def _not_replaced(panel: Panel, _look: Look) -> str:
    replaced = panel.duty == "service equipment" and panel.replaced is True
    return "" if replaced else "no service that is replaced"


@rule(
    looks_at=Panel,
    unless=_not_replaced,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("emergency-disconnect-service",),
)
def emergency_disconnect_of_the_service(panel: Panel, look: Look) -> Answer:
    """A one- or two-family dwelling whose service is replaced has an emergency disconnect outdoors."""
    if not is_small_dwelling(look):
        return does_not_apply("no one- or two-family dwelling")
    of, needs = "emergency disconnect", "one for the service, outdoors and readily accessible"
    at = f"{panel.place}/emergency-disconnect"
    if look.stated(panel.emergency_disconnect):
        return met(of, "outdoors", needs, at=at)
    words = f"put an emergency disconnect outdoors, ahead of {panel.id}"
    return not_met(
        of, "none", needs, at=at, amend=(Proposal.state(words, Effort.PART, (panel, "emergency-disconnect", True)),)
    )


@inspection(looks_at=Panel, stage=Stage.FINAL, rows=("emergency-disconnect-service",))
def emergency_disconnect_is_marked(panel: Panel, _look: Look) -> str | None:
    """Its marking."""
    if panel.duty != "service equipment" or panel.replaced is not True:
        return None
    return f"The emergency disconnect of the service ahead of {panel.id} is marked so, as service or meter disconnect."
