"""Low-voltage lighting: which transformers feed lights, and what they are held to."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example, merged, reviewed
from support.trenches import after_each_proposal, line_at

PACK = "/boxes/post-box/devices/power-pack"
AHEAD, ISOLATING, LARGE = "/circuit-that-feeds-it", "/isolating-transformer", "/transformer-for-its-lights"
LISTED = "listed-and-not-grounded"
LAMPS: dict[str, Any] = {"near": {"luminaire": "50 W"}, "far": {"luminaire": "30 W"}}


def garden(use: str | None, devices: dict[str, Any] | None = None, **pack: Any) -> dict[str, Any]:
    """The orchard pump with a low-voltage circuit to a box with these devices."""
    patch = {
        "circuits": {"garden": {"kind": "low-voltage", "from": "post-box/power-pack", "voltage": "12 V", "use": use}},
        "boxes": {
            "post-box": {"devices": {"power-pack": {"transformer": "300 VA", **pack}}},
            "lamp-box": {"at": "pump-post", "area": "outdoors", "location": "wet", "devices": devices or {}},
        },
        "routes": {
            "path": {
                "from": "post-box",
                "to": "lamp-box",
                "raceway": "none",
                "carries": {"garden": {"cable": "low-voltage 12/2"}},
                "legs": [{"buried": "garden bed"}],
            }
        },
    }
    return example("orchard-pump", patch)


@pytest.mark.parametrize(
    ("use", "devices", "lighting"),
    [
        ("landscape lighting", {}, True),
        ("pool lighting", {}, True),
        ("irrigation control", {}, False),
        ("irrigation control", LAMPS, True),  # a light is on it, whatever it is called
        (None, LAMPS, True),
    ],
)
def test_what_feeds_lighting(use: str | None, devices: dict[str, Any], lighting: bool) -> None:
    """By its use, or by a light on it."""
    of = reviewed(garden(use, devices, **{"listed-system": True}))
    for rule in (AHEAD, ISOLATING):
        answer = line_at(of, rule, PACK).answer
        assert answer.outcome.value == ("met" if lighting else "does not apply")
        assert lighting or answer.why == "it feeds no lighting"
    assert any(entry.item.id.endswith(f"/{LISTED}") for entry in of.inspect) is lighting


def test_one_lighting_circuit_of_several_is_enough() -> None:
    """Beside one for irrigation."""
    valves = {"kind": "low-voltage", "from": "post-box/power-pack", "voltage": "12 V", "use": "irrigation control"}
    for use, expected in (("landscape lighting", "met"), ("irrigation control", "does not apply")):
        data = merged(garden(use, **{"listed-system": True}), {"circuits": {"valves": valves}})
        assert line_at(reviewed(data), ISOLATING, PACK).answer.outcome.value == expected


def test_lights_of_another_circuit_are_not_behind_it() -> None:
    """Those on the power beside it."""
    data = merged(garden("irrigation control"), {"boxes": {"post-box": {"devices": {"lamp": {"luminaire": "9 W"}}}}})
    for rule in (AHEAD, ISOLATING, LARGE):
        answer = line_at(reviewed(data), rule, PACK).answer
        assert (answer.outcome.value, answer.why) == ("does not apply", "it feeds no lighting")


def test_no_larger_circuit_than_20_ampere_ahead() -> None:
    """The mark is on the breaker, and the way out exchanges it."""
    data = merged(garden("landscape lighting"), {"circuits": {"pump": {"breaker": {"rating": "30 A"}}}})
    line = line_at(reviewed(data), AHEAD, PACK)
    assert (str(line.answer.has), str(line.answer.needs)) == ("30 A", "20 A")
    assert line.place == "/circuits/pump/breaker/rating"
    assert after_each_proposal(data, AHEAD, PACK) == {"use a 20 A breaker": "met"}


@pytest.mark.parametrize(
    ("pack", "expected", "has", "place"),
    [
        ({"listed-system": True}, "met", "part of a listed system", PACK),
        ({"listed-system": False, "isolating": True}, "met", "isolating", f"{PACK}/isolating"),
        ({"listed-system": False, "isolating": False}, "not met", "not isolating", f"{PACK}/isolating"),
    ],
)
def test_isolation(pack: dict[str, Any], expected: str, has: str, place: str) -> None:
    """A listed system has it; else the transformer itself."""
    data = garden("landscape lighting", **pack)
    line = line_at(reviewed(data), ISOLATING, PACK)
    assert (line.answer.outcome.value, line.answer.has, line.place) == (expected, has, place)
    ways = {"use an isolating transformer": "met"} if expected == "not met" else {}
    assert after_each_proposal(data, ISOLATING, PACK) == ways


@pytest.mark.parametrize(("rated", "expected"), [("80 VA", "met"), ("79 VA", "not met")])
def test_what_its_lights_draw(rated: str, expected: str) -> None:
    """Added up; what is no light does not count."""
    data = garden("landscape lighting", LAMPS | {"valve": {"equipment": "valve", "load": "500 VA"}}, transformer=rated)
    line = line_at(reviewed(data), LARGE, PACK)
    assert (line.answer.outcome.value, str(line.answer.has)) == (expected, rated)
    assert (line.answer.of, line.answer.needs) == ("transformer", "at least 80 VA for its lights")
    assert line.place == f"{PACK}/transformer"
    assert line.steps == (("near, far: 80 VA together", PACK),)
    ways = {"use a transformer of 80 VA or more": "met"} if expected == "not met" else {}
    assert after_each_proposal(data, LARGE, PACK) == ways
