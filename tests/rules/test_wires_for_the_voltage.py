"""What a circuit's voltage and breaker ask of its wires and receptacles: a neutral, one thick enough, no low-voltage cable."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, example, lines, outcome, reviewed
from support.trenches import after_each_proposal

BENCH, BENCH_RUN = "/circuits/bench-outlets", "/routes/bench/carries/bench-outlets"
PARALLEL = "/wires-side-by-side"
NEUTRAL, THINNER = "/neutral-for-the-voltage", "/neutral-of-a-branch-circuit"
BELOW, ABOVE = "/receptacle-not-below-the-voltage", "/receptacle-not-above-the-voltage"
CABLE, OUTLET = "/cable-for-the-voltage", "/boxes/bench-box/devices/bench-outlet"


def shop(patch: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop with a change."""
    return example("joinery-workshop", patch)


def bench(wires: dict[str, Any] | None = None, **circuit: Any) -> dict[str, Any]:
    """Other wires to the bench, in the raceway of its first route, and another circuit of it."""
    return shop(
        {
            "circuits": {"bench-outlets": circuit},
            "routes": {"bench": {"carries": {"bench-outlets": {"wires": wires or {}}}}},
        }
    )


# A neutral


@pytest.mark.parametrize(
    ("wires", "expected"),
    [({}, "met"), ({"neutral": None}, "not met"), ({"neutral": None, "ground": None}, "not met")],
)
def test_a_circuit_of_120_volts_has_a_neutral(wires: dict[str, Any], expected: str) -> None:
    """A hot and a ground alone would put the current on the ground."""
    data = bench(wires)
    assert outcome(reviewed(data), NEUTRAL, BENCH) == expected
    if expected == "not met":
        assert after_each_proposal(data, NEUTRAL, BENCH) == {"bring a neutral: 12 AWG Cu THHN": "met"}


def test_between_two_hots_no_neutral_is_asked_for() -> None:
    """The planer runs at 240 V; a feeder is looked at with its panel."""
    of = reviewed(shop({}))
    assert outcome(of, NEUTRAL, "/circuits/planer") == "does not apply"
    assert outcome(of, NEUTRAL, "/circuits/workshop-feeder") == "does not apply"


def test_a_run_to_a_switch_alone_needs_no_neutral() -> None:
    """The two wires of a switch loop; the lamp behind the switch needs it again."""
    loop = {"carries": {"lights": {"cable": None, "wires": {"hot": "2 × 14 AWG Cu THHN", "ground": "14 AWG Cu THHN"}}}}
    lone = {"boxes": {"porch-light-box": None}, "routes": {"lighting": loop, "porch-lighting": None}}
    assert outcome(reviewed(shop(lone)), NEUTRAL, "/circuits/lights") == "does not apply"
    fed = {"routes": {"lighting": {"raceway": "EMT 1/2 in", **loop}}}
    assert outcome(reviewed(shop(fed)), NEUTRAL, "/circuits/lights") == "not met"


@pytest.mark.parametrize(("cable", "expected"), [("NM-B 14/2", "not met"), ("NM-B 14/3", "met"), (None, "met")])
def test_a_cable_for_both_voltages_has_three_conductors(cable: str | None, expected: str) -> None:
    """Two hots and a neutral; what a part is that the plan leaves out is asked for elsewhere."""
    parts = {"lighting": cable, "porch-lighting": "NM-B 14/3"}
    routes = {name: {"carries": {"lights": {"cable": text}}} for name, text in parts.items()}
    data = shop({"circuits": {"lights": {"voltage": "120/240 V"}}, "routes": routes})
    assert outcome(reviewed(data), NEUTRAL, "/circuits/lights") == expected
    if expected == "not met":
        assert after_each_proposal(data, NEUTRAL, "/circuits/lights") == {"bring a neutral: NM-B 14/3": "met"}


def test_a_shared_neutral_that_is_missing_is_told_once() -> None:
    """With the hots, of which there are too few as well."""
    routes = {name: {"carries": {"lights": {"cable": "NM-B 14/2"}}} for name in ("lighting", "porch-lighting")}
    of = reviewed(shop({"circuits": {"lights": {"multiwire": True}}, "routes": routes}))
    assert outcome(of, NEUTRAL, "/circuits/lights") == "does not apply"
    assert outcome(of, "/hots-for-the-voltage", "/circuits/lights") == "not met"


# One that is thick enough


@pytest.mark.parametrize(
    ("neutral", "expected"),
    [
        ("12 AWG Cu THHN", "met"),  # as the hot
        ("14 AWG Cu THHN", "not met"),  # 15 A by its size, behind 20 A
        ("12 AWG Al THHN", "not met"),  # of another metal, 15 A
        ("10 AWG Al THHN", "met"),  # 25 A by its size, and as much between terminals of 60 °C
    ],
)
def test_a_neutral_is_held_to_the_limits_of_its_own_size(neutral: str, expected: str) -> None:
    """Table of limits for small wire: 14 AWG copper 15 A, 12 AWG aluminum 15 A, 10 AWG aluminum 25 A."""
    data = bench({"neutral": neutral})
    assert outcome(reviewed(data), THINNER, BENCH) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, THINNER, BENCH).values()) == {"met"}


@pytest.mark.parametrize(
    ("neutral", "expected"),
    [("8 AWG Cu THHN", "met"), ("10 AWG Cu THHN", "not met"), ("8 AWG Cu bare", "met"), ("10 AWG Cu bare", "not met")],
)
def test_a_neutral_is_held_to_its_ampacity(neutral: str, expected: str) -> None:
    """Behind 40 A: 8 AWG carries 40 A at 60 °C; 10 AWG may be behind 30 A. A bare one goes by the insulation beside it."""
    wires = {"hot": "6 AWG Cu THHN", "neutral": neutral, "ground": "10 AWG Cu THHN"}
    of = reviewed(bench(wires, breaker={"rating": "40 A"}))
    assert outcome(of, THINNER, BENCH) == expected


def test_the_ampacity_decides_where_the_size_does_not() -> None:
    """Behind 50 A 8 AWG is 10 A short between terminals of 60 °C; the row that decides is cited."""
    wires = {"hot": "4 AWG Cu THHN", "neutral": "8 AWG Cu THHN", "ground": "8 AWG Cu THHN"}
    of = reviewed(bench(wires, breaker={"rating": "50 A"}, terminals="60 °C"))
    (line,) = [line for line in lines(of, THINNER) if line.subject == BENCH]
    assert (line.answer.has, line.answer.rows) == ("8 AWG Cu on bench, 40 A", ("branch-ocpd-vs-ampacity",))


def test_a_cable_with_a_small_neutral() -> None:
    """Size by size: the last insulated conductor is the neutral."""
    cable = {"cable": "SER 6-6-10-10 Cu", "wires": None}
    data = shop(
        {
            "circuits": {"bench-outlets": {"breaker": {"rating": "50 A"}, "voltage": "120/240 V"}},
            "routes": {
                "bench": {"raceway": "none", "carries": {"bench-outlets": cable}},
                "porch": {"carries": {"bench-outlets": {"cable": "NM-B 6/3"}}},
            },
        }
    )
    assert outcome(reviewed(data), THINNER, BENCH) == "not met"
    assert after_each_proposal(data, THINNER, BENCH) == {"use SER 6-6-6-10 Cu": "met"}


def test_where_no_neutral_is_looked_at() -> None:
    """None goes with the planer; a feeder's may be smaller; a motor's breaker is no measure for its wire."""
    of = reviewed(shop({}))
    assert outcome(of, THINNER, "/circuits/planer") == "does not apply"
    assert outcome(of, THINNER, "/circuits/workshop-feeder") == "does not apply"
    motor = {"motor": "1 hp", "hardwired": True, "disconnect-in-sight": True}
    alone = {"boxes": {"bench-box": {"devices": {"bench-outlet": None, "saw": motor}}, "yard-box": None}}
    wires = {"bench": {"carries": {"bench-outlets": {"wires": {"neutral": "14 AWG Cu THHN"}}}}, "porch": None}
    assert outcome(reviewed(shop(alone | {"routes": wires})), THINNER, BENCH) == "does not apply"


# Wires side by side


@pytest.mark.parametrize(
    ("hot", "expected"),
    [
        ("12 AWG Cu THHN", "does not apply"),
        ("2 × 12 AWG Cu THHN", "not met"),
        ("2 × 1 AWG Cu THHN", "not met"),
        ("2 × 1/0 AWG Cu THHN", "met"),
    ],
)
def test_only_large_wires_lie_side_by_side(hot: str, expected: str) -> None:
    """1/0 AWG and larger; a circuit of two hots has two wires for them."""
    data = bench({"hot": hot, "neutral": hot})
    assert outcome(reviewed(data), PARALLEL, BENCH) == expected
    assert outcome(reviewed(data), PARALLEL, "/circuits/planer") == "met"
    if expected == "not met":
        assert after_each_proposal(data, PARALLEL, BENCH) == {"use one wire each: 12 AWG Cu THHN": "does not apply"}


def test_switched_wires_are_not_side_by_side() -> None:
    """A hot and what a switch makes of it."""
    loop = {"carries": {"lights": {"cable": None, "wires": {"hot": "2 × 14 AWG Cu THHN", "neutral": "14 AWG Cu THHN"}}}}
    of = reviewed(shop({"routes": {"lighting": {"raceway": "EMT 1/2 in", **loop}}}))
    assert outcome(of, PARALLEL, "/circuits/lights") == "does not apply"


# Receptacles


@pytest.mark.parametrize(
    ("voltage", "rated", "below", "above"),
    [
        ("120 V", "125 V", "met", "met"),
        ("120 V", "120 V", "met", "met"),
        ("120 V", "119 V", "not met", "met"),
        ("120 V", "239 V", "met", "met"),
        ("120 V", "240 V", "met", "not met"),
        ("120 V", "250 V", "met", "not met"),  # nothing for 250 V runs on it
        ("240 V", "125 V", "not met", "met"),  # twice the voltage on what is plugged in
        ("240 V", "239 V", "not met", "met"),
        ("240 V", "250 V", "met", "met"),
        ("120/240 V", "125 V", "met", "met"),  # either voltage can be taken
        ("120/240 V", "250 V", "met", "met"),
        ("120 V", None, "cannot tell", "cannot tell"),
    ],
)
def test_a_receptacle_is_for_the_voltage_of_its_circuit(
    voltage: str, rated: str | None, below: str, above: str
) -> None:
    """Not below the voltage that it is between, nor twice it."""
    devices = {"bench-outlet": {"voltage": rated}}
    data = shop({"circuits": {"bench-outlets": {"voltage": voltage}}, "boxes": {"bench-box": {"devices": devices}}})
    for rule, expected in ((BELOW, below), (ABOVE, above)):
        assert outcome(reviewed(data), rule, OUTLET) == expected
        if expected == "not met":
            assert set(after_each_proposal(data, rule, OUTLET).values()) == {"met"}
    assert (f"{OUTLET}/voltage" in asked(reviewed(data))) == (rated is None)


# Low-voltage cable


@pytest.mark.parametrize(
    ("cable", "expected"),
    [("NM-B 14/2", "met"), ("low-voltage 14/2 no ground", "not met"), ("low-voltage 16/2", "not met")],
)
def test_no_power_circuit_is_in_low_voltage_cable(cable: str, expected: str) -> None:
    """Cable for 12 V on 120 V."""
    data = shop({"routes": {"lighting": {"carries": {"lights": {"cable": cable}}}}})
    place = "/routes/lighting/carries/lights"
    assert outcome(reviewed(data), CABLE, place) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, CABLE, place).values()) == {"met"}


def test_low_voltage_cable_behind_a_transformer() -> None:
    """That is what it is for; wires go by their insulation."""
    path = {
        "boxes": {
            "yard-box": {"devices": {"pack": {"transformer": "300 VA", "secondary": "12 V"}}},
            "lamp-box": {"at": "workshop", "area": "outdoors", "location": "wet"},
        },
        "circuits": {"path": {"kind": "low-voltage", "from": "yard-box/pack", "voltage": "12 V"}},
        "routes": {
            "path": {
                "from": "yard-box",
                "to": "lamp-box",
                "raceway": "none",
                "carries": {"path": {"cable": "low-voltage 12/2"}},
                "legs": [{"buried": "lawn"}],
            }
        },
    }
    of = reviewed(shop(path))
    assert outcome(of, CABLE, "/routes/path/carries/path") == "does not apply"
    assert outcome(of, CABLE, BENCH_RUN) == "does not apply"
