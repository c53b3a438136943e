"""Spans: which heights hold for them, what belongs to one span, and what the ways out state."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line
from support.reviews import example, merged, reviewed
from support.trenches import after_each_proposal, line_at

YARD = "/routes/yard"
GROUND, ROOF, TREE = "/clearance-above-ground", "/clearance-above-a-roof", "/no-tree-holds-it"
ATTACHMENT, SIZE, COVERED = "/point-of-attachment", "/size-for-the-span", "/insulated-near-a-building"
OPEN: dict[str, Any] = {"hot": "10 AWG Cu XHHW-2", "neutral": "10 AWG Cu XHHW-2"}
COMMERCIAL = {"site": {"premises": "commercial"}}
MULTIFAMILY = {"site": {"premises": "multifamily dwelling"}}
LATER = "part of a span that an earlier leg begins"
WALL = {"on": "outside wall", "length": "3 ft"}


def air(over: str = "yard", **facts: Any) -> dict[str, Any]:
    """A leg in the air, high and well held unless facts say otherwise."""
    leg = {"overhead": over, "length": "30 ft", "clearance": "20 ft", "attachment": "20 ft", "held-by": "building"}
    leg |= {key.replace("_", "-"): value for key, value in facts.items()}
    return {key: value for key, value in leg.items() if value is not None}


def crossed(*legs: dict[str, Any], wires: dict[str, Any] | None = None, **patch: Any) -> dict[str, Any]:
    """The pottery studio with its yard crossed in the air, in cable unless wires are given."""
    carried = {"cable": None, "wires": wires} if wires else {"cable": "UF-B 12/2"}
    route = {"raceway": "none", "legs": list(legs), "carries": {"studio": carried}}
    return merged(example("pottery-studio", {"routes": {"yard": route}}), patch)  # type: ignore[no-any-return]


def at(data: dict[str, Any], rule: str, leg: int = 0) -> Line:
    """What a rule says of one leg."""
    return line_at(reviewed(data), rule, f"{YARD}/legs/{leg}")


def volts(voltage: str) -> dict[str, Any]:
    """A patch of the voltage."""
    return {"circuits": {"studio": {"voltage": voltage}}}


# Height above ground


@pytest.mark.parametrize(
    ("leg", "patch", "needs", "row"),
    [
        (air("walk"), {}, "10 ft", "120 V to ground, over walks for pedestrians only"),
        (air("walk"), volts("277/480 V"), "12 ft", "277 V to ground, over residential property and driveways"),
        (air("driveway"), volts("277/480 V"), "12 ft", "277 V to ground, over residential property and driveways"),
        (air("driveway"), volts("480 V"), "15 ft", "480 V to ground, over residential property and driveways"),
        (air("walk"), volts("480 V"), "15 ft", "480 V to ground, over residential property and driveways"),
        (air("yard", traffic="people on foot"), volts("480 V"), "15 ft", "480 V to ground, over residential property"),
        (air("walk"), volts("150 V"), "10 ft", "150 V to ground"),
        (air("walk"), volts("151 V"), "12 ft", "151 V to ground"),
        (air("walk"), volts("300 V"), "12 ft", "300 V to ground"),
        (air("walk"), volts("301 V"), "15 ft", "301 V to ground"),
        (air("driveway"), MULTIFAMILY, "12 ft", "120 V to ground, over residential property and driveways"),
        (air("driveway"), COMMERCIAL, "18 ft", "120 V to ground, over streets, truck parking and farm land"),
        (air("yard", traffic="trucks"), MULTIFAMILY, "18 ft", "120 V to ground, over streets, truck parking"),
        (air("parking", traffic="trucks"), MULTIFAMILY, "18 ft", "120 V to ground, over streets, truck parking"),
        (air("parking", traffic="trucks"), {}, "12 ft", "120 V to ground, over residential property"),
        (air("walk", traffic="trucks"), COMMERCIAL, "10 ft", "120 V to ground, over walks"),
        (air("yard", traffic="cars"), MULTIFAMILY, "12 ft", "120 V to ground, over residential property"),
        (air("yard", traffic="cars"), {}, "12 ft", "120 V to ground, over residential property"),
        (air("yard", traffic="people on foot"), {}, "10 ft", "120 V to ground, over walks for pedestrians only"),
        (air("street"), {}, "18 ft", "120 V to ground, over streets, truck parking and farm land"),
        (air("field"), {}, "18 ft", "120 V to ground, over streets, truck parking and farm land"),
    ],
)
def test_the_height_that_holds(leg: dict[str, Any], patch: dict[str, Any], needs: str, row: str) -> None:
    """By what passes below, by the premises and by the voltage to ground; the mark is on the clearance."""
    line = at(crossed(leg, **patch), GROUND)
    assert str(line.answer.needs) == needs
    assert line.steps[0][0].startswith(row)
    assert line.place == f"{YARD}/legs/0/clearance"


TAKEN = {"circuit": "studio"}
ANOTHER = {
    "circuits": {"more": {"kind": "branch circuit", "from": "house-panel", "voltage": "480 V"}},
    "boxes": {
        "terrace-box": {"devices": {"terrace-outlet": TAKEN}},
        "entry-box": {"devices": {"main-switch": TAKEN, "bench-outlet": TAKEN}},
    },
    "routes": {name: {"carries": {"more": {"cable": "UF-B 12/2"}}} for name in ("garage-wall", "yard")},
}
"""A circuit of 480 V beside the one of the studio."""


def test_the_highest_voltage_on_the_span_counts() -> None:
    """Of several circuits, to ground and between conductors."""
    assert at(crossed(air("driveway"), **ANOTHER), GROUND).steps[0][0].startswith("480 V to ground")
    assert str(at(crossed(air("roof", clearance="8 ft", overhang_only=True), **ANOTHER), ROOF).answer.needs) == "8.5 ft"


def low_voltage(*legs: dict[str, Any]) -> dict[str, Any]:
    """A garden circuit alone in the air, from a transformer at the house."""
    path = {
        "from": "terrace-box", "to": "lamp-box", "raceway": "none", "legs": list(legs),
        "carries": {"garden": {"wires": {"hot": "2 × 14 AWG Cu bare"}}},
    }  # fmt: skip
    patch = {
        "circuits": {"garden": {"kind": "low-voltage", "from": "terrace-box/pack", "voltage": "12 V"}},
        "boxes": {
            "terrace-box": {"devices": {"pack": {"transformer": "60 VA"}}},
            "lamp-box": {"at": "studio", "area": "outdoors", "location": "wet"},
        },
        "routes": {"yard": path},
    }
    data = example("pottery-studio", patch)
    data["routes"]["yard"]["carries"] = path["carries"]
    del data["boxes"]["entry-box"], data["boxes"]["ceiling-box"], data["routes"]["ceiling"]
    return data


@pytest.mark.parametrize("rule", [GROUND, ROOF, ATTACHMENT])
def test_a_low_voltage_span_has_no_height(rule: str) -> None:
    """No branch circuit or feeder is on it."""
    leg = air("roof" if rule == ROOF else "yard", clearance="1 ft", attachment="1 ft")
    answer = at(low_voltage(leg), rule).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", "it carries no branch circuit or feeder")


def test_above_a_roof_the_ground_does_not_count() -> None:
    """Nor a roof where there is none below."""
    assert at(crossed(air("roof")), GROUND).answer.why == "over a roof"
    assert at(crossed(air("yard")), ROOF).answer.why == "not over a roof"


# Height above a roof


@pytest.mark.parametrize(
    ("leg", "patch", "needs", "row"),
    [
        (air("roof", clearance="9 ft"), {}, "8.5 ft", "over a roof"),
        (air("roof", clearance="8.5 ft"), volts("480 V"), "8.5 ft", "over a roof"),
        (air("roof", clearance="8.5 ft", overhang_only=True), {}, "8.5 ft", "over a roof"),
        (air("roof", clearance="8 ft", roof_slope="below 4 in 12"), {}, "8.5 ft", "over a roof"),
        (
            air("roof", clearance="8 ft", roof_slope="4 in 12 or steeper"),
            {},
            "3 ft",
            "over a roof of 4 in 12 or steeper",
        ),
        (air("roof", clearance="8 ft", overhang_only=True), {}, "18 in", "over a roof overhang only"),
        (
            air("roof", clearance="8 ft", roof_slope="4 in 12 or steeper"),
            volts("240 V"),
            "3 ft",
            "over a roof of 4 in 12",
        ),
        (air("roof", clearance="8 ft", roof_slope="4 in 12 or steeper"), volts("277/480 V"), "8.5 ft", "over a roof"),
        (air("roof", clearance="8 ft", overhang_only=True), volts("300 V"), "18 in", "over a roof overhang only"),
        (air("roof", clearance="8 ft", overhang_only=True), volts("301 V"), "8.5 ft", "over a roof"),
        (air("roof", clearance="8 ft", overhang_only=True), volts("277/480 V"), "8.5 ft", "over a roof"),
    ],
)
def test_the_height_above_a_roof(leg: dict[str, Any], patch: dict[str, Any], needs: str, row: str) -> None:
    """Closer over a steep roof or an overhang, by the voltage between conductors."""
    line = at(crossed(leg, **patch), ROOF)
    assert str(line.answer.needs) == needs
    assert line.steps[0][0].startswith(row)
    assert line.place == f"{YARD}/legs/0/clearance"


# Ways out


@pytest.mark.parametrize(
    ("legs", "words", "changes"),
    [
        ([air("roof", clearance="1 ft", attachment="2 ft")], "hang the span 8.5 ft high", {"0/clearance": "8.5 ft"}),
        ([air("driveway", clearance="9 ft")], "hang the span 12 ft high", {"0/clearance": "12 ft"}),
        (
            [air("driveway", clearance="9 ft", attachment="11 ft"), air("walk", attachment="12 ft")],
            "hang the span 12 ft high, attached no lower than that",
            {"0/clearance": "12 ft", "0/attachment": "12 ft"},
        ),
        (
            [air("driveway", clearance="9 ft", attachment=None), WALL, air("walk", attachment="10 ft")],
            "hang the span 12 ft high, attached no lower than that",
            {"0/clearance": "12 ft", "2/attachment": "12 ft"},
        ),
    ],
)
def test_what_is_raised(legs: list[dict[str, Any]], words: str, changes: dict[str, str]) -> None:
    """The clearance, and each attachment on the route that is lower; none that is just as high or not stated."""
    rule = ROOF if legs[0]["overhead"] == "roof" else GROUND
    (way,) = at(crossed(*legs, **volts("480 V" if rule == ROOF else "120 V")), rule).answer.proposals
    assert way.words == words
    assert {edit["path"].removeprefix(f"{YARD}/legs/"): edit["value"] for edit in way.patch} == changes


# What holds it


@pytest.mark.parametrize(
    ("first", "second", "expected", "has", "place"),
    [
        ("building", "tree", "not met", "a tree", "1/held-by"),
        ("tree", "pole", "not met", "a tree", "0/held-by"),
        (None, "mast", "met", "mast", "1/held-by"),
        ("pole", "mast", "met", "pole", "0/held-by"),
        ("pole", None, "met", "pole", "0/held-by"),
    ],
)
def test_a_tree_on_any_leg(first: str | None, second: str | None, expected: str, has: str, place: str) -> None:
    """The mark is on the leg that names it, and a pole is offered there."""
    data = crossed(air(held_by=first), air("walk", held_by=second))
    line = at(data, TREE)
    assert (line.answer.outcome.value, line.answer.has) == (expected, has)
    assert line.place == f"{YARD}/legs/{place}"
    assert at(data, TREE, 1).answer.why == LATER
    if expected == "not met":
        assert after_each_proposal(data, TREE, f"{YARD}/legs/0") == {"set a pole": "met"}


@pytest.mark.parametrize(
    ("first", "second", "expected", "place"),
    [
        ("20 ft", "9 ft", "not met", "1/attachment"),
        ("9 ft", "20 ft", "not met", "0/attachment"),
        (None, "10 ft", "met", "1/attachment"),
        ("11 ft", "10 ft", "met", "1/attachment"),
    ],
)
def test_the_lowest_attachment(first: str | None, second: str, expected: str, place: str) -> None:
    """Of those that are stated."""
    data = crossed(air(attachment=first), air("walk", attachment=second))
    line = at(data, ATTACHMENT)
    assert (line.answer.outcome.value, line.place) == (expected, f"{YARD}/legs/{place}")
    assert at(data, ATTACHMENT, 1).answer.why == LATER
    if expected == "not met":
        assert after_each_proposal(data, ATTACHMENT, f"{YARD}/legs/0") == {"attach it 10 ft up or higher": "met"}


# What belongs to one span


@pytest.mark.parametrize(
    ("legs", "answers"),
    [
        ([air(messenger=False), air("walk", messenger=False)], {0: "not met", 1: "does not apply"}),
        ([air(messenger=False), WALL, air("walk", messenger=False)], {0: "met", 2: "met"}),
        ([WALL, air(messenger=False), air("walk", messenger=False)], {1: "not met", 2: "does not apply"}),
        ([WALL, air(messenger=False), WALL, air(messenger=False)], {1: "met", 3: "met"}),
        ([air(messenger=False), air("walk", messenger=True)], {0: "met"}),
        ([air(messenger=False, length="20 ft"), air("walk", length="30 ft")], {0: "met"}),  # 50 ft
        ([air(messenger=False, length="15 m")], {0: "met"}),
        ([air(messenger=False, length="15.1 m")], {0: "not met"}),
        ([air(messenger=None, length="51 ft")], {0: "cannot tell"}),
        ([air(messenger=None, length="50 ft")], {0: "met"}),
    ],
)
def test_the_length_of_a_span(legs: list[dict[str, Any]], answers: dict[int, str]) -> None:
    """One leg after the other, up to what holds the wiring; 10 AWG goes over 50 ft, with a messenger wire any way."""
    data = crossed(*legs, wires=OPEN)
    assert {leg: at(data, SIZE, leg).answer.outcome.value for leg in answers} == answers
    for leg, answer in answers.items():
        if answer == "does not apply":
            assert at(data, SIZE, leg).answer.why == at(data, COVERED, leg).answer.why == LATER


# Wires in the open


@pytest.mark.parametrize(
    ("wires", "long", "expected", "needs", "ways"),
    [
        ({"hot": "12 AWG Cu XHHW-2"}, False, "not met", "at least 10 AWG Cu",
         {"use 10 AWG Cu in the span": {"hot": "10 AWG Cu XHHW-2"}}),
        ({"hot": "10 AWG Cu XHHW-2", "neutral": "12 AWG Cu XHHW-2"}, False, "not met", "at least 10 AWG Cu",
         {"use 10 AWG Cu in the span": {"neutral": "10 AWG Cu XHHW-2"}}),
        ({"hot": "12 AWG Cu XHHW-2", "neutral": "12 AWG Cu XHHW-2"}, False, "not met", "at least 10 AWG Cu",
         {"use 10 AWG Cu in the span": {"hot": "10 AWG Cu XHHW-2", "neutral": "10 AWG Cu XHHW-2"}}),
        ({"hot": "10 AWG Al XHHW-2", "neutral": "12 AWG Cu XHHW-2"}, False, "not met", "at least 10 AWG Cu",
         {"use 10 AWG Cu in the span": {"neutral": "10 AWG Cu XHHW-2"}}),
        ({"hot": "14 AWG Cu XHHW-2", "neutral": "12 AWG Al XHHW-2"}, False, "not met", "at least 10 AWG Cu",
         {"use 10 AWG Cu in the span": {"hot": "10 AWG Cu XHHW-2"}}),
        ({"hot": "12 AWG Cu XHHW-2"}, True, "not met", "at least 8 AWG Cu",  # too thin on a messenger wire too
         {"use 8 AWG Cu in the span": {"hot": "8 AWG Cu XHHW-2"}}),
        ({"hot": "2 × 10 AWG Cu XHHW-2"}, True, "not met", "at least 8 AWG Cu",
         {"hang it on a messenger wire": {"messenger": True}, "use 8 AWG Cu in the span": {"hot": "2 × 8 AWG Cu XHHW-2"}}),
        ({"hot": "8 AWG Al XHHW-2"}, True, "not met", "at least 6 AWG Al",
         {"hang it on a messenger wire": {"messenger": True}, "use 6 AWG Al in the span": {"hot": "6 AWG Al XHHW-2"}}),
        ({"hot": "8 AWG Cu XHHW-2"}, True, "met", "at least 8 AWG Cu", {}),
        ({"hot": "10 AWG Cu XHHW-2", "ground": "14 AWG Cu bare"}, False, "met", "at least 10 AWG Cu", {}),
    ],
)  # fmt: skip
def test_wire_that_carries_itself(
    wires: dict[str, str], long: bool, expected: str, needs: str, ways: dict[str, dict[str, Any]]
) -> None:
    """The thinnest of hot and neutral; only what is too thin is exchanged, a messenger wire helps over a long span."""
    data = crossed(air(length="60 ft" if long else "40 ft", messenger=False), wires=wires)
    line = at(data, SIZE)
    assert (line.answer.outcome.value, line.answer.needs) == (expected, needs)
    assert {
        way.words: {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch}
        for way in line.answer.proposals
    } == ways


@pytest.mark.parametrize("rule", [SIZE, COVERED])
@pytest.mark.parametrize(("wires", "raceway"), [(None, "none"), ({"hot": "14 AWG Cu bare"}, "RMC 1/2 in")])
def test_cable_and_raceway_are_no_wires_in_the_open(rule: str, wires: dict[str, Any] | None, raceway: str) -> None:
    """Nor is low voltage asked about."""
    answer = at(crossed(air(raceway=raceway), wires=wires), rule).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", "no wires in the open")


@pytest.mark.parametrize(
    ("wires", "expected", "has", "ways"),
    [
        ({"hot": "2 × 10 AWG Cu bare"}, "not met", "2 × 10 AWG Cu bare", {"use insulated wire": "met"}),
        ({"hot": "10 AWG Cu XHHW-2", "neutral": "10 AWG Cu bare"}, "cannot tell", "10 AWG Cu bare", {}),
        ({"hot": "10 AWG Cu XHHW-2", "ground": "10 AWG Cu bare"}, "met", "10 AWG Cu XHHW-2", {}),
        ({"hot": "10 AWG Cu XHHW-2", "neutral": "10 AWG Cu XHHW-2"}, "met", "10 AWG Cu XHHW-2", {}),
    ],
)
def test_wire_near_a_building(wires: dict[str, str], expected: str, has: str, ways: dict[str, str]) -> None:
    """A bare hot is exchanged for an insulated one of its size."""
    data = crossed(air(), wires=wires)
    line = at(data, COVERED)
    assert (line.answer.outcome.value, line.answer.has) == (expected, has)
    assert after_each_proposal(data, COVERED, f"{YARD}/legs/0") == ways
    for way in line.answer.proposals:
        assert [(edit["path"], edit["value"]) for edit in way.patch] == [
            (f"{YARD}/carries/studio/wires/hot", "2 × 10 AWG Cu XHHW-2")
        ]
    if expected != "met":
        assert line.place == f"{YARD}/carries/studio/wires"


@pytest.mark.parametrize(
    ("house", "studio", "expected"),
    [
        ("post", "post", "does not apply"),
        ("lighting pole", "post", "does not apply"),
        ("post", "accessory", "not met"),
        ("dwelling", "post", "not met"),
    ],
)
def test_bare_wire_from_post_to_post(house: str, studio: str, expected: str) -> None:
    """A building at either end asks for covering."""
    data = crossed(air(), wires={"hot": "10 AWG Cu bare"})
    data["structures"]["gate"] = {"use": house}
    data["structures"]["studio"]["use"] = studio
    data["boxes"]["terrace-box"]["at"] = "gate"
    answer = at(data, COVERED).answer
    assert answer.outcome.value == expected
    assert expected == "not met" or answer.why == "from post to post"


def test_spans_on_the_inspection_list() -> None:
    """With the distances to windows and past the roof's edge, and a word about pools."""
    of = reviewed(crossed(WALL, air()))
    said = {
        entry.item.id.rpartition("/")[2]: entry.says for entry in of.inspect if entry.item.id.startswith("overhead/")
    }
    assert said["span-beside-buildings"].startswith("The span keeps 3 ft from windows that open")
    assert said["span-beside-buildings"].endswith("up to 3 ft past the edge.")
    assert said["near-a-pool"].startswith("If route yard passes over or near a pool")
    assert said["masts-and-drip-loops"].startswith("Drip loops at both ends")
