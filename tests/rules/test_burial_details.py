"""Buried wiring: places that look alike, limits that are just reached, what ways out bring along, words of the inspection list."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.rulebook import Effort
from support.reviews import example, lines, outcome, reviewed, reviewed_example
from support.trenches import SLEEVE, answer_at, garden, lawn, merged_plan, trench

LEG, CARRIED, ROUTE = "/routes/to-pump/legs/1", "/routes/to-pump/carries/pump", "/routes/to-pump"
COVER, SHOWN, ENTRY = "/cover-over-a-buried-leg", "/way-out-of-the-ground", "/protection-up-to-the-entry"
RISE = "/routes/to-pump/legs/2"
UP = {"rise": "2 ft", **SLEEVE}


def legs(*made: dict[str, Any], cable: dict[str, Any] | None = None, raceway: str = "none") -> dict[str, Any]:
    """The orchard pump with other legs between farmhouse and post."""
    data = example("orchard-pump", {"routes": {"to-pump": {"raceway": raceway, "legs": list(made)}}})
    if cable is not None:
        data["routes"]["to-pump"]["carries"]["pump"] = cable
    return data


# Cables and wires


@pytest.mark.parametrize("cable", ["USE 2-2-4 Al", "USE-2 2-2-4 Al"])
def test_the_underground_type_of_service_cable_is_met(cable: str) -> None:
    """With or without the wetter of its two letters."""
    of = reviewed(legs(UP, lawn("24 in"), UP, cable={"cable": cable}))
    assert outcome(of, "/service-entrance-cable-underground", CARRIED) == "met"


@pytest.mark.parametrize(
    ("rule", "cable"),
    [
        ("/cable-in-the-earth", {"cable": "NM-B 12/2"}),
        ("/service-entrance-cable-underground", {"cable": "SER 2-2-2-4 Al"}),
        ("/cord-in-the-ground", {"cable": "cord 12/3"}),
        (
            "/single-conductors-in-the-earth",
            {"wires": {"hot": "12 AWG Cu THHN", "neutral": "12 AWG Cu THHN", "ground": "12 AWG Cu bare"}},
        ),
    ],
)
def test_what_stays_above_ground_is_no_buried_wiring(rule: str, cable: dict[str, Any]) -> None:
    """The same on a wall, and in the earth."""
    on_wall = reviewed(legs({"on": "outside wall", "location": "wet"}, cable=cable))
    in_earth = reviewed(legs(UP, lawn("24 in"), UP, cable=cable))
    assert (outcome(on_wall, rule, CARRIED), outcome(in_earth, rule, CARRIED)) == ("does not apply", "not met")


def test_a_cable_is_no_single_conductor() -> None:
    """And wires are no cable."""
    of = reviewed_example("orchard-pump")
    assert outcome(of, "/single-conductors-in-the-earth", CARRIED) == "does not apply"


def test_bare_wires_are_named_once() -> None:
    """Hot and neutral as such, with what is to be laid instead."""
    wires = {"hot": "12 AWG Cu bare", "neutral": "12 AWG Cu bare", "ground": "12 AWG Cu bare"}
    (line,) = lines(
        reviewed(legs(UP, lawn("24 in"), UP, cable={"wires": wires})), "/single-conductors-in-the-earth", CARRIED
    )
    assert line.answer.has == "hot bare, neutral bare"
    assert [edit["path"].rpartition("/")[2] for edit in line.answer.proposals[0].patch] == ["hot", "neutral"]


# Cover


@pytest.mark.parametrize("place", ["street", "alley", "parking", "driveway"])
def test_wherever_vehicles_of_others_go_the_row_is_that_of_the_street(place: str) -> None:
    """24 in, in every column."""
    for raceway in ("none", "PVC-80 1 in"):
        data = trench(lawn("23 in", buried=place, raceway=raceway, **{"dwelling-use-only": False}))
        (line,) = lines(reviewed(data), COVER, LEG)
        assert (line.answer.outcome.value, str(line.answer.needs)) == ("not met", "24 in")


@pytest.mark.parametrize(("voltage", "expected"), [("30 V", "met"), ("31 V", "not met")])
def test_a_listed_lighting_system_of_thirty_volts(voltage: str, expected: str) -> None:
    """May lie as shallow as its instructions say."""
    data = garden(lawn("3 in"), "landscape lighting", voltage=voltage, **{"kit-depth": "3 in"})
    assert answer_at(data, COVER) == expected


@pytest.mark.parametrize(
    ("leg", "effort"),
    [
        (lawn("22 in"), Effort.DEEPER),
        (lawn("10 in"), Effort.DIGGING),
        (lawn("22 in", rock=True), Effort.DIGGING),
    ],
)
def test_what_it_takes_to_dig_deeper(leg: dict[str, Any], effort: Effort) -> None:
    """A little earth is little work; rock never is."""
    (line,) = lines(reviewed(trench(leg)), COVER, LEG)
    (deeper,) = [way for way in line.answer.proposals if way.words.startswith("bury this leg")]
    assert deeper.effort is effort


@pytest.mark.parametrize(
    ("below", "words", "edits"),
    [
        (
            "12 in",
            "bury this leg under 24 in of cover, and begin the protection where it rises as deep as it has to",
            3,
        ),
        ("18 in", "bury this leg under 24 in of cover", 1),
        ("20 in", "bury this leg under 24 in of cover", 1),
    ],
)
def test_sleeves_go_deeper_with_the_trench_only_if_they_begin_too_high(below: str, words: str, edits: int) -> None:
    """At both ends of the leg."""
    data = trench(lawn("12 in"))
    for number in (0, 2):
        data["routes"]["to-pump"]["legs"][number]["sleeve-below"] = below
    (line,) = lines(reviewed(data), COVER, LEG)
    (deeper,) = [way for way in line.answer.proposals if way.words.startswith("bury this leg")]
    assert (deeper.words, len(deeper.patch)) == (words, edits)


@pytest.mark.parametrize(
    ("leg", "raceway", "capped"),
    [
        (lawn("18 in"), "none", "lay 2 in of concrete over the wiring in the trench"),
        (lawn("17 in"), "none", None),
        (lawn("18 in", rock=True), "none", "lay 2 in of concrete over the wiring in the trench"),
        (lawn("4 in", rock=True), "PVC-80 3/4 in", "lay 2 in of concrete over the raceway, down to the rock"),
        (lawn("4 in"), "PVC-80 3/4 in", None),
        (lawn("18 in", buried="driveway", **{"dwelling-use-only": False}), "none", None),
    ],
)
def test_concrete_is_proposed_where_it_would_do(leg: dict[str, Any], raceway: str, capped: str | None) -> None:
    """In open ground at the depth of its row, or over a raceway on rock."""
    (line,) = lines(reviewed(trench({**leg, "raceway": raceway})), COVER, LEG)
    found = [way for way in line.answer.proposals if "concrete" in way.words]
    assert [way.words for way in found] == ([capped] if capped else [])


def test_a_receptacle_without_protection_is_not_told_to_feed_on() -> None:
    """Only one that has ground-fault protection of its own."""
    outlet = {"receptacle": "20 A", "voltage": "125 V", "ground-fault": False}
    data = example(
        "pottery-studio",
        {
            "boxes": {"terrace-box": {"devices": {"terrace-outlet": {**outlet, "protects-downstream": False}}}},
            "routes": {"yard": {"raceway": "none", "legs": [UP, lawn("12 in"), UP]}},
        },
    )
    (line,) = lines(reviewed(data), COVER, "/routes/yard/legs/1")
    words = [way.words for way in line.answer.proposals]
    assert "put ground-fault protection at the breaker, ahead of the buried wiring" in words
    assert not [one for one in words if "load side" in one]


def rigid(*made: dict[str, Any], raceway: str) -> list[str]:
    """The ways out in rigid metal of a leg 10 in deep."""
    data = legs(*made, raceway=raceway, cable={"wires": {"hot": "12 AWG Cu THWN-2", "neutral": "12 AWG Cu THWN-2"}})
    data["circuits"]["pump"]["breaker"]["ground-fault"] = "none"
    (line,) = lines(reviewed(data), COVER, LEG)
    found = [way for way in line.answer.proposals if "rigid metal" in way.words]
    for way in found:
        after = reviewed(applied(data, complete(data, way.patch)))
        assert outcome(after, COVER, LEG) == "met"
        assert {edit["value"] for edit in way.patch if edit["path"].endswith("wet-fittings")} == {True}
    return [way.words for way in found]


def test_rigid_metal_for_a_route_that_is_in_raceway_from_end_to_end() -> None:
    """At its depth and above it, in the size it has; not where a part is cable or plumbing pipe."""
    rise = {"rise": "2 ft"}
    pvc = "PVC-80 1 in"
    assert rigid(rise, lawn("6 in"), rise, raceway=pvc) == [
        "run the whole route in rigid metal conduit (RMC 1 in), bonded"
    ]
    assert rigid(rise, lawn("5 in"), rise, raceway=pvc) == []
    assert rigid({**rise, "raceway": "none"}, lawn("10 in"), rise, raceway=pvc) == []
    assert rigid({**rise, "raceway": "plumbing pipe 1 in"}, lawn("10 in"), rise, raceway=pvc) == []
    assert rigid(rise, lawn("10 in"), rise, raceway="none") == []


# The way out of the ground


@pytest.mark.parametrize(("beside", "expected"), [({"on": "outside wall"}, "not met"), (UP, "met")])
def test_a_bend_is_no_way_out(beside: dict[str, Any], expected: str) -> None:
    """What lies beyond it counts, on either side."""
    bend = {"bend": "90°"}
    assert answer_at(legs(beside, bend, lawn("24 in"), UP), SHOWN, "/routes/to-pump/legs/2") == expected
    assert answer_at(legs(UP, lawn("24 in"), bend, beside), SHOWN, LEG) == expected


def test_the_side_that_is_not_shown_is_named() -> None:
    """Supply or load."""
    wall = {"on": "outside wall"}
    for made, side in (((UP, lawn("24 in"), wall), "load"), ((wall, lawn("24 in"), UP), "supply")):
        (line,) = lines(reviewed(legs(*made)), SHOWN, LEG)
        assert line.answer.has == f"not shown at the {side} side"


def test_protection_that_is_proposed_has_nothing_against_it() -> None:
    """It goes to the entry and has a bushing."""
    data = trench(lawn("24 in"))
    data["routes"]["to-pump"]["legs"][2] = {"rise": "2 ft", "physical-damage": True, "slip-fitting": True}
    (line,) = lines(reviewed(data), "/protection-of-emerging-cable", RISE)
    (way,) = line.answer.proposals
    values = {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch}
    assert values == {"raceway": "PVC-80 3/4 in", "sleeve-below": "18 in", "to-entry": True, "bushing": True}


@pytest.mark.parametrize(
    ("inside_post", "raceway", "expected"),
    [(True, "none", "met"), (None, "PVC-80 3/4 in", "met"), (None, "none", "does not apply")],
)
def test_a_post_protects_as_a_raceway_does(inside_post: bool | None, raceway: str, expected: str) -> None:
    """What it begins at below grade is looked at for both."""
    data = trench(lawn("24 in"))
    rise = {**UP, "raceway": raceway, "sleeve-below": "18 in"}
    data["routes"]["to-pump"]["legs"][2] = rise | ({"inside-post": True} if inside_post else {})
    assert answer_at(data, "/protection-below-grade", RISE) == expected


def test_protection_in_a_metric_plan_is_proposed_in_metres() -> None:
    """Below grade and above it; in feet in another."""
    for below, above, said in (("200 mm", "1 m", ("450 mm", "2.5 m")), ("8 in", "3 ft", ("18 in", "8 ft"))):
        data = trench(lawn("900 mm" if below.endswith("mm") else "36 in"))
        rise = {**UP, "sleeve-below": below, "sleeve-above": above, "to-entry": False}
        data["routes"]["to-pump"]["legs"][2] = rise
        of = reviewed(data)
        (low,) = lines(of, "/protection-below-grade", RISE)
        (high,) = lines(of, "/protection-above-grade", RISE)
        assert (low.answer.proposals[0].words, high.answer.proposals[1].words) == (
            f"begin it {said[0]} below grade",
            f"carry it up to {said[1]}",
        )


@pytest.mark.parametrize(
    ("area", "leg", "expected"),
    [
        ("outdoors", [], "does not apply"),
        ("ground", [], "does not apply"),
        ("indoors", [], "not met"),
        ("outdoors", [{"through": "wall"}], "not met"),
    ],
)
def test_what_goes_into_a_building_is_protected_as_far_as_there(
    area: str, leg: list[dict[str, Any]], expected: str
) -> None:
    """A box outdoors or in the ground is in no building; through a wall the way goes into one."""
    data = legs(UP, lawn("24 in"), {**UP, "to-entry": False}, *leg)
    data["structures"]["pump-post"]["use"] = "accessory"
    data["boxes"]["post-box"]["area"] = area
    assert answer_at(data, ENTRY, RISE) == expected
    if expected == "not met":
        (line,) = lines(reviewed(data), ENTRY, RISE)
        (way,) = line.answer.proposals
        assert answer_at(applied(data, complete(data, way.patch)), ENTRY, RISE) == "met"


def test_a_rise_out_of_no_ground_has_no_entry_to_reach() -> None:
    """Only what comes out of the ground is looked at."""
    assert answer_at(legs(UP, {"on": "outside wall"}), ENTRY, "/routes/to-pump/legs/0") == "does not apply"


def test_low_voltage_wiring_beside_line_voltage_is_not_alone() -> None:
    """A route that carries both is looked at."""
    both = merged_plan(
        garden(lawn("24 in")),
        {
            "routes": {
                "feed": {"legs": [{"on": "inside wall"}]},
                "to-pump": {"carries": {"pump": {"cable": "UF-B 12/2"}}},
            }
        },
    )
    assert answer_at(garden(lawn("24 in")), SHOWN) == "does not apply"
    assert answer_at(both, SHOWN) == "met"


# Raceways


@pytest.mark.parametrize(
    ("raceway", "texts"), [("FMC 1 in", ["RMC 1 in", "PVC-80 1 in"]), ("PVC-40 1 in", ["PVC-80 1 in"])]
)
def test_a_stronger_raceway_of_the_same_size(raceway: str, texts: list[str]) -> None:
    """Metal for metal, with fittings for wet places, or thick-walled plastic."""
    data = trench(lawn("24 in"))
    data["routes"]["to-pump"]["legs"][2]["raceway"] = raceway
    (line,) = lines(reviewed(data), "/raceway-where-it-can-be-hit", RISE)
    assert [way.words for way in line.answer.proposals] == [f"use {text} here" for text in texts]
    for way, text in zip(line.answer.proposals, texts, strict=True):
        fittings = [edit["value"] for edit in way.patch if edit["path"].endswith("/wet-fittings")]
        assert fittings == ([True] if text.startswith("RMC") else [])


@pytest.mark.parametrize(
    ("data", "expected", "said"),
    [
        (legs(UP, lawn("24 in"), UP, raceway="PVC-80 1 in"), "not met", "The PVC-80 1 in is put together"),
        (legs(UP, lawn("24 in"), UP), "does not apply", None),
        (legs({"on": "outside wall"}, raceway="PVC-80 1 in"), "does not apply", None),
    ],
)
def test_a_raceway_that_is_put_together_before_the_pull(data: dict[str, Any], expected: str, said: str | None) -> None:
    """One in the ground."""
    data["routes"]["to-pump"]["complete-before-pull"] = False
    of = reviewed(data)
    assert outcome(of, "/raceway-complete-before-the-pull", ROUTE) == expected
    found = [one.says for one in of.inspect if one.item.id.endswith("/raceway-complete")]
    assert [one.startswith(str(said)) for one in found] == ([True] if said else [])


def test_a_spare_raceway_and_one_that_is_not_named() -> None:
    """Nothing is pulled into a spare one yet; one of no name is just a raceway."""
    spare = {
        "routes": {
            "spare": {
                "from": "farmhouse-panel",
                "to": "post-box",
                "raceway": "PVC-80 1 in",
                "complete-before-pull": False,
                "carries": {},
                "legs": [UP, lawn("24 in"), UP],
            }
        }
    }
    of = reviewed_example("orchard-pump", spare)
    assert outcome(of, "/raceway-complete-before-the-pull", "/routes/spare") == "does not apply"
    assert not [one for one in of.inspect if one.item.id.endswith("/raceway-complete")]
    assert not [one for one in of.inspect if one.item.id.endswith("/splices-in-the-ground") and "spare" in one.subject]
    unnamed = legs({"rise": "2 ft"}, lawn("24 in"), {"rise": "2 ft"})
    del unnamed["routes"]["to-pump"]["raceway"]
    says = [one.says for one in reviewed(unnamed).inspect if one.item.id.endswith("/raceway-complete")]
    assert says and says[0].startswith("The raceway is put together")


def test_several_metal_raceways_are_named_together() -> None:
    """Each part of them is bonded."""
    metal = {"rise": "2 ft", "raceway": "RMC 1 in"}
    of = reviewed(legs(metal, lawn("24 in", raceway="IMC 1 in"), UP))
    (says,) = [one.says for one in of.inspect if one.item.id.endswith("/bonding-of-metal-raceway")]
    assert says.startswith("Each part of RMC 1 in and IMC 1 in is bonded")


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        (lawn("24 in", raceway="none"), lawn("24 in", raceway="none"), "on both ends of the PVC-80 1 in"),
        (lawn("24 in", raceway="none"), UP, "on the end of the PVC-80 1 in"),
        ({"rise": "2 ft", "raceway": "PVC-80 1 in"}, UP, None),
    ],
)
def test_a_sleeve_in_the_trench(first: dict[str, Any], last: dict[str, Any], said: str | None) -> None:
    """A bushing where cable lies open beside it."""
    of = reviewed(legs(first, lawn("24 in", raceway="PVC-80 1 in"), last))
    found = [one.says for one in of.inspect if one.item.id.endswith("/ends-of-a-sleeve-in-the-ground")]
    assert [str(said) in one for one in found] == ([True] if said else [])


# Seals


def test_both_sides_are_named_and_both_sealed() -> None:
    """Where a raceway enters a building at either end."""
    data = legs({"rise": "2 ft"}, lawn("24 in"), {"rise": "2 ft"}, raceway="PVC-80 1 in")
    data["structures"]["pump-post"]["use"] = "accessory"
    data["boxes"]["post-box"]["area"] = "indoors"
    data["routes"]["to-pump"] |= {"seal-at-from": False, "seal-at-to": False}
    (line,) = lines(reviewed(data), "/seal-where-a-raceway-enters", ROUTE)
    assert line.answer.has == "none at the supply and load side"
    assert [edit["path"] for edit in line.answer.proposals[0].patch] == [f"{ROUTE}/seal-at-from", f"{ROUTE}/seal-at-to"]
    data["boxes"]["post-box"]["area"] = "ground"
    (line,) = lines(reviewed(data), "/seal-where-a-raceway-enters", ROUTE)
    assert line.answer.has == "none at the supply side"


@pytest.mark.parametrize(
    ("sealed_at_post", "rows"),
    [(True, ("seal-raceway-entering-building",)), (False, ())],
)
def test_the_row_of_the_entry_is_cited_where_the_ground_is_sealed_elsewhere(
    sealed_at_post: bool, rows: tuple[str, ...]
) -> None:
    """Both requirements else."""
    data = legs({"rise": "2 ft"}, lawn("24 in"), {"rise": "2 ft"}, raceway="PVC-80 1 in")
    data["routes"]["to-pump"] |= {"seal-at-from": False, "seal-at-to": sealed_at_post}
    (line,) = lines(reviewed(data), "/seal-where-a-raceway-enters", ROUTE)
    assert (line.answer.outcome.value, line.answer.rows) == ("not met", rows)


@pytest.mark.parametrize(
    ("inner", "expected"),
    [
        ({"in": "wall framing"}, "not met"),
        ({"on": "inside wall"}, "not met"),
        ({"on": "ceiling"}, "not met"),
        ({"on": "outside wall"}, "does not apply"),
    ],
)
def test_a_passage_leads_indoors_if_the_next_leg_does(inner: dict[str, Any], expected: str) -> None:
    """Whatever the box at the end is said to be in; one that leads along an outside wall again does not."""
    data = legs({"on": "outside wall"}, {"through": "wall", "sealed": False}, inner, raceway="EMT 1 in")
    assert answer_at(data, "/seal-between-warm-and-cold", LEG) == expected


@pytest.mark.parametrize(
    ("raceway", "said"), [("PVC-80 1 in", "The PVC-80 1 in from the ground"), (None, "The raceway from the ground")]
)
def test_the_raceway_that_is_sealed_is_named(raceway: str | None, said: str) -> None:
    """By what the plan calls it."""
    made = {"rise": "2 ft", "raceway": "PVC-80 1 in"}
    data = legs(made, lawn("24 in", raceway="PVC-80 1 in"), made, raceway="PVC-80 1 in")
    if raceway is None:
        del data["routes"]["to-pump"]["raceway"]
    (says,) = [one.says for one in reviewed(data).inspect if one.item.id.endswith("/seal-of-a-raceway-from-the-ground")]
    assert says.startswith(said)
