"""Raceways: their smallest size, supports, and the straight runs that move."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from support.reviews import asked, example, reviewed
from support.trenches import after_each_proposal, line_at

SMALLEST, EXPANSION = "smallest-raceway", "expansion-of-a-straight-run"
YARD, PLANER = "/routes/yard", "/routes/planer-run"
WALL = {"on": "inside wall", "length": "9 ft", "location": "dry"}


def planer(legs: list[dict[str, Any]], devices: dict[str, Any] | None = None, **route: Any) -> dict[str, Any]:
    """The joinery workshop with another way to its planer, and what is there."""
    boxes = {"planer-box": {"devices": {"planer-outlet": None, **devices}}} if devices else {}
    return example("joinery-workshop", {"boxes": boxes, "routes": {"planer-run": {"legs": legs, **route}}})


def inspected(of: Review, item: str, subject: str = "") -> str:
    """What the inspection list says under this item; empty where it does not come up."""
    said = [entry.says for entry in of.inspect if entry.item.id == item and entry.subject == subject]
    assert len(said) < 2
    assert of.failures == ()
    return "".join(said)


# The smallest trade size

MOTOR = {"planer": {"motor": "1 hp"}}
WHIP = {"on": "inside wall", "length": "3 ft", "raceway": "FMC 3/8 in"}


@pytest.mark.parametrize(
    ("legs", "devices", "raceway", "expected", "place"),
    [
        ([WALL, WHIP], MOTOR, "EMT 1/2 in", "met", f"{PLANER}/legs/1"),
        ([WALL, WHIP, WHIP], MOTOR, "EMT 1/2 in", "met", f"{PLANER}/legs/1"),
        ([WALL, WHIP, WHIP, WHIP], MOTOR, "EMT 1/2 in", "not met", f"{PLANER}/legs/1"),  # 9 ft together
        ([WALL, {**WHIP, "raceway": "EMT 1/2 in"}], MOTOR, "FMC 3/8 in", "not met", PLANER),
        ([{**WALL, "raceway": "EMT 1/2 in"}, WHIP], MOTOR, "FMC 3/8 in", "met", PLANER),  # 3 ft of it
        ([WALL, WHIP, {**WHIP, "raceway": "EMT 3/8 in"}], MOTOR, "EMT 1/2 in", "not met", f"{PLANER}/legs/2"),
        ([WHIP, {"bend": "90°"}, WHIP], MOTOR, "EMT 1/2 in", "met", f"{PLANER}/legs/0"),
        ([WALL, WHIP], {"fan": {"equipment": "fan"}, "shutoff": {"switch": "20 A"}}, "EMT 1/2 in", "met", f"{PLANER}/legs/1"),
        ([WALL, WHIP], {"warm": {"heater": "1 kW"}}, "EMT 1/2 in", "met", f"{PLANER}/legs/1"),
        ([WALL, WHIP], {"lamp": {"luminaire": "40 W"}}, "EMT 1/2 in", "met", f"{PLANER}/legs/1"),
        ([WALL, WHIP], {"outlet": {"receptacle": "20 A"}}, "EMT 1/2 in", "not met", f"{PLANER}/legs/1"),
    ],
)  # fmt: skip
def test_short_flexible_ends(
    legs: list[dict[str, Any]], devices: dict[str, Any], raceway: str, expected: str, place: str
) -> None:
    """Up to 6 ft of 3/8 in all, at equipment; every part of it is looked at."""
    data = planer(legs, devices, raceway=raceway)
    line = line_at(reviewed(data), SMALLEST, PLANER)
    assert (line.answer.outcome.value, line.place) == (expected, f"{place}/raceway")
    if expected == "not met":
        assert set(after_each_proposal(data, SMALLEST, PLANER).values()) == {"met"}


def test_a_flexible_run_to_a_panel_is_no_end_at_equipment() -> None:
    """The yard ends at the workshop's panel."""
    data = example(
        "joinery-workshop", {"routes": {"yard": {"raceway": "LFMC 3/8 in", "legs": [{**WALL, "length": "3 ft"}]}}}
    )
    assert line_at(reviewed(data), SMALLEST, YARD).answer.outcome.value == "not met"


def test_each_part_is_made_larger_in_its_own_type() -> None:
    """All that is too small."""
    line = line_at(reviewed(planer([WHIP, {**WHIP, "raceway": "EMT 3/8 in"}], MOTOR)), SMALLEST, PLANER)
    (way,) = line.answer.proposals
    assert way.words == "use FMC 1/2 in and EMT 1/2 in"
    assert [edit["path"] for edit in way.patch] == [f"{PLANER}/legs/0/raceway", f"{PLANER}/legs/1/raceway"]


def test_the_smallest_of_several_is_told() -> None:
    """By its size, not by how it is written."""
    legs = [
        {**WALL, "raceway": "EMT 1-1/4 in"},
        {**WALL, "raceway": "EMT 3/4 in"},
        {**WALL, "raceway": "plumbing pipe 1/2 in"},
    ]
    answer = line_at(reviewed(planer(legs, raceway="EMT 2 in")), SMALLEST, PLANER).answer
    assert (answer.outcome.value, answer.has, answer.needs) == ("met", "3/4", "at least 1/2")
    pipe = line_at(reviewed(planer([WALL], raceway="plumbing pipe 3/8 in")), SMALLEST, PLANER).answer
    assert (pipe.outcome.value, pipe.why) == ("does not apply", "no raceway")


# Supports


@pytest.mark.parametrize(
    ("rule", "key", "raceway", "short", "words"),
    [
        ("spacing-of-supports", "support-spacing", "EMT 3/4 in", "11 ft", "fasten it every 10 ft"),
        ("spacing-of-supports", "support-spacing", "PVC-40 2 in", "6 ft", "fasten it every 5 ft"),
        ("support-near-the-end", "support-from-end", "EMT 3/4 in", "4 ft", "fasten it within 36 in of each end"),
        ("support-near-the-end", "support-from-end", "LFNC 3/4 in", "2 ft", "fasten it within 12 in of each end"),
    ],
)
def test_supports_that_are_too_far_apart(rule: str, key: str, raceway: str, short: str, words: str) -> None:
    """The mark is on the distance, and the way out says how far it may be."""
    data = planer([{**WALL, key: short}], raceway=raceway)
    place = f"{PLANER}/legs/0"
    line = line_at(reviewed(data), rule, place)
    assert (line.place, line.steps) == (f"{place}/{key}", ((raceway, place),))
    assert after_each_proposal(data, rule, place) == {words: "met"}


@pytest.mark.parametrize(
    ("raceway", "row"), [("EMT 3/4 in", "raceway-support"), ("FMC 3/4 in", "liquidtight-flex-length")]
)
def test_the_row_of_a_support_near_the_end(raceway: str, row: str) -> None:
    """Flexible raceway has its own."""
    data = planer([{**WALL, "support-from-end": "1 ft"}], raceway=raceway)
    assert line_at(reviewed(data), "support-near-the-end", f"{PLANER}/legs/0").answer.rows == (row,)


@pytest.mark.parametrize("rule", ["spacing-of-supports", "support-near-the-end"])
@pytest.mark.parametrize(
    ("raceway", "facts", "why"),
    [
        ("EMT 3/4 in", {}, "stated: it is on the inspection list"),
        ("none", {"support-spacing": "9 ft", "support-from-end": "9 ft"}, "no raceway with a"),
        ("RTRC 3/4 in", {"support-spacing": "9 ft", "support-from-end": "9 ft"}, "no raceway with a"),
        ("plumbing pipe 3/4 in", {"support-spacing": "9 ft", "support-from-end": "9 ft"}, "no raceway with a"),
    ],
)
def test_supports_that_are_not_looked_at(rule: str, raceway: str, facts: dict[str, Any], why: str) -> None:
    """What the plan does not state, and what has no distance in the table."""
    answer = line_at(reviewed(planer([WALL | facts], raceway=raceway)), rule, f"{PLANER}/legs/0").answer
    assert answer.outcome.value == "does not apply"
    assert why in answer.why


SPACED, ENDED = {**WALL, "support-spacing": "9 ft"}, {**WALL, "support-from-end": "2 ft"}
EMT_HELD = "EMT 3/4 in is fastened within 36 in of each box or panel and every 10 ft"
FMC_HELD = "FMC 3/4 in is fastened within 12 in of each box or panel and every 4.5 ft"


@pytest.mark.parametrize(
    ("legs", "raceway", "says"),
    [
        ([WALL], "EMT 3/4 in", f"{EMT_HELD}."),
        ([SPACED], "EMT 3/4 in", f"{EMT_HELD}."),
        ([ENDED], "EMT 3/4 in", f"{EMT_HELD}."),
        ([SPACED | ENDED], "EMT 3/4 in", ""),
        ([{"in": "wall framing"}], "EMT 3/4 in", f"{EMT_HELD}."),
        ([WALL, {"on": "ceiling", "raceway": "FMC 3/4 in"}], "EMT 3/4 in", f"{EMT_HELD}; {FMC_HELD}."),
        ([{"buried": "lawn"}], "EMT 3/4 in", ""),
        ([WALL], "RTRC 3/4 in", ""),
        ([WALL], "none", ""),
        ([WALL], None, ""),
        ([{**WALL, "raceway": "EMT 3/4 in"}], "none", f"{EMT_HELD}."),
    ],
)
def test_supports_on_the_inspection_list(legs: list[dict[str, Any]], raceway: str | None, says: str) -> None:
    """Each raceway above ground once, unless the plan states both distances."""
    of = reviewed(planer(legs, raceway=raceway))
    assert inspected(of, "raceway/supports/supports-as-built", PLANER) == says


def test_flexible_ends_on_the_inspection_list() -> None:
    """Those that a route names, in order."""
    legs = [WALL, {**WHIP, "raceway": "LFMC 1/2 in"}, {**WHIP, "raceway": "FMC 1/2 in"}]
    said = inspected(reviewed(planer(legs)), "raceway/supports/flexible-ends", PLANER)
    assert said.startswith("FMC 1/2 in, LFMC 1/2 in: loose over no more than 3 ft")
    assert inspected(reviewed(planer([WALL])), "raceway/supports/flexible-ends", PLANER) == ""


# Straight runs that move

OUTSIDE = {"on": "outside wall", "location": "wet", "physical-damage": False, "sunlight": False}


def moved(*legs: dict[str, Any], raceway: str | None = "PVC-80 3/4 in", **site: Any) -> Line:
    """What is said of the straight runs of the pottery studio's yard; from 5 to 92 °F a foot of PVC moves 0.0353 in."""
    data = example("pottery-studio", {"site": site, "routes": {"yard": {"raceway": raceway, "legs": list(legs)}}})
    return line_at(reviewed(data), EXPANSION, YARD)


def wall(feet: str, on: str = "outside wall", **more: Any) -> dict[str, Any]:
    """A straight run without a fitting."""
    return {**OUTSIDE, "on": on, "length": feet, "expansion-fitting": False, **more}


BEND = {"bend": "90°"}


@pytest.mark.parametrize(
    ("legs", "expected", "has"),
    [
        ([wall("7 ft")], "met", "moves 0.247 in"),
        ([wall("6.89 ft")], "met", "moves 0.243 in"),
        ([wall("2.1 m")], "not met", "moves 0.243 in, no fitting"),  # 6.2 mm, where 6 mm are the limit
        ([wall("2 m")], "met", "moves 0.232 in"),
        ([wall("4 ft"), wall("4 ft", "fence")], "not met", "moves 0.282 in, no fitting"),
        ([wall("4 ft"), BEND, wall("5 ft")], "met", "moves 0.176 in"),  # the longer of the two
        ([{"rise": "4 ft", "length": "9 ft"}, wall("4 ft")], "not met", "moves 0.282 in, no fitting"),
        ([{"rise": "4 ft"}, wall("3 ft")], "met", "moves 0.247 in"),
        ([wall("4 ft"), {"rise": "4 ft"}], "not met", "moves 0.282 in, no fitting"),
        ([wall("5 ft", sunlight=True)], "met", "moves 0.237 in"),  # 117 °F
        ([wall("6 ft", sunlight=True)], "not met", "moves 0.285 in, no fitting"),
        ([{"rise": "2 ft", "sunlight": True}, wall("4 ft")], "not met", "moves 0.285 in, no fitting"),
        ([wall("20 ft", **{"expansion-fitting": True})], "met", "with an expansion fitting"),
        ([wall("20 ft"), wall("4 ft", "fence", **{"expansion-fitting": True})], "met", "with an expansion fitting"),
        ([{"rise": "2 ft", "slip-fitting": True}, wall("20 ft")], "met", "with an expansion fitting"),
        ([{"rise": "2 ft", "slip-fitting": False}, wall("20 ft")], "not met", "moves 0.776 in, no fitting"),
        ([wall("20 ft", "post")], "not met", "moves 0.706 in, no fitting"),
    ],
)
def test_how_far_a_run_moves(legs: list[dict[str, Any]], expected: str, has: str) -> None:
    """Less than 1/4 in (6 mm) it needs no fitting; what goes straight on belongs to the run."""
    answer = moved(*legs).answer
    assert (answer.outcome.value, answer.has) == (expected, has)


@pytest.mark.parametrize(
    ("legs", "raceway", "why"),
    [
        ([wall("20 ft")], "none", "no raceway"),
        ([wall("20 ft")], "RMC 3/4 in", "no straight run of PVC fastened outdoors"),
        ([wall("20 ft", "inside wall")], "PVC-80 3/4 in", "no straight run of PVC fastened outdoors"),
        ([{"rise": "20 ft"}, {"buried": "lawn", "length": "20 ft"}], "PVC-80 3/4 in", "no straight run of PVC fastened outdoors"),
    ],
)  # fmt: skip
def test_what_does_not_move(legs: list[dict[str, Any]], raceway: str, why: str) -> None:
    """Other raceway, and PVC indoors or in the ground."""
    answer = moved(*legs, raceway=raceway).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


def test_an_unnamed_raceway_may_be_of_pvc() -> None:
    """It is asked for; both thicknesses of PVC move alike."""
    line = moved(wall("20 ft"), raceway=None)
    assert line.answer.outcome.value == "cannot tell"
    assert line.answer.asks is not None
    assert line.answer.asks.place == f"{YARD}/raceway"
    assert moved(wall("20 ft"), raceway="PVC-40 3/4 in").answer.outcome.value == "not met"


def test_the_derivation_of_a_run() -> None:
    """Length, swing and sun, at the leg on the wall; the mark is on its fitting."""
    line = moved({"rise": "2 ft"}, wall("6 ft", sunlight=True))
    place = f"{YARD}/legs/1"
    assert line.steps == (("8 ft over 87 °F and 30 °F of sun: 0.38 in", place),)
    assert (line.place, line.answer.needs) == (f"{place}/expansion-fitting", "under 1/4 in, or an expansion fitting")


def test_several_runs_are_told_as_one() -> None:
    """The longest is named, and a fitting offered for each that moves."""
    answer = moved(wall("10 ft"), BEND, wall("30 ft"), BEND, wall("5 ft"), BEND, wall("20 ft")).answer
    assert (answer.has, answer.why) == ("moves 1.059 in, no fitting", "as do 2 more runs of this route")
    (way,) = answer.proposals
    assert way.words == "put an expansion fitting in each of these 3 runs"
    assert [edit["path"] for edit in way.patch] == [f"{YARD}/legs/{n}/expansion-fitting" for n in (2, 6, 0)]
    two = moved(wall("10 ft"), BEND, wall("20 ft")).answer
    assert (two.has, two.why) == ("moves 0.706 in, no fitting", "as does another run of this route")
    assert [way.words for way in two.proposals] == ["put an expansion fitting in each of these 2 runs"]
    one = moved(wall("10 ft"), BEND, wall("5 ft")).answer
    assert [(way.words, *(edit["value"] for edit in way.patch)) for way in one.proposals] == [
        ("put an expansion fitting in this run", True)
    ]


def test_a_length_is_asked_for_only_where_it_decides() -> None:
    """A run with a fitting needs none."""
    unmeasured = {**OUTSIDE, "expansion-fitting": False}
    assert moved(unmeasured).answer.outcome.value == "cannot tell"
    assert moved(unmeasured, BEND, wall("20 ft")).answer.outcome.value == "not met"
    assert moved({**unmeasured, "expansion-fitting": True}).answer.outcome.value == "met"
    data = example("pottery-studio", {"routes": {"yard": {"legs": [{**wall("20 ft"), "expansion-fitting": None}]}}})
    del data["routes"]["yard"]["legs"][0]["expansion-fitting"]
    assert f"{YARD}/legs/0/expansion-fitting" in asked(reviewed(data))
