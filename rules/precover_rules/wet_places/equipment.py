"""Luminaires and other fixed equipment where it is damp or wet."""

from precover.plan import Equipment, Heater, Luminaire, Motor, Transformer
from precover.plan.devices import Listing
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, met, not_met, rule
from precover_rules.location import in_a_dry_place, location_of_device, suits

FIXED = Equipment | Motor | Heater | Transformer


@rule(
    looks_at=Luminaire,
    unless=in_a_dry_place,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("luminaire-location-listing",),
)
def luminaire_listed_for_its_place(luminaire: Luminaire, look: Look) -> Answer:
    """A luminaire in a damp place is listed for damp or wet places, one in a wet place for wet places."""
    return _listed("luminaire", luminaire, look)


@rule(
    looks_at=FIXED,
    unless=in_a_dry_place,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    look_up="110.11 in 2017, 2020 and 2023 (from memory)",
    hazard="shock",
)
def equipment_listed_for_its_place(device: Equipment | Motor | Heater | Transformer, look: Look) -> Answer:
    """Fixed equipment in a damp or wet place is listed for such a place."""
    return _listed("equipment", device, look)


def _listed(what: str, device: Luminaire | Equipment | Motor | Heater | Transformer, look: Look) -> Answer:
    location = location_of_device(device, look)
    listed: Listing = look.stated(device.listed_for)
    at, needs = f"{device.place}/listed-for", f"listed for {location} places"
    look.because(f"it is in a {location} place", look.trace.box_of(device).place)
    if suits(listed, location):
        return met(what, f"listed for {listed} places", needs, at=at)
    other = Proposal.state(f"use one {needs}", Effort.PART, (device, "listed-for", location))
    return not_met(what, f"listed for {listed} places", needs, at=at, amend=(other,))
