"""Wiring that rises out of the ground: that the plan shows it, and how it is protected."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import reviewed, reviewed_example
from support.trenches import (
    SLEEVE,
    after_each_proposal,
    answer_at,
    garden,
    lawn,
    line_at,
    merged_plan,
    protected,
    trench,
)

SHOWN = "way-out-of-the-ground"
PROTECTED = "protection-of-emerging-cable"
BELOW = "protection-below-grade"
ABOVE = "protection-above-grade"
ENTRY = "protection-up-to-the-entry"
BUSHING = "bushing-at-the-buried-end"
RISE = "/routes/to-pump/legs/2"


def _rise(*, at: str = "24 in", made: Any = trench, leg: dict[str, Any] | None = None, **facts: Any) -> dict[str, Any]:
    """The orchard pump with another rise at the post; a fact given as None is left out."""
    data = made({**lawn(at), **(leg or {})})
    rise = {"rise": "2 ft", **SLEEVE, **facts}
    data["routes"]["to-pump"]["legs"][2] = {key: value for key, value in rise.items() if value is not None}
    assert isinstance(data, dict)
    return data


def _legs(*legs: dict[str, Any], **route: Any) -> dict[str, Any]:
    return merged_plan(trench(lawn("24 in")), {"routes": {"to-pump": {"legs": list(legs), **route}}})


# The way out


@pytest.mark.parametrize(
    ("supply", "load", "answer"),
    [
        ([{"rise": "2 ft"}], [{"rise": "2 ft"}], "met"),
        ([{"rise": "2 ft"}, {"bend": "90°"}], [{"bend": "90°"}, {"rise": "2 ft"}], "met"),
        ([{"through": "foundation"}], [{"rise": "2 ft"}], "met"),
        ([{"on": "outside wall"}], [{"rise": "2 ft"}], "not met"),
        ([{"rise": "2 ft"}], [{"on": "post"}], "not met"),
        ([{"rise": "2 ft"}], [], "not met"),
        ([], [{"rise": "2 ft"}], "not met"),
        ([{"in": "basement"}], [{"rise": "2 ft"}], "not met"),
        ([{"overhead": "yard"}], [{"rise": "2 ft"}], "not met"),
    ],
)
def test_the_plan_shows_the_way_out(supply: list[dict[str, Any]], load: list[dict[str, Any]], answer: str) -> None:
    """A rise, or a way in below grade, at each end; bends between do not matter."""
    data = _legs(*supply, lawn("24 in"), *load)
    assert answer_at(data, SHOWN, f"/routes/to-pump/legs/{len(supply)}") == answer


def test_what_is_not_shown_is_a_question_not_a_fault() -> None:
    """Without it nothing is known of the protection."""
    of = reviewed(_legs(lawn("24 in"), {"rise": "2 ft", **SLEEVE}))
    (finding,) = [finding for finding in of.findings if finding.line.rule.id.endswith(SHOWN)]
    assert finding.severity.word == "query"
    assert "supply" in str(finding.line.answer.has)


@pytest.mark.parametrize(
    ("box", "answer"),
    [
        ({"area": "ground"}, "met"),
        ({"box": {"kind": "handhole"}}, "met"),
        ({"box": {"kind": "pedestal"}}, "met"),
        ({"area": "outdoors", "box": {"kind": "box"}}, "not met"),
    ],
)
def test_a_box_in_the_ground_needs_no_rise(box: dict[str, Any], answer: str) -> None:
    """A handhole and a pedestal stand in it."""
    data = merged_plan(_legs({"rise": "2 ft"}, lawn("24 in")), {"boxes": {"post-box": box}})
    assert answer_at(data, SHOWN) == answer


def test_low_voltage_wiring_is_left_alone() -> None:
    """The protection is asked of the direct-burial columns, not of the 30 V one."""
    data = garden(lawn("6 in"))
    data["routes"]["to-pump"]["legs"] = [lawn("6 in"), {"rise": "1 ft"}]
    for rule, place in ((SHOWN, 0), (PROTECTED, 1), (BELOW, 1), (ABOVE, 1), (ENTRY, 1)):
        assert answer_at(data, rule, f"/routes/to-pump/legs/{place}") == "does not apply"


# Protection of direct-burial wiring


def test_emerging_cable_is_in_a_raceway_or_a_post() -> None:
    """Nothing around it is not met, and is found once."""
    bare = _rise(raceway="none", **{"sleeve-below": None, "to-entry": False})
    assert answer_at(bare, PROTECTED, RISE) == "not met"
    assert [answer_at(bare, rule, RISE) for rule in (BELOW, ABOVE, BUSHING)] == ["does not apply"] * 3
    assert answer_at(_rise(), PROTECTED, RISE) == "met"
    assert answer_at(_rise(raceway="none", **{"inside-post": True}), PROTECTED, RISE) == "met"
    assert answer_at(_rise(raceway="none", **{"inside-post": False}), PROTECTED, RISE) == "not met"


def test_in_a_raceway_that_goes_on_in_the_ground_there_is_nothing_to_begin() -> None:
    """The pottery studio: a conduit all the way."""
    of = reviewed_example("pottery-studio")
    for rule in (PROTECTED, BELOW, ABOVE, BUSHING):
        assert line_at(of, rule, "/routes/yard/legs/0").answer.outcome.value == "does not apply"


@pytest.mark.parametrize(
    ("below", "answer"),
    [("17 7/8 in", "not met"), ("18 in", "met"), ("30 in", "met"), ("449 mm", "not met"), ("450 mm", "met")],
)
def test_eighteen_inches_below_grade(below: str, answer: str) -> None:
    """No deeper than that, though the cable lies 24 in deep.

    EC&M code quiz: https://www.ecmweb.com/code-quiz-day/protection-direct-buried-conductors
    """
    assert answer_at(_rise(**{"sleeve-below": below}), BELOW, RISE) == answer


@pytest.mark.parametrize(
    ("leg", "below", "answer"),
    [
        ({}, "11 7/8 in", "not met"),
        ({}, "12 in", "met"),
        ({"concrete-cap": "2 in"}, "5 7/8 in", "not met"),
        ({"concrete-cap": "2 in"}, "6 in", "met"),
        ({"buried": "street"}, "17 in", "not met"),
        ({"buried": "street"}, "18 in", "met"),
    ],
)
def test_less_below_grade_where_the_minimum_cover_is_less(leg: dict[str, Any], below: str, answer: str) -> None:
    """It begins at the depth of the minimum cover of the small column, if the circuit qualifies for that."""
    facts = {"sleeve-below": below}
    assert answer_at(_rise(made=protected, leg=leg, **facts), BELOW, RISE) == answer
    if leg.get("buried") == "street":
        assert str(line_at(reviewed(_rise(made=protected, leg=leg, **facts)), BELOW, RISE).answer.needs) == "18 in"
    if below == "12 in":
        assert answer_at(_rise(leg=leg, **facts), BELOW, RISE) == "not met"


@pytest.mark.parametrize(
    ("entry", "above", "answer"),
    [
        (True, None, "met"),
        (False, "7 ft 11 7/8 in", "not met"),
        (False, "8 ft", "met"),
        (False, "2499 mm", "not met"),
        (False, "2.5 m", "met"),
        (False, None, "cannot tell"),
        (None, "8 ft", "met"),
        (None, "2 ft", "cannot tell"),
    ],
)
def test_eight_feet_above_grade_or_to_where_it_goes_in(entry: bool | None, above: str | None, answer: str) -> None:
    """Either is enough.

    EC&M code quiz: https://www.ecmweb.com/code-quiz-day/protection-direct-buried-conductors
    """
    assert answer_at(_rise(**{"to-entry": entry, "sleeve-above": above}), ABOVE, RISE) == answer


def test_less_below_grade_only_if_every_circuit_qualifies() -> None:
    """A 240 V circuit beside the protected one asks for all 18 in."""
    data = _rise(made=protected, **{"sleeve-below": "12 in"})
    data["circuits"]["heat"] = {"kind": "branch circuit", "from": "farmhouse-panel", "voltage": "240 V"}
    data["routes"]["to-pump"]["carries"]["heat"] = {"cable": "UF-B 12/2"}
    for device in data["boxes"]["post-box"]["devices"].values():
        device["circuit"] = "pump"
    assert answer_at(data, BELOW, RISE) == "not met"


# Up to the entry of a building


def _studio(rise: dict[str, Any], *on: dict[str, Any], raceway: str = "none") -> dict[str, Any]:
    legs = [{"rise": "2 ft", **SLEEVE}, lawn("24 in"), {"rise": "2 ft", **SLEEVE, **rise}, *on]
    return {"routes": {"yard": {"raceway": raceway, "legs": legs}}}


@pytest.mark.parametrize(
    ("rise", "on", "answer"),
    [
        ({"to-entry": True}, [{"through": "wall"}], "met"),
        ({"to-entry": False}, [{"through": "wall"}], "not met"),
        ({"to-entry": False}, [{"on": "outside wall"}, {"through": "wall"}], "not met"),
        ({"to-entry": False, "sleeve-above": "9 ft"}, [{"on": "outside wall"}, {"through": "wall"}], "not met"),
        ({"to-entry": False}, [], "not met"),
    ],
)
def test_into_a_building_the_protection_goes_as_far_as_the_entry(
    rise: dict[str, Any], on: list[dict[str, Any]], answer: str
) -> None:
    """8 ft above grade is not enough if it goes in higher up. The studio's box is indoors, wall in the plan or not."""
    of = reviewed_example("pottery-studio", _studio(rise, *on))
    assert line_at(of, ENTRY, "/routes/yard/legs/2").answer.outcome.value == answer


def test_a_raceway_all_the_way_is_protection_all_the_way() -> None:
    """Nothing need be stated of the entry then; with an open stretch before it, it must be."""
    patch = _studio({"to-entry": None}, {"on": "outside wall"}, {"through": "wall"}, raceway="PVC-80 3/4 in")
    patch["routes"]["yard"]["legs"][2].pop("to-entry")
    of = reviewed_example("pottery-studio", patch)
    assert line_at(of, ENTRY, "/routes/yard/legs/2").answer.outcome.value == "met"
    patch["routes"]["yard"]["raceway"] = "none"
    answer = line_at(reviewed_example("pottery-studio", patch), ENTRY, "/routes/yard/legs/2").answer
    assert answer.asks is not None
    assert answer.asks.field == "to-entry"


def test_a_post_is_not_a_building() -> None:
    """Its box is outdoors; at the house the wiring comes out of a panel inside."""
    data = _rise()
    assert answer_at(data, ENTRY, RISE) == "does not apply"
    assert answer_at(data, ENTRY, "/routes/to-pump/legs/0") == "met"


# Ways out


@pytest.mark.parametrize(
    ("rule", "facts"),
    [
        (PROTECTED, {"raceway": "none", "sleeve-below": None, "bushing": None}),
        (BELOW, {"sleeve-below": "10 in"}),
        (BELOW, {"sleeve-below": "300 mm"}),
        (ABOVE, {"to-entry": False, "sleeve-above": "3 ft"}),
    ],
)
def test_every_way_out_settles_it(rule: str, facts: dict[str, Any]) -> None:
    """Each on its own."""
    ways = after_each_proposal(_rise(**facts), rule, RISE)
    assert ways
    assert set(ways.values()) == {"met"}
