"""Findings that name the requirement that decided, and say one thing once: rods, water pipe, disconnects, hots."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line, Review
from support.reviews import asked, example, reviewed, reviewed_example

WORKSHOP, STUDIO = "/structures/workshop", "/structures/studio"
RODS = f"{WORKSHOP}/grounding/electrodes"
SECOND, APART, HOTS = "/second-electrode", "/spacing-of-rods", "/hots-for-the-voltage"
RECEPTACLE = "/protection-of-a-receptacle"


def one(of: Review, rule: str, place: str) -> Line:
    """The line of a rule on a subject."""
    (line,) = [line for line in of.ran if line.rule.id.endswith(rule) and line.subject == place]
    return line


def rods(electrodes: dict[str, Any]) -> dict[str, Any]:
    """The workshop with other electrodes."""
    return example("joinery-workshop", {"structures": {"workshop": {"grounding": {"electrodes": electrodes}}}})


def test_a_water_pipe_alone_gets_two_rods() -> None:
    """A single rod would need a second itself; the place to look is the pipe's."""
    pipe = {"kind": "metal water pipe", "length": "40 ft", "bonded": True}
    data = rods({"north-rod": None, "south-rod": None, "pipe": pipe})
    line = one(reviewed(data), SECOND, WORKSHOP)
    assert line.answer.rows == ("water-pipe-backed",)
    (way,) = line.answer.proposals
    assert one(reviewed(applied(data, complete(data, way.patch))), SECOND, WORKSHOP).answer.outcome.value == "met"
    single = one(reviewed(rods({"south-rod": None})), SECOND, WORKSHOP)
    assert single.answer.rows == ("rod-two-unless-25-ohm",)


def test_one_gap_is_one_finding_and_one_way_out() -> None:
    """Between two rods that stand 4 ft apart."""
    data = rods({"north-rod": {"spacing": "4 ft"}, "south-rod": {"spacing": "4 ft"}})
    of = reviewed(data)
    told = {name: one(of, APART, f"{RODS}/{name}") for name in ("north-rod", "south-rod")}
    (said,) = [line for line in told.values() if line.answer.outcome.value == "not met"]
    (way,) = said.answer.proposals
    after = reviewed(applied(data, complete(data, way.patch)))
    assert {one(after, APART, f"{RODS}/{name}").answer.outcome.value for name in told} == {"met"}


def test_three_rods_have_gaps_of_their_own() -> None:
    """Each is said."""
    third = {"kind": "rod", "bonded": True, "length": "8 ft", "diameter": "5/8 in", "driven": "8 ft", "spacing": "3 ft"}
    of = reviewed(rods({"north-rod": {"spacing": "4 ft"}, "south-rod": {"spacing": "3 ft"}, "third": third}))
    assert {one(of, APART, f"{RODS}/{name}").answer.outcome.value for name in ("north-rod", "south-rod", "third")} == {
        "not met"
    }


def test_a_box_that_a_circuit_only_passes_is_not_fed_by_it() -> None:
    """A second circuit's receptacle sits in a box that the first passes on its way to the switch."""
    patch: dict[str, Any] = {
        "circuits": {
            "other": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V", "multiwire": False}
        },
        "boxes": {
            "passed": {
                "at": "studio",
                "area": "indoors",
                "location": "dry",
                "box": {},
                "devices": {"outlet": {"receptacle": "20 A", "circuit": "other"}},
            }
        },
        "routes": {
            "yard": {"to": "passed"},
            "on": {
                "from": "passed",
                "to": "entry-box",
                "raceway": "none",
                "carries": {"studio": {"cable": "NM-B 12/2"}},
            },
            "second": {"from": "house-panel", "to": "passed", "carries": {"other": {"cable": "UF-B 12/2"}}},
        },
    }
    data = example("pottery-studio", patch)
    for route in ("on", "second"):
        data["routes"][route]["legs"] = [{"on": "inside wall", "length": "5 ft", "location": "dry"}]
    assert one(reviewed(data), "/disconnect-comes-first", STUDIO).answer.outcome.value != "not met"
    data["boxes"]["passed"]["devices"]["outlet"]["circuit"] = "studio"
    assert one(reviewed(data), "/disconnect-comes-first", STUDIO).answer.outcome.value == "not met"


@pytest.mark.parametrize(("opens", "expected"), [("all hots", "met"), ("neutral", "does not apply")])
def test_what_opens_the_neutral_only_is_no_disconnect(opens: str, expected: str) -> None:
    """That it does so is a finding of its own; it is not told as a disconnect."""
    of = reviewed_example("pottery-studio", {"boxes": {"entry-box": {"devices": {"main-switch": {"opens": opens}}}}})
    assert one(of, "/disconnect-at-the-structure", STUDIO).answer.outcome.value == expected
    every = [line.answer.outcome.value for line in of.ran if line.rule.topic == "disconnect/opening"]
    assert ("not met" in every) is (opens == "neutral")


@pytest.mark.parametrize(
    ("name", "structure", "row"),
    [
        ("joinery-workshop", {"workshop": {"use": "dwelling"}}, "disconnect-rating-dwelling"),
        ("joinery-workshop", {}, "disconnect-rating-other"),
        ("pottery-studio", {}, "disconnect-rating-one-circuit"),
    ],
)
def test_the_rating_cites_its_own_case(name: str, structure: dict[str, Any], row: str) -> None:
    """One of four."""
    of = reviewed_example(name, {"structures": structure})
    (line,) = [one for one in of.ran if one.rule.id.endswith("/rating-for-the-structure") and one.answer.of]
    assert line.answer.rows == (row,)


def test_a_receptacle_cites_its_own_place() -> None:
    """Outdoors, and in the accessory building."""
    of = reviewed_example(
        "pottery-studio", {"boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}}}}
    )
    assert one(of, RECEPTACLE, "/boxes/terrace-box/devices/terrace-outlet").answer.rows == ("gfci-outdoor-receptacle",)
    assert one(of, RECEPTACLE, "/boxes/entry-box/devices/bench-outlet").answer.rows == ("gfci-accessory-building",)


def test_a_load_side_does_not_feed_a_shared_neutral() -> None:
    """Not met, no load side among the ways out, and the breaker has two poles."""
    patch = {"circuits": {"studio": {"multiwire": True, "voltage": "120/240 V"}}}
    line = one(reviewed_example("pottery-studio", patch), RECEPTACLE, "/boxes/entry-box/devices/bench-outlet")
    assert line.answer.outcome.value == "not met"
    assert "cannot feed on a circuit with two hots" in line.answer.why
    words = [way.words for way in line.answer.proposals]
    assert words and not any("load side" in one for one in words)
    assert any("2-pole class A" in one for one in words)


def test_a_load_side_fails_where_protection_is_in_doubt_too() -> None:
    """In a barn the authority says whether it is needed; that a shared neutral trips it is said all the same."""
    patch = {
        "structures": {"studio": {"use": "agricultural"}},
        "circuits": {"studio": {"multiwire": True, "voltage": "120/240 V"}},
    }
    line = one(reviewed_example("pottery-studio", patch), RECEPTACLE, "/boxes/entry-box/devices/bench-outlet")
    assert line.answer.outcome.value == "cannot tell"
    assert "cannot feed on a circuit with two hots" in line.answer.why
    assert "authority" in line.answer.why


def test_no_sink_is_asked_for() -> None:
    """A dry receptacle in a room to live in: none is near unless the plan says so."""
    of = reviewed_example("pottery-studio", {"structures": {"studio": {"habitable": True}}})
    assert not [place for place in asked(of) if place.endswith("/sink-distance")]


@pytest.mark.parametrize(
    ("name", "patch", "circuit", "expected"),
    [
        ("joinery-workshop", {}, "planer", "met"),
        (
            "joinery-workshop",
            {"routes": {"planer-run": {"carries": {"planer": {"wires": {"hot": "10 AWG Cu THHN"}}}}}},
            "planer",
            "not met",
        ),
        ("joinery-workshop", {}, "lights", "does not apply"),
        ("pottery-studio", {"circuits": {"studio": {"multiwire": True}}}, "studio", "not met"),
        (
            "pottery-studio",
            {
                "circuits": {"studio": {"multiwire": True}},
                "routes": {
                    name: {"carries": {"studio": {"cable": "UF-B 12/3"}}} for name in ("garage-wall", "yard", "ceiling")
                },
            },
            "studio",
            "met",
        ),
        (
            "pottery-studio",
            {
                "circuits": {"studio": {"voltage": "240 V"}},
                "routes": {
                    name: {"carries": {"studio": {"cable": None}}} for name in ("garage-wall", "yard", "ceiling")
                },
            },
            "studio",
            "does not apply",
        ),
    ],
)
def test_hots_for_the_voltage(name: str, patch: dict[str, Any], circuit: str, expected: str) -> None:
    """One hot wire is too few for 240 V, and two conductors for a shared neutral."""
    data = example(name, patch)
    line = one(reviewed(data), HOTS, f"/circuits/{circuit}")
    assert line.answer.outcome.value == expected
    if expected == "not met":
        assert line.answer.proposals
        assert "contradicts itself" in line.answer.why
