"""Spans in the air: clearance, what holds them, and open wires."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example, outcome, reviewed
from support.trenches import after_each_proposal, answer_at, line_at, steps_at

LEG = "/routes/yard/legs/0"
GROUND = "/clearance-above-ground"
ROOF = "/clearance-above-a-roof"
TREE = "/no-tree-holds-it"
ATTACHMENT = "/point-of-attachment"
SIZE = "/size-for-the-span"
COVERED = "/insulated-near-a-building"
WIRES = {"hot": "10 AWG Cu XHHW-2", "neutral": "10 AWG Cu XHHW-2", "ground": "10 AWG Cu bare"}


def span(over: str = "yard", *more: dict[str, Any], **facts: Any) -> dict[str, Any]:
    """The pottery studio with its yard crossed in the air; facts of the circuit and the site go by their own keys."""
    circuit, site = facts.pop("circuit", {}), facts.pop("site", {})
    carries = {"cable": "UF-B 12/2"} if "wires" not in facts else {"cable": None, "wires": facts.pop("wires")}
    leg = {
        "overhead": over,
        "length": "46 ft",
        "clearance": "20 ft",
        "attachment": "20 ft",
        "messenger": True,
        "held-by": "building",
    }
    leg |= {key.replace("_", "-"): value for key, value in facts.items()}
    legs = [{key: value for key, value in leg.items() if value is not None}, *more]
    patch = {
        "site": site,
        "circuits": {"studio": circuit},
        "routes": {"yard": {"raceway": "none", "carries": {"studio": carries}, "legs": legs}},
    }
    return example("pottery-studio", patch)


# Trade magazine Q&A on vertical clearance (the 10, 12 and 18 ft rows) -
# https://ecmweb.com/national-electrical-code/qa/article/20900688/code-qa-vertical-clearance-requirements-for-overhead-conductors
# Exam page, 12 ft over a residential driveway -
# https://homeinspection-electiricalfourhundredquestions.examzify.com/question/what-is-the-minimum-distance-d18cdc4809ad4b4c
# Study cards, 10 ft over pedestrians and 15 ft over 300 V - https://quizwizapp.com/fr/study/23024-clearances
@pytest.mark.parametrize(
    ("over", "facts", "short", "enough"),
    [
        ("walk", {}, "9 ft 11 in", "10 ft"),
        ("walk", {}, "2.9 m", "3.0 m"),
        ("walk", {"circuit": {"voltage": "277/480 V"}}, "11 ft 11 in", "12 ft"),
        ("yard", {"traffic": "people on foot"}, "9 ft 11 in", "10 ft"),
        ("yard", {"traffic": "cars"}, "11 ft 11 in", "12 ft"),
        ("yard", {"traffic": "trucks"}, "11 ft 11 in", "12 ft"),
        ("yard", {"traffic": "trucks", "site": {"premises": "commercial"}}, "17 ft 11 in", "18 ft"),
        ("driveway", {}, "11 ft 11 in", "12 ft"),
        ("driveway", {"site": {"premises": "commercial"}}, "17 ft 11 in", "18 ft"),
        ("driveway", {"circuit": {"voltage": "480 V"}}, "14 ft 11 in", "15 ft"),
        ("parking", {}, "11 ft 11 in", "12 ft"),
        ("parking", {"site": {"premises": "commercial"}, "traffic": "cars"}, "11 ft 11 in", "12 ft"),
        ("parking", {"site": {"premises": "commercial"}, "traffic": "trucks"}, "17 ft 11 in", "18 ft"),
        ("street", {}, "17 ft 11 in", "18 ft"),
        ("field", {}, "17 ft 11 in", "18 ft"),
    ],
)
def test_height_above_ground(over: str, facts: dict[str, Any], short: str, enough: str) -> None:
    """Just short of the limit, and at it."""
    assert answer_at(span(over, clearance=short, **facts), GROUND, LEG) == "not met"
    assert answer_at(span(over, clearance=enough, **facts), GROUND, LEG) == "met"


def test_what_passes_below_is_asked_for_only_where_it_matters() -> None:
    """Between the height for people and that for cars."""
    for clearance, expected in (("9 ft", "not met"), ("11 ft", "cannot tell"), ("12 ft", "met")):
        assert answer_at(span("yard", clearance=clearance), GROUND, LEG) == expected
    asked = line_at(reviewed(span("yard", clearance="11 ft")), GROUND, LEG).answer.asks
    assert asked is not None
    assert asked.field == "traffic"
    assert answer_at(span("yard", clearance=None), GROUND, LEG) == "cannot tell"


def test_the_derivation_names_the_row() -> None:
    """The voltage to ground and what lies below."""
    assert "120 V to ground, over residential property and driveways" in steps_at(span("driveway"), GROUND, LEG)


# Study cards, 3 ft over a roof of 4 in 12 - https://quizwizapp.com/fr/study/23024-clearances
@pytest.mark.parametrize(
    ("clearance", "slope", "overhang", "voltage", "expected"),
    [
        ("8 ft 6 in", "below 4 in 12", None, "120 V", "met"),
        ("8 ft 5 in", "below 4 in 12", None, "120 V", "not met"),
        ("3 ft", "4 in 12 or steeper", None, "120 V", "met"),
        ("2 ft 11 in", "4 in 12 or steeper", None, "120 V", "not met"),
        ("3 ft", "4 in 12 or steeper", None, "277/480 V", "not met"),
        ("5 ft", None, None, "120 V", "cannot tell"),
        ("2 ft", None, None, "120 V", "not met"),
        ("9 ft", None, None, "120 V", "met"),
        ("18 in", "below 4 in 12", True, "120 V", "met"),
        ("17 in", "4 in 12 or steeper", True, "120 V", "not met"),
        ("18 in", "below 4 in 12", False, "120 V", "not met"),
    ],
)
def test_height_above_a_roof(
    clearance: str, slope: str | None, overhang: bool | None, voltage: str, expected: str
) -> None:
    """Closer over a steep roof or its overhang, up to 300 V between conductors."""
    data = span("roof", clearance=clearance, roof_slope=slope, overhang_only=overhang, circuit={"voltage": voltage})
    assert answer_at(data, ROOF, LEG) == expected
    assert answer_at(data, GROUND, LEG) == "does not apply"
    assert answer_at(span("yard"), ROOF, LEG) == "does not apply"


@pytest.mark.parametrize(("held", "expected"), [("tree", "not met"), ("pole", "met"), (None, "cannot tell")])
def test_trees(held: str | None, expected: str) -> None:
    """Stated on any leg of the span; a tree on one of them is enough."""
    assert answer_at(span(held_by=held), TREE, LEG) == expected
    later = {"overhead": "walk", "clearance": "20 ft", "held-by": "tree"}
    assert answer_at(span("yard", later, held_by=held), TREE, LEG) == "not met"
    assert answer_at(span("yard", later, held_by=held), TREE, "/routes/yard/legs/1") == "does not apply"
    stated_later = span("yard", later | {"held-by": "mast"}, held_by=held)
    assert answer_at(stated_later, TREE, LEG) == ("not met" if held == "tree" else "met")


@pytest.mark.parametrize(
    ("height", "expected"),
    [
        ("9 ft 11 in", "not met"),
        ("10 ft", "met"),
        ("11 ft", "met"),
        ("2.9 m", "not met"),
        ("3 m", "met"),
        (None, "cannot tell"),
    ],
)
def test_attachment(height: str | None, expected: str) -> None:
    """The lowest stated for the span counts."""
    assert answer_at(span(attachment=height), ATTACHMENT, LEG) == expected
    low = {"overhead": "walk", "clearance": "20 ft", "attachment": "9 ft"}
    assert answer_at(span("yard", low, attachment=height), ATTACHMENT, LEG) == "not met"
    assert answer_at(span("yard", low), ATTACHMENT, "/routes/yard/legs/1") == "does not apply"


# Trade magazine, requirements for outside circuits -
# https://www.ecmweb.com/national-electrical-code/code-basics/article/55340057/nec-requirements-for-outside-circuits
@pytest.mark.parametrize(
    ("size", "length", "messenger", "expected"),
    [
        ("12 AWG Cu", "10 ft", False, "not met"),
        ("12 AWG Cu", "10 ft", True, "not met"),
        ("10 AWG Cu", "50 ft", False, "met"),
        ("10 AWG Cu", "51 ft", False, "not met"),
        ("10 AWG Cu", "51 ft", True, "met"),
        ("10 AWG Cu", "51 ft", None, "cannot tell"),
        ("10 AWG Cu", None, False, "cannot tell"),
        ("8 AWG Cu", "51 ft", False, "met"),
        ("8 AWG Cu", None, None, "met"),
        ("10 AWG Al", "50 ft", False, "not met"),
        ("8 AWG Al", "50 ft", False, "met"),
        ("8 AWG Al", "51 ft", False, "not met"),
        ("6 AWG Al", "90 ft", False, "met"),
    ],
)
def test_size_of_open_wires(size: str, length: str | None, messenger: bool | None, expected: str) -> None:
    """By metal and by the length of the span."""
    wires = {"hot": f"{size} XHHW-2", "neutral": f"{size} XHHW-2", "ground": "10 AWG Cu bare"}
    data = span(wires=wires, length=length, messenger=messenger)
    assert answer_at(data, SIZE, LEG) == expected


def test_legs_of_one_span_are_added_up() -> None:
    """Two short legs make a long span; cable and raceway carry themselves."""
    more = {"overhead": "walk", "length": "30 ft", "clearance": "20 ft"}
    assert answer_at(span("yard", more, wires=WIRES, length="30 ft", messenger=False), SIZE, LEG) == "not met"
    assert answer_at(span("yard", more, length="30 ft", messenger=False), SIZE, LEG) == "does not apply"
    assert answer_at(span(wires=WIRES | {"hot": "14 AWG Cu THWN-2"}, raceway="RMC 1 in"), SIZE, LEG) == "does not apply"


@pytest.mark.parametrize(
    ("hot", "neutral", "use", "expected"),
    [
        ("XHHW-2", "XHHW-2", "accessory", "met"),
        ("bare", "XHHW-2", "accessory", "not met"),
        ("XHHW-2", "bare", "accessory", "cannot tell"),
        ("bare", "bare", "accessory", "not met"),
    ],
)
def test_covering(hot: str, neutral: str, use: str, expected: str) -> None:
    """A bare hot wire at a building is wrong; a bare neutral is for the authority."""
    data = span(wires={"hot": f"10 AWG Cu {hot}", "neutral": f"10 AWG Cu {neutral}"})
    data["structures"]["studio"]["use"] = use
    assert answer_at(data, COVERED, LEG) == expected


def test_from_post_to_post_covering_is_not_asked_for() -> None:
    """Both ends away from buildings."""
    data = span(wires={"hot": "10 AWG Cu bare", "neutral": "10 AWG Cu bare"})
    data["structures"]["gate"] = {"use": "post"}
    data["structures"]["studio"]["use"] = "post"
    data["boxes"]["terrace-box"]["at"] = "gate"
    assert answer_at(data, COVERED, LEG) == "does not apply"


def test_low_voltage_spans_are_not_looked_at() -> None:
    """Nor is a span that carries nothing yet."""
    data = span()
    data["routes"]["yard"]["carries"] = {}
    data["routes"]["ceiling"]["carries"] = {}
    del data["boxes"]["entry-box"]["devices"], data["boxes"]["ceiling-box"]["devices"]
    of = reviewed(data)
    for rule in (GROUND, ATTACHMENT, SIZE, COVERED):
        assert outcome(of, rule, LEG) == "does not apply"


@pytest.mark.parametrize(
    ("rule", "data"),
    [
        (GROUND, span("driveway", clearance="9 ft")),
        (ROOF, span("roof", clearance="1 ft")),
        (TREE, span(held_by="tree")),
        (ATTACHMENT, span(attachment="8 ft")),
        (SIZE, span(wires=WIRES, length="60 ft", messenger=False)),
        (COVERED, span(wires=WIRES | {"hot": "10 AWG Cu bare"})),
    ],
)
def test_ways_out_settle_it(rule: str, data: dict[str, Any]) -> None:
    """Every proposal ends in a met requirement."""
    after = after_each_proposal(data, rule, LEG)
    assert after
    assert set(after.values()) == {"met"}


def test_a_span_that_is_raised_is_attached_no_lower() -> None:
    """A span sags below its lower end; what is crossed may be a roof, high above grade."""
    data = span("driveway", clearance="9 ft", attachment="10 ft")
    (way,) = line_at(reviewed(data), GROUND, LEG).answer.proposals
    assert way.words == "hang the span 12 ft high, attached no lower than that"
    assert {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch} == {
        "clearance": "12 ft",
        "attachment": "12 ft",
    }
    (higher,) = line_at(reviewed(span("driveway", clearance="9 ft")), GROUND, LEG).answer.proposals
    assert higher.words == "hang the span 12 ft high"
    (over,) = line_at(reviewed(span("roof", clearance="1 ft", attachment="8 ft")), ROOF, LEG).answer.proposals
    assert [edit["path"] for edit in over.patch] == [f"{LEG}/clearance"]


def test_thicker_wire_for_a_span() -> None:
    """All that is too thin is exchanged, whatever its insulation."""
    way = line_at(reviewed(span(wires=WIRES, length="60 ft", messenger=False)), SIZE, LEG).answer.proposals[-1]
    assert way.words == "use 8 AWG Cu in the span"
    assert [edit["value"] for edit in way.patch] == ["8 AWG Cu XHHW-2", "8 AWG Cu XHHW-2"]


def test_inspections_come_up_with_a_span_only() -> None:
    """Once for the route, with the distance to windows."""
    says = [entry.says for entry in reviewed(span()).inspect if entry.item.id.startswith("overhead/")]
    assert len(says) == 3
    assert any("3 ft from windows" in text for text in says)
    none = reviewed(example("pottery-studio")).inspect
    assert not [entry for entry in none if entry.item.id.startswith("overhead/")]
