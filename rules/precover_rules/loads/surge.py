"""Surge protection of dwellings."""

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
from precover_rules.premises import is_dwelling

NEEDS = "a type 1 or type 2 device in the panel or beside it"


def _does_not_come_up(panel: Panel, look: Look) -> str:
    return "" if _comes_up(panel, look) else "neither a feeder to a dwelling unit nor a service that is replaced"


@rule(
    looks_at=Panel,
    unless=_does_not_come_up,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("surge-protection", "surge-service-replaced"),
)
def surge_protection_of_a_dwelling(panel: Panel, look: Look) -> Answer:
    """A new feeder panel of a dwelling unit, and a dwelling's service that is replaced, has surge protection."""
    if not is_dwelling(look):
        return does_not_apply("not the premises of a dwelling")
    of, at = "surge protection", f"{panel.place}/surge-protection"
    if look.stated(panel.surge_protection):
        return met(of, "there", NEEDS, at=at)
    words = f"fit a surge-protective device at {panel.id}"
    return not_met(
        of, "none", NEEDS, at=at, amend=(Proposal.state(words, Effort.PART, (panel, "surge-protection", True)),)
    )


@inspection(looks_at=Panel, stage=Stage.FINAL, rows=("surge-protection", "surge-service-replaced"))
def surge_device_rating(panel: Panel, look: Look) -> str | None:
    """The device's marking."""
    if not _comes_up(panel, look):
        return None
    least = look.limit("surge-protective device discharge current").text
    current = f", with a nominal discharge current of {least} or more" if least != "none" else ""
    return f"The surge-protective device at {panel.id} is marked type 1 or 2{current}."


def _comes_up(panel: Panel, look: Look) -> bool:
    """It ends a new feeder at a dwelling that is supplied from another structure, or is service equipment replaced."""
    if panel.duty == "service equipment":
        return panel.replaced is True
    structure = look.trace.structure_of(panel)
    if structure.use != "dwelling" or panel.existing is True:
        return False
    if not look.limit("surge protection where a feeder supplies a dwelling").value:
        return False
    return any(supply.circuit.kind == "feeder" for supply in look.trace.supplies(structure))
