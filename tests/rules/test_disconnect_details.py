"""Disconnects that are not where they look to be, what is counted, and what proposals bring along."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Review
from precover.rulebook import Outcome
from support.reviews import asked, example, lines, merged, outcome, reviewed, reviewed_example

STUDIO, WORKSHOP = "/structures/studio", "/structures/workshop"
NEEDED, OUTSIDE, HANDLES = "/disconnect-at-the-structure", "/emergency-disconnect-outside", "/six-handles-at-most"
SNAP, TOGETHER, ENTRY = "/snap-switch-for-a-small-circuit", "/hots-open-together", "/disconnect-where-the-supply-enters"
CUT_OFF = {"disconnect": "100 A", "type": "general-use switch", "opens": "all hots", "enclosure": "3R"}


def by_way_of_a_box(at: str, area: str, devices: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop as a dwelling, its feeder by way of one more box."""
    box = {"at": at, "area": area, "location": "wet", "box": {}, "devices": devices}
    inside = {
        "from": "entry",
        "to": "workshop-panel",
        "raceway": "none",
        "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}},
        "legs": [{"through": "wall", "length": "8 in"}],
    }
    return example(
        "joinery-workshop",
        {
            "structures": {"workshop": {"use": "dwelling"}},
            "boxes": {"entry": box},
            "routes": {"yard": {"to": "entry"}, "inside": inside},
        },
    )


@pytest.mark.parametrize(
    ("at", "area", "devices", "expected"),
    [
        ("workshop", "outdoors", {"cut-off": CUT_OFF}, "met"),
        ("workshop", "indoors", {"cut-off": CUT_OFF}, "not met"),
        ("house", "outdoors", {"cut-off": CUT_OFF}, "not met"),
        ("workshop", "outdoors", {"outlet": {"receptacle": "20 A"}}, "not met"),
        ("workshop", "outdoors", {}, "not met"),
    ],
)
def test_where_an_emergency_disconnect_counts(at: str, area: str, devices: dict[str, Any], expected: str) -> None:
    """Outdoors, and at the dwelling itself; another device there is none."""
    of = reviewed(by_way_of_a_box(at, area, devices))
    (line,) = lines(of, OUTSIDE, WORKSHOP)
    assert line.answer.outcome.value == expected
    if expected == "met":
        assert (line.answer.has, line.place) == ("entry", "/boxes/entry")


@pytest.mark.parametrize(
    ("area", "devices", "ways"),
    [
        ("outdoors", {}, 1),
        ("indoors", {}, 0),
        ("outdoors", {"emergency-disconnect": {"receptacle": "20 A"}}, 0),
    ],
)
def test_an_emergency_disconnect_is_proposed_where_there_is_a_place_for_it(
    area: str, devices: dict[str, Any], ways: int
) -> None:
    """In an outdoor box that the supply comes to, unless the name is taken; the device proposed has nothing against it."""
    data = by_way_of_a_box("workshop", area, devices)
    (line,) = lines(reviewed(data), OUTSIDE, WORKSHOP)
    assert len(line.answer.proposals) == ways
    for way in line.answer.proposals:
        after = reviewed(applied(data, complete(data, way.patch)))
        assert outcome(after, OUTSIDE, WORKSHOP) == "met"
        against = [one for one in after.findings if one.line.rule.topic.startswith("disconnect/")]
        assert [one.line.rule.id for one in against] == []


def test_an_emergency_disconnect_without_a_panel() -> None:
    """A feeder that ends in an enclosed switch has no main to look at."""
    data = by_way_of_a_box("workshop", "outdoors", {"cut-off": CUT_OFF})
    gone: dict[str, Any] = {
        "panels": {"workshop-panel": None},
        "routes": dict.fromkeys(("inside", "bench", "porch", "lighting", "porch-lighting", "planer-run")),
        "circuits": dict.fromkeys(("bench-outlets", "lights", "planer")),
        "boxes": dict.fromkeys(("bench-box", "yard-box", "switch-box", "porch-light-box", "planer-box")),
    }
    assert outcome(reviewed(merged(data, gone)), OUTSIDE, WORKSHOP) == "met"


def poled(count: int, **breaker: Any) -> Review:
    """The workshop's panel without a main, with so many more 240 V circuits beside the three it has."""
    circuit = {"kind": "branch circuit", "from": "workshop-panel", "voltage": "240 V", "breaker": breaker}
    patch = {
        "panels": {"workshop-panel": {"main": "none"}},
        "circuits": {f"more-{n}": circuit for n in range(count)},
    }
    return reviewed_example("joinery-workshop", patch)


@pytest.mark.parametrize(
    ("count", "breaker", "expected", "handles"),
    [
        (0, {}, "met", 3),
        (1, {"poles": 2, "common-trip": True}, "met", 4),
        (1, {"poles": 2, "common-trip": False}, "met", 5),
        (1, {"poles": 1}, "met", 5),
        (3, {"poles": 2, "common-trip": True}, "met", 6),
        (2, {"poles": 2, "common-trip": False}, "not met", 7),
        (4, {"poles": 2, "common-trip": True}, "not met", 7),
        (4, {}, "not met", 7),
    ],
)
def test_handles_are_counted(count: int, breaker: dict[str, Any], expected: str, handles: int) -> None:
    """One for poles that open together, two for those that do not."""
    (line,) = lines(poled(count, **breaker), HANDLES, WORKSHOP)
    assert (line.answer.outcome.value, line.answer.has) == (expected, handles)


def test_poles_are_asked_about_only_near_the_limit() -> None:
    """Three breakers are six handles at the most, and seven are too many at the least."""
    three = reviewed_example(
        "joinery-workshop",
        {
            "panels": {"workshop-panel": {"main": "none"}},
            "circuits": {"planer": {"breaker": {"poles": None, "common-trip": None}}},
        },
    )
    (line,) = lines(three, HANDLES, WORKSHOP)
    assert (line.answer.outcome.value, line.answer.has) == ("met", 3)
    assert outcome(poled(4), HANDLES, WORKSHOP) == "not met"
    between = poled(3)
    assert outcome(between, HANDLES, WORKSHOP) == "cannot tell"
    assert any(place.startswith("/circuits/more-0/breaker") for place in asked(between))


def test_a_switch_at_the_house_or_on_another_circuit_does_not_disconnect_the_studio() -> None:
    """It has to be at the structure, and on what supplies it."""
    none: dict[str, Any] = {
        "boxes": {"entry-box": {"devices": {"main-switch": None}}, "ceiling-box": {"devices": {"lamp": None}}}
    }
    switch = {"switch": "20 A", "role": "disconnect", "opens": "all hots"}
    at_house = merged(none, {"boxes": {"terrace-box": {"devices": {"cut-off": switch}}}})
    assert outcome(reviewed_example("pottery-studio", at_house), NEEDED, STUDIO) == "not met"
    other = {
        "circuits": {"gate": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}},
        "boxes": {
            "entry-box": {"devices": {"bench-outlet": {"circuit": "studio"}, "cut-off": {**switch, "circuit": "gate"}}}
        },
        "routes": {
            "gate-run": {
                "from": "house-panel",
                "to": "entry-box",
                "carries": {"gate": {"cable": "UF-B 12/2"}},
                "legs": [{"buried": "lawn", "length": "46 ft"}],
            }
        },
    }
    of = reviewed_example("pottery-studio", merged(none, other))
    (line,) = lines(of, NEEDED, STUDIO)
    assert (line.answer.outcome.value, line.answer.of) == ("not met", "disconnect for studio")


@pytest.mark.parametrize("at_entry", [True, False, None])
def test_an_enclosed_switch_is_proposed_where_the_snap_switch_is(at_entry: bool | None) -> None:
    """What the plan says of its place holds for the new one, and nothing else is said of that."""
    data = example(
        "pottery-studio",
        {
            "circuits": {"studio": {"breaker": {"rating": "30 A"}}},
            "boxes": {
                "entry-box": {"devices": {"main-switch": {"at-entry": at_entry}}},
                "ceiling-box": {"devices": {"lamp": {"switched-by": None}}},
            },
        },
    )
    (line,) = lines(reviewed(data), SNAP, STUDIO)
    (way,) = line.answer.proposals
    (edit,) = way.patch
    assert edit["value"].get("at-entry") == (True if at_entry else None)
    assert "circuit" not in edit["value"]


def test_an_enclosed_switch_is_proposed_on_the_circuit_of_the_snap_switch() -> None:
    """Where a box has several, the device says which."""
    data = example(
        "pottery-studio",
        {
            "circuits": {"studio": {"breaker": {"rating": "30 A"}}},
            "boxes": {"entry-box": {"devices": {"main-switch": {"circuit": "studio"}}}},
        },
    )
    (line,) = lines(reviewed(data), SNAP, STUDIO)
    ((edit,),) = [way.patch for way in line.answer.proposals]
    assert edit["value"]["circuit"] == "studio"


@pytest.mark.parametrize(
    ("breaker", "has"),
    [
        ({"poles": 1}, "single poles"),
        ({"poles": 2, "common-trip": False}, "2 poles that open one by one"),
    ],
)
def test_what_is_wrong_with_a_multiwire_breaker(breaker: dict[str, Any], has: str) -> None:
    """Said as it is planned."""
    circuit = {"multiwire": True, "voltage": "120/240 V", "breaker": breaker}
    of = reviewed_example("pottery-studio", {"circuits": {"studio": circuit}})
    (line,) = lines(of, TOGETHER, "/circuits/studio")
    assert (line.answer.outcome, line.answer.has) == (Outcome.NOT_MET, has)


def test_a_feeder_is_no_multiwire_branch_circuit() -> None:
    """Although it has two hots and a neutral."""
    of = reviewed_example("joinery-workshop", {"circuits": {"workshop-feeder": {"multiwire": True}}})
    assert outcome(of, TOGETHER, "/circuits/workshop-feeder") == "does not apply"
    assert not [one for one in of.inspect if one.item.id.endswith("shared-neutral")]


@pytest.mark.parametrize(("use", "expected"), [("post", "does not apply"), ("lighting pole", "does not apply")])
def test_on_a_pole_as_on_a_post(use: str, expected: str) -> None:
    """Rooms to live in, and the nearest point of entry, are nothing to ask of it."""
    of = reviewed_example("orchard-pump", {"structures": {"pump-post": {"use": use}}})
    place = "/structures/pump-post"
    assert outcome(of, ENTRY, place) == expected
    (line,) = lines(of, "/habitable-building-is-planned-as-a-dwelling", place)
    assert line.answer.why == f"planned as a {use}"


def test_breakers_that_open_one_by_one_are_proposed_to_open_together() -> None:
    """Two poles with common trip, which settles it."""
    patch = {
        "panels": {"workshop-panel": {"main": "none"}},
        "circuits": {"planer": {"breaker": {"poles": 1, "common-trip": False}}},
    }
    data = example("joinery-workshop", patch)
    (line,) = lines(reviewed(data), "/opens-every-hot", WORKSHOP)
    (way,) = line.answer.proposals
    after = applied(data, complete(data, way.patch))
    assert (
        after["circuits"]["planer"]["breaker"] | {"poles": 2, "common-trip": True}
        == after["circuits"]["planer"]["breaker"]
    )
    assert outcome(reviewed(after), "/opens-every-hot", WORKSHOP) == "met"
