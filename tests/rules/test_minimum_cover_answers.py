"""What the minimum-cover rule asks for, what it offers, and how it comes to its answer."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from support.reviews import asked, example, reviewed
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
            lawn(cover, raceway=raceway),
            routes={"to-pump": {"carries": {"pump": None}}},
            boxes={"post-box": {"devices": None}},
        )
        assert answer_at(data, RULE) == answer
    bare = trench(lawn("3 in"), routes={"to-pump": {"carries": {"pump": None}}}, boxes={"post-box": {"devices": None}})
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
    """Deeper, under concrete, or protected ahead: and each is offered only where it would do."""
    at_14 = after_each_proposal(trench(lawn("14 in")), RULE)
    assert set(at_14.values()) == {"met"}
    assert len(at_14) == 2  # concrete would ask for 18 in
    at_18 = after_each_proposal(trench(lawn("18 in")), RULE)
    assert set(at_18.values()) == {"met"}
    assert len(at_18) == 3
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


def _piped(cover: str, raceway: str = "PVC-40 1 in") -> dict[str, Any]:
    """The yard of the joinery workshop, in raceway from end to end."""
    rise = {"rise": "2 ft", "to-entry": True, "physical-damage": False, "slip-fitting": True}
    return example("joinery-workshop", {"routes": {"yard": {"raceway": raceway, "legs": [rise, lawn(cover), rise]}}})


def test_rigid_metal_is_for_the_whole_route() -> None:
    """Never one leg of it, nor a piece around cable: metal that nothing bonds can stay live after a fault."""
    ways = line_at(reviewed(_piped("8 in")), RULE, "/routes/yard/legs/1").answer.proposals
    (metal,) = [way for way in ways if "rigid metal" in way.words]
    assert [step["path"] for step in metal.patch] == [
        "/routes/yard/raceway",
        "/routes/yard/legs/0/wet-fittings",
        "/routes/yard/legs/2/wet-fittings",
    ]
    assert after_each_proposal(_piped("8 in"), RULE, "/routes/yard/legs/1")[metal.words] == "met"
    ways = line_at(reviewed(trench(lawn("8 in"))), RULE).answer.proposals
    assert ways
    assert not [way for way in ways if "metal" in way.words]


@pytest.mark.parametrize(("cover", "first"), [("17 in", "bury"), ("12 in", "bury"), ("11 in", "run the whole route")])
def test_a_small_shortfall_is_dug_away_first(cover: str, first: str) -> None:
    """An inch deeper is less than 40 ft of other conduit."""
    ways = line_at(reviewed(_piped(cover)), RULE, "/routes/yard/legs/1").answer.proposals
    assert ways[0].words.startswith(first)


@pytest.mark.parametrize(
    ("data", "needed"),
    [
        (protected(lawn("11 in")), "12 in"),
        (protected(lawn("11 in", **PVC)), "12 in"),
        (garden(lawn("4 in")), "6 in"),
        (trench(lawn("11 in")), "24 in"),
    ],
)
def test_what_is_needed_is_the_depth_of_the_column_that_the_circuit_qualifies_for(
    data: dict[str, Any], needed: str
) -> None:
    """Also where the leg is too shallow for that column."""
    answer = line_at(reviewed(data), RULE).answer
    assert (answer.outcome.value, str(answer.needs)) == ("not met", needed)


def test_a_fact_that_would_change_the_depth_is_named() -> None:
    """Where the leg is too shallow either way, nobody digs to the wrong depth for want of a word."""
    answer = line_at(reviewed(trench({"buried": "driveway", "cover": "8 in"})), RULE).answer
    assert (answer.outcome.value, str(answer.needs)) == ("not met", "24 in")
    assert answer.why == "or 18 in where dwelling-use-only is true"
    assert any(way.patch[0]["value"] == "24 in" for way in answer.proposals)
    slab = {"buried": "slab", "cover": "3 in", "slab": {"thickness": "4 in", "reaches-past": "6 in"}, **PVC}
    answer = line_at(reviewed(trench(slab)), RULE).answer
    assert (answer.outcome.value, str(answer.needs)) == ("not met", "24 in")
    assert answer.why == "or 18 in where dwelling-use-only is true; or 4 in where vehicles is false"
    unsaid = trench(lawn("4 in"), circuits={"pump": {"breaker": {"ground-fault": None}}})
    answer = line_at(reviewed(unsaid), RULE).answer
    assert (answer.outcome.value, str(answer.needs)) == ("not met", "24 in")
    assert answer.why == "or 12 in if it qualifies as small ground-fault protected branch circuit"


def test_sleeves_go_deeper_with_the_trench() -> None:
    """A sleeve from the bottom of a shallow trench is no finding of its own, and is not left behind."""
    data = trench(lawn("12 in"), circuits={"pump": {"voltage": "240 V"}})
    for leg in (0, 2):
        data["routes"]["to-pump"]["legs"][leg]["sleeve-below"] = "12 in"
    assert answer_at(data, "protection-below-grade", "/routes/to-pump/legs/0") == "does not apply"
    deeper = next(way for way in line_at(reviewed(data), RULE).answer.proposals if "bury" in way.words)
    assert [step["value"] for step in deeper.patch] == ["24 in", "18 in", "18 in"]
    after = applied(data, complete(data, deeper.patch))
    assert answer_at(after, "protection-below-grade", "/routes/to-pump/legs/0") == "met"
