"""Calculated loads in detail: what is counted and said, on which legs, what carries it, and the ways out."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from support.reviews import asked, example, lines, merged, outcome, reviewed, reviewed_example
from support.trenches import after_each_proposal

FEEDER, PANEL, HOUSE = "/circuits/workshop-feeder", "/panels/workshop-panel", "/panels/house-panel"
BREAKER, CONDUCTORS = "/breaker-carries-the-load", "/conductors-carry-the-load"
CARRIES, PROTECTED, NEUTRAL = "/panel-carries-the-load", "/bus-is-protected", "/neutral-of-a-feeder"
ONLY_PLANER: dict[str, Any] = {
    "circuits": {"bench-outlets": None, "lights": None},
    "boxes": dict.fromkeys(("bench-box", "yard-box", "switch-box", "porch-light-box")),
    "routes": dict.fromkeys(("bench", "porch", "lighting", "porch-lighting")),
}
"""The workshop with nothing but its planer."""
NO_PLANER: dict[str, Any] = {
    "circuits": {"planer": None},
    "boxes": {"planer-box": None},
    "routes": {"planer-run": None},
}
"""The workshop with its two circuits of 120 V."""
NOTHING = {part: ONLY_PLANER[part] | NO_PLANER[part] for part in ONLY_PLANER}
SHED: dict[str, Any] = {
    "panels": {"shed-panel": {"at": "workshop", "area": "indoors", "duty": "feeder panel", "system": "120/240 V"}},
    "circuits": {
        "sub": {"kind": "feeder", "from": "workshop-panel", "voltage": "120/240 V", "breaker": {"rating": "30 A"}},
        "a": {"kind": "branch circuit", "from": "shed-panel", "voltage": "120 V", "load": "3 A", "multiwire": False},
        "b": {"kind": "branch circuit", "from": "shed-panel", "voltage": "240 V", "load": "5 A", "multiwire": False},
    },
    "boxes": {
        "shed-box": {"at": "workshop", "box": {}, "devices": {n: {"receptacle": "30 A", "circuit": n} for n in "ab"}}
    },
    "routes": {
        "sub": {
            "from": "workshop-panel",
            "to": "shed-panel",
            "raceway": "none",
            "carries": {"sub": {"cable": "NM-B 10/3"}},
            "legs": [{"in": "wall framing", "length": "20 ft"}],
        },
        "shed": {
            "from": "shed-panel",
            "to": "shed-box",
            "raceway": "none",
            "carries": {n: {"cable": "NM-B 14/2"} for n in "ab"},
            "legs": [{"in": "wall framing", "length": "20 ft"}],
        },
    },
}
"""A second panel behind the workshop's, with 360 VA and 1200 VA."""


def shop(*patches: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop with changes."""
    data = example("joinery-workshop")
    for patch in patches:
        data = merged(data, patch)
    return data


def line(of: Review, rule: str, place: str) -> Line:
    """The one line of a rule at a place."""
    (found,) = [one for one in lines(of, rule, place) if one.subject == place]
    return found


def steps(data: dict[str, Any], place: str, rule: str = BREAKER, at: str = FEEDER) -> list[str]:
    """What is noted at a place of a load that is worked out."""
    return [words for words, where in line(reviewed(data), rule, at).steps if where == place]


def needs(data: dict[str, Any], at: str = FEEDER) -> str:
    """The load that the feeder's breaker has to carry, as said."""
    said = str(line(reviewed(data), BREAKER, at).answer.needs)
    return said.removeprefix("at least ").removesuffix(", the calculated load")


# What is counted


@pytest.mark.parametrize(
    ("devices", "circuit", "said"),
    [
        ({}, {}, "360 VA, 2 receptacles at 180 VA"),
        (
            {"heat": {"heater": "500 W"}, "lamp": {"luminaire": "40 W"}},
            {},
            "900 VA, 2 receptacles at 180 VA and heat, lamp",
        ),
        ({"large": {"receptacle": "30 A"}}, {}, "2400 VA, all that its 20 A breaker lets through"),
        (
            {"large": {"receptacle": "30 A"}, "heat": {"heater": "3000 W"}},
            {},
            "3000 VA, all that its 20 A breaker lets through",
        ),
        ({"press": {"equipment": "press"}}, {}, "2400 VA, all that its 20 A breaker lets through"),
        ({"press": {"equipment": "press", "load": "900 VA"}}, {}, "1260 VA, 2 receptacles at 180 VA and press"),
        ({"large": {"receptacle": "30 A"}}, {"load": "10 A"}, "1200 VA, planned for 10 A"),
        ({"heat": {"heater": "500 W"}}, {"load": "10 A"}, "1200 VA, planned for 10 A"),
        ({"heat": {"heater": "900 W"}}, {"load": "10 A"}, "1260 VA, planned for 10 A"),
        ({}, {"load": "1 A"}, "360 VA, planned for 1 A"),
        ({}, {"multiwire": True, "voltage": "120/240 V"}, "360 VA, 2 receptacles at 180 VA"),
        ({"power": {"transformer": "300 VA"}}, {}, "660 VA, 2 receptacles at 180 VA and power"),
    ],
)
def test_what_a_circuit_counts_for(devices: dict[str, Any], circuit: dict[str, Any], said: str) -> None:
    """Receptacles for all sorts of things 180 VA each, lights and equipment what they are rated for, an appliance of unknown
    load all of its breaker, and what is planned where that is more."""
    patch = {"circuits": {"bench-outlets": circuit}, "boxes": {"bench-box": {"devices": devices}}}
    if circuit.get("multiwire"):
        patch["routes"] = {
            "bench": {"carries": {"bench-outlets": {"wires": {"hot": "2 × 12 AWG Cu THHN"}}}},
            "porch": {"carries": {"bench-outlets": {"cable": "NM-B 12/3"}}},
        }
    assert steps(shop(patch), "/circuits/bench-outlets") == [f"bench-outlets: {said}"]


def test_a_circuit_that_leads_to_nothing_that_draws() -> None:
    """Is said to have nothing on it."""
    patch = {"boxes": {"porch-light-box": {"devices": {"porch-lamp": None}}}}
    assert steps(shop(patch), "/circuits/lights") == ["lights: 0 VA, nothing on it"]


def test_a_receptacle_across_two_hots_is_for_an_appliance() -> None:
    """15 A at 240 V: it may draw all that the breaker lets through; one with a neutral is for all sorts of things."""
    across = {"boxes": {"planer-box": {"devices": {"planer-outlet": {"receptacle": "15 A"}}}}}
    assert steps(shop(across), "/circuits/planer") == ["planer: 7200 VA, all that its 30 A breaker lets through"]


@pytest.mark.parametrize(
    ("load", "said", "total"),
    [
        (None, "sub: 1560 VA, what stands behind it", "6.5 A"),
        ("6 A", "sub: 1560 VA, what stands behind it", "6.5 A"),
        ("6.5 A", "sub: 1560 VA, what stands behind it", "6.5 A"),
        ("20 A", "sub: 4800 VA, planned for 20 A", "20 A"),
    ],
)
def test_what_a_feeder_onward_counts_for(load: str | None, said: str, total: str) -> None:
    """All that stands behind it, or what is planned for it where that is more."""
    data = shop(NOTHING, SHED, {"circuits": {"sub": {"load": load}}})
    assert steps(data, "/circuits/sub") == [said]
    assert needs(data) == total


@pytest.mark.parametrize(
    ("circuits", "expected"),
    [
        ({"bench-outlets": {"not-with": "planer"}}, "50.1 A"),
        ({"bench-outlets": {"not-with": "planer"}, "planer": {"not-with": "bench-outlets"}}, "50.1 A"),
        ({"planer": {"not-with": "bench-outlets"}}, "50.1 A"),
        ({"bench-outlets": {"not-with": "workshop-feeder"}}, "58.1 A"),
    ],
)
def test_circuits_that_cannot_run_together(circuits: dict[str, Any], expected: str) -> None:
    """Said of one or of both; a circuit that begins elsewhere is not among them."""
    loads = {"circuits": {"planer": {"load": "50 A"}, "bench-outlets": {"load": "16 A"}}}
    assert needs(shop(loads, {"circuits": circuits})) == expected


def test_the_smaller_is_said_to_be_left_out() -> None:
    """By name."""
    circuits = {"planer": {"load": "50 A"}, "bench-outlets": {"load": "16 A", "not-with": "planer"}}
    words = "bench-outlets and planer cannot run together: bench-outlets is left out"
    assert words in steps(shop({"circuits": circuits}), "/circuits/bench-outlets")


def test_a_load_that_is_just_within_asks_for_nothing() -> None:
    """A 60 A circuit of unknown load behind 60 A: no more than that can flow."""
    of = reviewed(shop(ONLY_PLANER, {"circuits": {"planer": {"breaker": {"rating": "60 A"}}}}))
    assert outcome(of, BREAKER, FEEDER) == "met"
    assert "/circuits/planer/load" not in asked(of)


# Legs


def placed(bench: dict[str, Any], lights: dict[str, Any], *patches: dict[str, Any]) -> dict[str, Any]:
    """The workshop's two circuits of 120 V, on legs as planned."""
    return shop(NO_PLANER, {"circuits": {"bench-outlets": bench, "lights": lights}}, *patches)


@pytest.mark.parametrize(
    ("bench", "lights", "noted"),
    [
        ({"load": "10 A"}, {"load": "10 A"}, []),
        ({"load": "10 A", "leg": "L1"}, {"load": "10 A", "leg": "L2"}, []),
        (
            {"load": "10 A", "leg": "L1"},
            {"load": "4 A", "leg": "L2"},
            ["not spread evenly, as planned: 10 A on the heavier leg"],
        ),
        ({"load": "4 A", "leg": "L1"}, {"load": "10 A"}, []),
    ],
)
def test_when_the_heavier_leg_is_noted(bench: dict[str, Any], lights: dict[str, Any], noted: list[str]) -> None:
    """Where the plan puts more on it than an even spread would."""
    assert [words for words in steps(placed(bench, lights), PANEL) if "spread" in words] == noted


def test_what_is_across_the_legs_is_spread_evenly() -> None:
    """Nothing is said of a heavier leg where all is on both."""
    data = shop(ONLY_PLANER, {"circuits": {"planer": {"load": "24 A"}}})
    assert [words for words in steps(data, PANEL) if "spread" in words] == []
    assert needs(data) == "24 A"


def test_heat_and_motors_on_the_heavier_leg_count_as_ever() -> None:
    """10 A of heat count 12.5 A; a motor of 16 A counts 20 A, the smaller one of 9.8 A no more than that."""
    devices = {
        "saw": {"motor": "1 hp", "hardwired": True},
        "fan": {"motor": "1/2 hp", "hardwired": True},
        "heat": {"heater": "1200 W"},
        "bench-outlet": None,
    }
    boxes = {"boxes": {"bench-box": {"devices": devices}, "yard-box": {"devices": {"porch-outlet": None}}}}
    assert needs(placed({"leg": "L1"}, {"leg": "L2"}, boxes)) == "42.3 A"


@pytest.mark.parametrize(
    ("system", "expected"),
    [
        ({"panels": {"workshop-panel": {"system": "120 V"}}}, "15 A"),
        ({"panels": {"workshop-panel": {"system": "120/240 V"}}}, "7.5 A"),
        (
            {
                "panels": {"workshop-panel": {"system": None}},
                "circuits": {"workshop-feeder": {"voltage": "120 V"}},
            },
            "15 A",
        ),
        ({"panels": {"workshop-panel": {"system": None}}}, "7.5 A"),
    ],
)
def test_a_panel_of_one_leg_spreads_nothing(system: dict[str, Any], expected: str) -> None:
    """By its own voltage, or where that is not stated by its feeder's."""
    assert needs(placed({"load": "10 A"}, {"load": "5 A"}, system)) == expected


def test_loads_between_two_legs_of_a_wye_count_by_their_current() -> None:
    """20 A at 208 V are 20 A on both legs, also beside 120 V loads of 10 A, of which each leg carries half."""
    wye = {
        "panels": {"workshop-panel": {"system": "120/208 V"}},
        "circuits": {
            "workshop-feeder": {"voltage": "120/208 V"},
            "planer": {"voltage": "208 V", "load": "20 A"},
            "bench-outlets": {"load": "10 A"},
            "lights": {"load": "0 A"},
        },
        "boxes": {"porch-light-box": {"devices": {"porch-lamp": None}}},
    }
    assert needs(shop(wye)) == "25 A"


def test_circuits_that_are_spread_better_are_a_way_out() -> None:
    """As many moves as it takes, and none for those on both legs."""
    bench, lights = {"load": "40 A", "leg": "L2"}, {"load": "30 A", "leg": "L2"}
    data = placed(bench, lights)
    offered = after_each_proposal(data, BREAKER, FEEDER)
    assert offered["put lights on L1"] == "met"
    (way, *_) = line(reviewed(data), BREAKER, FEEDER).answer.proposals
    assert [(edit["path"], edit["value"]) for edit in way.patch] == [("/circuits/lights/leg", "L1")]
    three = {
        "circuits": {
            "more": {**data["circuits"]["lights"], "load": "25 A"},
            "last": {**lights, **data["circuits"]["lights"], "load": "20 A"},
        },
        "boxes": {
            "switch-box": {
                "devices": {n: {"receptacle": "30 A", "circuit": n} for n in ("more", "last")}
                | {"light-switch": {"circuit": "lights"}}
            }
        },
        "routes": {"lighting": {"carries": {n: {"cable": "NM-B 10/2"} for n in ("more", "last")}}},
    }
    assert "put lights on L1, more on L1" in after_each_proposal(merged(data, three), BREAKER, FEEDER)


# The feeder's conductors


def on_wire(hot: str, rating: str, load: str, *patches: dict[str, Any]) -> dict[str, Any]:
    """A planer of some load alone behind a feeder of some wire and breaker, on terminals for 75 °C."""
    wires = {"hot": f"2 × {hot}", "neutral": hot, "ground": "6 AWG Cu THWN-2"}
    carries = {"carries": {"workshop-feeder": {"wires": wires}}}
    patch = {
        "circuits": {
            "workshop-feeder": {"terminals": "75 °C", "breaker": {"rating": rating}},
            "planer": {"load": load},
        },
        "panels": {"workshop-panel": {"main": rating, "bus": rating}},
        "routes": {"garage-run": carries, "yard": carries},
    }
    return shop(ONLY_PLANER, patch, *patches)


@pytest.mark.parametrize(
    ("hot", "rating", "load", "expected"),
    [
        ("4 AWG Cu THWN-2", "90 A", "85 A", "met"),
        ("4 AWG Cu THWN-2", "90 A", "85.1 A", "not met"),
        ("4 AWG Cu THWN-2", "90 A", "90 A", "not met"),
        ("4 AWG Cu THWN-2", "90 A", "90.1 A", "does not apply"),
        ("6 AWG Cu THWN-2", "90 A", "30 A", "met"),
        ("6 AWG Cu THWN-2", "90 A", "80 A", "does not apply"),
        ("6 AWG Cu bare", "60 A", "30 A", "does not apply"),
    ],
)
def test_conductors_against_the_load(hot: str, rating: str, load: str, expected: str) -> None:
    """4 AWG has 85 A, behind 90 A as the next rating; 6 AWG has 65 A, which a breaker of 90 A does not protect: that is told
    once, and where the load is small there is nothing to tell here."""
    assert outcome(reviewed(on_wire(hot, rating, load)), CONDUCTORS, FEEDER) == expected


def test_the_weaker_route_is_named_and_made_as_large_as_it_must_be() -> None:
    """1 AWG has 130 A, and 1/0 AWG the 150 A of the load; the other route is large enough."""
    larger = {"wires": {"hot": "2 × 2/0 AWG Cu THWN-2", "neutral": "2/0 AWG Cu THWN-2"}}
    more = {"routes": {"garage-run": {"carries": {"workshop-feeder": larger}}}}
    data = on_wire("1 AWG Cu THWN-2", "150 A", "150 A", more)
    found = line(reviewed(data), CONDUCTORS, FEEDER)
    assert (found.answer.has, found.place) == ("130 A on yard", "/routes/yard/carries/workshop-feeder/wires/hot")
    assert after_each_proposal(data, CONDUCTORS, FEEDER) == {"use 1/0 AWG Cu on yard": "met"}


@pytest.mark.parametrize("rule", [BREAKER, CONDUCTORS])
def test_a_feeder_with_nothing_behind_it(rule: str) -> None:
    """Neither its breaker nor its conductors are looked at; nor is a branch circuit."""
    of = reviewed(shop(NOTHING))
    assert outcome(of, rule, FEEDER) == "does not apply"
    assert outcome(reviewed_example("joinery-workshop"), rule, "/circuits/planer") == "does not apply"


@pytest.mark.parametrize(
    ("panel", "changed"),
    [
        ({"main": "60 A", "bus": "100 A"}, {"main": "70 A"}),
        ({"main": "70 A", "bus": "70 A"}, {}),
        ({"main": "80 A", "bus": "60 A"}, {"bus": "70 A"}),
        ({"main": "none", "bus": "60 A"}, {"bus": "70 A"}),
        ({"main": None, "bus": None}, {}),
    ],
)
def test_what_of_a_panel_a_larger_feeder_asks_for(panel: dict[str, Any], changed: dict[str, str]) -> None:
    """A main and a bus that are smaller, as far as they are stated."""
    data = shop({"circuits": {"planer": {"load": "62 A"}}, "panels": {"workshop-panel": panel}})
    (way,) = line(reviewed(data), BREAKER, FEEDER).answer.proposals
    edits = {edit["path"]: edit["value"] for edit in way.patch if edit["path"].startswith(PANEL)}
    assert edits == {f"{PANEL}/{key}": value for key, value in changed.items()}


def test_a_neutral_that_was_smaller_stays_as_it_is_with_a_larger_feeder() -> None:
    """It carries the unbalance, not the load."""
    carries = {"carries": {"workshop-feeder": {"wires": {"neutral": "8 AWG Cu THWN-2"}}}}
    data = shop({"circuits": {"planer": {"load": "62 A"}}, "routes": {"garage-run": carries, "yard": carries}})
    (way,) = line(reviewed(data), BREAKER, FEEDER).answer.proposals
    assert not [edit for edit in way.patch if edit["path"].endswith("/neutral")]


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
