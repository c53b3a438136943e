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
        assert outcome(of, DEVICE, place) == "does not apply"
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


@pytest.mark.parametrize(("area", "row"), [("garage", "gfci-garage"), ("bathroom", "gfci-listed-class-a")])
def test_the_requirement_of_the_place_is_cited(area: str, row: str) -> None:
    """Of the place, if the map has one for it."""
    (line,) = lines(studio(entry={"area": area}), RULE, BENCH)
    assert line.answer.rows == (row,)


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
