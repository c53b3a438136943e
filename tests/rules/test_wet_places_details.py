"""Where it is damp or wet: what closes boxes and receptacles, and what a finding there says and proposes."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Review
from support.reviews import example, outcome, reviewed, reviewed_example
from support.trenches import after_each_proposal, line_at

WET, OTHER, HANDHOLE = "/cover-of-a-box-in-a-wet-place", "/cover-of-a-box-without-devices", "/handhole-cover"
PULL, TERRACE, YARD = "/boxes/pull-box", "/boxes/terrace-box", "/boxes/yard-box"


def pull_box(area: str = "outdoors", location: str = "wet", **box: Any) -> Review:
    """The joinery workshop with other facts of its pull box, which holds no device."""
    facts = {key.replace("_", "-"): value for key, value in box.items()}
    return reviewed_example(
        "joinery-workshop", {"boxes": {"pull-box": {"area": area, "location": location, "box": facts}}}
    )


@pytest.mark.parametrize(
    ("location", "kind", "wet", "other"),
    [
        ("wet", "box", "not met", "does not apply"),
        ("damp", "box", "does not apply", "not met"),
        ("wet", "handhole", "does not apply", "does not apply"),
        ("damp", "handhole", "does not apply", "does not apply"),
    ],
)
def test_an_open_box_is_written_up_once(location: str, kind: str, wet: str, other: str) -> None:
    """As a danger where rain reaches it, as a correction elsewhere; a handhole has a cover of its own kind."""
    of = pull_box(location=location, kind=kind, cover="none", cover_marked=True, cover_needs_tool=True)
    assert (outcome(of, WET, PULL), outcome(of, OTHER, PULL)) == (wet, other)


@pytest.mark.parametrize(("name", "place"), [("pottery-studio", TERRACE), ("joinery-workshop", YARD)])
def test_devices_close_a_box(name: str, place: str) -> None:
    """In a wet place and in a damp one."""
    of = reviewed_example(name, {"boxes": {place.rpartition("/")[2]: {"box": {"cover": "none"}}}})
    assert {outcome(of, rule, place) for rule in (WET, OTHER)} == {"does not apply"}
    why = [line.answer.why for line in of.ran if line.subject == place and line.rule.id.endswith(OTHER)]
    assert why == ["its devices close it"]


def test_what_is_said_to_be_a_box_in_the_ground_is_no_handhole() -> None:
    """Only where the kind is not said is it asked for."""
    assert outcome(pull_box("ground", kind="box"), HANDHOLE, PULL) == "does not apply"
    assert outcome(pull_box("ground", kind=None), HANDHOLE, PULL) == "cannot tell"
    assert outcome(pull_box("outdoors", kind=None), HANDHOLE, PULL) == "does not apply"


@pytest.mark.parametrize(("marked", "key"), [(False, "cover-marked"), (True, "cover-needs-tool")])
def test_the_cover_of_a_handhole_is_exchanged(marked: bool, key: str) -> None:
    """For one that is marked, or that takes a tool."""
    box = {"kind": "handhole", "cover-marked": marked, "cover-needs-tool": not marked}
    data = example("joinery-workshop", {"boxes": {"pull-box": {"area": "ground", "location": "wet", "box": box}}})
    line = line_at(reviewed(data), HANDHOLE, PULL)
    assert (line.answer.outcome.value, line.place) == ("not met", f"{PULL}/box/{key}")
    assert set(after_each_proposal(data, HANDHOLE, PULL).values()) == {"met"}


OUTLET = f"{TERRACE}/devices/terrace-outlet"
NO_COVER, IN_USE = "/no-weatherproof-cover-in-a-wet-place", "/cover-in-a-wet-place"


def terrace(*, box: dict[str, Any] | None = None, **outlet: Any) -> dict[str, Any]:
    """The pottery studio with other facts of the receptacle on its terrace, and of the box."""
    facts = {key.replace("_", "-"): value for key, value in outlet.items()}
    return example(
        "pottery-studio", {"boxes": {"terrace-box": {"box": box or {}, "devices": {"terrace-outlet": facts}}}}
    )


@pytest.mark.parametrize(
    ("rating", "row"), [("20 A", "receptacle-cover-wet-in-use"), ("30 A", "receptacle-cover-wet-other")]
)
@pytest.mark.parametrize(("cover", "has"), [("none", "none"), ("plain", "an ordinary plate")])
def test_a_receptacle_open_to_rain_is_written_up_under_its_rating(rating: str, row: str, cover: str, has: str) -> None:
    """One of 30 A has a requirement of its own."""
    line = line_at(reviewed(terrace(receptacle=rating, cover=cover)), NO_COVER, OUTLET)
    assert (line.answer.outcome.value, line.answer.rows, line.place) == ("not met", (row,), f"{OUTLET}/cover")
    assert line.answer.has == has


@pytest.mark.parametrize("cover", ["none", "closed"])
def test_the_hood_that_is_proposed_has_nothing_against_it(cover: str) -> None:
    """It is listed extra-duty."""
    data = terrace(cover=cover, extra_duty=None)
    line = line_at(reviewed(data), NO_COVER if cover == "none" else IN_USE, OUTLET)
    (way,) = line.answer.proposals
    after = reviewed(applied(data, complete(data, way.patch)))
    assert not [one.line.rule.id for one in after.findings if one.line.subject == OUTLET]


def test_a_receptacle_beside_a_switch_seals_to_the_wall_too() -> None:
    """One receptacle in the box is enough."""
    data = terrace(box={"mounting": "flush", "gasket": False})
    data["boxes"]["terrace-box"]["devices"]["lamp-switch"] = {"switch": "15 A", "role": "lighting"}
    assert outcome(reviewed(data), "/plate-seals-to-the-wall", TERRACE) == "not met"


@pytest.mark.parametrize(
    ("mounting", "words"),
    [
        ("surface", "put it in a weatherproof enclosure"),
        ("flush", "close it with a weatherproof cover"),
        (None, "close it with a weatherproof enclosure or cover"),
    ],
)
def test_what_keeps_a_switch_dry(mounting: str | None, words: str) -> None:
    """An enclosure on the wall, a cover in it."""
    switch = {"weatherproof": False, "mounting": mounting}
    data = example("orchard-pump", {"boxes": {"post-box": {"devices": {"main-switch": switch}}}})
    place = "/boxes/post-box/devices/main-switch"
    assert after_each_proposal(data, "/switch-kept-dry", place) == {words: "met"}


@pytest.mark.parametrize(
    ("area", "expected"), [("ground", "not met"), ("outdoors", "not met"), ("indoors", "cannot tell")]
)
def test_an_enclosure_in_a_damp_place(area: str, expected: str) -> None:
    """Only indoors is there something to ask; what lies in the ground is no such place, whatever it is called."""
    devices = {"cut-off": {"disconnect": "60 A", "enclosure": "1"}}
    data = example("joinery-workshop", {"boxes": {"pull-box": {"area": area, "location": "damp", "devices": devices}}})
    assert outcome(reviewed(data), "/disconnect-enclosure", f"{PULL}/devices/cut-off") == expected


@pytest.mark.parametrize(
    ("area", "kind", "location", "why"),
    [
        ("outdoors", "box", "dry", "It is outdoors."),
        ("ground", "box", "damp", "It is in the ground."),
        ("outdoors", "handhole", "damp", "It is a handhole."),
    ],
)
def test_why_a_place_cannot_be_as_dry_as_stated(area: str, kind: str, location: str, why: str) -> None:
    """The plan says so itself."""
    line = line_at(pull_box(area, location, kind=kind), "/location-of-a-box", PULL)
    assert (line.answer.outcome.value, line.answer.why) == ("not met", why)
