"""Ground-fault protection: at the very limit of a voltage, beside devices of other kinds, at no panel, and in words."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import example, lines, outcome, reviewed, reviewed_example

RULE, DEVICE, BREAKER = "/protection-of-a-receptacle", "/a-device-within-reach", "/a-breaker-within-reach"
BENCH, POST = "/boxes/entry-box/devices/bench-outlet", "/boxes/post-box/devices/outlet"


def studio(
    terrace: dict[str, Any] | None = None,
    *,
    bench: dict[str, Any] | None = None,
    entry: dict[str, Any] | None = None,
    **rest: Any,
) -> Review:
    """The pottery studio with other facts of its receptacles, the one at the terrace not protected unless it says so."""
    boxes = {
        "terrace-box": {"devices": {"terrace-outlet": terrace or {"ground-fault": False}}},
        "entry-box": {**(entry or {}), "devices": {"bench-outlet": {"sink-distance": "40 ft", **(bench or {})}}},
    }
    return reviewed_example("pottery-studio", {"boxes": boxes, **rest})


@pytest.mark.parametrize(
    ("voltage", "expected"), [("240 V", "not met"), ("125/250 V", "not met"), ("126/252 V", "does not apply")]
)
def test_the_voltage_of_the_circuit_stands_for_the_receptacle_up_to_the_limit(voltage: str, expected: str) -> None:
    """250 V between the hots is still covered."""
    circuit = {"voltage": voltage, "breaker": {"poles": 2, "common-trip": True}}
    of = studio(bench={"voltage": None}, circuits={"studio": circuit})
    assert outcome(of, RULE, BENCH) == expected


@pytest.mark.parametrize(
    ("other", "expected"),
    [
        ({"receptacle": "15 A", "deicing": True, "readily-accessible": False}, "does not apply"),
        ({"receptacle": "15 A", "readily-accessible": False}, "not met"),
        ({"luminaire": "20 W"}, "not met"),
        ({"switch": "15 A", "role": "equipment"}, "does not apply"),
    ],
)
def test_what_a_de_icing_receptacle_may_share_its_circuit_with(other: dict[str, Any], expected: str) -> None:
    """Its like, and switches."""
    heat = {"deicing": True, "ground-fault": False, "readily-accessible": False}
    of = reviewed_example(
        "orchard-pump",
        {
            "circuits": {"pump": {"breaker": {"ground-fault": "none"}}},
            "boxes": {"post-box": {"devices": {"outlet": heat, "other": other}}},
        },
    )
    assert outcome(of, RULE, POST) == expected


def test_a_switch_or_a_light_is_no_device_to_test() -> None:
    """Neither within reach nor on the inspection list."""
    of = reviewed_example("pottery-studio")
    for place in ("/boxes/entry-box/devices/main-switch", "/boxes/ceiling-box/devices/lamp"):
        assert lines(of, DEVICE, place) == []
        assert not [one for one in of.inspect if one.subject == place and "/test-of-a-" in one.item.id]


@pytest.mark.parametrize(("reach", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_a_breaker_of_a_circuit_that_begins_at_no_panel(reach: bool | None, expected: str) -> None:
    """A low-voltage circuit begins at a transformer: there is no panel to be in reach."""
    breaker = {"ground-fault": "class A"} | ({} if reach is None else {"readily-accessible": reach})
    garden = {"kind": "low-voltage", "from": "post-box/power-pack", "voltage": "12 V", "use": "landscape lighting"}
    data = example(
        "orchard-pump",
        {
            "circuits": {"garden": {**garden, "breaker": breaker}},
            "boxes": {
                "post-box": {"devices": {"power-pack": {"transformer": "300 VA"}}},
                "lamp-box": {"at": "pump-post", "area": "outdoors", "location": "wet"},
            },
            "routes": {
                "lamps": {
                    "from": "post-box",
                    "to": "lamp-box",
                    "raceway": "none",
                    "carries": {"garden": {"cable": "low-voltage 12/2"}},
                    "legs": [{"buried": "lawn", "length": "10 ft", "cover": "8 in"}],
                }
            },
        },
    )
    assert outcome(reviewed(data), BREAKER, "/circuits/garden") == expected


@pytest.mark.parametrize(
    ("terrace", "breaker", "has", "why"),
    [
        ({"ground-fault": False}, "none", "none", ""),
        (
            {"ground-fault": True, "protects-downstream": False},
            "none",
            "class A at terrace-outlet in terrace-box",
            "that device does not feed this from its load side",
        ),
        (
            {"ground-fault": False},
            "equipment",
            "equipment protection at the breaker of circuit studio",
            "it trips at a current too high to protect people",
        ),
    ],
)
def test_what_comes_nearest_to_protection(terrace: dict[str, Any], breaker: str, has: str, why: str) -> None:
    """Named, with what is wrong with it."""
    of = studio(terrace, circuits={"studio": {"breaker": {"ground-fault": breaker}}})
    (line,) = lines(of, RULE, BENCH)
    assert (line.answer.outcome.value, line.answer.has, line.answer.why) == ("not met", has, why)


def test_protection_of_its_own_is_said_so() -> None:
    """And protection from ahead with its place."""
    of = reviewed_example("pottery-studio")
    (own,) = lines(of, RULE, "/boxes/terrace-box/devices/terrace-outlet")
    (ahead,) = lines(of, RULE, BENCH)
    assert (own.answer.has, ahead.answer.has) == ("class A of its own", "class A at terrace-outlet in terrace-box")


@pytest.mark.parametrize("use", ["agricultural", "commercial"])
def test_buildings_that_may_not_count_as_a_dwellings(use: str) -> None:
    """The authority says; the answer names the use."""
    of = studio(entry={"area": "garage"}, structures={"studio": {"use": use, "farm-conditions": False}})
    (line,) = lines(of, RULE, BENCH)
    assert line.answer.outcome.value == "cannot tell"
    assert f"a building in {use} use" in line.answer.why


@pytest.mark.parametrize(
    ("entry", "bench", "structure", "row"),
    [
        ({"area": "garage"}, {}, {"habitable": True}, "gfci-garage"),
        ({"area": "basement"}, {}, {"habitable": True}, "gfci-basement-crawl"),
        ({"area": "crawl space"}, {}, {"habitable": True}, "gfci-basement-crawl"),
        ({"area": "outdoors", "location": "wet"}, {}, {}, "gfci-outdoor-receptacle"),
        ({"area": "kitchen"}, {}, {"habitable": True}, "gfci-listed-class-a"),
        ({"area": "bathroom"}, {}, {}, "gfci-listed-class-a"),
        ({"location": "damp"}, {}, {"habitable": True}, "gfci-indoor-damp"),
        ({}, {"sink-distance": "6 ft"}, {"habitable": True}, "gfci-sink-six-feet"),
        ({}, {}, {}, "gfci-accessory-building"),
        ({}, {}, {"use": "garage"}, "gfci-garage"),
    ],
)
def test_the_requirement_of_the_place_is_cited(
    entry: dict[str, Any], bench: dict[str, Any], structure: dict[str, Any], row: str
) -> None:
    """Of the place, if the map has one for it."""
    (line,) = lines(studio(entry=entry, bench=bench, structures={"studio": structure}), RULE, BENCH)
    assert (line.answer.outcome.value, line.answer.rows) == ("not met", (row,))


@pytest.mark.parametrize(
    ("structure", "box", "why"),
    [
        ({"habitable": True}, {"area": "attic"}, "attic: not a listed place"),
        ({"floor": "above grade"}, {"area": "closet"}, "accessory building, floor above grade: not a listed place"),
    ],
)
def test_why_a_place_is_not_listed(structure: dict[str, Any], box: dict[str, Any], why: str) -> None:
    """By the row that leaves it out, or by the room."""
    (line,) = lines(studio(entry=box, structures={"studio": structure}), RULE, BENCH)
    assert line.answer.why == why


@pytest.mark.parametrize(
    ("rating", "voltage", "expected"),
    [
        ("20 A", "125 V", "not met"),
        ("15 A", "125 V", "not met"),
        ("21 A", "125 V", "does not apply"),
        ("20 A", "126 V", "does not apply"),
    ],
)
def test_before_2020_only_small_receptacles_were_listed(rating: str, voltage: str, expected: str) -> None:
    """Of 125 V, and of 20 A at the most."""
    patch = {
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}},
            "entry-box": {"devices": {"bench-outlet": {"receptacle": rating, "voltage": voltage}}},
        }
    }
    data = example("pottery-studio", patch)
    data["rules"] = ["us-2017"]
    assert outcome(reviewed(data), RULE, BENCH) == expected


@pytest.mark.parametrize(
    ("deicing", "step"),
    [
        ({"readily-accessible": True}, "within reach: the de-icing exception does not hold"),
        ({"readily-accessible": False}, "the circuit feeds something else too: the de-icing exception does not hold"),
    ],
)
def test_why_the_de_icing_exception_does_not_hold(deicing: dict[str, Any], step: str) -> None:
    """The derivation says it."""
    devices = {"outlet": {"deicing": True, "ground-fault": False, **deicing}, "lamp": {"luminaire": "20 W"}}
    of = reviewed_example(
        "orchard-pump",
        {
            "circuits": {"pump": {"breaker": {"ground-fault": "none"}}},
            "boxes": {"post-box": {"devices": devices}},
        },
    )
    (line,) = lines(of, RULE, POST)
    assert line.answer.outcome.value == "not met"
    assert step in [words for words, _ in line.steps]


@pytest.mark.parametrize(
    ("circuit", "words", "poles"),
    [
        ({"voltage": "120 V"}, "a class A ground-fault breaker for circuit studio", False),
        ({"voltage": "240 V"}, "a 2-pole class A ground-fault breaker for circuit studio", True),
        ({"voltage": None, "multiwire": None}, "a class A ground-fault breaker for circuit studio", False),
    ],
)
def test_a_breaker_for_two_hots_has_two_poles(circuit: dict[str, Any], words: str, poles: bool) -> None:
    """Where the plan says that there are two."""
    (line,) = lines(studio(circuits={"studio": circuit}), RULE, BENCH)
    way = line.answer.proposals[-1]
    assert way.words.startswith(words)
    assert any(edit["path"].endswith("/poles") for edit in way.patch) is poles


def test_a_device_without_a_receptacle_ahead_is_not_told_to_feed_on() -> None:
    """That is said of a receptacle only."""
    guard = {"ground-fault-device": "20 A", "trip": "equipment", "readily-accessible": True}
    devices = {"terrace-outlet": {"ground-fault": False}, "guard": guard}
    of = reviewed_example("pottery-studio", {"boxes": {"terrace-box": {"devices": devices}}})
    (line,) = lines(of, RULE, BENCH)
    assert line.answer.outcome.value == "not met"
    assert [way.words for way in line.answer.proposals if "load side" in way.words] == []


@pytest.mark.parametrize(
    ("guard", "expected"),
    [
        ({"ground-fault-device": "20 A", "trip": "equipment"}, "equipment protection at guard in terrace-box"),
        ({"ground-fault-device": "20 A", "trip": None}, None),
    ],
)
def test_a_device_for_equipment_is_named_as_one(guard: dict[str, Any], expected: str | None) -> None:
    """Of one whose trip is not stated it is asked."""
    devices = {"terrace-outlet": {"ground-fault": False}, "guard": guard}
    of = reviewed_example("pottery-studio", {"boxes": {"terrace-box": {"devices": devices}}})
    (line,) = lines(of, RULE, BENCH)
    if expected is None:
        assert line.answer.outcome.value == "cannot tell"
    else:
        assert (line.answer.outcome.value, line.answer.has) == ("not met", expected)


@pytest.mark.parametrize("circuit", [{"voltage": "120/240 V", "multiwire": True}, {"voltage": "240 V"}])
def test_a_load_side_is_not_proposed_on_a_circuit_of_two_hots(circuit: dict[str, Any]) -> None:
    """It would carry one hot on, and trip by the shared neutral: a receptacle here, or a breaker of two poles."""
    of = studio({"ground-fault": True, "protects-downstream": False}, circuits={"studio": circuit})
    (line,) = lines(of, RULE, BENCH)
    assert line.answer.outcome.value == "not met"
    assert not [way.words for way in line.answer.proposals if "load side" in way.words]
    assert any("2-pole class A" in way.words for way in line.answer.proposals)


@pytest.mark.parametrize(
    ("rating", "voltage", "offered"),
    [
        ("20 A", "125 V", True),
        ("21 A", "125 V", False),
        ("20 A", "126 V", False),
        ("20 A", None, False),
        ("15 A", "120 V", True),
    ],
)
def test_a_class_a_receptacle_is_proposed_as_far_as_there_are_some(
    rating: str, voltage: str | None, offered: bool
) -> None:
    """Of 20 A and 125 V at the most."""
    (line,) = lines(studio(bench={"receptacle": rating, "voltage": voltage}), RULE, BENCH)
    assert line.answer.outcome.value == "not met"
    found = [way for way in line.answer.proposals if way.words.startswith("a class A ground-fault receptacle")]
    assert bool(found) is offered


def test_behind_a_transformer_there_is_no_breaker_to_exchange() -> None:
    """A class A device that is out of reach there can only be moved."""
    guard = {"receptacle": "20 A", "voltage": "125 V", "ground-fault": True, "readily-accessible": False}
    data = example(
        "orchard-pump",
        {
            "circuits": {"garden": {"kind": "low-voltage", "from": "post-box/power-pack", "voltage": "12 V"}},
            "boxes": {
                "post-box": {"devices": {"power-pack": {"transformer": "300 VA"}}},
                "lamp-box": {"at": "pump-post", "area": "outdoors", "location": "wet", "devices": {"guard": guard}},
            },
            "routes": {
                "lamps": {
                    "from": "post-box",
                    "to": "lamp-box",
                    "raceway": "none",
                    "carries": {"garden": {"cable": "low-voltage 12/2"}},
                    "legs": [{"buried": "lawn", "length": "10 ft", "cover": "8 in"}],
                }
            },
        },
    )
    (line,) = lines(reviewed(data), DEVICE, "/boxes/lamp-box/devices/guard")
    assert line.answer.outcome.value == "not met"
    assert [way.words for way in line.answer.proposals] == ["move guard to where it can be reached"]


def test_since_2026_the_floor_of_an_accessory_building_makes_no_difference() -> None:
    """It is the same requirement that is cited."""
    data = example("pottery-studio", {"structures": {"studio": {"floor": "above grade"}}})
    data["boxes"]["terrace-box"]["devices"]["terrace-outlet"] |= {"ground-fault": False, "protects-downstream": False}
    assert outcome(reviewed(data), RULE, BENCH) == "does not apply"
    data["rules"] = ["us-2026"]
    (line,) = lines(reviewed(data), RULE, BENCH)
    assert (line.answer.outcome.value, line.answer.rows) == ("not met", ("gfci-accessory-building",))


@pytest.mark.parametrize(
    ("use", "expected"), [("post", "not met"), ("lighting pole", "not met"), ("accessory", "cannot tell")]
)
def test_a_box_on_a_post_or_pole_is_outdoors(use: str, expected: str) -> None:
    """Its area need not be said; that of one in a building with a raised floor decides."""
    data = example("orchard-pump", {"circuits": {"pump": {"breaker": {"ground-fault": "none"}}}})
    data["structures"]["pump-post"] |= {"use": use, "floor": "above grade", "habitable": False}
    data["boxes"]["post-box"]["devices"]["outlet"]["ground-fault"] = False
    data["boxes"]["post-box"] |= {"location": "dry"}
    del data["boxes"]["post-box"]["area"]
    assert outcome(reviewed(data), RULE, POST) == expected
