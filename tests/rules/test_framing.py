"""Cable in and on the framing of a building."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example, reviewed
from support.trenches import after_each_proposal, answer_at

LEG = "/routes/ceiling/legs/0"
DISTANCE = "/distance-to-the-face"
GUARD = "/guarded-where-it-can-be-hit"
BEND = "/bend-of-a-cable"


def ceiling(leg: dict[str, Any], cable: str | None = "NM-B 12/2", **route: Any) -> dict[str, Any]:
    """The pottery studio with another first leg of the run to its lamp."""
    given = {key: value for key, value in leg.items() if value is not None}
    change = {"carries": {"studio": {"cable": cable}}, "legs": [given], **route}
    return example("pottery-studio", {"routes": {"ceiling": change}})


def says(data: dict[str, Any]) -> dict[str, str]:
    """The entries of this subject on the inspection list; each comes up once."""
    entries = [entry for entry in reviewed(data).inspect if entry.item.id.startswith("framing/")]
    assert len({entry.item.id for entry in entries}) == len(entries)
    return {entry.item.id.rpartition("/")[2]: entry.says for entry in entries}


@pytest.mark.parametrize(
    ("distance", "plates", "raceway", "expected"),
    [
        ("1 1/4 in", None, "none", "met"),
        ("32 mm", None, "none", "met"),
        ("31 mm", False, "none", "not met"),
        ("1 1/8 in", False, "none", "not met"),
        ("1 1/8 in", True, "none", "met"),
        ("1 1/8 in", None, "none", "cannot tell"),
        ("1/2 in", False, "ENT 1/2 in", "not met"),
        ("1/2 in", False, "FMC 1/2 in", "not met"),
        ("1/2 in", False, "EMT 1/2 in", "does not apply"),
        ("1/2 in", None, "PVC-40 1/2 in", "does not apply"),
        (None, None, "none", "does not apply"),
    ],
)
def test_distance_to_the_face(distance: str | None, plates: bool | None, raceway: str, expected: str) -> None:
    """Plates make up for a short distance; a stout raceway needs none."""
    leg = {"in": "wall framing", "edge-distance": distance, "plates": plates, "raceway": raceway}
    data = ceiling(leg)
    assert answer_at(data, DISTANCE, LEG) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, DISTANCE, LEG).values()) == {"met"}


@pytest.mark.parametrize(
    ("hit", "raceway", "cable", "expected"),
    [
        (True, None, "NM-B 12/2", "not met"),
        (True, None, "UF-B 12/2", "not met"),
        (True, None, "MC 12/2", "does not apply"),
        (True, "ENT 1 in", "NM-B 12/2", "not met"),
        (True, "EMT 1 in", "NM-B 12/2", "met"),
        (True, "RMC 1 in", "NM-B 12/2", "met"),
        (True, "PVC-40 1 in", "NM-B 12/2", "does not apply"),
        (False, None, "NM-B 12/2", "does not apply"),
        (None, None, "NM-B 12/2", "cannot tell"),
        (None, "EMT 1 in", "NM-B 12/2", "met"),
        (True, None, None, "cannot tell"),
        (None, None, "MC 12/2", "does not apply"),
    ],
)
def test_exposed_cable(hit: bool | None, raceway: str | None, cable: str | None, expected: str) -> None:
    """Only where it can be hit, and only cable with a soft sheath."""
    data = ceiling({"on": "inside wall", "location": "dry", "physical-damage": hit, "raceway": raceway}, cable)
    assert answer_at(data, GUARD, LEG) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, GUARD, LEG).values()) <= {"met", "does not apply"}


def test_wires_in_a_raceway_are_no_sheathed_cable() -> None:
    """The joinery's runs on its walls."""
    assert answer_at(example("joinery-workshop"), GUARD, "/routes/bench/legs/0") == "does not apply"


@pytest.mark.parametrize(
    ("radius", "cable", "expected"),
    [
        ("2 1/8 in", "NM-B 12/2", "met"),  # five times 0.422 in is 2.11 in
        ("2 in", "NM-B 12/2", "cannot tell"),
        ("1 in", "NM-B 12/2", "cannot tell"),  # five times 0.190 in is 0.95 in
        ("7/8 in", "NM-B 12/2", "not met"),
        ("4 in", "NM-B 4/3", "not met"),  # round: five times 0.843 in is 4.215 in
        ("4 1/4 in", "NM-B 4/3", "met"),
        ("1 in", "NM-B 6/3", "does not apply"),
        ("1/2 in", "MC 12/2", "does not apply"),
        (None, "NM-B 12/2", "does not apply"),
    ],
)
def test_bends(radius: str | None, cable: str, expected: str) -> None:
    """Below the thickness it is too sharp, from the width on it is not; between the two the authority decides."""
    data = ceiling({"bend": "90°", "radius": radius}, cable)
    assert answer_at(data, BEND, LEG) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, BEND, LEG).values()) == {"met"}


def test_a_bend_of_the_raceway_is_looked_at_with_it() -> None:
    """Whatever is in it."""
    assert answer_at(ceiling({"bend": "90°", "radius": "1 in"}, raceway="EMT 1 in"), BEND, LEG) == "does not apply"


# Fastening of NM, 4.5 ft - https://www.stuvia.com/en-gb/doc/7118801/nec-2017-nfpa-70-national-electrical-code-questions-and-answers-latest-version-20242025-correct-en-verified
# 8 in from a single plastic box - https://jeopardylabs.com/play/2025-12-10-771
def test_what_is_seen_at_rough_in() -> None:
    """Once for the plan, with its routes and the numbers."""
    entries = says(example("pottery-studio"))
    assert set(entries) == {"holes-and-notches", "staples-and-bends"}
    assert "garage-wall, ceiling" in entries["holes-and-notches"]
    assert all(number in entries["holes-and-notches"] for number in ("1 1/4 in", "1/16 in", "1 1/2 in"))
    assert all(number in entries["staples-and-bends"] for number in ("4.5 ft", "12 in", "8 in", "5 times"))


def test_exposed_cable_at_rough_in() -> None:
    """It follows the surface; small cable does not hang under open joists."""
    leg = {"on": "ceiling", "location": "dry", "physical-damage": False}
    assert "6 in" in says(ceiling(leg))["exposed-cable-along-the-surface"]
    assert "ceiling" in says(ceiling(leg))["under-open-joists"]
    assert "under-open-joists" not in says(ceiling(leg, "NM-B 6/2"))
    assert "under-open-joists" not in says(ceiling(leg, "NM-B 8/3"))
    assert "under-open-joists" in says(ceiling(leg, "NM-B 8/2"))
    assert "under-open-joists" in says(ceiling(leg, "NM-B 10/3"))
    assert "under-open-joists" in says(ceiling({"in": "crawl space", "location": "dry"}))


def test_without_such_cable_nothing_comes_up() -> None:
    """Wires in raceway need no staples."""
    assert says(example("orchard-pump")) == {}
