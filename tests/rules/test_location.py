"""How wet each place of a plan is, seen through the rules that ask for it."""

from __future__ import annotations

from typing import Any, cast

import pytest

from precover.plan import Box, Leg, Panel
from precover.reviewing import open_plan
from precover.rulebook import Look, Missing
from precover_rules.location import location_of, location_of_leg, suits
from support.reviews import example, library, written


def looked(name: str, patch: dict[str, Any]) -> Look:
    """A look at a bundled example with a merge patch."""
    opened = open_plan("test.plan.yaml", written(example(name, patch)))
    return Look(opened.trace, library().book().tables)


def of_leg(leg: dict[str, Any]) -> str | None:
    """The location of a leg that is the only one of a route."""
    look = looked("pottery-studio", {"routes": {"yard": {"legs": [leg]}}})
    return location_of_leg(cast(Leg, look.plan.routes["yard"].legs[0]), look)


def of_box(facts: dict[str, Any]) -> str:
    """The location of a box of which nothing else is said."""
    look = looked("pottery-studio", {"boxes": {"spare": {"at": "house", **facts}}})
    return location_of(cast(Box, look.plan.boxes["spare"]), look)


@pytest.mark.parametrize(
    ("leg", "expected"),
    [
        ({"buried": "lawn"}, "wet"),
        ({"buried": "building"}, "wet"),
        ({"rise": "2 ft"}, "wet"),
        ({"overhead": "yard"}, "wet"),
        ({"through": "foundation"}, "wet"),
        ({"through": "wall"}, None),
        ({"through": "floor"}, None),
        ({"through": "roof"}, None),
        ({"on": "outside wall", "location": "wet"}, "wet"),
        ({"on": "outside wall", "location": "damp"}, "damp"),
        ({"on": "post", "location": "dry"}, "dry"),
        ({"in": "crawl space", "location": "damp"}, "damp"),
        ({"in": "wall framing", "location": "wet"}, "wet"),
        ({"on": "ceiling", "location": "damp"}, "damp"),
    ],
)
def test_a_leg(leg: dict[str, Any], expected: str | None) -> None:
    """The ground, the rise out of it and the air are wet; elsewhere it is what the leg says."""
    assert of_leg(leg) == expected


@pytest.mark.parametrize("on", ["outside wall", "pole", "roof", "fence", "deck", "tree"])
def test_outdoors_is_never_drier_than_damp(on: str) -> None:
    """Whatever the plan says; that it says so is a finding of its own."""
    assert of_leg({"on": on, "location": "dry"}) == "damp"


@pytest.mark.parametrize(
    "leg", [{"on": "inside wall"}, {"on": "ceiling"}, {"in": "wall framing"}, {"in": "joist bays"}, {"in": "attic"}]
)
def test_words_that_mean_a_dry_place(leg: dict[str, Any]) -> None:
    """The schema says so in the description of the words."""
    assert of_leg(leg) == "dry"


@pytest.mark.parametrize(
    "leg",
    [
        {"in": "basement"},
        {"in": "crawl space"},
        {"in": "garage"},
        {"on": "floor"},
        {"on": "post"},
        {"on": "outside wall"},
        {"on": "deck"},
    ],
)
def test_words_that_leave_it_open(leg: dict[str, Any]) -> None:
    """No silent default: the location must be stated."""
    with pytest.raises(Missing) as missing:
        of_leg(leg)
    assert missing.value.fact.place == "/routes/yard/legs/0/location"


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({"area": "ground"}, "wet"),
        ({"area": "ground", "location": "dry"}, "wet"),
        ({"box": {"kind": "handhole"}}, "wet"),
        ({"area": "outdoors", "location": "dry"}, "damp"),
        ({"area": "outdoors", "location": "damp"}, "damp"),
        ({"area": "outdoors", "location": "wet"}, "wet"),
        ({"area": "indoors", "location": "dry"}, "dry"),
        ({"area": "basement", "location": "damp"}, "damp"),
        ({"location": "dry"}, "dry"),
    ],
)
def test_a_box(facts: dict[str, Any], expected: str) -> None:
    """A box in the earth is wet, one outdoors damp at the least, any other what it says."""
    assert of_box(facts) == expected


@pytest.mark.parametrize("area", [None, "outdoors", "indoors", "basement"])
def test_a_box_that_does_not_say(area: str | None) -> None:
    """No silent default."""
    with pytest.raises(Missing) as missing:
        of_box({"area": area} if area else {})
    assert missing.value.fact.place == "/boxes/spare/location"


def test_a_panel() -> None:
    """As a box."""
    look = looked("joinery-workshop", {"panels": {"workshop-panel": {"area": "outdoors", "location": "dry"}}})
    assert location_of(cast(Panel, look.plan.panels["workshop-panel"]), look) == "damp"


@pytest.mark.parametrize(
    ("listed", "location", "expected"),
    [
        ("dry", "dry", True),
        ("dry", "damp", False),
        ("damp", "dry", True),
        ("damp", "damp", True),
        ("damp", "wet", False),
        ("wet", "damp", True),
        ("wet", "wet", True),
    ],
)
def test_a_listing(listed: Any, location: Any, expected: bool) -> None:
    """A thing may be where it is drier than its listing allows, never where it is wetter."""
    assert suits(listed, location) is expected
