"""Enclosures of panels and disconnects where it is damp or wet."""

from precover.plan import Box, DisconnectSwitch, Panel
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.location import in_a_dry_place, location_of, location_of_device


@rule(
    looks_at=Panel,
    unless=in_a_dry_place,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("panel-wet-type", "panel-enclosure-type"),
)
def panel_enclosure(panel: Panel, look: Look) -> Answer:
    """A panel in a damp or wet place is in an enclosure type made for outdoors."""
    return _made_for_outdoors(panel, panel, look)


@rule(
    looks_at=DisconnectSwitch,
    unless=in_a_dry_place,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("panel-enclosure-type",),
)
def disconnect_enclosure(switch: DisconnectSwitch, look: Look) -> Answer:
    """An enclosed disconnect in a damp or wet place is in an enclosure type made for outdoors."""
    return _made_for_outdoors(switch, look.trace.box_of(switch), look)


@inspection(looks_at=Panel, stage=Stage.ROUGH, rows=("enclosure-in-ground-airspace",))
def air_behind_a_panel(panel: Panel, look: Look) -> str | None:
    """How a panel is set on its wall is seen on site."""
    return None if location_of(panel, look) == "dry" else _air_behind(f"panel {panel.id}", look)


@inspection(looks_at=DisconnectSwitch, stage=Stage.ROUGH, rows=("enclosure-in-ground-airspace",))
def air_behind_a_disconnect(switch: DisconnectSwitch, look: Look) -> str | None:
    """How a disconnect is set on its wall is seen on site."""
    return None if location_of_device(switch, look) == "dry" else _air_behind(f"disconnect {switch.id}", look)


def _made_for_outdoors(thing: Panel | DisconnectSwitch, place: Panel | Box, look: Look) -> Answer:
    location = location_of(place, look)
    enclosure = look.stated(thing.enclosure)
    look.because(f"it is in a {location} place", place.place)
    at, needs = f"{thing.place}/enclosure", "type 3R, 4 or 4X"
    if look.cell("enclosure-types", enclosure, "outdoors").value:
        return met("enclosure", f"type {enclosure}", needs, at=at)
    other = Proposal.state("use an enclosure of type 3R", Effort.PART, (thing, "enclosure", "3R"))
    if location == "damp" and look.stated(place.area) != "outdoors":
        why = f"ask whether type {enclosure} will do in this damp place indoors, with air behind it"
        return authority_decides("enclosure", f"type {enclosure}", needs, why=why, at=at, amend=(other,))
    return not_met("enclosure", f"type {enclosure}", needs, at=at, amend=(other,))


def _air_behind(what: str, look: Look) -> str:
    gap = look.limit("air space behind an enclosure").text
    return (
        f"If {what} is mounted on a surface, it has at least {gap} of air behind it"
        " (a nonmetallic one on masonry may have none); entries above its live parts have fittings listed for wet places."
    )
