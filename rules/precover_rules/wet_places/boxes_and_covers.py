"""Boxes, conduit bodies, handholes and their covers where it is damp or wet."""

from precover.plan import Box, GroundFaultDevice, Plan, Unstated
from precover.plan.devices import Listing
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
from precover_rules.location import (
    in_a_dry_place,
    location_of,
    not_in_a_damp_place,
    not_in_a_wet_place,
    suits,
)


def in_a_wet_place(box: Box, look: Look) -> str:
    """Only boxes in dry and damp places are looked at."""
    wet = location_of(box, look) == "wet"
    return "in a wet place, where its cover is looked at on its own" if wet else ""


def closed_otherwise(box: Box, _look: Look) -> str:
    """What closes a box in place of a cover of its own; empty where nothing does."""
    if box.devices:
        return "its devices close it"
    return "the cover of a handhole is looked at on its own" if box.box.kind == "handhole" else ""


def no_handhole(box: Box, look: Look) -> str:
    """Only handholes are looked at: in the ground any box could be one."""
    kind = box.box.kind
    if isinstance(kind, Unstated) and box.area == "ground":
        kind = look.stated(kind)
    return "" if kind == "handhole" else "not a handhole"


@rule(looks_at=Box, unless=in_a_dry_place, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("box-listed-wet",))
def box_listed_for_its_place(box: Box, look: Look) -> Answer:
    """A box, conduit body or handhole where it is damp or wet is listed for such a place."""
    location = location_of(box, look)
    listed: Listing = look.stated(box.box.listed_for)
    look.because(f"the box is in a {location} place", box.place)
    at = f"{box.box.place}/listed-for"
    if suits(listed, location):
        return met("box", f"listed for {listed} places", f"listed for {location} places", at=at)
    other = Proposal.state(f"use a box listed for {location} places", Effort.PART, (box.box, "listed-for", location))
    return not_met("box", f"listed for {listed} places", f"listed for {location} places", at=at, amend=(other,))


@rule(
    looks_at=Box,
    unless=(closed_otherwise, not_in_a_wet_place),
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("box-listed-wet", "box-cover-complete"),
)
def cover_of_a_box_in_a_wet_place(box: Box, look: Look) -> Answer:
    """A box without devices in a wet place has a weatherproof cover."""
    return _cover_of_a_box(box, look)


@rule(
    looks_at=Box,
    unless=(closed_otherwise, in_a_wet_place),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("box-listed-wet", "box-cover-complete"),
)
def cover_of_a_box_without_devices(box: Box, look: Look) -> Answer:
    """A box without devices has a cover, weatherproof where it is damp."""
    return _cover_of_a_box(box, look)


def _cover_of_a_box(box: Box, look: Look) -> Answer:
    at = f"{box.box.place}/cover"
    closed = Proposal.state("close it with a weatherproof cover", Effort.PART, (box.box, "cover", "closed"))
    if box.box.cover == "none":
        return not_met("cover", "none", "a cover", at=at, amend=(closed,)).citing("box-cover-complete")
    location = location_of(box, look)
    if location == "dry":
        return does_not_apply("in a dry place, and no cover said to be missing")
    cover = look.stated(box.box.cover)
    look.because(f"the box is in a {location} place", box.place)
    if cover == "closed":
        return met("cover", "weatherproof", "a weatherproof cover", at=at)
    return not_met("cover", cover, "a weatherproof cover", at=at, amend=(closed,)).citing("box-listed-wet")


@rule(
    looks_at=Box, unless=no_handhole, severity=Severity.CORRECTION, stage=Stage.FINAL, rows=("handhole-cover-marked",)
)
def handhole_cover(box: Box, look: Look) -> Answer:
    """The cover of a handhole is marked for electric use, and takes a tool to open or is too heavy to lift off."""
    if not look.stated(box.box.cover_marked):
        marked = Proposal.state("use a cover marked for electric use", Effort.PART, (box.box, "cover-marked", True))
        at = f"{box.box.place}/cover-marked"
        return not_met("cover", "not marked", "marked for electric use", at=at, amend=(marked,))
    at = f"{box.box.place}/cover-needs-tool"
    if look.stated(box.box.cover_needs_tool):
        return met("cover", "marked, opened with a tool only", "marked, and opened with a tool only", at=at)
    bolted = Proposal.state("use a cover that takes a tool to open", Effort.PART, (box.box, "cover-needs-tool", True))
    needs = f"opened with a tool only, or over {look.limit('handhole cover weight').text}"
    return not_met("cover", "opened by hand", needs, at=at, amend=(bolted,))


@rule(
    looks_at=GroundFaultDevice,
    unless=not_in_a_wet_place,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("box-listed-wet",),
)
def cover_over_a_ground_fault_device(device: GroundFaultDevice, look: Look) -> Answer:
    """A ground-fault device without a receptacle is behind a weatherproof cover where it is wet."""
    return _cover_over_a_device(device, look)


@rule(
    looks_at=GroundFaultDevice,
    unless=not_in_a_damp_place,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("box-listed-wet",),
)
def cover_over_a_ground_fault_device_in_a_damp_place(device: GroundFaultDevice, look: Look) -> Answer:
    """A ground-fault device without a receptacle is behind a weatherproof cover where it is damp."""
    return _cover_over_a_device(device, look)


def _cover_over_a_device(device: GroundFaultDevice, look: Look) -> Answer:
    cover = look.stated(device.cover)
    at = f"{device.place}/cover"
    if cover in ("closed", "in-use"):
        return met("cover", "weatherproof", "a weatherproof cover", at=at)
    closed = Proposal.state("close it with a weatherproof cover", Effort.PART, (device, "cover", "closed"))
    return not_met("cover", cover, "a weatherproof cover", at=at, amend=(closed,))


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("box-cover-complete",))
def every_box_is_closed(plan: Plan, _look: Look) -> str | None:
    """Covers are seen when all is done."""
    boxes = len(plan.boxes)
    if not boxes:
        return None
    which = "The box of the plan is" if boxes == 1 else f"Each of the {boxes} boxes of the plan is"
    return f"{which} closed by a cover, a device or a canopy, without open knockouts; metal covers are grounded."
