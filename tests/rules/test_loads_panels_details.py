"""Panels, and the neutral of a feeder, against the load: at the limits, what is said, the ways out."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import line_of as line
from support.reviews import merged, outcome, reviewed, reviewed_example
from support.trenches import after_each_proposal
from support.workshop import ONLY_PLANER, shop

FEEDER, PANEL, HOUSE = "/circuits/workshop-feeder", "/panels/workshop-panel", "/panels/house-panel"
CARRIES, PROTECTED, NEUTRAL = "/panel-carries-the-load", "/bus-is-protected", "/neutral-of-a-feeder"


# Panels


@pytest.mark.parametrize(
    ("panel", "expected", "at", "offered"),
    [
        ({"main": "40 A", "bus": "100 A"}, "not met", "main", {"give workshop-panel a main breaker of 45 A": "met"}),
        ({"main": "none", "bus": "60 A"}, "met", "bus", {}),
        ({"main": "none", "bus": None}, "does not apply", None, {}),
        ({"main": "60 A", "bus": "45 A"}, "met", "main", {}),
        ({"main": "41.6 A", "bus": "60 A"}, "met", "main", {}),
        ({"main": None, "bus": "100 A"}, "met", "bus", {}),
    ],
)
def test_the_weaker_of_main_and_bus_carries_the_load(
    panel: dict[str, Any], expected: str, at: str | None, offered: dict[str, str]
) -> None:
    """41.58 A behind a feeder of 60 A. A bus that its feeder does not protect is looked at elsewhere."""
    data = shop({"circuits": {"planer": {"load": "40 A"}}, "panels": {"workshop-panel": panel}})
    found = line(reviewed(data), CARRIES, PANEL)
    assert found.answer.outcome.value == expected
    if at is not None:
        assert found.place == f"{PANEL}/{at}"
        assert found.answer.of == ("bus rating" if at == "bus" else "main breaker")
    assert after_each_proposal(data, CARRIES, PANEL) == offered


@pytest.mark.parametrize(
    ("load", "main", "expected"),
    [("40 A", "40 A", "met"), ("60 A", "50 A", "not met"), ("60.1 A", "50 A", "does not apply")],
)
def test_a_panel_at_the_limit_of_its_main_and_of_its_feeder(load: str, main: str, expected: str) -> None:
    """Just what they carry is in order."""
    data = shop(ONLY_PLANER, {"circuits": {"planer": {"load": load}}, "panels": {"workshop-panel": {"main": main}}})
    assert outcome(reviewed(data), CARRIES, PANEL) == expected


@pytest.mark.parametrize(
    ("panel", "expected"),
    [
        ({"main": "30 A"}, "met"),
        ({"main": "20 A"}, "not met"),
        ({"main": "200 A", "bus": "20 A"}, "not met"),
        ({"main": None}, "cannot tell"),
    ],
)
def test_the_service_panel_carries_what_begins_in_it(panel: dict[str, Any], expected: str) -> None:
    """Its main and its bus; the main is asked for there where it decides."""
    data = shop({"circuits": {"planer": {"load": "24 A"}}, "panels": {"house-panel": panel}})
    assert outcome(reviewed(data), CARRIES, HOUSE) == expected


def test_the_voltage_of_a_panel_is_not_asked_for_where_its_circuits_tell() -> None:
    """A feeder of two hots begins in it."""
    data = shop({"circuits": {"planer": {"load": "24 A"}}, "panels": {"house-panel": {"system": None}}})
    assert outcome(reviewed(data), CARRIES, HOUSE) == "met"


def test_a_service_panel_without_feeders_is_not_looked_at() -> None:
    """A branch circuit to the studio is no load to speak of."""
    of = reviewed_example("pottery-studio", {"panels": {"house-panel": {"main": "10 A"}}})
    assert outcome(of, CARRIES, HOUSE) == "does not apply"
    assert [one.says for one in of.inspect if one.item.id.endswith("/service-has-room")] == []
    assert outcome(of, PROTECTED, HOUSE) == "does not apply"
    there = shop({"panels": {"workshop-panel": {"existing": True, "bus": "50 A", "main": "none"}}})
    assert outcome(reviewed(there), PROTECTED, PANEL) == "does not apply"


@pytest.mark.parametrize(
    ("circuits", "said"),
    [
        ({}, "carries workshop-feeder (60 A) on top"),
        ({"workshop-feeder": {"breaker": {"rating": None}}}, "carries the new feeder on top"),
        ({"workshop-feeder": {"existing": True}}, "carries the new feeder on top"),
        (
            {"second": {"kind": "feeder", "voltage": "240 V", "breaker": {"rating": "30 A"}}},
            "(60 A), second (30 A) on top",
        ),
        (
            {"second": {"kind": "branch circuit", "voltage": "240 V", "breaker": {"rating": "30 A"}}},
            "feeder (60 A) on top",
        ),
    ],
)
def test_room_at_the_service_is_shown_for_its_new_feeders(circuits: dict[str, Any], said: str) -> None:
    """With their ratings, as far as they are stated."""
    patch: dict[str, Any] = {"circuits": circuits}
    if "second" in circuits:
        circuits["second"]["from"] = "house-panel"
        patch["routes"] = {"garage-run": {"carries": {"second": {"cable": "NM-B 10/2"}}}}
        patch["boxes"] = {"pull-box": {"devices": {"it": {"receptacle": "30 A", "circuit": "second"}}}}
    (says,) = [one.says for one in reviewed(shop(patch)).inspect if one.item.id.endswith("/service-has-room")]
    assert said in says


# The neutral of a feeder


def thin(neutral: str, *patches: dict[str, Any]) -> dict[str, Any]:
    """The workshop with a thinner neutral all the way."""
    carries = {"carries": {"workshop-feeder": {"wires": {"neutral": f"{neutral} THWN-2"}}}}
    return shop({"routes": {"garage-run": carries, "yard": carries}}, *patches)


def loads(bench: str, lights: str, leg: str | None = None) -> dict[str, Any]:
    """What is planned for the two circuits of 120 V, both on one leg, or not said."""
    return {"circuits": {"bench-outlets": {"load": bench, "leg": leg}, "lights": {"load": lights, "leg": leg}}}


@pytest.mark.parametrize(
    ("bench", "lights", "leg", "expected", "unbalance"),
    [
        ("20 A", "10 A", "L1", "met", "30 A"),
        ("20 A", "10.1 A", "L1", "cannot tell", "30.1 A"),
        ("25 A", "10 A", "L1", "cannot tell", "35 A"),
        ("25 A", "10.1 A", "L1", "not met", "35.1 A"),
        ("20 A", "10 A", None, "met", "30 A"),
        ("80 A", "1 A", None, "not met", "60 A"),
    ],
)
def test_a_thin_neutral_against_the_unbalance(
    bench: str, lights: str, leg: str | None, expected: str, unbalance: str
) -> None:
    """10 AWG has 30 A at 60 °C and 35 A at 75 °C; no more than the 60 A of its breaker flow in it."""
    found = line(reviewed(thin("10 AWG Cu", loads(bench, lights, leg))), NEUTRAL, FEEDER)
    assert found.answer.outcome.value == expected
    assert found.answer.asks is None
    if expected != "met":
        assert found.answer.needs == f"at least {unbalance}, the unbalance"


@pytest.mark.parametrize(
    ("voltage", "cable", "expected"),
    [("240 V", "NM-B 10/2", "met"), ("120/240 V", "NM-B 10/3", "not met")],
)
def test_a_circuit_with_both_voltages_counts_whole(voltage: str, cable: str, expected: str) -> None:
    """40 A of a range with a neutral may be between one leg and the neutral; without one, nothing of it is."""
    planer = {
        "circuits": {"planer": {"voltage": voltage, "load": "40 A"}},
        "routes": {"planer-run": {"raceway": "none", "carries": {"planer": {"wires": None, "cable": cable}}}},
    }
    found = line(reviewed(thin("10 AWG Cu", planer)), NEUTRAL, FEEDER)
    assert found.answer.outcome.value == expected
    if expected == "not met":
        # Receptacles and lights are spread over the legs: the 3 A of the receptacles beside it.
        assert found.answer.needs == "at least 43 A, the unbalance"


@pytest.mark.parametrize(
    ("bench", "lights", "asks"),
    [
        ("20 A", "10 A", False),
        ("20 A", "10.1 A", True),
        ("30 A", "4 A", True),
        ("31 A", "1 A", False),
        ("31 A", "4 A", False),
        ("35 A", "1 A", True),
        ("36 A", "1 A", False),
    ],
)
def test_when_the_leg_of_a_circuit_is_asked_for(bench: str, lights: str, asks: bool) -> None:
    """Where an even spread is within the 30 A, or the 35 A, of 10 AWG, and both on one leg are not."""
    of = reviewed(thin("10 AWG Cu", loads(bench, lights)))
    asked_for = line(of, NEUTRAL, FEEDER).answer.asks
    assert (asked_for is not None and asked_for.place.endswith("/leg")) is asks


@pytest.mark.parametrize(
    ("breaker", "expected"), [("20 A", "met"), ("30 A", "met"), ("35 A", "cannot tell"), ("40 A", "cannot tell")]
)
def test_an_unknown_load_is_asked_for_where_the_neutral_may_not_carry_it(breaker: str, expected: str) -> None:
    """Up to 30 A on one leg it does not matter."""
    patch = {
        "circuits": {"bench-outlets": {"leg": "L1", "breaker": {"rating": breaker}}, "lights": {"leg": "L2"}},
        "boxes": {"bench-box": {"devices": {"large": {"receptacle": "30 A"}}}},
    }
    of = reviewed(thin("10 AWG Cu", patch))
    found = line(of, NEUTRAL, FEEDER)
    assert found.answer.outcome.value == expected
    asked_for = None if found.answer.asks is None else found.answer.asks.place
    assert asked_for == ("/circuits/bench-outlets/load" if expected == "cannot tell" else None)


def test_what_is_across_both_legs_is_on_no_leg() -> None:
    """A leg that is stated for 240 V means nothing; what has both voltages is added to either."""
    across = {"circuits": {"planer": {"load": "40 A", "leg": "L1"}}}
    assert outcome(reviewed(thin("10 AWG Cu", across)), NEUTRAL, FEEDER) == "met"
    both = {
        "circuits": {"planer": {"voltage": "120/240 V", "load": "20 A"}},
        "routes": {"planer-run": {"raceway": "none", "carries": {"planer": {"wires": None, "cable": "NM-B 10/3"}}}},
    }
    for bench, lights, expected in (
        ("5 A", "5 A", "met"),
        ("5.5 A", "5 A", "cannot tell"),
        ("11 A", "10 A", "cannot tell"),
    ):
        of = reviewed(thin("10 AWG Cu", both, loads(bench, lights)))
        assert outcome(of, NEUTRAL, FEEDER) == expected


def test_three_circuits_are_spread_before_a_leg_is_asked_for() -> None:
    """30 A and twice 20 A on two legs: 40 A on one of them at the least."""
    data = thin("10 AWG Cu", loads("30 A", "20 A"))
    more = {
        "circuits": {"more": data["circuits"]["lights"]},
        "boxes": {
            "switch-box": {
                "devices": {"light-switch": {"circuit": "lights"}, "it": {"receptacle": "30 A", "circuit": "more"}}
            }
        },
        "routes": {"lighting": {"carries": {"more": {"cable": "NM-B 10/2"}}}},
    }
    found = line(reviewed(merged(data, more)), NEUTRAL, FEEDER)
    assert (found.answer.outcome.value, found.answer.needs) == ("not met", "at least 40 A, the unbalance")


@pytest.mark.parametrize(
    ("neutral", "rating", "expected"),
    [
        ("10 AWG Cu", "60 A", "met"),
        ("10 AWG Al", "60 A", "not met"),
        ("8 AWG Al", "60 A", "met"),
        ("10 AWG Cu", "70 A", "not met"),
        ("8 AWG Cu", "70 A", "met"),
    ],
)
def test_a_thin_neutral_against_the_grounding_conductor(neutral: str, rating: str, expected: str) -> None:
    """By the table for its own metal; a neutral as large as the hots is proposed."""
    data = thin(neutral, {"circuits": {"workshop-feeder": {"breaker": {"rating": rating}}}})
    found = line(reviewed(data), NEUTRAL, FEEDER)
    assert found.answer.outcome.value == expected
    if expected == "not met":
        assert str(found.answer.needs).endswith(", as the grounding conductor")
        assert found.place.endswith("/carries/workshop-feeder/wires/neutral")
        assert set(after_each_proposal(data, NEUTRAL, FEEDER)) == {"pull a neutral of 6 AWG"}


@pytest.mark.parametrize(
    ("cable", "proposed"),
    [("SER 2-2-10-6 Cu", "SER 2-2-2-6 Cu"), ("SEU 2-2-10 Cu", "SEU 2-2-2 Cu"), ("SER 2-2-2-6 Cu", None)],
)
def test_a_thin_neutral_in_a_cable(cable: str, proposed: str | None) -> None:
    """The whole cable is proposed with one as large as the hots."""
    carries = {"raceway": "none", "carries": {"workshop-feeder": {"wires": None, "cable": cable}}}
    patch = {
        "circuits": {"workshop-feeder": {"breaker": {"rating": "100 A"}}},
        "routes": {"yard": carries, "garage-run": carries},
    }
    data = shop(patch)
    found = line(reviewed(data), NEUTRAL, FEEDER)
    assert found.place == "/routes/garage-run/carries/workshop-feeder/cable"
    assert found.answer.outcome.value == ("met" if proposed is None else "not met")
    words = [] if proposed is None else [f"use {proposed}, with a neutral as large as the hots"]
    assert list(after_each_proposal(data, NEUTRAL, FEEDER)) == words


def test_where_a_feeders_neutral_is_not_looked_at() -> None:
    """Where there is none, and of a branch circuit."""
    carries = {"carries": {"workshop-feeder": {"wires": {"neutral": None}}}}
    none = reviewed(shop({"routes": {"garage-run": carries, "yard": carries}}))
    assert line(none, NEUTRAL, FEEDER).answer.why == "no neutral goes with it"
    assert outcome(none, NEUTRAL, "/circuits/bench-outlets") == "does not apply"
    cable = {"raceway": "none", "carries": {"workshop-feeder": {"wires": None, "cable": "NM-B 6/2"}}}
    two = reviewed(shop({"routes": {"garage-run": cable, "yard": cable}}))
    assert line(two, NEUTRAL, FEEDER).answer.why == "no neutral goes with it"


@pytest.mark.parametrize(
    ("bench", "lights", "said"),
    [
        (
            {"leg": "L1"},
            {"leg": "L1"},
            "Spread over both legs of workshop-panel, not as planned on one: bench-outlets, lights.",
        ),
        (
            {"leg": "L2"},
            {"leg": "L2"},
            "Spread over both legs of workshop-panel, not as planned on one: bench-outlets, lights.",
        ),
        ({"leg": "L2"}, {}, "Spread over both legs of workshop-panel: lights on one, bench-outlets on the other."),
        ({}, {"leg": "L1"}, "Spread over both legs of workshop-panel: lights on one, bench-outlets on the other."),
        ({}, {"load": "12 A"}, "Spread over both legs of workshop-panel: lights on one, bench-outlets on the other."),
    ],
)
def test_how_circuits_are_to_be_spread(bench: dict[str, Any], lights: dict[str, Any], said: str) -> None:
    """As planned, and the larger first on the first leg."""
    of = reviewed(shop({"circuits": {"bench-outlets": bench, "lights": lights}}))
    assert [one.says for one in of.inspect if one.item.id.endswith("/load-is-spread")] == [said]


def test_an_unknown_load_is_taken_at_its_most_where_circuits_are_spread() -> None:
    """Nothing is asked for a list for people."""
    boxes = {"boxes": {"porch-light-box": {"devices": {"press": {"equipment": "press"}}}}}
    (says,) = [one.says for one in reviewed(shop(boxes)).inspect if one.item.id.endswith("/load-is-spread")]
    assert says == "Spread over both legs of workshop-panel: lights on one, bench-outlets on the other."
