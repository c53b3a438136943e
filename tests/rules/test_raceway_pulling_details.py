"""How hard a pull is, what it is compared with, and which three wires jam."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line
from support.offered import taken
from support.reviews import example, reviewed
from support.trenches import after_each_proposal, line_at

PULL, JAM = "tension-of-the-pull", "wires-that-jam"
YARD, PLANER = "/routes/yard", "/routes/planer-run"
WALL = {"on": "inside wall", "length": "9 ft", "location": "dry"}
QUARTER = {"bend": "90°"}


def feet(length: int) -> dict[str, Any]:
    """A straight stretch in the ground."""
    return {"buried": "lawn", "length": f"{length} ft", "cover": "20 in"}


def pulled(legs: list[dict[str, Any]], wires: dict[str, Any] | None = None, **route: Any) -> dict[str, Any]:
    """The joinery workshop with other legs in its yard: three 6 AWG and a 10 AWG ground, unless other wires are given."""
    carries = {"workshop-feeder": {"wires": {"neutral": None, "ground": None, **wires}}} if wires else {}
    return example("joinery-workshop", {"routes": {"yard": {"legs": legs, "carries": carries, **route}}})


def told(data: dict[str, Any]) -> tuple[str, str, str]:
    """The answer on the pull, its tension and pressure, and the most that they may be."""
    answer = line_at(reviewed(data), PULL, YARD).answer
    return answer.outcome.value, str(answer.has), str(answer.needs)


@pytest.mark.parametrize(
    ("wires", "pounds"),
    [
        ({"hot": "30 × 6 AWG Cu THHN"}, "2.93"),  # metal 0.0206 in² at 8.89 g/cm³, the rest of 0.0507 in² at 1.4
        ({"hot": "30 × 6 AWG Cu RHW-2"}, "3.90"),  # with its covering 0.1041 in²
        ({"hot": "30 × 6 AWG Cu ZW"}, "3.90"),  # no dimensions published: as the thickest
        ({"hot": "30 × 500 kcmil Cu THHN"}, "51.13"),
        ({"hot": "30 × 600 kcmil Cu THHN"}, "54.49"),  # beyond the dimension table its metal alone
        ({"hot": "30 × 4/0 AWG Al XHHW-2"}, "22.01"),  # reckoned as copper
        ({"hot": "30 × 6 AWG Cu THHN", "ground": "20 × 6 AWG Cu bare"}, "4.52"),  # 2.93, and 1.59 of metal alone
        ({"hot": "30 × 6 AWG Cu THHN", "neutral": "30 × 10 AWG Cu THHN"}, "4.11"),  # 2.93 and 1.18
    ],
)
def test_weight_of_what_is_pulled(wires: dict[str, str], pounds: str) -> None:
    """Metal and insulation of all wires together."""
    line = line_at(reviewed(pulled([WALL, WALL], wires)), PULL, YARD)
    assert line.steps[0][0] == f"{pounds} lb/ft, dry friction 0.5, from the easier end"


@pytest.mark.parametrize(
    ("wires", "pounds"),
    [
        (
            {"hot": "2 × 6 AWG Cu THHN", "neutral": "6 AWG Cu THHN", "ground": "10 AWG Cu THHN"},
            630,
        ),  # 3 × 26,250 × 0.008
        ({"hot": "2 × 6 AWG Al XHHW-2", "neutral": "6 AWG Al XHHW-2"}, 473),  # by 0.006
        ({"hot": "2 × 6 AWG Cu THHN", "ground": "6 AWG Cu bare"}, 420),  # a bare ground is not pulled on
        ({"hot": "2 × 2 AWG Cu THHN", "neutral": "4 AWG Cu THHN"}, 1002),  # as if all were the 4 AWG
        (
            {"hot": "2 × 2 AWG Al XHHW-2", "neutral": "4 AWG Cu THHN"},
            1002,
        ),  # 41,740 × 0.008 is less than 66,360 × 0.006
        ({"hot": "2 × 4 AWG Cu THHN", "neutral": "3 AWG Al XHHW-2"}, 947),  # 52,620 × 0.006 is less than 41,740 × 0.008
        ({"hot": "2 × 600 kcmil Cu THHN"}, 9600),
    ],
)
def test_what_the_wires_stand(wires: dict[str, str], pounds: int) -> None:
    """By the weakest of those that take the pull."""
    assert told(pulled([WALL, WALL], wires))[2] == f"at most {pounds} lb, 300 lb/ft"


LARGE = {"hot": "3 × 500 kcmil Cu THHN"}
"""5.11 lb/ft, which stand 12,000 lb."""


@pytest.mark.parametrize(
    ("legs", "wires", "expected", "has"),
    [
        ([feet(600), QUARTER, WALL], None, "met", "103 lb, 5 lb/ft on a bend"),  # the bend first, where it is light
        ([WALL, QUARTER, feet(600)], None, "met", "103 lb, 5 lb/ft on a bend"),
        ([feet(300), feet(300)], None, "met", "100 lb, 0 lb/ft on a bend"),  # by half of 0.332 lb for each foot
        ([feet(4000), WALL], None, "not met", "666 lb, 0 lb/ft on a bend"),
        (
            [feet(400), QUARTER, feet(400)],
            None,
            "met",
            "212 lb, 241 lb/ft on a bend",
        ),  # 66.5 lb by e^0.785, over 0.604 ft
        ([feet(600), QUARTER, feet(600)], None, "not met", "318 lb, 362 lb/ft on a bend"),
        ([feet(600), {**QUARTER, "radius": "3 ft"}, feet(600)], None, "met", "318 lb, 73 lb/ft on a bend"),
        ([feet(600), {**QUARTER, "radius": "0 in"}, feet(600)], None, "met", "199 lb, 0 lb/ft on a bend"),
        ([feet(600), {"bend": "45°"}, feet(600)], None, "met", "247 lb, 244 lb/ft on a bend"),
        ([{"rise": "600 ft"}, WALL], None, "met", "101 lb, 0 lb/ft on a bend"),
        ([{"rise": "2 ft", "length": "600 ft"}, WALL], None, "met", "101 lb, 0 lb/ft on a bend"),
        ([feet(800), QUARTER, feet(800)], LARGE, "not met", "6531 lb, 5667 lb/ft on a bend"),
    ],
)
def test_tension_and_pressure(
    legs: list[dict[str, Any]], wires: dict[str, Any] | None, expected: str, has: str
) -> None:
    """Half of the weight for each foot; a quarter bend multiplies it by 2.19; the pressure is that over its radius."""
    raceway = "PVC-80 2 in" if wires else "PVC-80 1-1/4 in"
    assert told(pulled(legs, wires, raceway=raceway))[:2] == (expected, has)


@pytest.mark.parametrize(
    ("legs", "wires", "ways"),
    [
        ([feet(600), QUARTER, feet(600)], None, {"use elbows with a radius of 3 ft": "met"}),
        ([feet(4000), WALL], None, {}),  # no bend
        ([feet(1200), QUARTER, feet(1200)], None, {}),  # 637 lb are too many, though 146 lb/ft are not
        ([feet(800), QUARTER, feet(800)], LARGE, {}),  # 1495 lb/ft still, though 6531 lb are not too many
    ],
)
def test_wide_elbows_are_offered_where_they_do(
    legs: list[dict[str, Any]], wires: dict[str, Any] | None, ways: dict[str, str]
) -> None:
    """Not where the wires are strained or pressed all the same."""
    data = pulled(legs, wires)
    assert line_at(reviewed(data), PULL, YARD).answer.outcome.value == "not met"
    assert after_each_proposal(data, PULL, YARD) == ways


def on_the_wall(length: int) -> dict[str, Any]:
    """A straight stretch on a wall."""
    return {"on": "outside wall", "length": f"{length} ft", "location": "wet"}


@pytest.mark.parametrize(
    ("legs", "ways"),
    [
        # 693 lb as one pull; 54 lb to the wall and 159 lb on from there, with 6 and 181 lb/ft on a bend.
        ([feet(300), QUARTER, on_the_wall(10), QUARTER, feet(300), QUARTER, feet(300)], {"put a conduit body as a pull point between the bends"}),
        ([feet(300), QUARTER, feet(10), QUARTER, feet(300), QUARTER, feet(300)], set()),  # no place for one
        ([feet(300), QUARTER, on_the_wall(10), QUARTER, feet(1200), QUARTER, feet(1200)], set()),  # behind it as hard
    ],
)  # fmt: skip
def test_a_pull_point_is_offered_where_either_pull_goes(legs: list[dict[str, Any]], ways: set[str]) -> None:
    """On a wall between the bends."""
    data = pulled(legs)
    assert line_at(reviewed(data), PULL, YARD).answer.outcome.value == "not met"
    found = {words for words in after_each_proposal(data, PULL, YARD) if "conduit body" in words}
    assert found == ways
    for words in ways:
        after = reviewed(taken(data, PULL, YARD, words))
        assert line_at(after, PULL, YARD).answer.outcome.value == "met"
        assert line_at(after, PULL, "/routes/yard-onward").answer.outcome.value == "met"


def test_every_bend_is_made_wide() -> None:
    """The way out is for the whole pull."""
    legs = [feet(400), QUARTER, feet(10), QUARTER, feet(400)]
    (way,) = line_at(reviewed(pulled(legs)), PULL, YARD).answer.proposals
    assert [(edit["path"], edit["value"]) for edit in way.patch] == [
        (f"{YARD}/legs/1/radius", "3 ft"),
        (f"{YARD}/legs/3/radius", "3 ft"),
    ]


@pytest.mark.parametrize(
    ("raceway", "has"),
    [
        ("LFMC 1-1/4 in", "182 lb/ft"),  # 121 lb over 8 in
        ("RMC 1-1/4 in", "201 lb/ft"),  # over 7-1/4 in
        ("FMC 3/8 in", "364 lb/ft"),  # over 4 in, however unfit otherwise
        ("EMT 3/8 in", "364 lb/ft"),
    ],
)
def test_the_tightest_radius_is_taken(raceway: str, has: str) -> None:
    """Where none is stated."""
    assert told(pulled([feet(333), QUARTER, feet(333)], raceway=raceway))[1].endswith(f"{has} on a bend")


SMALL = {"hot": "2 × 8 AWG Cu THHN", "ground": "8 AWG Cu THHN"}


@pytest.mark.parametrize(
    ("legs", "wires", "facts", "why"),
    [
        ([WALL, WALL], SMALL, {}, "no wires of 6 AWG or larger"),
        ([WALL, WALL], {"hot": "2 × 8 AWG Cu THHN", "ground": "6 AWG Cu bare"}, {}, "no wires of 6 AWG or larger"),
        ([WALL, {"on": "ceiling"}], None, {}, "not every length is stated"),
        ([WALL, {"on": "ceiling"}, QUARTER, WALL], None, {}, "not every length is stated"),
        ([{**QUARTER, "radius": "0 in"}] * 2, None, {}, "not every length is stated"),
        ([feet(4000)], None, {}, "no raceway along the route"),
        ([WALL, WALL], None, {"raceway": "none"}, "no raceway along the route"),
        ([WALL, WALL], None, {"raceway": "plumbing pipe 1-1/4 in"}, "no raceway along the route"),
        ([WALL, WALL], None, {"raceway": None}, "no raceway along the route"),
        ([WALL, WALL], {"hot": None, "neutral": "6 AWG Cu THHN"}, {}, "no wires of 6 AWG or larger"),
    ],
)
def test_pulls_that_are_not_reckoned(
    legs: list[dict[str, Any]], wires: dict[str, Any] | None, facts: dict[str, Any], why: str
) -> None:
    """Each with its reason; nothing is asked for."""
    answer = line_at(reviewed(pulled(legs, wires, **facts)), PULL, YARD).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


def test_a_pull_beside_cable_is_not_reckoned() -> None:
    """Cable is left out, and with it the wires that go in together with it."""
    wires = {"planer": {"wires": {"hot": "2 × 6 AWG Cu THHN"}}}
    for carries, outcome in ((wires, "met"), (wires | {"more": {"cable": "NM-B 12/2"}}, "does not apply")):
        patch = {
            "circuits": {"more": {"kind": "branch circuit", "from": "workshop-panel"}},
            "boxes": {"planer-box": {"devices": {"planer-outlet": {"circuit": "planer"}}}},
            "routes": {"planer-run": {"legs": [WALL, WALL], "carries": carries}},
        }
        answer = line_at(reviewed(example("joinery-workshop", patch)), PULL, PLANER).answer
        assert answer.outcome.value == outcome


# Wires that jam


def jam(hot: str, raceway: str | None = "EMT 1/2 in", ground: str | None = None, *bends: dict[str, Any]) -> Line:
    """What is said of the wires to the planer, pulled round one bend unless others are given."""
    carries = {"planer": {"wires": {"hot": hot, "ground": ground}}}
    route = {"raceway": raceway, "carries": carries, "legs": [WALL, *(bends or (QUARTER,)), WALL]}
    return line_at(reviewed(example("joinery-workshop", {"routes": {"planer-run": route}})), JAM, PLANER)


@pytest.mark.parametrize(
    ("hot", "raceway", "expected", "ratio"),
    [
        ("3 × 8 AWG Cu THHN", "EMT 1/2 in", "not met", "3.024"),  # 0.622 in by 1.05, over 0.216 in
        ("3 × 8 AWG Cu THHN", "EMT 3/4 in", "met", "4.006"),
        ("3 × 4 AWG Cu RHW-2", "EMT 1 in", "not met", "3.129"),  # over 0.352 in, without its covering
        ("3 × 2 AWG Cu THHN", "EMT 1 in", "not met", "2.868"),
        ("3 × 1 AWG Cu THHN", "EMT 1 in", "met", "2.47"),
    ],
)
def test_ratio_of_three_wires(hot: str, raceway: str, expected: str, ratio: str) -> None:
    """Of 2.8 to 3.2 they can wedge."""
    line = jam(hot, raceway)
    assert (line.answer.outcome.value, line.answer.has) == (expected, f"ratio {ratio}")
    assert line.answer.needs == "not between 2.8 and 3.2"
    if expected == "not met":
        assert line.place == f"{PLANER}/raceway"


def test_a_roomier_raceway_is_offered() -> None:
    """The next in which they cannot wedge, of the same type."""
    ((edit,),) = [way.patch for way in jam("3 × 2 AWG Cu THHN", "EMT 1 in").answer.proposals]
    assert (edit["path"], edit["value"]) == (f"{PLANER}/raceway", "EMT 1-1/4 in")


@pytest.mark.parametrize(
    ("hot", "raceway", "ground", "why"),
    [
        ("3 × 8 AWG Cu THHN", "EMT 1/2 in", "8 AWG Cu THHN", "not just three equal wires"),
        ("2 × 8 AWG Cu THHN", "EMT 1/2 in", "8 AWG Cu TW", "not just three equal wires"),
        ("2 × 8 AWG Cu THHN", "EMT 1/2 in", "10 AWG Cu THHN", "not just three equal wires"),
        ("3 × 8 AWG Cu THHN", "plumbing pipe 1/2 in", None, "no raceway with a bend"),
        ("3 × 8 AWG Cu ZW", "EMT 1/2 in", None, "no dimensions published"),
        ("3 × 600 kcmil Cu THHN", "EMT 4 in", None, "no dimensions published"),
        ("3 × 8 AWG Cu THHN", "RTRC 1/2 in", None, "no dimensions published"),
    ],
)
def test_wires_of_which_it_cannot_be_told(hot: str, raceway: str, ground: str | None, why: str) -> None:
    """Each with its reason."""
    answer = jam(hot, raceway, ground).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


def test_straight_on_they_do_not_jam() -> None:
    """Nor is the raceway asked for there."""
    answer = jam("3 × 8 AWG Cu THHN", None, None, WALL).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", "no raceway with a bend")
    assert jam("3 × 8 AWG Cu THHN", None).answer.outcome.value == "cannot tell"
