"""Boxes in wet places that have a cover of another kind, or none to look at."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import outcome, reviewed_example

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
