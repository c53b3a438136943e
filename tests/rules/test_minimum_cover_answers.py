"""What the minimum-cover rule asks for, what it offers, and how it comes to its answer."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, reviewed
from support.trenches import (
    LEG,
    YARD,
    after_each_proposal,
    answer_at,
    garden,
    lawn,
    line_at,
    merged_plan,
    protected,
    steps_at,
    terrace,
    trench,
)

RULE = "cover-over-a-buried-leg"
PVC = {"raceway": "PVC-40 3/4 in"}


def test_a_spare_raceway_has_the_depth_of_its_column() -> None:
    """What carries nothing yet will carry something."""
    for raceway, cover, answer in (
        ("PVC-40 1 in", "17 in", "not met"),
        ("PVC-40 1 in", "18 in", "met"),
        ("RMC 1 in", "6 in", "met"),
    ):
        data = trench(
            lawn(cover, raceway=raceway), routes={"to-pump": {"carries": None}}, boxes={"post-box": {"devices": None}}
        )
        assert answer_at(data, RULE) == answer
    bare = trench(lawn("3 in"), routes={"to-pump": {"carries": None}}, boxes={"post-box": {"devices": None}})
    assert answer_at(bare, RULE) == "does not apply"


def test_of_several_circuits_the_one_that_needs_most_decides() -> None:
    """A protected 120 V circuit and a 240 V one in the same raceway: the second one's depth, whatever their order."""
    heat = {"kind": "branch circuit", "from": "farmhouse-panel", "voltage": "240 V", "breaker": {"rating": "20 A"}}
    for order in (("pump", "heat"), ("heat", "pump")):
        data = merged_plan(protected(lawn("14 in", **PVC)), {"circuits": {"heat": heat}})
        data["routes"]["to-pump"]["carries"] = {name: {"cable": "UF-B 12/2"} for name in order}
        for device in data["boxes"]["post-box"]["devices"].values():
            device["circuit"] = "pump"
        answer = line_at(reviewed(data), RULE).answer
        assert (answer.outcome.value, str(answer.needs)) == ("not met", "18 in")


def test_where_all_circuits_are_deep_enough_the_deepest_need_is_shown() -> None:
    """A low-voltage circuit beside a protected 120 V one: 12 in, not 6 in, whatever their order."""
    for order in (("pump", "garden"), ("garden", "pump")):
        data = merged_plan(garden(lawn("14 in")), {"circuits": {"pump": {"breaker": {"ground-fault": "class A"}}}})
        data["routes"]["to-pump"]["carries"] = {name: {"cable": "UF-B 12/2"} for name in order}
        for device in data["boxes"]["post-box"]["devices"].values():
            device["circuit"] = "pump"
        answer = line_at(reviewed(data), RULE).answer
        assert (answer.outcome.value, str(answer.needs)) == ("met", "12 in")


def test_nothing_is_asked_where_the_cover_is_enough_for_everything() -> None:
    """At 24 in neither method, nor place, nor protection matters."""
    leg = {"buried": "driveway", "cover": "24 in"}
    data = trench(
        leg,
        routes={"to-pump": {"raceway": None}},
        circuits={"pump": {"voltage": None, "breaker": {"ground-fault": None}}},
    )
    assert answer_at(data, RULE) == "met"


@pytest.mark.parametrize(
    ("patch", "place"),
    [
        ({"circuits": {"pump": {"breaker": {"ground-fault": None}}}}, "/circuits/pump/breaker/ground-fault"),
        ({"circuits": {"pump": {"voltage": None}}}, "/circuits/pump/voltage"),
        ({"circuits": {"pump": {"breaker": {"rating": None}}}}, "/circuits/pump/breaker/rating"),
        ({"site": {"premises": None}}, "/site/premises"),
    ],
)
def test_the_fact_that_matters_is_asked_for(patch: dict[str, Any], place: str) -> None:
    """At 14 in everything hangs on the small column."""
    data = merged_plan(protected(lawn("14 in")), patch)
    line = line_at(reviewed(data), RULE)
    assert line.answer.asks is not None
    assert line.answer.asks.place == place


def test_cover_itself_is_asked_for() -> None:
    """Where nothing is stated of it."""
    leg = {"buried": "lawn", "length": "30 ft"}
    assert f"{LEG}/cover" in asked(reviewed(trench(leg)))


def test_every_way_out_settles_the_leg() -> None:
    """Deeper, in rigid conduit, under concrete, or protected ahead: and each is offered only where it would do."""
    at_14 = after_each_proposal(trench(lawn("14 in")), RULE)
    assert set(at_14.values()) == {"met"}
    assert len(at_14) == 3  # concrete would ask for 18 in
    at_18 = after_each_proposal(trench(lawn("18 in")), RULE)
    assert set(at_18.values()) == {"met"}
    assert len(at_18) == 4
    at_240 = trench(lawn("14 in"), circuits={"pump": {"voltage": "240 V"}})
    assert not [words for words in after_each_proposal(at_240, RULE) if "ground-fault" in words]
    rock = after_each_proposal(trench(lawn("3 in", rock=True, **PVC)), RULE)
    assert "lay 2 in of concrete over the raceway, down to the rock" in rock
    assert set(rock.values()) == {"met"}


def test_a_receptacle_that_is_there_is_offered_as_protection() -> None:
    """It is cheaper to feed the run from its load side than to buy a breaker."""
    ways = after_each_proposal(terrace({"protects-downstream": False}), RULE, YARD)
    assert next(iter(ways)) == "feed what leaves terrace-box from the load side of terrace-outlet"
    assert set(ways.values()) == {"met"}


def test_a_metric_plan_is_told_millimetres() -> None:
    """The finding and the way out are in the plan's own units."""
    line = line_at(reviewed(trench(lawn("449 mm", **PVC))), RULE)
    assert str(line.answer.needs) == "450 mm"
    assert any(way.patch[0]["value"] == "450 mm" for way in line.answer.proposals)


def test_the_derivation_names_the_column_and_the_protection() -> None:
    """What stands ahead is named, with its place."""
    steps = steps_at(protected(lawn("14 in")), RULE)
    assert steps == [
        "ground-fault protection ahead of this leg: the breaker of circuit pump",
        "no raceway, open ground: the column of small ground-fault protected branch circuit",
    ]
