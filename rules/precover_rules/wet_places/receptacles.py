"""Receptacles where it is damp or wet, and what covers them."""

from precover.plan import Box, Plan, Receptacle
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.location import (
    in_a_dry_place,
    location_of_device,
    not_in_a_damp_place,
    not_in_a_wet_place,
)

IN_USE = "weatherproof with a plug in"
WHEN_CLOSED = "weatherproof while closed"
OPEN_TO_RAIN = ("none", "plain")
NONE_AT_ALL = "no weatherproof cover at all: looked at on its own"
IN_WORDS = {"none": "none", "plain": "an ordinary plate", "closed": WHEN_CLOSED, "in-use": IN_USE}


def _of_another_rating(receptacle: Receptacle, look: Look) -> str:
    return "" if _of_a_common_rating(receptacle, look) else "of another rating"


def _of_common_rating(receptacle: Receptacle, look: Look) -> str:
    return "of 15 or 20 A and up to 250 V" if _of_a_common_rating(receptacle, look) else ""


def _for_a_locking_plug(receptacle: Receptacle, _look: Look) -> str:
    return "it takes a locking plug" if receptacle.locking else ""


def _without_cover(receptacle: Receptacle, look: Look) -> str:
    return NONE_AT_ALL if look.stated(receptacle.cover) in OPEN_TO_RAIN else ""


def _without_hood(receptacle: Receptacle, _look: Look) -> str:
    return "" if receptacle.cover == "in-use" else "no in-use hood"


def _without_receptacle(box: Box, _look: Look) -> str:
    return "" if any(isinstance(device, Receptacle) for device in box.devices.values()) else "no receptacle"


def _not_flush(box: Box, look: Look) -> str:
    return "" if look.stated(box.box.mounting) == "flush" else "not set flush"


@rule(
    looks_at=Receptacle,
    unless=(in_a_dry_place, _of_another_rating, _for_a_locking_plug),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("receptacle-weather-resistant",),
)
def weather_resistant(receptacle: Receptacle, look: Look) -> Answer:
    """A nonlocking receptacle of 15 or 20 A and up to 250 V in a damp or wet place is marked weather-resistant."""
    location = location_of_device(receptacle, look)
    at = f"{receptacle.place}/weather-resistant"
    look.because(f"the receptacle is in a {location} place", look.trace.box_of(receptacle).place)
    if look.stated(receptacle.weather_resistant):
        return met("receptacle", "weather-resistant", "marked weather-resistant", at=at)
    other = Proposal.state("use a weather-resistant receptacle", Effort.PART, (receptacle, "weather-resistant", True))
    return not_met("receptacle", "not weather-resistant", "marked weather-resistant", at=at, amend=(other,))


@rule(
    looks_at=Receptacle,
    unless=not_in_a_damp_place,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("receptacle-cover-damp",),
)
def cover_in_a_damp_place(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle in a damp place is weatherproof at least while its cover is closed."""
    return _covered(receptacle, ("closed", "in-use"), WHEN_CLOSED, look)


@rule(
    looks_at=Receptacle,
    unless=not_in_a_wet_place,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("receptacle-cover-wet-in-use", "receptacle-cover-wet-other"),
)
def no_weatherproof_cover_in_a_wet_place(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle in a wet place has a weatherproof cover of some kind: rain does not reach it while nothing is in use."""
    if look.stated(receptacle.cover) not in OPEN_TO_RAIN:
        return met("cover", IN_WORDS[look.stated(receptacle.cover)], WHEN_CLOSED, at=f"{receptacle.place}/cover")
    common = _of_a_common_rating(receptacle, look)
    row = "receptacle-cover-wet-in-use" if common else "receptacle-cover-wet-other"
    return _covered(receptacle, ("in-use",), IN_USE, look).citing(row)


@rule(
    looks_at=Receptacle,
    unless=(not_in_a_wet_place, _of_another_rating, _without_cover),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("receptacle-cover-wet-in-use",),
)
def cover_in_a_wet_place(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle of 15 or 20 A and up to 250 V in a wet place is weatherproof with a plug in or out."""
    return _covered(receptacle, ("in-use",), IN_USE, look)


@rule(
    looks_at=Receptacle,
    unless=(not_in_a_wet_place, _without_hood, _of_another_rating),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("receptacle-cover-wet-in-use",),
)
def extra_duty_hood(receptacle: Receptacle, look: Look) -> Answer:
    """An in-use hood over a receptacle of 15 or 20 A and up to 250 V in a wet place is listed extra-duty."""
    at = f"{receptacle.place}/extra-duty"
    if look.stated(receptacle.extra_duty):
        return met("hood", "extra-duty", "listed extra-duty", at=at)
    other = Proposal.state("use a hood listed extra-duty", Effort.PART, (receptacle, "extra-duty", True))
    return not_met("hood", "not extra-duty", "listed extra-duty", at=at, amend=(other,))


@rule(
    looks_at=Receptacle,
    unless=(not_in_a_wet_place, _of_common_rating, _without_cover),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("receptacle-cover-wet-other",),
)
def cover_of_another_rating_in_a_wet_place(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle of another rating in a wet place is weatherproof with a plug in, or while closed if its load is attended."""
    if receptacle.cover == "closed" and look.stated(receptacle.attended):
        look.because("what plugs in here is attended while in use", f"{receptacle.place}/attended")
        return _covered(receptacle, ("closed",), WHEN_CLOSED, look)
    return _covered(receptacle, ("in-use",), IN_USE, look)


@rule(
    looks_at=Box,
    unless=(_without_receptacle, not_in_a_wet_place, _not_flush),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("receptacle-wet-gasket",),
)
def plate_seals_to_the_wall(box: Box, look: Look) -> Answer:
    """The cover of a receptacle in a flush box in a wet place seals to the wall."""
    at = f"{box.box.place}/gasket"
    if look.stated(box.box.gasket):
        return met("cover", "sealed to the wall", "sealed to the wall", at=at)
    sealed = Proposal.state("seal the cover to the wall with a gasket", Effort.PART, (box.box, "gasket", True))
    return not_met("cover", "not sealed to the wall", "sealed to the wall", at=at, amend=(sealed,))


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("receptacle-not-face-up",))
def no_receptacle_faces_up(plan: Plan, _look: Look) -> str | None:
    """How a receptacle is turned is seen on site."""
    devices = [device for box in plan.boxes.values() for device in box.devices.values()]
    count = sum(isinstance(device, Receptacle) for device in devices)
    if not count:
        return None
    which = "The receptacle does not face" if count == 1 else f"None of the {count} receptacles faces"
    return f"{which} up on a bench, a counter or where water can lie, unless it is listed for that."


def _of_a_common_rating(receptacle: Receptacle, look: Look) -> bool:
    """Of 15 or 20 A and up to 250 V: the ratings that have requirements of their own."""
    if receptacle.receptacle > look.limit("common receptacle current").value:
        return False
    return bool(look.stated(receptacle.voltage) <= look.limit("common receptacle voltage").value)


def _covered(receptacle: Receptacle, enough: tuple[str, ...], needs: str, look: Look) -> Answer:
    cover = look.stated(receptacle.cover)
    at = f"{receptacle.place}/cover"
    if cover in enough:
        return met("cover", IN_WORDS[cover], needs, at=at)
    if "closed" in enough:
        better = Proposal.state("close it with a weatherproof cover", Effort.PART, (receptacle, "cover", "closed"))
    else:
        better = Proposal.state(
            "close it with an in-use hood listed extra-duty",
            Effort.PART,
            (receptacle, "cover", "in-use"),
            (receptacle, "extra-duty", True),
        )
    return not_met("cover", IN_WORDS[cover], needs, at=at, amend=(better,))
