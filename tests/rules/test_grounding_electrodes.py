"""Grounding electrodes and rods: when, which, how large, how deep, how many, how far apart."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, library, lines, outcome, reviewed_example

WORKSHOP, STUDIO = "/structures/workshop", "/structures/studio"
NORTH = f"{WORKSHOP}/grounding/electrodes/north-rod"
REQUIRED, PERMITTED = "/electrode-where-a-feeder-comes-in", "/electrode-of-a-permitted-kind"
BONDED, FOOTING, SECOND = "/every-electrode-bonded", "/footing-steel-used", "/second-electrode"
LONG, THICK, DRIVEN, APART = "/length-of-a-rod", "/diameter-of-a-rod", "/rod-in-the-earth", "/spacing-of-rods"
NO_RODS: dict[str, Any] = {"north-rod": None, "south-rod": None}


def workshop(electrodes: dict[str, Any], **structure: Any) -> Review:
    """The joinery workshop with other electrodes."""
    return reviewed_example(
        "joinery-workshop", {"structures": {"workshop": {"grounding": {"electrodes": electrodes}, **structure}}}
    )


def rod(**facts: Any) -> Review:
    """The workshop with other facts of its north rod."""
    return workshop({"north-rod": facts})


def test_needed_with_a_feeder() -> None:
    """Two rods are there; without them it is not met, and the derivation names the feeder."""
    assert outcome(workshop({}), REQUIRED, WORKSHOP) == "met"
    (line,) = lines(workshop(NO_RODS), REQUIRED, WORKSHOP)
    assert line.answer.outcome.value == "not met"
    assert ("supplied by a feeder: workshop-feeder", WORKSHOP) in line.steps


def test_none_needed_with_one_branch_circuit_that_brings_a_ground() -> None:
    """Without it, or with a second circuit, one is."""
    assert outcome(reviewed_example("pottery-studio"), REQUIRED, STUDIO) == "does not apply"
    bare = {"routes": {"yard": {"carries": {"studio": {"cable": "UF-B 12/2 no ground"}}}}}
    assert outcome(reviewed_example("pottery-studio", bare), REQUIRED, STUDIO) == "not met"
    metal = {"routes": {"yard": {"raceway": "RMC 3/4 in", "carries": bare["routes"]["yard"]["carries"]}}}
    assert outcome(reviewed_example("pottery-studio", metal), REQUIRED, STUDIO) == "does not apply"
    two = {
        "circuits": {"more": {"kind": "branch circuit", "from": "house-panel"}},
        "boxes": {"more-box": {"at": "studio", "box": {}}},
        "routes": {
            "more": {
                "from": "house-panel",
                "to": "more-box",
                "carries": {"more": {"cable": "UF-B 12/2"}},
                "legs": [{"buried": "lawn", "length": "46 ft"}],
            }
        },
    }
    assert outcome(reviewed_example("pottery-studio", two), REQUIRED, STUDIO) == "not met"


def test_rods_that_are_not_needed_are_not_judged() -> None:
    """An auxiliary electrode at the studio."""
    short = {"structures": {"studio": {"grounding": {"electrodes": {"stake": {"kind": "rod", "length": "4 ft"}}}}}}
    of = reviewed_example("pottery-studio", short)
    stake = f"{STUDIO}/grounding/electrodes/stake"
    assert {outcome(of, rule, stake) for rule in (LONG, THICK, DRIVEN, BONDED)} == {"does not apply"}


@pytest.mark.parametrize(
    ("electrode", "expected"),
    [
        ({"kind": "gas pipe", "bonded": False}, "not met"),
        ({"kind": "aluminum", "bonded": False}, "not met"),
        ({"kind": "plate"}, "met"),
        ({"kind": "metal water pipe", "length": "9 ft 11 in"}, "not met"),
        ({"kind": "metal water pipe", "length": "10 ft"}, "met"),
        ({"kind": "metal water pipe", "length": "11 ft"}, "met"),
        ({"kind": "metal water pipe"}, "cannot tell"),
        ({"kind": "concrete-encased", "length": "19 ft"}, "not met"),
        ({"kind": "concrete-encased", "length": "20 ft"}, "met"),
        ({"kind": "concrete-encased", "length": "6 m"}, "met"),
        ({"kind": "ground ring", "length": "19 ft"}, "not met"),
        ({"kind": "ground ring", "length": "20 ft"}, "met"),
        ({"kind": "building steel", "length": "9 ft"}, "not met"),
        ({"kind": "building steel", "length": "10 ft"}, "met"),
    ],
)
def test_what_counts_as_an_electrode(electrode: dict[str, Any], expected: str) -> None:
    """The only one at the workshop."""
    assert outcome(workshop({**NO_RODS, "thing": electrode}), REQUIRED, WORKSHOP) == expected


@pytest.mark.parametrize(
    ("kind", "bonded", "expected"),
    [
        ("rod", True, "met"),
        ("gas pipe", True, "not met"),
        ("aluminum", True, "not met"),
        ("gas pipe", False, "does not apply"),
        ("gas pipe", None, "cannot tell"),
    ],
)
def test_kinds_that_are_never_electrodes(kind: str, bonded: bool | None, expected: str) -> None:
    """Wherever they are connected as such."""
    facts = {"kind": kind, **({} if bonded is None else {"bonded": bonded})}
    assert outcome(workshop({"thing": facts}), PERMITTED, f"{WORKSHOP}/grounding/electrodes/thing") == expected


@pytest.mark.parametrize(
    ("electrode", "expected"),
    [
        ({"kind": "rod", "bonded": True}, "met"),
        ({"kind": "rod", "bonded": False}, "not met"),
        ({"kind": "rod"}, "cannot tell"),
        ({"kind": "metal water pipe", "length": "10 ft", "bonded": False}, "not met"),
        ({"kind": "metal water pipe", "length": "9 ft", "bonded": False}, "does not apply"),
        ({"kind": "gas pipe", "bonded": False}, "does not apply"),
    ],
)
def test_every_electrode_is_connected(electrode: dict[str, Any], expected: str) -> None:
    """What does not count need not be."""
    assert outcome(workshop({"thing": electrode}), BONDED, f"{WORKSHOP}/grounding/electrodes/thing") == expected


@pytest.mark.parametrize(
    ("footing", "listed", "expected"),
    [
        (True, False, "not met"),
        (True, True, "met"),
        (False, False, "does not apply"),
        (None, True, "met"),
        (None, False, "cannot tell"),
    ],
)
def test_steel_of_a_new_footing(footing: bool | None, listed: bool, expected: str) -> None:
    """Used where there is one, and then nothing is asked."""
    steel = {"footing": {"kind": "concrete-encased", "bonded": True, "length": "20 ft"}} if listed else {}
    of = workshop(steel, **{"new-footing": footing})
    assert outcome(of, FOOTING, WORKSHOP) == expected
    assert any("Before the pour: at least 20 ft" in entry.says for entry in of.inspect) is listed


@pytest.mark.parametrize(
    ("length", "expected"),
    [
        ("7 ft 11 in", "not met"),
        ("8 ft", "met"),
        ("10 ft", "met"),
        ("2.43 m", "not met"),
        ("2.44 m", "met"),
        (None, "cannot tell"),
    ],
)
def test_length(length: str | None, expected: str) -> None:
    """8 ft, or 2.44 m in a metric plan."""
    assert outcome(rod(length=length), LONG, NORTH) == expected


@pytest.mark.parametrize(
    ("diameter", "listed", "expected"),
    [
        ("9/16 in", False, "not met"),
        ("5/8 in", False, "met"),
        ("3/4 in", False, "met"),
        ("5/8 in", None, "met"),
        ("7/16 in", True, "not met"),
        ("1/2 in", True, "met"),
        ("1/2 in", False, "not met"),
        ("1/2 in", None, "cannot tell"),
        ("7/16 in", None, "not met"),
        (None, True, "cannot tell"),
    ],
)
def test_diameter(diameter: str | None, listed: bool | None, expected: str) -> None:
    """5/8 in, or 1/2 in if it is listed, which is asked only between the two."""
    assert outcome(rod(diameter=diameter, listed=listed), THICK, NORTH) == expected


@pytest.mark.parametrize(("diameter", "expected"), [("5/8 in", "not met"), ("3/4 in", "met"), ("1 in", "met")])
def test_diameter_of_a_pipe(diameter: str, expected: str) -> None:
    """Trade size 3/4."""
    assert outcome(rod(kind="pipe", diameter=diameter, listed=True), THICK, NORTH) == expected


@pytest.mark.parametrize(
    ("driven", "expected"),
    [("7 ft 6 in", "not met"), ("8 ft", "met"), ("10 ft", "met"), ("2.44 m", "met"), (None, "cannot tell")],
)
def test_length_in_the_earth(driven: str | None, expected: str) -> None:
    """8 ft."""
    assert outcome(rod(driven=driven), DRIVEN, NORTH) == expected


@pytest.mark.parametrize(
    ("spacing", "expected"),
    [
        ("5 ft 11 in", "not met"),
        ("6 ft", "met"),
        ("16 ft", "met"),
        ("1.79 m", "not met"),
        ("1.8 m", "met"),
        (None, "cannot tell"),
    ],
)
def test_spacing(spacing: str | None, expected: str) -> None:
    """6 ft, or 1.8 m in a metric plan."""
    assert outcome(rod(spacing=spacing), APART, NORTH) == expected


def test_a_single_rod_has_no_spacing() -> None:
    """Nothing to be apart from; a pipe electrode counts, a footing does not."""
    assert outcome(workshop({"south-rod": None, "north-rod": {"spacing": None}}), APART, NORTH) == "does not apply"
    footing = {"kind": "concrete-encased", "length": "20 ft"}
    assert outcome(workshop({"south-rod": footing, "north-rod": {"spacing": None}}), APART, NORTH) == "does not apply"
    assert (
        outcome(workshop({"south-rod": {"kind": "pipe"}, "north-rod": {"spacing": "5 ft"}}), APART, NORTH) == "not met"
    )


@pytest.mark.parametrize(
    ("resistance", "expected"),
    [
        ("24 ohm", "met"),
        ("25 ohm", "met"),
        ("25.1 ohm", "not met"),
        ("100 Ω", "not met"),
        (None, "not met"),
    ],
)
def test_a_single_rod(resistance: str | None, expected: str) -> None:
    """25 ohm, measured; a rod that was not measured needs another beside it."""
    of = workshop({"south-rod": None, "north-rod": {"resistance": resistance}})
    (line,) = lines(of, SECOND, WORKSHOP)
    assert line.answer.outcome.value == expected
    assert bool(line.answer.proposals) is (expected == "not met")


@pytest.mark.parametrize(
    ("beside", "expected"),
    [
        ({"kind": "rod"}, "met"),
        ({"kind": "plate"}, "met"),
        ({"kind": "concrete-encased", "length": "20 ft"}, "does not apply"),
        ({"kind": "concrete-encased", "length": "10 ft"}, "not met"),
        ({"kind": "metal water pipe", "length": "20 ft"}, "not met"),
        ({"kind": "gas pipe"}, "not met"),
    ],
)
def test_what_may_stand_beside_a_rod(beside: dict[str, str], expected: str) -> None:
    """Any electrode but a water pipe."""
    of = workshop({"south-rod": None, "thing": beside})
    assert outcome(of, SECOND, WORKSHOP) == expected


def test_a_water_pipe_alone_is_backed_by_another() -> None:
    """From memory, and says so."""
    (line,) = lines(workshop({**NO_RODS, "pipe": {"kind": "metal water pipe", "length": "20 ft"}}), SECOND, WORKSHOP)
    assert line.answer.outcome.value == "not met"
    assert any("from memory" in step for step, _ in line.steps)


def test_the_house_is_not_looked_at() -> None:
    """The electrodes of the service are beyond a plan for an outbuilding."""
    of = reviewed_example(
        "joinery-workshop", {"structures": {"house": {"grounding": {"electrodes": {"r": {"kind": "rod"}}}}}}
    )
    assert outcome(of, LONG, "/structures/house/grounding/electrodes/r") == "does not apply"
    assert not [place for place in asked(of) if place.startswith("/structures/house")]


def test_confidence_of_the_limits() -> None:
    """What no published page was seen for says so."""
    tables = library().book().tables
    assert tables["grounding-electrodes"]["gas pipe", "permitted"].from_memory
    assert tables["limits"]["electrode in contact with the earth",].from_memory
    assert not tables["limits"]["spacing of rods",].from_memory
