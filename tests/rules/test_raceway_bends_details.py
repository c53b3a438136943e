"""Bends that are counted, radii by type of raceway, and the pull point that is offered."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from support.reviews import example, merged, reviewed
from support.trenches import after_each_proposal, line_at, steps_at

BENDS, RADIUS, LIST = "bends-between-pull-points-of-a-raceway", "radius-of-a-bend", "raceway/bends/bends-as-built"
YARD, GARAGE, PLANER = "/routes/yard", "/routes/garage-run", "/routes/planer-run"
WALL = {"on": "inside wall", "length": "9 ft", "location": "dry", "physical-damage": False}
OUTSIDE = {"on": "outside wall", "length": "9 ft", "location": "damp", "physical-damage": False}
LAWN = {"buried": "lawn", "length": "20 ft", "cover": "20 in"}
RISE = {"rise": "2 ft", "slip-fitting": True}
QUARTER = {"bend": "90°"}


def along(route: str, legs: list[dict[str, Any]], **facts: Any) -> dict[str, Any]:
    """The joinery workshop with other legs of a route."""
    return example("joinery-workshop", {"routes": {route: {"legs": legs, **facts}}})


def zigzag(leg: dict[str, Any], count: int) -> list[dict[str, Any]]:
    """So many quarter bends, with a leg like this before and after each."""
    return [leg, *[part for _ in range(count) for part in (QUARTER, leg)]]


@pytest.mark.parametrize(
    ("legs", "counted"),
    [
        ([LAWN, RISE], "90°"),
        ([RISE, LAWN], "90°"),
        ([RISE, LAWN, {**LAWN, "buried": "walk"}, RISE], "90° + 90°"),
        ([RISE, OUTSIDE, QUARTER, WALL], "90°"),
        ([RISE, QUARTER, LAWN, RISE], "90° + 90°"),
        ([OUTSIDE, QUARTER, RISE, {**LAWN, "raceway": "none"}], "90°"),
        ([{**RISE, "raceway": "none"}, LAWN, QUARTER, OUTSIDE], "90°"),
        ([QUARTER, LAWN], "90°"),
        ([OUTSIDE, RISE, LAWN], "90°"),
    ],
)
def test_bends_that_are_counted(legs: list[dict[str, Any]], counted: str) -> None:
    """Those drawn, and one where raceway turns up out of the trench; none between two legs in the ground."""
    data = along("yard", legs)
    assert steps_at(data, BENDS, YARD) == [f"{counted} of bends"]


@pytest.mark.parametrize(
    ("legs", "facts", "why"),
    [
        ([WALL], {}, "no raceway that could bend"),
        ([WALL, QUARTER, WALL], {"raceway": "none"}, "no raceway that could bend"),
        ([WALL, WALL], {}, "no bend in a raceway"),
        ([LAWN, {**LAWN, "buried": "walk"}], {}, "no bend in a raceway"),
    ],
)
def test_where_nothing_bends(legs: list[dict[str, Any]], facts: dict[str, Any], why: str) -> None:
    """Each with its reason."""
    answer = line_at(reviewed(along("yard", legs, **facts)), BENDS, YARD).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


def radius_told(raceway: str | None, radius: str | None) -> Line:
    """What is said of one bend in the run to the planer."""
    bend = {"bend": "90°"} | ({} if radius is None else {"radius": radius})
    return line_at(reviewed(along("planer-run", [WALL, bend, WALL], raceway=raceway)), RADIUS, f"{PLANER}/legs/1")


@pytest.mark.parametrize(
    ("raceway", "radius", "expected", "needs"),
    [
        *[(f"{kind} 1 in", "5 3/4 in", "met", 'at least 5 3/4 in with a one-shot or full-shoe bender')
          for kind in ("EMT", "RMC", "IMC")],
        ("EMT 1 in", "6 in", "met", "5 3/4 in"),
        ("EMT 1 in", "5 1/2 in", "not met", "5 3/4 in"),
        *[(f"{kind} 1 in", "5 3/4 in", "cannot tell", "at least 6 in, or 5 3/4 in for an elbow or a shoe bend")
          for kind in ("PVC-80", "RTRC", "ENT")],
        *[(f"{kind} 1 in", "5 3/4 in", "not met", "6 in") for kind in ("FMC", "LFMC", "LFNC")],
        ("FMC 3/8 in", "4 in", "met", "4 in"),
        ("EMT 3/8 in", "4 in", "met", "4 in"),  # not made, which is another rule's finding
        ("EMT 3/8 in", "3 3/4 in", "not met", "4 in"),
    ],
)  # fmt: skip
def test_radius_by_type(raceway: str, radius: str, expected: str, needs: str) -> None:
    """The tighter one where a bending tool or an elbow gives it; flexible raceway by the wider."""
    line = radius_told(raceway, radius)
    assert (line.answer.outcome.value, str(line.answer.needs)) == (expected, needs)
    for way in line.answer.proposals:
        ((path, value),) = [(edit["path"], edit["value"]) for edit in way.patch]
        assert path == f"{PLANER}/legs/1/radius"
        assert radius_told(raceway, value).answer.outcome.value == "met"
    assert line.place == f"{PLANER}/legs/1/radius"


@pytest.mark.parametrize(
    ("raceway", "radius", "why"),
    [
        ("EMT 1 in", None, "no radius stated: it is on the inspection list"),
        ("none", "1 in", "no raceway"),
        ("plumbing pipe 1 in", "1 in", "no raceway"),
    ],
)
def test_radius_of_what_is_no_raceway(raceway: str, radius: str | None, why: str) -> None:
    """Plumbing pipe is none."""
    answer = radius_told(raceway, radius).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


@pytest.mark.parametrize(
    ("raceway", "least"),
    [("EMT 1 in", "5 3/4 in"), ("PVC-40 1 in", "5 3/4 in"), ("LFMC 1 in", "6 in"), ("FMC 3/8 in", "4 in"), ("EMT 3/8 in", "4 in")],
)  # fmt: skip
def test_bends_on_the_inspection_list(raceway: str, least: str) -> None:
    """What is planned, what may be, and the tightest radius."""
    of = reviewed(along("planer-run", zigzag(WALL, 1), raceway=raceway))
    (says,) = [entry.says for entry in of.inspect if (entry.item.id, entry.subject) == (LIST, PLANER)]
    assert says.startswith(f"Bends of the {raceway} from workshop-panel to planer-box: 90° planned, no more than 360°")
    assert says.endswith(f"no radius under {least}.")


@pytest.mark.parametrize(
    ("legs", "raceway"),
    [([WALL, WALL], "EMT 1 in"), (zigzag(WALL, 1), "none"), (zigzag(WALL, 1), "plumbing pipe 1 in"), (zigzag(WALL, 1), None)],
)  # fmt: skip
def test_no_bends_to_inspect(legs: list[dict[str, Any]], raceway: str | None) -> None:
    """Where none is drawn, or in no raceway that the plan names."""
    of = reviewed(along("planer-run", legs, raceway=raceway))
    assert [entry for entry in of.inspect if (entry.item.id, entry.subject) == (LIST, PLANER)] == []
    assert of.failures == ()


# The pull point


def ways(of: Review, place: str) -> list[dict[str, Any]]:
    """What the patch of each way out states, by place."""
    answer = line_at(of, BENDS, place).answer
    assert answer.outcome.value == "not met"
    for way in answer.proposals:
        assert all(edit["op"] == ("add" if "value" in edit else "remove") for edit in way.patch)
    return [{edit["path"]: edit.get("value") for edit in way.patch} for way in answer.proposals]


def test_the_route_is_cut_behind_a_leg_on_a_wall() -> None:
    """The one with the most even bends before and after it, the first of several; the rest goes on as it was."""
    legs = zigzag(WALL, 5)
    data = along("garage-run", legs)
    (way,) = ways(reviewed(data), GARAGE)
    old = data["routes"]["garage-run"]
    assert way == {
        "/boxes/garage-run-pull-point": {
            "at": "house",
            "area": "indoors",
            "location": "dry",
            "box": {"kind": "conduit body", "material": "steel", "listed-for": "wet", "cover": "closed"},
            "accessible": True,
            "spliced": False,
        },
        f"{GARAGE}/to": "garage-run-pull-point",
        f"{GARAGE}/legs": legs[:5],
        "/routes/garage-run-onward": {**old, "from": "garage-run-pull-point", "legs": legs[5:]},
    }


def test_the_last_leg_on_a_wall_may_be_the_one() -> None:
    """With one bend behind it, and the route goes on from there."""
    legs = [*[QUARTER] * 4, WALL, QUARTER]
    data = along("garage-run", legs)
    (way,) = ways(reviewed(data), GARAGE)
    assert way[f"{GARAGE}/legs"] == legs[:5]
    assert set(after_each_proposal(data, BENDS, GARAGE).values()) == {"met"}


def test_beyond_the_yard_it_is_at_the_other_building() -> None:
    """Outdoors, of plastic; each part keeps the seal of its own end."""
    legs = [RISE, QUARTER, LAWN, QUARTER, RISE, *zigzag(OUTSIDE, 3)]
    data = along("yard", legs)
    (way,) = ways(reviewed(data), YARD)
    box = way["/boxes/yard-pull-point"]
    assert (box["at"], box["area"], box["location"], box["box"]["material"]) == ("workshop", "outdoors", "damp", "PVC")
    assert list(way) == [
        "/boxes/yard-pull-point", f"{YARD}/to", f"{YARD}/legs", f"{YARD}/seal-at-to", "/routes/yard-onward",
    ]  # fmt: skip
    assert way[f"{YARD}/seal-at-to"] is None
    assert set(after_each_proposal(data, BENDS, YARD).values()) == {"met"}
    onward = way["/routes/yard-onward"]
    assert ("seal-at-from" in onward, onward["seal-at-to"], onward["legs"]) == (False, True, legs[6:])


@pytest.mark.parametrize(
    ("leg", "area", "location"),
    [
        ({"on": "ceiling"}, "indoors", "dry"),
        ({"on": "floor"}, "indoors", "dry"),
        ({"on": "ceiling", "location": "damp"}, "indoors", "damp"),
        ({"on": "fence"}, "outdoors", "wet"),
        ({"on": "post", "location": "damp"}, "outdoors", "damp"),
    ],
)
def test_the_place_of_the_pull_point_is_that_of_its_leg(leg: dict[str, Any], area: str, location: str) -> None:
    """As far as the plan tells it, else the wettest that it can be."""
    (way,) = ways(reviewed(along("garage-run", zigzag(leg, 5))), GARAGE)
    box = way["/boxes/garage-run-pull-point"]
    assert (box["at"], box["area"], box["location"]) == ("house", area, location)


EMT = {**WALL, "raceway": "EMT 1-1/4 in"}
BENT = {**QUARTER, "raceway": "EMT 1-1/4 in"}


@pytest.mark.parametrize("raceway", ["none", None, "PVC-40 1-1/4 in"])
def test_the_pull_point_is_of_the_raceway_that_is_cut(raceway: str | None) -> None:
    """The leg's own."""
    (way,) = ways(reviewed(along("garage-run", [EMT, BENT, EMT, *[BENT] * 4, EMT], raceway=raceway)), GARAGE)
    assert way["/boxes/garage-run-pull-point"]["box"]["material"] == "steel"


@pytest.mark.parametrize(
    ("legs", "taken"),
    [
        ([*[QUARTER] * 5, WALL], {}),  # no leg between the bends
        ([LAWN, *[QUARTER, LAWN] * 5], {}),  # all of it in the ground
        ([WALL, {"bend": "361°"}, WALL], {}),  # one bend is on one side, wherever it is cut
        ([QUARTER, {**WALL, "raceway": "none"}, {"bend": "361°"}, WALL], {}),  # out of raceway there is nothing to cut
        ([WALL, *[BENT] * 5, WALL], {"routes": {"garage-run": {"raceway": None}}}),  # nobody knows what would be cut
        (zigzag(WALL, 5), {"boxes": {"garage-run-pull-point": {"at": "house", "area": "garage", "location": "dry"}}}),
        (
            zigzag(WALL, 5),
            {
                "routes": {
                    "garage-run-onward": {"from": "house-panel", "to": "bench-box", "carries": {}, "legs": [WALL]}
                }
            },
        ),
        (zigzag(WALL, 5), {"panels": {"garage-run-pull-point": {"at": "house", "duty": "service equipment"}}}),
    ],
)
def test_where_there_is_no_place_for_a_pull_point(legs: list[dict[str, Any]], taken: dict[str, Any]) -> None:
    """Or its name is taken."""
    assert ways(reviewed(merged(along("garage-run", legs), taken)), GARAGE) == []


def test_an_unnamed_raceway_is_asked_for() -> None:
    """Legs on the wall without one end each stretch, and with one they do not."""
    of = reviewed(along("garage-run", [WALL, *[BENT, WALL] * 5], raceway=None))
    answer = line_at(of, BENDS, GARAGE).answer
    assert (answer.outcome.value, of.failures) == ("cannot tell", ())
    assert answer.asks is not None
    assert answer.asks.place == f"{GARAGE}/raceway"
