"""The raceway of a rise: strong enough, with a smooth end, and free to move."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan.conductors import RACEWAY_TYPES
from support.reviews import library, reviewed
from support.trenches import (
    SLEEVE,
    after_each_proposal,
    answer_at,
    lawn,
    line_at,
    merged_plan,
    trench,
)

HIT = "raceway-where-it-can-be-hit"
PLASTIC = "exposed-raceway-where-it-can-be-hit"
BUSHING = "bushing-at-the-buried-end"
MOVEMENT = "room-for-movement"
RISE = "/routes/to-pump/legs/2"


def _rise(**facts: Any) -> dict[str, Any]:
    """The orchard pump with another rise at the post; a fact given as None is left out."""
    data = trench(lawn("24 in"))
    rise = {"rise": "2 ft", **SLEEVE, **facts}
    data["routes"]["to-pump"]["legs"][2] = {key: value for key, value in rise.items() if value is not None}
    return data


def _legs(*legs: dict[str, Any], **route: Any) -> dict[str, Any]:
    return merged_plan(trench(lawn("24 in")), {"routes": {"to-pump": {"legs": list(legs), **route}}})


def test_every_raceway_of_the_plan_language_is_judged() -> None:
    """A type without a word in the table would stop the review."""
    assert {kind for (kind,) in library().book().tables["raceways-against-damage"].cells} == set(RACEWAY_TYPES)


@pytest.mark.parametrize(
    ("raceway", "answer"),
    [
        ("RMC", "met"),
        ("IMC", "met"),
        ("PVC-80", "met"),
        ("RTRC-XW", "met"),
        ("EMT", "met"),
        ("PVC-40", "not met"),
        ("RTRC", "not met"),
        ("HDPE", "not met"),
        ("LFNC", "not met"),
        ("FMC", "not met"),
        ("plumbing pipe", "not met"),
    ],
)
def test_where_it_can_be_hit(raceway: str, answer: str) -> None:
    """RMC, IMC, thick-walled plastic, the heavy fiberglass type; EMT from memory.

    EC&M, December 2025: https://www.ecmweb.com/national-electrical-code/violations/article/55332087/illustrated-catastrophes-a-suspended-ceiling-surprise
    Trade forum: https://forums.mikeholt.com/threads/pvc-under-roadway-or-parking-lot.97579/page-2
    """
    size = f"{raceway} 3/4 in"
    assert answer_at(_rise(raceway=size), HIT, RISE) == answer
    assert answer_at(_rise(raceway=size, **{"physical-damage": False}), HIT, RISE) == "does not apply"
    unsaid = answer_at(_rise(raceway=size, **{"physical-damage": None}), HIT, RISE)
    assert unsaid == ("met" if answer == "met" else "cannot tell")


@pytest.mark.parametrize(
    ("raceway", "hit", "answer"),
    [
        ("PVC-40 3/4 in", True, "not met"),
        ("PVC-40 3/4 in", False, "does not apply"),
        ("PVC-80 3/4 in", True, "met"),
        ("RMC 3/4 in", True, "met"),
        ("LFNC 3/4 in", True, "not met"),
        ("ENT 3/4 in", True, "not met"),
        ("EMT 3/4 in", True, "cannot tell"),
        ("EMT 3/4 in", False, "does not apply"),
        ("none", True, "does not apply"),
    ],
)
def test_raceway_on_a_wall_that_can_be_hit(raceway: str, hit: bool, answer: str) -> None:
    """Schedule 40 and flexible raceway are not for such places; tubing where it is not hit severely.

    EC&M photo quiz: https://ecmweb.com/whats-wrong-here/article/21249368/whats-wrong-here-hint-not-so-buried-pvc-conduit
    """
    data = _legs({"on": "outside wall", "raceway": raceway, "physical-damage": hit})
    assert answer_at(data, PLASTIC, "/routes/to-pump/legs/0") == answer


@pytest.mark.parametrize(("bushing", "answer"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_the_buried_end_has_a_bushing(bushing: bool | None, answer: str) -> None:
    """Where cable enters the raceway."""
    assert answer_at(_rise(bushing=bushing), BUSHING, RISE) == answer


@pytest.mark.parametrize(
    ("frost", "fitting", "answer"),
    [
        (True, True, "met"),
        (True, False, "not met"),
        (True, None, "cannot tell"),
        (False, None, "does not apply"),
        (None, True, "met"),
        (None, False, "cannot tell"),
    ],
)
def test_room_for_frost(frost: bool | None, fitting: bool | None, answer: str) -> None:
    """Asked only where the ground moves, and whether it does is asked only where nothing gives way.

    EC&M photo quiz: http://ecmweb.com/whats-wrong-here/whats-wrong-here-hint-stretched-out-and-shifted?page=2
    Code quiz: https://www.codebookcity.com/necquiz/necquiza/quizneca300-02.htm
    """
    data = merged_plan(_rise(**{"slip-fitting": fitting}), {"site": {"frost": frost}})
    assert answer_at(data, MOVEMENT, RISE) == answer


def test_a_sleeve_within_the_trench_has_bushings_on_the_inspection_list() -> None:
    """At each end where the cable goes on bare."""
    open_leg, sleeve = lawn("24 in"), lawn("24 in", raceway="RMC 1 in")
    for legs, ends in (((open_leg, sleeve, open_leg), "both ends"), ((open_leg, sleeve), "the end"), ((sleeve,), "")):
        of = reviewed(_legs({"rise": "2 ft"}, *legs, {"rise": "2 ft"}))
        says = [entry.says for entry in of.inspect if "ends-of-a-sleeve" in entry.item.id]
        assert len(says) == bool(ends)
        assert all(ends in text and "RMC 1 in" in text for text in says)


# Ways out


@pytest.mark.parametrize(
    ("rule", "facts"),
    [
        (HIT, {"raceway": "PVC-40 3/4 in"}),
        (BUSHING, {"bushing": False}),
        (MOVEMENT, {"slip-fitting": False}),
    ],
)
def test_every_way_out_settles_it(rule: str, facts: dict[str, Any]) -> None:
    """Each on its own."""
    ways = after_each_proposal(_rise(**facts), rule, RISE)
    assert ways
    assert set(ways.values()) == {"met"}


def test_a_plastic_raceway_is_not_exchanged_for_a_piece_of_metal() -> None:
    """Nothing would bond it; and what is offered holds the wires, which thicker walls leave less room for."""
    data = _legs({"on": "outside wall", "raceway": "PVC-40 1/2 in", "physical-damage": True})
    data["routes"]["to-pump"]["carries"]["pump"]["cable"] = "UF-B 10/3"
    line = line_at(reviewed(data), PLASTIC, "/routes/to-pump/legs/0")
    (way,) = line.answer.proposals
    assert way.patch[0]["value"].startswith("PVC-80 ")
    assert way.patch[0]["value"] != "PVC-80 1/2 in"
    assert line.answer.rows == ("pvc-above-grade-damage",)


def test_the_row_of_the_type_is_cited() -> None:
    """Flexible raceway is no matter of the PVC article."""
    data = _legs({"on": "outside wall", "raceway": "LFNC 3/4 in", "physical-damage": True})
    assert line_at(reviewed(data), PLASTIC, "/routes/to-pump/legs/0").answer.rows == ("raceway-above-grade-damage",)
    flexible = _rise(raceway="LFNC 3/4 in", **{"physical-damage": True, "marked-for-burial": True})
    assert line_at(reviewed(flexible), HIT, RISE).answer.rows == ("emerge-raceway-damage-type",)
