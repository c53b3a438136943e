"""Neutrals of branch circuits, ratings of circuits and receptacles, voltages, poles, and grounds with larger hots."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, example, merged, outcome, reviewed, reviewed_example
from support.reviews import line_of as line
from support.trenches import after_each_proposal

PLANER, BENCH, LIGHTS, STUDIO = "/circuits/planer", "/circuits/bench-outlets", "/circuits/lights", "/circuits/studio"
NEUTRAL, KINDS = "/neutral-of-a-branch-circuit", "/rating-of-a-branch-circuit"


def bench(neutral: str | None, rating: str = "20 A", hot: str = "12 AWG Cu THHN", **circuit: Any) -> dict[str, Any]:
    """The workshop's bench circuit with other wires in its conduit."""
    wires = {"hot": hot, "neutral": neutral}
    return example(
        "joinery-workshop",
        {
            "circuits": {"bench-outlets": {"breaker": {"rating": rating}, **circuit}},
            "routes": {"bench": {"carries": {"bench-outlets": {"wires": wires}}}},
        },
    )


# Neutral of a branch circuit

THIN = "/routes/bench/carries/bench-outlets/wires/neutral"


@pytest.mark.parametrize(
    ("neutral", "rating", "hot", "terminals", "expected", "row"),
    [
        ("14 AWG Cu THHN", "20 A", "12 AWG Cu THHN", None, "not met", "small-conductor-ocpd"),
        ("12 AWG Al THHN", "20 A", "12 AWG Cu THHN", None, "not met", "small-conductor-ocpd"),
        ("14 AWG Cu THHN", "15 A", "12 AWG Cu THHN", None, "met", None),
        ("10 AWG Al THHN", "20 A", "12 AWG Cu THHN", None, "met", None),
        ("8 AWG Cu THHN", "40 A", "6 AWG Cu THHN", "60 °C", "met", None),
        ("8 AWG Cu THHN", "50 A", "6 AWG Cu THHN", "60 °C", "not met", "branch-ocpd-vs-ampacity"),
        ("8 AWG Cu THHN", "50 A", "6 AWG Cu THHN", "75 °C", "met", None),
        ("8 AWG Cu THHN", "50 A", "6 AWG Cu THHN", None, "cannot tell", None),
        ("8 AWG Cu bare", "50 A", "6 AWG Cu THHN", "75 °C", "met", None),
        ("8 AWG Cu bare", "50 A", "6 AWG Cu TW", "75 °C", "not met", "branch-ocpd-vs-ampacity"),
        ("8 AWG Cu THHN", "50 A", "6 AWG Cu TW", "75 °C", "met", None),
    ],
)
def test_a_thinner_neutral(
    neutral: str, rating: str, hot: str, terminals: str | None, expected: str, row: str | None
) -> None:
    """By its size, its metal and its ampacity behind the breaker; a bare one gets as hot as the insulation beside it may."""
    data = bench(neutral, rating, hot, terminals=terminals)
    answer = line(reviewed(data), NEUTRAL, BENCH).answer
    assert answer.outcome.value == expected
    if expected == "not met":
        assert (answer.rows, answer.at) == ((row,), THIN)
        size, insulation = hot.split(" AWG")[0], neutral.split()[-1]
        offered = after_each_proposal(data, NEUTRAL, BENCH)
        assert offered == {f"pull a neutral of {size} AWG": "met"}
        assert [edit["value"] for edit in answer.proposals[0].patch] == [f"{size} AWG Cu {insulation}"]


def test_what_is_said_of_a_neutral() -> None:
    """Its own limit, or its own ampacity."""
    capped = line(reviewed(bench("14 AWG Cu THHN")), NEUTRAL, BENCH).answer
    assert capped.needs == "wire for which 20 A is allowed: at most 15 A for this size"
    weak = line(reviewed(bench("8 AWG Cu THHN", "50 A", "6 AWG Cu THHN", terminals="60 °C")), NEUTRAL, BENCH).answer
    assert weak.has == "8 AWG Cu on bench, 40 A"


@pytest.mark.parametrize(
    ("cable", "proposed"),
    [
        ("SER 6-6-8-8 Cu", "SER 6-6-6-8 Cu"),
        ("SEU 6-6-8 Cu", "SEU 6-6-6 Cu"),
        ("SER 6-6-6-8 Cu", None),
        ("NM-B 6/3", None),
    ],
)
def test_the_neutral_of_a_cable(cable: str, proposed: str | None) -> None:
    """Its last insulated conductor; a cable may be made with a thinner one."""
    carried = {"planer": {"wires": None, "cable": cable}}
    data = example(
        "joinery-workshop",
        {
            "circuits": {"planer": {"voltage": "120/240 V", "terminals": "60 °C", "breaker": {"rating": "60 A"}}},
            "routes": {"planer-run": {"raceway": "none", "carries": carried}},
        },
    )
    found = line(reviewed(data), NEUTRAL, PLANER)
    if proposed is None:
        assert found.answer.outcome.value == "met"
        return
    assert (found.answer.outcome.value, found.place) == ("not met", "/routes/planer-run/carries/planer/cable")
    assert after_each_proposal(data, NEUTRAL, PLANER) == {f"use {proposed}": "met"}


def test_where_a_neutral_is_not_looked_at() -> None:
    """A feeder's, that of a motor alone, and where there is none."""
    assert outcome(reviewed_example("joinery-workshop"), NEUTRAL, PLANER) == "does not apply"
    assert outcome(reviewed_example("joinery-workshop"), NEUTRAL, "/circuits/workshop-feeder") == "does not apply"
    motor = {"bench-outlet": None, "fan": {"motor": "1/4 hp", "hardwired": True, "disconnect-in-sight": True}}
    boxes = {"boxes": {"bench-box": {"devices": motor}, "yard-box": {"devices": {"porch-outlet": None}}}}
    assert outcome(reviewed(merged(bench("14 AWG Cu THHN"), boxes)), NEUTRAL, BENCH) == "does not apply"
    bare = reviewed(
        merged(bench("14 AWG Cu THHN", hot="12 AWG Cu bare"), {"routes": {"porch": None}, "boxes": {"yard-box": None}})
    )
    assert (outcome(bare, NEUTRAL, BENCH), bare.failures) == ("does not apply", ())


# Ratings of branch circuits

RECEPTACLES, LAMPS = {"one-more": {"receptacle": "20 A"}}, {"lamp": {"luminaire": "9 W"}}


@pytest.mark.parametrize(
    ("devices", "rating", "expected", "proposed"),
    [
        (RECEPTACLES, "10 A", "not met", ["15 A"]),
        (LAMPS, "10 A", "met", []),
        (LAMPS, "12 A", "not met", ["10 A", "15 A"]),
        (RECEPTACLES, "18 A", "not met", ["15 A", "20 A"]),
        (RECEPTACLES, "12 A", "not met", ["15 A"]),
        (LAMPS, "6 A", "not met", ["10 A"]),
        (LAMPS, "25 A", "not met", ["20 A", "30 A"]),
        (LAMPS, "30 A", "met", []),
    ],
)
def test_ratings_for_several_outlets(devices: dict[str, Any], rating: str, expected: str, proposed: list[str]) -> None:
    """10 A for lights alone, 15, 20, 30, 40 and 50 A; the next smaller and the next larger that may be are proposed."""
    wires = {"carries": {"lights": {"cable": "NM-B 10/2"}}}
    patch = {
        "circuits": {"lights": {"breaker": {"rating": rating}}},
        "boxes": {"switch-box": {"devices": devices}},
        "routes": {"lighting": wires, "porch-lighting": wires},
    }
    data = example("joinery-workshop", patch)
    assert outcome(reviewed(data), KINDS, LIGHTS) == expected
    offered = {f"use a {one} breaker for lights": "met" for one in proposed}
    assert after_each_proposal(data, KINDS, LIGHTS) == offered


def test_one_outlet_alone_may_have_another_rating() -> None:
    """45 A for a kiln; where there are two, not."""
    kiln = {"equipment": "kiln", "load": "5 kW", "continuous": False, "hardwired": True}
    wires = {"planer-run": {"carries": {"planer": {"wires": {"hot": "2 × 6 AWG Cu THHN"}}}}}

    def found(*names: str) -> str:
        devices = {"planer-outlet": None, **dict.fromkeys(names, kiln)}
        patch = {
            "circuits": {"planer": {"breaker": {"rating": "45 A"}}},
            "boxes": {"planer-box": {"devices": devices}},
            "routes": wires,
        }
        return outcome(reviewed_example("joinery-workshop", patch), KINDS, PLANER)

    assert (found("kiln"), found("kiln", "other")) == ("does not apply", "not met")
    assert found() == "does not apply"
    assert outcome(reviewed_example("joinery-workshop"), KINDS, "/circuits/workshop-feeder") == "does not apply"


SMALL = "/lights-on-a-small-circuit"


@pytest.mark.parametrize(
    ("rating", "cable", "expected"),
    [
        ("20 A", "NM-B 10/2", "met"),
        ("25 A", "NM-B 10/2", "not met"),
        ("25 A", "NM-B 12/2", "does not apply"),
        ("20 A", "NM-B 14/2", "met"),
    ],
)
def test_lights_on_small_circuits(rating: str, cable: str, expected: str) -> None:
    """Up to 20 A; a breaker that is too large for its wire is told once, by another rule."""
    wires = {"carries": {"lights": {"cable": cable}}}
    patch = {
        "circuits": {"lights": {"breaker": {"rating": rating}}},
        "routes": {"lighting": wires, "porch-lighting": wires},
    }
    data = example("joinery-workshop", patch)
    assert outcome(reviewed(data), SMALL, LIGHTS) == expected
    offered = {"use a 20 A breaker for lights": "met"} if expected == "not met" else {}
    assert after_each_proposal(data, SMALL, LIGHTS) == offered
    assert outcome(reviewed(data), SMALL, BENCH) == "does not apply"
    if expected == "not met":
        receptacle = {"boxes": {"switch-box": {"devices": {"it": {"receptacle": "20 A"}}}}}
        assert outcome(reviewed(merged(data, receptacle)), SMALL, LIGHTS) == "not met"
        feeder = {"circuits": {"lights": {"kind": "feeder"}}}
        assert outcome(reviewed(merged(data, feeder)), SMALL, LIGHTS) == "does not apply"


HALF = "/fixed-equipment-beside-other-outlets"


@pytest.mark.parametrize(
    ("devices", "expected"),
    [
        ({"fan": {"motor": "1/2 hp", "hardwired": True}}, "met"),
        ({"fan": {"motor": "3/4 hp", "hardwired": True}}, "not met"),
        ({"fan": {"motor": "3/4 hp", "hardwired": False}}, "does not apply"),
        ({"press": {"equipment": "press", "load": "1200 VA", "hardwired": True}}, "met"),
        ({"press": {"equipment": "press", "load": "1201 VA", "hardwired": True}}, "not met"),
        ({"a": {"heater": "700 W", "hardwired": True}, "b": {"heater": "600 W", "hardwired": True}}, "not met"),
        ({"supply": {"transformer": "2000 VA"}}, "does not apply"),
    ],
)
def test_what_is_fastened_in_place_takes_half(devices: dict[str, Any], expected: str) -> None:
    """10 of 20 A at 120 V, together: motors by their table (9.8 A and 13.8 A), heaters and equipment by their load."""
    of = reviewed_example("joinery-workshop", {"boxes": {"bench-box": {"devices": devices}}})
    assert outcome(of, HALF, BENCH) == expected


def test_where_fixed_equipment_may_take_all() -> None:
    """On a circuit of its own, and on one above 20 A."""
    heater = {"heater": {"heater": "1900 W", "hardwired": True}}
    alone = {"boxes": {"bench-box": {"devices": {"bench-outlet": None, **heater}}, "yard-box": {"devices": None}}}
    assert outcome(reviewed_example("joinery-workshop", alone), HALF, BENCH) == "does not apply"
    lamp = {
        "boxes": {"bench-box": {"devices": {"bench-outlet": None, **heater, **LAMPS}}, "yard-box": {"devices": None}}
    }
    assert outcome(reviewed_example("joinery-workshop", lamp), HALF, BENCH) == "not met"
    large = merged(example("joinery-workshop", lamp), {"circuits": {"bench-outlets": {"breaker": {"rating": "30 A"}}}})
    assert outcome(reviewed(large), HALF, BENCH) == "does not apply"
    assert outcome(reviewed(large), HALF, "/circuits/workshop-feeder") == "does not apply"


def test_a_share_of_the_circuit_is_in_the_derivation() -> None:
    """Which devices, at which voltage."""
    devices = {"a": {"heater": "600 W", "hardwired": True}, "b": {"heater": "600 W", "hardwired": True}}
    found = line(reviewed_example("joinery-workshop", {"boxes": {"bench-box": {"devices": devices}}}), HALF, BENCH)
    assert [words for words, _ in found.steps] == ["a, b at 120 V"]
    assert (str(found.answer.has), found.place) == ("10 A", "/boxes/bench-box/devices/a")
    assert str(found.answer.needs).startswith("at most 10 A, 50 % of 20 A")


# Receptacles

ITS = "/receptacle-for-its-circuit"
OUTLET = "/boxes/planer-box/devices/planer-outlet"


@pytest.mark.parametrize(
    ("receptacle", "rating", "expected", "words"),
    [
        ("20 A", "30 A", "not met", ["use a 30 A receptacle", "use a 20 A breaker for planer"]),
        ("30 A", "40 A", "not met", ["use a 50 A receptacle", "use a 30 A breaker for planer"]),
        ("50 A", "40 A", "met", []),
        ("60 A", "70 A", "not met", ["use a 60 A breaker for planer"]),
        ("30 A", "30 A", "met", []),
    ],
)
def test_the_only_receptacle_of_a_circuit(receptacle: str, rating: str, expected: str, words: list[str]) -> None:
    """Not below its circuit; in the sizes that are made."""
    data = example(
        "joinery-workshop",
        {
            "circuits": {"planer": {"breaker": {"rating": rating}}},
            "boxes": {"planer-box": {"devices": {"planer-outlet": {"receptacle": receptacle, "single": True}}}},
            "routes": {"planer-run": {"carries": {"planer": {"wires": {"hot": "2 × 4 AWG Cu THHN"}}}}},
        },
    )
    assert outcome(reviewed(data), ITS, OUTLET) == expected
    assert after_each_proposal(data, ITS, OUTLET) == dict.fromkeys(words, "met")


@pytest.mark.parametrize(
    ("rating", "receptacle", "expected", "needs"),
    [
        ("15 A", "20 A", "not met", "15 A on a circuit of 15 A"),
        ("20 A", "15 A", "met", "15 A to 20 A on a circuit of 20 A"),
        ("20 A", "30 A", "not met", "15 A to 20 A on a circuit of 20 A"),
        ("30 A", "20 A", "not met", "30 A on a circuit of 30 A"),
        ("40 A", "50 A", "met", "40 A to 50 A on a circuit of 40 A"),
        ("40 A", "30 A", "not met", "40 A to 50 A on a circuit of 40 A"),
        ("50 A", "60 A", "not met", "50 A on a circuit of 50 A"),
        ("60 A", "50 A", "does not apply", ""),
        ("25 A", "20 A", "not met", "30 A on a circuit of 25 A"),
    ],
)
def test_several_receptacles_of_a_circuit(rating: str, receptacle: str, expected: str, needs: str) -> None:
    """By the short table: of the circuit's rating, save 15 A on 20 A and 50 A on 40 A."""
    other = {"receptacle": "50 A", "voltage": "250 V"}
    data = example(
        "joinery-workshop",
        {
            "circuits": {"planer": {"breaker": {"rating": rating}}},
            "boxes": {"planer-box": {"devices": {"planer-outlet": {"receptacle": receptacle}, "second": other}}},
            "routes": {"planer-run": {"carries": {"planer": {"wires": {"hot": "2 × 4 AWG Cu THHN"}}}}},
        },
    )
    answer = line(reviewed(data), ITS, OUTLET).answer
    assert (answer.outcome.value, answer.needs) == (expected, needs)


def test_a_breaker_that_is_too_large_for_its_wire_is_told_once() -> None:
    """A 20 A receptacle behind 30 A on 12 AWG: the wire is the finding; where the wire is large enough, the receptacle."""
    breaker = {"circuits": {"bench-outlets": {"breaker": {"rating": "30 A"}}}}
    place = "/boxes/bench-box/devices/bench-outlet"
    assert outcome(reviewed_example("joinery-workshop", breaker), ITS, place) == "does not apply"
    wires = {"hot": "10 AWG Cu THHN", "neutral": "10 AWG Cu THHN"}
    routes = {
        "bench": {"carries": {"bench-outlets": {"wires": wires}}},
        "porch": {"carries": {"bench-outlets": {"cable": "NM-B 10/2"}}},
    }
    assert outcome(reviewed_example("joinery-workshop", {**breaker, "routes": routes}), ITS, place) == "not met"
    larger = {
        "boxes": {"planer-box": {"devices": {"planer-outlet": {"receptacle": "50 A"}}}},
        "routes": {"planer-run": {"carries": {"planer": {"wires": {"hot": "2 × 12 AWG Cu THHN"}}}}},
    }
    assert outcome(reviewed_example("joinery-workshop", larger), ITS, OUTLET) == "met"


BELOW, ABOVE = "/receptacle-not-below-the-voltage", "/receptacle-not-above-the-voltage"


@pytest.mark.parametrize(
    ("voltage", "multiwire", "receptacle", "below", "above", "made"),
    [
        ("240 V", False, "125 V", "not met", "met", ["250 V"]),
        ("240 V", False, "250 V", "met", "met", []),
        ("120 V", False, "250 V", "met", "not met", ["125 V"]),
        ("120 V", False, "125 V", "met", "met", []),
        ("120 V", False, "240 V", "met", "not met", ["125 V"]),
        ("208 V", False, "125 V", "not met", "met", ["250 V"]),
        ("120/240 V", True, "125 V", "met", "met", []),
        ("120/240 V", True, "250 V", "met", "met", []),
        ("240 V", False, "480 V", "met", "not met", ["250 V"]),
        ("240 V", False, None, "cannot tell", "cannot tell", []),
        ("240 V", False, "240 V", "met", "met", []),
        ("125 V", False, "250 V", "met", "not met", ["125 V"]),
    ],
)
def test_receptacles_for_the_voltage(
    voltage: str, multiwire: bool, receptacle: str | None, below: str, above: str, made: list[str]
) -> None:
    """Not below the voltage of the circuit, not twice as much or more; either of two voltages where there is a neutral."""
    cable = "NM-B 10/3" if multiwire else "NM-B 10/2"
    data = example(
        "joinery-workshop",
        {
            "circuits": {"planer": {"voltage": voltage, "multiwire": multiwire}},
            "boxes": {"planer-box": {"devices": {"planer-outlet": {"voltage": receptacle}}}},
            "routes": {"planer-run": {"raceway": "none", "carries": {"planer": {"wires": None, "cable": cable}}}},
        },
    )
    of = reviewed(data)
    assert (outcome(of, BELOW, OUTLET), outcome(of, ABOVE, OUTLET)) == (below, above)
    for rule, answer in ((BELOW, below), (ABOVE, above)):
        expected = {f"use a {text} receptacle": "met" for text in made} if answer == "not met" else {}
        assert after_each_proposal(data, rule, OUTLET) == expected


PLUGGED = "/load-plugged-into-a-shared-circuit"


@pytest.mark.parametrize(
    ("receptacles", "load", "rating", "expected"),
    [
        ({"other-box": "15 A"}, "1920 VA", "20 A", "met"),
        ({"bench-box": "15 A"}, "1441 VA", "20 A", "not met"),
        ({"bench-box": "15 A"}, "1440 VA", "20 A", "met"),
        ({"bench-box": "30 A"}, "1921 VA", "20 A", "not met"),
    ],
)
def test_a_load_is_held_by_the_smallest_receptacle_beside_it(
    receptacles: dict[str, str], load: str, rating: str, expected: str
) -> None:
    """Of its own box, not of another; and by the breaker."""
    boxes: dict[str, Any] = {"bench-box": {"devices": {}}}
    for box, size in receptacles.items():
        name = "yard-box" if box == "other-box" else box
        boxes.setdefault(name, {"devices": {}})["devices"]["more"] = {"receptacle": size, "voltage": "125 V"}
    boxes["bench-box"]["devices"]["press"] = {
        "equipment": "press",
        "load": load,
        "hardwired": False,
        "continuous": False,
    }
    patch = {"boxes": boxes, "circuits": {"bench-outlets": {"breaker": {"rating": rating}}}}
    answer = line(reviewed_example("joinery-workshop", patch), PLUGGED, "/boxes/bench-box/devices/press").answer
    assert answer.outcome.value == expected
    held = "12 A, 80 % of 15 A" if receptacles == {"bench-box": "15 A"} else "16 A, 80 % of 20 A"
    assert answer.needs == f"at most {held}"


@pytest.mark.parametrize(
    ("facts", "more", "expected"),
    [
        ({"hardwired": False}, True, "not met"),
        ({"hardwired": True}, True, "does not apply"),
        ({}, True, "does not apply"),
        ({"hardwired": False}, False, "does not apply"),
    ],
)
def test_where_a_plugged_in_load_shares(facts: dict[str, Any], more: bool, expected: str) -> None:
    """Known to be plugged in, on a circuit with two receptacles or more."""
    press = {"equipment": "press", "load": "2000 VA", "continuous": False, **facts}
    yard = {} if more else {"yard-box": {"devices": {"porch-outlet": None}}}
    of = reviewed_example("joinery-workshop", {"boxes": {"bench-box": {"devices": {"press": press}}, **yard}})
    assert outcome(of, PLUGGED, "/boxes/bench-box/devices/press") == expected
    patch = {"circuits": {"bench-outlets": {"kind": "feeder"}}, "boxes": {"bench-box": {"devices": {"press": press}}}}
    feeder = reviewed_example("joinery-workshop", patch)
    assert outcome(feeder, PLUGGED, "/boxes/bench-box/devices/press") == "does not apply"


# Voltage in dwellings, and poles

VOLTAGE = "/small-loads-in-a-dwelling"


@pytest.mark.parametrize(
    ("device", "use", "expected"),
    [
        ({"luminaire": "9 W"}, "dwelling", "not met"),
        ({"equipment": "tool", "load": "1 kW", "hardwired": True}, "dwelling", "does not apply"),
        ({"equipment": "tool", "load": "1 kW"}, "dwelling", "does not apply"),
        ({"receptacle": "15 A"}, "dwelling", "does not apply"),
        ({"luminaire": "9 W"}, "accessory", "does not apply"),
    ],
)
def test_what_is_held_to_120_volts(device: dict[str, Any], use: str, expected: str) -> None:
    """Lights, and what is known to be plugged in, in a dwelling."""
    patch = {
        "structures": {"studio": {"use": use}},
        "circuits": {"studio": {"voltage": "240 V"}},
        "boxes": {"ceiling-box": {"devices": {"lamp": None, "it": device}}},
    }
    found = line(reviewed_example("pottery-studio", patch), VOLTAGE, STUDIO)
    assert found.answer.outcome.value == expected
    if expected == "not met":
        assert (str(found.answer.has), found.place) == ("240 V", "/circuits/studio/voltage")
        assert found.answer.of == "voltage of it in ceiling-box"


@pytest.mark.parametrize(
    ("poles", "tied", "has"), [(1, True, "1 pole"), (2, False, "2 poles that open one by one"), (1, False, "1 pole")]
)
def test_what_is_said_of_poles(poles: int, tied: bool, has: str) -> None:
    """As planned; and both are proposed to open together."""
    data = example("joinery-workshop", {"circuits": {"planer": {"breaker": {"poles": poles, "common-trip": tied}}}})
    found = line(reviewed(data), "/two-poles-for-two-hots", PLANER)
    assert (found.answer.has, found.place) == (has, "/circuits/planer/breaker")
    assert set(after_each_proposal(data, "/two-poles-for-two-hots", PLANER).values()) == {"met"}


def test_poles_of_a_feeder_and_of_a_multiwire_circuit() -> None:
    """A feeder is looked at here also where a shared neutral is stated; a multiwire branch circuit elsewhere."""
    rule = "/two-poles-for-two-hots"
    patch = {"circuits": {"workshop-feeder": {"multiwire": True, "breaker": {"poles": 1}}}}
    assert outcome(reviewed_example("joinery-workshop", patch), rule, "/circuits/workshop-feeder") == "not met"
    shared = {"circuits": {"planer": {"voltage": "120/240 V", "multiwire": True, "breaker": {"poles": 1}}}}
    assert outcome(reviewed_example("joinery-workshop", shared), rule, PLANER) == "does not apply"


def test_low_voltage_is_left_alone() -> None:
    """A light on 12 V in a dwelling, on a cable that could share a neutral: nothing is said of it, and nothing asked."""
    patch = {
        "structures": {"studio": {"use": "dwelling"}},
        "circuits": {"low": {"kind": "low-voltage", "from": "entry-box/supply", "voltage": "12 V"}},
        "boxes": {
            "entry-box": {
                "devices": {
                    "supply": {"transformer": "60 VA", "circuit": "studio"},
                    "main-switch": {"circuit": "studio"},
                    "bench-outlet": {"circuit": "studio"},
                }
            },
            "ceiling-box": {
                "devices": {
                    "lamp": {"circuit": "studio"},
                    "low-lamp": {"luminaire": "5 W", "circuit": "low", "switched-by": "ceiling-box/low-switch"},
                    "low-switch": {"switch": "15 A", "circuit": "low"},
                }
            },
        },
        "routes": {"ceiling": {"carries": {"low": {"cable": "low-voltage 18/3"}}}},
    }
    of = reviewed_example("pottery-studio", patch)
    for rule in (VOLTAGE, "/two-poles-for-two-hots", KINDS, SMALL, HALF, NEUTRAL):
        assert outcome(of, rule, "/circuits/low") == "does not apply"
    assert outcome(of, "/switch-for-its-load", "/boxes/ceiling-box/devices/low-switch") == "does not apply"
    of_wire = ("/smallest-wire", "/wires-side-by-side", "/breaker-for-small-wire", "/breaker-for-the-ampacity")
    for rule in (VOLTAGE, *of_wire, "/ground-grows-with-the-hots"):
        assert line(of, rule, "/circuits/low").answer.why == "low voltage"
    assert line(of, "/fault-trips-at-once", "/circuits/low").answer.why == "low voltage"
    assert "/circuits/low/multiwire" not in asked(of)
