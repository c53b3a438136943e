"""Seals of raceways from the ground, and between outdoors and indoors."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example, reviewed, reviewed_example
from support.trenches import after_each_proposal, answer_at, lawn, line_at, trench

GROUND = "seal-of-an-underground-raceway"
ENTRY = "seal-where-a-raceway-enters"
WARM = "seal-between-warm-and-cold"
YARD = "/routes/yard"


def _yard(at_from: bool | None, at_to: bool | None, passage: bool | None) -> dict[str, Any]:
    """The pottery studio's yard run: from an outdoor box, through the studio's wall, to a box indoors."""
    wall = {"through": "wall", "length": "8 in", **({} if passage is None else {"sealed": passage})}
    legs = [{"rise": "2 ft"}, lawn("18 in"), {"rise": "2 ft"}, wall]
    return example("pottery-studio", {"routes": {"yard": {"seal-at-from": at_from, "seal-at-to": at_to, "legs": legs}}})


@pytest.mark.parametrize(
    ("at_from", "at_to", "passage", "entry"),
    [
        (True, True, True, "met"),
        (True, False, False, "not met"),
        (False, True, False, "met"),
        (False, False, True, "met"),
        (False, False, False, "not met"),
        (True, None, False, "cannot tell"),
        (None, False, False, "not met"),
        (None, True, None, "met"),
        (False, None, True, "met"),
        (None, None, None, "cannot tell"),
    ],
)
def test_where_it_enters(at_from: bool | None, at_to: bool | None, passage: bool | None, entry: str) -> None:
    """At the studio, at the box or at the wall; that settles the seal against the ground too, which is not asked twice."""
    data = _yard(at_from, at_to, passage)
    assert answer_at(data, GROUND, YARD) == "does not apply"
    assert answer_at(data, ENTRY, YARD) == entry


def _outdoors(at_from: bool | None, at_to: bool | None) -> dict[str, Any]:
    """The same between two outdoor boxes."""
    data = _yard(at_from, at_to, None)
    data["routes"]["yard"]["legs"].pop()
    data["boxes"]["entry-box"]["area"] = "outdoors"
    return data


@pytest.mark.parametrize(
    ("at_from", "at_to", "ground"),
    [
        (True, True, "met"),
        (True, False, "met"),
        (False, True, "met"),
        (False, False, "not met"),
        (True, None, "met"),
        (None, False, "cannot tell"),
        (None, None, "cannot tell"),
    ],
)
def test_one_end_at_least(at_from: bool | None, at_to: bool | None, ground: str) -> None:
    """Either will do where the raceway comes into no building."""
    assert answer_at(_outdoors(at_from, at_to), GROUND, YARD) == ground


def test_both_ends_in_buildings_are_one_finding() -> None:
    """One proposal seals both; the rows of both requirements are cited, for no end is sealed."""
    data = _yard(False, False, False)
    data["boxes"]["terrace-box"]["area"] = "garage"
    line = line_at(reviewed(data), ENTRY, YARD)
    (way,) = line.answer.proposals
    assert way.words == "seal the raceway at the supply and load side"
    assert [step["path"] for step in way.patch] == [f"{YARD}/seal-at-from", f"{YARD}/seal-at-to"]
    assert line.answer.rows == ()
    assert after_each_proposal(data, ENTRY, YARD) == {way.words: "met"}
    assert [f.line.rule.id for f in reviewed(data).findings if "seal" in f.line.answer.of] == [line.rule.id]


def test_an_outdoor_box_and_a_post_are_no_building() -> None:
    """The supply side of the studio's run is outdoors, and so is a post; a panel in a house is not."""
    data = _yard(False, True, False)
    assert answer_at(data, ENTRY, YARD) == "met"
    post = trench(
        lawn("18 in", raceway="PVC-40 3/4 in"), routes={"to-pump": {"seal-at-from": True, "seal-at-to": False}}
    )
    assert answer_at(post, ENTRY, "/routes/to-pump") == "met"
    house = trench(
        lawn("18 in", raceway="PVC-40 3/4 in"), routes={"to-pump": {"seal-at-from": False, "seal-at-to": True}}
    )
    assert answer_at(house, ENTRY, "/routes/to-pump") == "not met"


def test_between_outdoor_boxes_there_is_no_entry() -> None:
    """One end has to be sealed all the same."""
    data = _outdoors(True, False)
    assert answer_at(data, ENTRY, YARD) == "does not apply"
    assert answer_at(data, GROUND, YARD) == "met"


def test_cable_without_raceway_has_nothing_to_seal() -> None:
    """A sleeve where it rises is not looked at here."""
    for rule in (GROUND, ENTRY):
        assert answer_at(trench(lawn("24 in")), rule, "/routes/to-pump") == "does not apply"


def test_a_raceway_that_ends_in_the_trench_is_sealed_at_the_end_where_it_comes_out() -> None:
    """From the post on it is a sleeve; under a building in the middle of a cable run it is nothing to seal."""
    pipe, cable = lawn("24 in", raceway="PVC-40 3/4 in"), lawn("24 in")
    rise = {"rise": "2 ft", "raceway": "PVC-80 3/4 in"}
    for legs, at_from, answer in (
        ([rise, pipe, cable, rise], True, "met"),
        ([rise, pipe, cable, rise], False, "not met"),
        ([rise, cable, pipe, cable, rise], False, "does not apply"),
    ):
        route = {"legs": legs, "seal-at-from": at_from, "seal-at-to": False}
        data = trench(cable, routes={"to-pump": route})
        data["panels"]["farmhouse-panel"]["area"] = "outdoors"
        assert answer_at(data, GROUND, "/routes/to-pump") == answer


def test_a_seal_in_the_middle_of_the_buried_part_is_at_no_end() -> None:
    """A foundation between two buried legs."""
    data = _outdoors(False, False)
    wall = {"through": "foundation", "sealed": True}
    data["routes"]["yard"]["legs"] = [{"rise": "2 ft"}, lawn("18 in"), wall, {"buried": "building"}, {"rise": "2 ft"}]
    assert answer_at(data, GROUND, YARD) == "not met"


@pytest.mark.parametrize(
    ("rule", "data"), [(GROUND, _outdoors(False, False)), (ENTRY, _yard(False, False, False))], ids=[GROUND, ENTRY]
)
def test_every_way_out_settles_it(rule: str, data: dict[str, Any]) -> None:
    """Seal it at an end."""
    ways = after_each_proposal(data, rule, YARD)
    assert ways
    assert set(ways.values()) == {"met"}


# Between outdoors and indoors


def _garage(*before: dict[str, Any], sealed: bool | None, to: str = "outdoors", **route: Any) -> dict[str, Any]:
    wall = {"through": "wall", "length": "8 in", **({} if sealed is None else {"sealed": sealed})}
    change = {"routes": {"garage-run": {"legs": [*before, wall], **route}}, "boxes": {"pull-box": {"area": to}}}
    return example("joinery-workshop", change)


INSIDE = {"on": "inside wall", "length": "12 ft"}


@pytest.mark.parametrize(("sealed", "answer"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_a_raceway_through_an_outside_wall(sealed: bool | None, answer: str) -> None:
    """Filled, or advice: condensation is not everywhere a trouble."""
    of = reviewed(_garage(INSIDE, sealed=sealed))
    line = line_at(of, WARM, "/routes/garage-run/legs/1")
    assert line.answer.outcome.value == answer
    assert {finding.severity.word for finding in of.findings if finding.line is line} <= {"advice"}


@pytest.mark.parametrize(
    ("before", "to", "raceway", "answer"),
    [
        (INSIDE, "indoors", "EMT 1-1/4 in", "does not apply"),
        (INSIDE, "outdoors", "none", "does not apply"),
        ({"on": "outside wall"}, "outdoors", "EMT 1-1/4 in", "does not apply"),
        ({"on": "outside wall"}, "indoors", "EMT 1-1/4 in", "not met"),
        ({"in": "joist bays"}, "outdoors", "EMT 1-1/4 in", "not met"),
        ({"overhead": "yard"}, "indoors", "EMT 1-1/4 in", "not met"),
    ],
)
def test_only_between_outdoors_and_indoors(before: dict[str, Any], to: str, raceway: str, answer: str) -> None:
    """Either way round; a wall between two rooms, or cable without raceway, is left alone."""
    data = _garage(before, sealed=False, to=to, raceway=raceway)
    assert answer_at(data, WARM, "/routes/garage-run/legs/1") == answer


def test_a_raceway_from_the_ground_is_looked_at_there() -> None:
    """Not a second time at the wall."""
    assert answer_at(_yard(False, False, False), WARM, f"{YARD}/legs/3") == "does not apply"


def test_filling_it_settles_it() -> None:
    """The one way out."""
    ways = after_each_proposal(_garage(INSIDE, sealed=False), WARM, "/routes/garage-run/legs/1")
    assert list(ways.values()) == ["met"]


# Inspection


def test_the_compound_is_on_the_inspection_list() -> None:
    """By its raceway; a spare one is plugged."""

    def says(patch: dict[str, Any]) -> list[str]:
        of = reviewed_example("pottery-studio", patch)
        return [entry.says for entry in of.inspect if "seal-of-a-raceway-from-the-ground" in entry.item.id]

    assert ["PVC-80 3/4 in" in text for text in says({})] == [True]
    spare = {
        "spare": {
            "from": "terrace-box",
            "to": "entry-box",
            "raceway": "PVC-40 1 in",
            "carries": {},
            "legs": [lawn("18 in")],
        }
    }
    assert any("spare PVC-40 1 in is plugged" in text for text in says({"routes": spare}))
    bare = {"routes": {"yard": {"raceway": "none"}}}
    assert says(bare) == []
