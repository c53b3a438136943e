"""Calculated loads in detail: what is counted and said, on which legs, what carries it, and the ways out."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, example, merged, outcome, reviewed, reviewed_example
from support.reviews import line_of as line
from support.trenches import after_each_proposal
from support.workshop import ONLY_PLANER, shed, shop

FEEDER, PANEL = "/circuits/workshop-feeder", "/panels/workshop-panel"
BREAKER, CONDUCTORS = "/breaker-carries-the-load", "/conductors-carry-the-load"
NO_PLANER: dict[str, Any] = {
    "circuits": {"planer": None},
    "boxes": {"planer-box": None},
    "routes": {"planer-run": None},
}
"""The workshop with its two circuits of 120 V."""
NOTHING = {part: ONLY_PLANER[part] | NO_PLANER[part] for part in ONLY_PLANER}
SHED = shed("30 A", a={"voltage": "120 V", "load": "3 A"}, b={"voltage": "240 V", "load": "5 A"})
"""With 360 VA and 1200 VA."""


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


def test_only_the_service_is_asked_to_have_room() -> None:
    """Not the workshop's panel, from which the shed is fed."""
    says = [one.says for one in reviewed(shop(SHED)).inspect if one.item.id.endswith("/service-has-room")]
    assert len(says) == 1 and "house-panel" in says[0]


@pytest.mark.parametrize(
    ("circuits", "expected"),
    [
        ({"bench-outlets": {"not-with": "planer"}}, "50.1 A"),
        ({"bench-outlets": {"not-with": "planer"}, "planer": {"not-with": "bench-outlets"}}, "50.1 A"),
        ({"planer": {"not-with": "bench-outlets"}}, "50.1 A"),
        ({"bench-outlets": {"not-with": "workshop-feeder"}}, "58.1 A"),
        ({"planer": {"not-with": "planer"}}, "58.1 A"),
        ({"bench-outlets": {"not-with": "lights"}, "lights": {"load": "2 A", "not-with": "planer"}}, "58 A"),
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


def test_what_is_on_no_leg_goes_where_there_is_less() -> None:
    """45 A on one leg, so 30 A on the other, and there the next 20 A."""
    more = {
        "circuits": {"more": {**example("joinery-workshop")["circuits"]["lights"], "load": "20 A", "leg": "L1"}},
        "boxes": {
            "switch-box": {
                "devices": {"it": {"receptacle": "30 A", "circuit": "more"}, "light-switch": {"circuit": "lights"}}
            }
        },
        "routes": {"lighting": {"carries": {"more": {"cable": "NM-B 10/2"}}}},
    }
    data = placed({"load": "45 A", "leg": "L1"}, {"load": "30 A"}, more)
    assert after_each_proposal(data, BREAKER, FEEDER)["put more on L2"] == "met"


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
    assert after_each_proposal(data, CONDUCTORS, FEEDER) == {
        "use 1/0 AWG Cu on yard, and PVC-80 1-1/2 in on yard": "met"
    }


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
