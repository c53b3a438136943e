"""Fault currents, kinds of wire, grounds with larger hots: what is looked at, said and offered."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, example, outcome, reviewed, reviewed_example
from support.reviews import line_of as line
from support.trenches import after_each_proposal

PLANER, BENCH, STUDIO = "/circuits/planer", "/circuits/bench-outlets", "/circuits/studio"


# Fault currents

FAULT, LOOP = "/breaker-for-the-fault", "/fault-trips-at-once"


def test_a_breaker_that_can_interrupt_the_fault_is_offered() -> None:
    """Rated for what is available at its panel."""
    patch = {
        "panels": {"house-panel": {"fault-current": "14000 A"}},
        "circuits": {"studio": {"breaker": {"interrupting-rating": "10000 A"}}},
    }
    data = example("pottery-studio", patch)
    assert line(reviewed(data), FAULT, STUDIO).answer.needs == "at least 14000 A, available at house-panel"
    assert after_each_proposal(data, FAULT, STUDIO) == {"use a breaker that can interrupt 14000 A": "met"}


@pytest.mark.parametrize(
    ("panel", "circuit", "listed"),
    [
        ({"fault-current": "9000 A"}, {"breaker": {"interrupting-rating": "10000 A"}}, False),
        ({"fault-current": "9000 A"}, {}, True),
        ({"fault-current": "9000 A"}, {"existing": True}, False),
        ({}, {"breaker": {"interrupting-rating": "10000 A"}}, True),
        ({}, {"existing": True}, True),
    ],
)
def test_when_the_fault_current_is_on_the_list(panel: dict[str, Any], circuit: dict[str, Any], listed: bool) -> None:
    """Unless the plan states it, and what each new breaker can interrupt; only at the service."""
    of = reviewed_example("pottery-studio", {"panels": {"house-panel": panel}, "circuits": {"studio": circuit}})
    says = [one.says for one in of.inspect if one.item.id.endswith("/fault-current-at-the-service")]
    assert len(says) == listed and all("house-panel" in words for words in says)
    shop = reviewed_example("joinery-workshop")
    assert [one.says for one in shop.inspect if "workshop-panel are marked" in one.says] == []


@pytest.mark.parametrize(
    ("cable", "length", "expected"),
    [
        ("UF-B 12/2", "280 ft", "met"),
        ("UF-B 12/2", "303 ft", "met"),
        ("UF-B 12/2", "310 ft", "not met"),
        ("UF-B 10/2", "440 ft", "met"),
        ("UF-B 10/2", "500 ft", "not met"),
        ("UF-B 12/2 no ground", "310 ft", "does not apply"),
    ],
)
def test_a_fault_goes_out_by_the_hot_and_back_by_the_ground(cable: str, length: str, expected: str) -> None:
    """100 A at 120 V, for 20 A, are 1.2 ohm of both together; without a grounding wire nothing is said here."""
    leg = {"buried": "field", "cover": "24 in", "length": length}
    patch = {"routes": {"to-pump": {"carries": {"pump": {"cable": cable}}, "legs": [leg]}}}
    answer = line(reviewed_example("orchard-pump", patch), LOOP, "/circuits/pump").answer
    assert answer.outcome.value == expected
    if expected != "does not apply":
        assert answer.needs == "at least 100 A, 5 times 20 A"


def test_the_farthest_branch_counts() -> None:
    """Two ways from one box: the longer, not both."""

    def loop(*feet: int) -> str:
        data = example("joinery-workshop")
        for number, length in enumerate(feet):
            data["boxes"][f"end-{number}"] = {"at": "workshop", "box": {}, "devices": {"lamp": {"luminaire": "9 W"}}}
            data["routes"][f"end-{number}"] = {
                "from": "bench-box",
                "to": f"end-{number}",
                "raceway": "none",
                "carries": {"bench-outlets": {"cable": "NM-B 12/2"}},
                "legs": [{"in": "wall framing", "length": f"{length} ft"}],
            }
        return str(line(reviewed(data), LOOP, BENCH).answer.has)

    assert loop(100, 50) == loop(50, 100) == loop(100) != loop(50)


def test_where_no_fault_current_is_told() -> None:
    """Low voltage, and a length in one building that is not stated; the loop is in the derivation elsewhere."""
    leg = {"on": "inside wall", "location": "dry", "physical-damage": False}
    of = reviewed_example("joinery-workshop", {"routes": {"bench": {"legs": [leg]}}})
    assert outcome(of, LOOP, BENCH) == "does not apply"
    assert not [place for place in asked(of) if place.endswith("/length")]
    for wires in (
        {"hot": "2 × 6 AWG Cu bare"},
        {"hot": "2 × 600 kcmil Cu THHN"},
        {"hot": "2 × 500 kcmil Cu THHN", "ground": "600 kcmil Cu THHN"},
    ):
        patch = {"routes": {"planer-run": {"carries": {"planer": {"wires": wires}}}}}
        of = reviewed_example("joinery-workshop", patch)
        assert (outcome(of, LOOP, PLANER), of.failures) == ("does not apply", ())
    spare = {"circuits": {"spare": {"kind": "branch circuit", "from": "workshop-panel", "voltage": "120 V"}}}
    assert line(reviewed_example("joinery-workshop", spare), LOOP, "/circuits/spare").answer.why == "it goes nowhere"
    leg = {"buried": "field", "cover": "24 in", "length": "2500 ft"}
    far = reviewed_example("orchard-pump", {"routes": {"to-pump": {"legs": [leg]}}})
    (words,) = [words for words, _ in line(far, LOOP, "/circuits/pump").steps]
    assert words.startswith("hot and grounding wire to the far end: 9.90 ohm")
    (words,) = [words for words, _ in line(reviewed_example("orchard-pump"), LOOP, "/circuits/pump").steps]
    # 69 ft, out and back, at 2 ohm for 1000 ft or a little less
    assert 0.25 < float(words.split(": ")[1].split(" ohm")[0]) < 0.29


# Kinds of wire

SMALLEST, PARALLEL = "/smallest-wire", "/wires-side-by-side"


@pytest.mark.parametrize(
    ("wires", "expected", "proposed"),
    [
        ({"hot": "2 × 16 AWG Cu THHN"}, "not met", "2 × 14 AWG Cu THHN"),
        ({"hot": "2 × 14 AWG Cu THHN"}, "met", None),
        ({"hot": "2 × 14 AWG Al THHN"}, "not met", "2 × 12 AWG Al THHN"),
        ({"hot": "2 × 12 AWG Al THHN"}, "met", None),
        ({"hot": "2 × 14 AWG Cu THHN", "neutral": "16 AWG Cu THHN"}, "not met", "14 AWG Cu THHN"),
    ],
)
def test_wire_that_is_too_small_for_a_building(wires: dict[str, str], expected: str, proposed: str | None) -> None:
    """14 AWG of copper and 12 AWG of aluminum, hots and neutral; the smallest that may be is proposed."""
    data = example("joinery-workshop", {"routes": {"planer-run": {"carries": {"planer": {"wires": wires}}}}})
    answer = line(reviewed(data), SMALLEST, PLANER).answer
    assert answer.outcome.value == expected
    offered = {} if proposed is None else {f"use {proposed}": "met"}
    assert after_each_proposal(data, SMALLEST, PLANER) == offered


@pytest.mark.parametrize(
    "carried", [{"wires": {"hot": None}}, {"wires": None, "cable": None}, {"wires": None, "cable": "cord 16/3"}]
)
def test_wire_that_is_not_stated_or_flexible_is_not_looked_at(carried: dict[str, Any]) -> None:
    """Each is a matter of other rules."""
    of = reviewed_example("joinery-workshop", {"routes": {"planer-run": {"carries": {"planer": carried}}}})
    answers = {outcome(of, rule, PLANER) for rule in (SMALLEST, PARALLEL)}
    assert (answers, of.failures) == ({"does not apply"}, ())


def test_a_cable_that_is_too_small() -> None:
    """Its hots or its neutral; in whole cables."""
    data = example("pottery-studio", {"routes": {"ceiling": {"carries": {"studio": {"cable": "NM-B 16/2"}}}}})
    found = line(reviewed(data), SMALLEST, STUDIO)
    assert (found.place, found.answer.has) == ("/routes/ceiling/carries/studio/cable", "16 AWG Cu")
    assert after_each_proposal(data, SMALLEST, STUDIO) == {"use NM-B 14/2": "met"}
    thin = {"routes": {"ceiling": {"carries": {"studio": {"cable": "SER 12-12-16-12 Cu"}}}}}
    assert line(reviewed_example("pottery-studio", thin), SMALLEST, STUDIO).answer.has == "16 AWG Cu"


@pytest.mark.parametrize(
    ("hot", "rating", "expected", "proposed"),
    [
        ("4 × 8 AWG Cu THHN", "60 A", "not met", "use one wire each: 2 × 4 AWG Cu THHN"),
        ("4 × 1 AWG Cu THHN", "200 A", "not met", "use one wire each: 2 × 3/0 AWG Cu THHN"),
        ("4 × 1/0 AWG Cu THHN", "200 A", "met", None),
        ("4 × 6 AWG Cu bare", "60 A", "not met", None),
        ("2 × 8 AWG Cu THHN", "40 A", "met", None),
    ],
)
def test_wires_side_by_side(hot: str, rating: str, expected: str, proposed: str | None) -> None:
    """From 1/0 AWG on; else one wire for each hot, that carries the rating."""
    data = example(
        "joinery-workshop",
        {
            "circuits": {"planer": {"terminals": "60 °C", "breaker": {"rating": rating}}},
            "routes": {"planer-run": {"carries": {"planer": {"wires": {"hot": hot}}}}},
        },
    )
    assert outcome(reviewed(data), PARALLEL, PLANER) == expected
    offered = [words.split(" THHN")[0] + " THHN" for words in after_each_proposal(data, PARALLEL, PLANER)]
    assert offered == ([] if proposed is None else [proposed])


def test_two_wires_to_a_switch_may_be_switched_ones() -> None:
    """Whatever else is on the circuit."""
    wires = {"routes": {"bench": {"carries": {"bench-outlets": {"wires": {"hot": "2 × 12 AWG Cu THHN"}}}}}}
    place = "/circuits/bench-outlets"
    found = line(reviewed_example("joinery-workshop", wires), PARALLEL, place)
    assert (found.answer.outcome.value, found.place) == (
        "not met",
        "/routes/bench/carries/bench-outlets/wires/hot",
    )
    (way,) = found.answer.proposals
    assert {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch} == {
        "hot": "12 AWG Cu THHN",
        "neutral": "12 AWG Cu THHN",
    }
    switch = {"boxes": {"bench-box": {"devices": {"cut-off": {"switch": "20 A"}}}}}
    assert outcome(reviewed_example("joinery-workshop", {**wires, **switch}), PARALLEL, place) == "does not apply"
    assert outcome(reviewed_example("joinery-workshop"), PARALLEL, place) == "does not apply"


def inspected(of: Review, name: str) -> list[str]:
    """What the inspection list says under one name."""
    return [entry.says for entry in of.inspect if entry.item.id.endswith(name)]


@pytest.mark.parametrize(
    ("hot", "said"),
    [("2 × 10 AWG Cu THHN", "garage-run, yard"), ("2 × 8 AWG Cu THHN", "garage-run, yard, planer-run")],
)
def test_large_wires_in_raceways_are_stranded(hot: str, said: str) -> None:
    """8 AWG and larger."""
    of = reviewed_example(
        "joinery-workshop", {"routes": {"planer-run": {"carries": {"planer": {"wires": {"hot": hot}}}}}}
    )
    assert inspected(of, "/stranded-wire") == [f"Wires of 8 AWG and larger are stranded ({said})."]
    assert inspected(reviewed_example("pottery-studio"), "/stranded-wire") == []


def test_aluminum_on_a_feeder() -> None:
    """Its lugs, not the devices of a branch circuit."""
    wires = {"hot": "2 × 4 AWG Al XHHW-2", "neutral": "4 AWG Al XHHW-2"}
    carries = {"carries": {"workshop-feeder": {"wires": wires}}}
    all_of_it = reviewed_example("joinery-workshop", {"routes": {"garage-run": carries, "yard": carries}})
    says = inspected(all_of_it, "/aluminum-terminals")
    assert len(says) == 1 and says[0].startswith("workshop-feeder: the lugs are marked for aluminum")
    assert inspected(all_of_it, "/copper-meets-aluminum") == []
    part = reviewed_example("joinery-workshop", {"routes": {"yard": carries}})
    assert [words.partition(":")[0] for words in inspected(part, "/copper-meets-aluminum")] == ["workshop-feeder"]
    assert inspected(reviewed_example("joinery-workshop"), "/aluminum-terminals") == []
