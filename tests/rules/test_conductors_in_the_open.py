"""Flexible cord, wires without a raceway, and cable in the sun."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, lines, outcome, reviewed_example

CORD = "/cord-as-fixed-wiring"
SINGLE = "/single-wires-in-a-raceway"
SUN = "/cable-in-the-sun"
CABLE = "/routes/yard/carries/studio"
LEG = "/routes/yard/legs/0"


def laid(cable: str | None, leg: dict[str, Any], raceway: str | None = "none", resistant: bool | None = None) -> Review:
    """The pottery studio with one cable in one leg between house and studio."""
    carried = {"cable": cable} | ({} if resistant is None else {"sunlight-resistant": resistant})
    patch = {"routes": {"yard": {"raceway": raceway, "carries": {"studio": carried}, "legs": [leg]}}}
    return reviewed_example("pottery-studio", patch)


# Flexible cord


@pytest.mark.parametrize(("cable", "expected"), [("cord 12/3", "not met"), ("NM-B 12/2", "met"), (None, "cannot tell")])
def test_cord(cable: str | None, expected: str) -> None:
    """Cord is no fixed wiring, and cable of an unknown type might be cord."""
    of = laid(cable, {"in": "joist bays"})
    assert outcome(of, CORD, "/routes/yard") == expected
    assert lines(of, CORD, "/routes/yard")[0].place == (
        "/routes/yard" if expected == "met" else "/routes/yard/carries/studio/cable"
    )


def test_buried_cord_is_looked_at_in_the_ground() -> None:
    """So that it is written up once."""
    assert outcome(laid("cord 12/3", {"buried": "lawn"}), CORD, "/routes/yard") == "does not apply"


def test_wires_are_no_cord() -> None:
    """Nor is a route that carries nothing."""
    of = reviewed_example(
        "joinery-workshop",
        {"routes": {"spare": {"from": "bench-box", "to": "planer-box", "carries": {}, "legs": [{"through": "wall"}]}}},
    )
    assert outcome(of, CORD, "/routes/bench") == "does not apply"
    assert outcome(of, CORD, "/routes/spare") == "does not apply"


@pytest.mark.parametrize(
    ("cord", "cables"),
    [("cord 12/3", ["UF-B 12/2", "NM-B 12/2"]), ("cord 10/4", ["UF-B 10/3", "NM-B 10/3"]), ("cord 14/2", [])],
)
def test_cord_is_exchanged_for_cable(cord: str, cables: list[str]) -> None:
    """A cord counts its grounding conductor; a cord without one is exchanged for nothing."""
    (line,) = lines(laid(cord, {"in": "joist bays"}), CORD, "/routes/yard")
    assert [way.patch[0]["value"] for way in line.answer.proposals] == cables


# Individual wires


def wired(leg: dict[str, Any], raceway: str | None) -> Review:
    """The joinery workshop with individual wires in one leg from its panel to the bench."""
    return reviewed_example("joinery-workshop", {"routes": {"bench": {"raceway": raceway, "legs": [leg]}}})


@pytest.mark.parametrize(
    "leg", [{"on": "inside wall"}, {"in": "attic"}, {"through": "wall"}, {"on": "outside wall", "location": "wet"}]
)
@pytest.mark.parametrize(
    ("raceway", "expected"),
    [("none", "not met"), ("EMT 1/2 in", "met"), ("plumbing pipe 1/2 in", "met"), (None, "cannot tell")],
)
def test_wires(leg: dict[str, Any], raceway: str | None, expected: str) -> None:
    """Any raceway will do here; what kind it is, is another question."""
    assert outcome(wired(leg, raceway), SINGLE, "/routes/bench/legs/0") == expected


@pytest.mark.parametrize("leg", [{"buried": "lawn"}, {"rise": "2 ft"}, {"overhead": "yard"}])
def test_wires_elsewhere(leg: dict[str, Any]) -> None:
    """The ground and the air have wiring methods of their own."""
    assert outcome(wired(leg, "none"), SINGLE, "/routes/bench/legs/0") == "does not apply"


@pytest.mark.parametrize("leg", [{"on": "outside wall", "location": "wet"}, {"in": "attic"}])
def test_a_raceway_is_proposed(leg: dict[str, Any]) -> None:
    """Plastic, so that no piece of metal is left unbonded, and large enough for what is in it."""
    (line,) = lines(wired(leg, "none"), SINGLE, "/routes/bench/legs/0")
    assert [way.patch[0]["value"] for way in line.answer.proposals] == ["PVC-80 1/2 in"]
    assert line.answer.has == "individual wires without a raceway"
    (line,) = lines(laid("MHF 2-2-4-6 Al", leg), SINGLE, LEG)
    assert [way.patch[0]["value"] for way in line.answer.proposals] == ["PVC-80 3 in"]
    assert line.answer.has == "MHF 2-2-4-6 Al without a raceway"


@pytest.mark.parametrize(
    ("cable", "raceway", "expected"),
    [
        ("MHF 2-2-4-6 Al", "none", "not met"),
        ("MHF 2-2-4-6 Al", "PVC-80 2 in", "met"),
        ("UF-B 12/2", "none", "does not apply"),
        (None, "PVC-80 2 in", "met"),
        (None, "none", "cannot tell"),
    ],
)
def test_twisted_wires(cable: str | None, raceway: str, expected: str) -> None:
    """Mobile-home feeder has no sheath."""
    assert outcome(laid(cable, {"on": "outside wall", "location": "wet"}, raceway), SINGLE, LEG) == expected


# Sunlight


WALL = {"on": "outside wall", "location": "wet"}


@pytest.mark.parametrize("leg", [WALL, {"rise": "2 ft"}])
@pytest.mark.parametrize(
    ("cable", "sun", "resistant", "expected"),
    [
        ("UF-B 12/2", True, True, "met"),
        ("UF-B 12/2", True, False, "not met"),
        ("UF-B 12/2", True, None, "cannot tell"),
        ("UF-B 12/2", None, False, "cannot tell"),
        ("UF-B 12/2", None, True, "met"),
        ("UF-B 12/2", False, None, "does not apply"),
        ("MC 12/2", True, False, "not met"),
        ("SER 2-2-2-4 Al", True, False, "met"),
        ("SER 2-2-2-4 Al", None, None, "met"),
        ("MI 12/2", True, False, "met"),
        ("NM-B 12/2", True, False, "does not apply"),
        ("cord 12/3", True, False, "does not apply"),
    ],
)
def test_sun(leg: dict[str, Any], cable: str, sun: bool | None, resistant: bool | None, expected: str) -> None:
    """What the sun shines on is marked for it, or of a type that needs no marking."""
    of = laid(cable, leg if sun is None else leg | {"sunlight": sun}, resistant=resistant)
    assert outcome(of, SUN, CABLE) == expected


def test_in_a_raceway_there_is_no_sun() -> None:
    """And where the raceway is not stated, it is asked for only if it matters."""
    sunny = WALL | {"sunlight": True}
    assert outcome(laid("UF-B 12/2", sunny, "PVC-80 1 in", False), SUN, CABLE) == "does not apply"
    assert "/routes/yard/raceway" in asked(laid("UF-B 12/2", sunny, None, False))
    assert outcome(laid("UF-B 12/2", WALL | {"sunlight": False}, None), SUN, CABLE) == "does not apply"


def test_a_cable_is_marked_once() -> None:
    """One cable on two sunny legs: one fact is asked for."""
    legs = [WALL | {"sunlight": True}, {"rise": "2 ft", "sunlight": True}]
    patch = {"raceway": "none", "carries": {"studio": {"cable": "UF-B 12/2"}}, "legs": legs}
    found = [
        place for place in asked(reviewed_example("pottery-studio", {"routes": {"yard": patch}})) if "sun" in place
    ]
    assert set(found) == {"/routes/yard/carries/studio/sunlight-resistant"}


@pytest.mark.parametrize("leg", [{"in": "attic"}, {"buried": "lawn"}, {"overhead": "yard"}, {"through": "wall"}])
def test_no_sun_elsewhere(leg: dict[str, Any]) -> None:
    """Only surfaces and rises are looked at."""
    assert outcome(laid("UF-B 12/2", leg), SUN, CABLE) == "does not apply"
