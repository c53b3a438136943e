"""What counts in a box and what does not, standard boxes, and the box that is offered."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line
from support.reviews import example, merged, reviewed
from support.trenches import after_each_proposal, line_at

FILL, STANDARD = "fill/room-in-a-box", "volume-of-a-standard-box"
TERRACE, PULL, BENCH, PLANER = "/boxes/terrace-box", "/boxes/pull-box", "/boxes/bench-box", "/boxes/planer-box"


def counted(line: Line) -> list[str]:
    """What is added up, without the sum."""
    return [words for words, _ in line.steps if not words.startswith("together")]


def filled(place: str, data: dict[str, Any]) -> Line:
    """What is said of the room in a box."""
    return line_at(reviewed(data), FILL, place)


# Wires that pass through

IN_AND_OUT = ("garage-run", "yard")
SIX = {"hot": "2 × 6 AWG Cu THWN-2", "neutral": "6 AWG Cu THWN-2", "ground": "10 AWG Cu THWN-2"}


@pytest.mark.parametrize(
    ("out", "spliced", "conductors", "grounds"),
    [
        (SIX, False, "3 conductors: 15 in³", "1 ground: 2.5 in³"),
        (SIX, True, "6 conductors: 30 in³", "2 grounds: 2.5 in³"),
        ({**SIX, "ground": "8 AWG Cu THWN-2"}, False, "6 conductors: 30 in³", "2 grounds: 3 in³"),
        ({**SIX, "neutral": None}, False, "5 conductors: 25 in³", "2 grounds: 2.5 in³"),
        ({**SIX, "hot": "2 × 8 AWG Cu THWN-2"}, False, "6 conductors: 26 in³", "2 grounds: 2.5 in³"),
        ({**SIX, "ground": None}, False, "6 conductors: 30 in³", "1 ground: 2.5 in³"),
    ],
)
def test_wires_that_pass_through(out: dict[str, Any], spliced: bool, conductors: str, grounds: str) -> None:
    """Unbroken only where as many of each size go out as come in; a ground counts by the largest."""
    routes = {"yard": {"carries": {"workshop-feeder": {"wires": out}}}}
    line = filled(PULL, example("joinery-workshop", {"boxes": {"pull-box": {"spliced": spliced}}, "routes": routes}))
    assert counted(line) == [conductors, grounds]


def test_cable_beside_wires_that_pass_through_changes_nothing_for_them() -> None:
    """The wires count once, the cable of another circuit in full."""
    more = {
        "circuits": {"spare": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}},
        "routes": {"garage-run": {"carries": {"spare": {"cable": "UF-B 12/2"}}}},
        "boxes": {"pull-box": {"spliced": False}},
    }
    assert counted(filled(PULL, example("joinery-workshop", more))) == ["5 conductors: 19.5 in³", "2 grounds: 2.5 in³"]


def test_a_strap_counts_by_the_largest_wire_of_its_circuit_in_one_route_too() -> None:
    """The neutral is larger than the hot here: twice 2.5 in³ for 10 AWG, three times: the planer's receptacle takes two gangs."""
    wires = {"hot": "14 AWG Cu THHN", "neutral": "10 AWG Cu THHN", "ground": "14 AWG Cu THHN"}
    data = example(
        "joinery-workshop",
        {
            "routes": {"planer-run": {"carries": {"planer": {"wires": wires}}}},
            "boxes": {"planer-box": {"devices": {"cut-off": {"switch": "20 A"}}}},
        },
    )
    assert "2 yokes: 15 in³" in counted(filled(PLANER, data))


def test_wires_without_a_ground() -> None:
    """Nothing is counted for one."""
    carried = {"carries": {"workshop-feeder": {"wires": {**SIX, "ground": None}}}}
    patch = {"boxes": {"pull-box": {"spliced": False}}, "routes": dict.fromkeys(IN_AND_OUT, carried)}
    assert counted(filled(PULL, example("joinery-workshop", patch))) == ["3 conductors: 15 in³"]


def test_what_ends_beside_wires_that_pass_through() -> None:
    """It counts in full."""
    more = {
        "from": "house-panel", "to": "pull-box", "raceway": "EMT 1/2 in", "legs": [{"on": "inside wall"}],
        "carries": {"more": {"wires": {"hot": "12 AWG Cu THHN", "neutral": "12 AWG Cu THHN"}}},
    }  # fmt: skip
    patch = {
        "circuits": {"more": {"kind": "branch circuit", "from": "house-panel"}},
        "boxes": {"pull-box": {"spliced": False}},
        "routes": {"more": more},
    }
    assert counted(filled(PULL, example("joinery-workshop", patch))) == ["5 conductors: 19.5 in³", "1 ground: 2.5 in³"]


@pytest.mark.parametrize(
    ("out", "why"),
    [
        ({"hot": "2 × 4 AWG Cu THWN-2"}, "4 AWG or larger: it goes by its length"),
        ({"ground": "4 AWG Cu bare"}, "a ground of 4 AWG or larger beside smaller conductors"),
    ],
)
def test_one_large_wire_is_enough(out: dict[str, str], why: str) -> None:
    """To go by length, or by nothing that a plan tells."""
    routes = {"yard": {"carries": {"workshop-feeder": {"wires": {**SIX, **out}}}}}
    line = filled(PULL, example("joinery-workshop", {"routes": routes}))
    assert line.answer.outcome.value == ("cannot tell" if "ground" in out else "does not apply")
    assert line.answer.why.startswith(why)
    if "ground" in out:
        assert (str(line.answer.has), line.place) == ("4 AWG", f"{PULL}/box/volume")


def test_cable_does_not_pass_through() -> None:
    """Its sheath ends there."""
    carried = {"workshop-feeder": {"wires": None, "cable": "SER 6-6-6-10 Cu"}}
    data = example(
        "joinery-workshop",
        {"boxes": {"pull-box": {"spliced": False}}, "routes": {"yard": {"carries": carried}}},
    )
    assert counted(filled(PULL, data)) == ["6 conductors: 30 in³", "2 grounds: 2.5 in³"]
    both = merged(data, {"routes": {"garage-run": {"carries": carried}}})
    assert counted(filled(PULL, both)) == ["6 conductors: 30 in³", "2 grounds: 2.5 in³"]


TWELVE = {"hot": "12 AWG Cu THHN", "neutral": "12 AWG Cu THHN", "ground": "12 AWG Cu THHN"}
ONWARD = {"raceway": "EMT 1/2 in", "carries": {"bench-outlets": {"cable": None, "wires": TWELVE}}}


@pytest.mark.parametrize(
    ("devices", "expected"),
    [
        ({}, ["4 conductors: 9 in³", "1 yoke: 4.5 in³", "2 grounds: 2.25 in³"]),
        ({"bench-outlet": None}, ["2 conductors: 4.5 in³", "1 ground: 2.25 in³"]),
    ],
)
def test_wires_on_a_device_are_not_unbroken(devices: dict[str, Any], expected: list[str]) -> None:
    """Whatever is said of splices."""
    data = example(
        "joinery-workshop",
        {"boxes": {"bench-box": {"spliced": False, "devices": devices}}, "routes": {"porch": ONWARD}},
    )
    assert counted(filled(BENCH, data)) == expected


def test_wires_that_go_two_ways_are_not_unbroken() -> None:
    """One in, two out."""
    third = {**ONWARD, "from": "bench-box", "to": "spare-box", "carries": {"bench-outlets": {"wires": TWELVE}}}
    data = example(
        "joinery-workshop",
        {
            "boxes": {
                "bench-box": {"spliced": False, "devices": {"bench-outlet": None}},
                "spare-box": {"at": "workshop", "area": "indoors", "location": "dry"},
            },
            "routes": {"porch": ONWARD, "spare": {**third, "legs": [{"on": "inside wall"}]}},
        },
    )
    assert counted(filled(BENCH, data)) == ["6 conductors: 13.5 in³", "3 grounds: 2.25 in³"]


# Clamps, studs, straps


@pytest.mark.parametrize(
    ("raceway", "clamps", "expected"),
    [
        ("none", True, True),
        ("none", False, False),
        ("EMT 1/2 in", True, False),  # the cable comes in by way of a raceway, as the other one does
        (None, True, True),
    ],
)
def test_clamps_count_where_a_cable_enters_as_such(raceway: str | None, clamps: bool, expected: bool) -> None:
    """One for all of them."""
    patch = {"boxes": {"terrace-box": {"box": {"clamps": clamps}}}, "routes": {"garage-wall": {"raceway": raceway}}}
    line = filled(TERRACE, example("pottery-studio", patch))
    assert ("clamps: 2.25 in³" in counted(line)) is expected


def test_wires_need_no_clamp() -> None:
    """In raceway or not."""
    wall = {"carries": {"studio": {"cable": None, "wires": {**TWELVE}}}}
    patch = {"boxes": {"terrace-box": {"box": {"clamps": True}}}, "routes": {"garage-wall": wall}}
    assert [words for words in counted(filled(TERRACE, example("pottery-studio", patch))) if "clamps" in words] == []


@pytest.mark.parametrize(
    ("volume", "expected"), [("15.7 in³", "not met"), ("15.75 in³", "cannot tell"), ("18 in³", "met")]
)
def test_clamps_are_asked_for_between_the_bounds(volume: str, expected: str) -> None:
    """Seven of 2.25 in³ without them, eight with."""
    data = example("pottery-studio", {"boxes": {"terrace-box": {"box": {"volume": volume}}}})
    line = filled(TERRACE, data)
    assert line.answer.outcome.value == expected
    asks = line.answer.asks
    assert (asks is not None and asks.place == f"{TERRACE}/box/clamps") is (expected == "cannot tell")
    assert bool(counted(line)) is (expected != "cannot tell")


@pytest.mark.parametrize(
    ("place", "box", "expected", "asks"),
    [
        (PULL, {"box": {"volume": "17.4 in³"}}, "not met", ""),  # three of 6 AWG and a ground at the least
        (PULL, {"box": {"volume": "17.5 in³"}}, "cannot tell", "spliced"),
        (PULL, {"box": {"volume": "32.5 in³"}}, "met", ""),
        (PLANER, {"box": {"volume": "12.4 in³"}}, "not met", ""),  # the 30 A receptacle in one gang
        (PLANER, {"box": {"volume": "12.5 in³"}}, "cannot tell", "devices/planer-outlet/gangs"),
        (PLANER, {"box": {"volume": "17.5 in³"}}, "met", ""),
        (BENCH, {"box": {"volume": None}}, "cannot tell", "box/volume"),
    ],
)
def test_what_is_asked_for_between_the_bounds(place: str, box: dict[str, Any], expected: str, asks: str) -> None:
    """Splices, gangs, and the volume of a box that is no standard one."""
    line = filled(place, example("joinery-workshop", {"boxes": {place.rpartition("/")[2]: box}}))
    assert line.answer.outcome.value == expected
    assert (line.answer.asks.place if line.answer.asks is not None else "") == (f"{place}/{asks}" if asks else "")


@pytest.mark.parametrize(("studs", "expected"), [(None, []), (1, ["fittings: 2.25 in³"]), (2, ["fittings: 4.5 in³"])])
def test_each_stud_counts(studs: int | None, expected: list[str]) -> None:
    """None unless stated."""
    line = filled(TERRACE, example("pottery-studio", {"boxes": {"terrace-box": {"box": {"studs": studs}}}}))
    assert [words for words in counted(line) if words.startswith("fittings")] == expected


@pytest.mark.parametrize(
    ("devices", "expected"),
    [
        ({"terrace-outlet": {"gangs": 1}}, "1 yoke: 4.5 in³"),
        ({"terrace-outlet": {"gangs": 2}}, "1 yoke: 9 in³"),
        ({"terrace-outlet": {"receptacle": "20 A"}}, "1 yoke: 4.5 in³"),  # takes one gang, if nothing else is said
        ({"terrace-outlet": {"receptacle": "30 A"}}, "1 yoke: 9 in³"),
        ({"terrace-outlet": {"receptacle": "30 A", "gangs": 1}}, "1 yoke: 4.5 in³"),
        ({"more": {"switch": "20 A"}}, "2 yokes: 9 in³"),
        ({"more": {"ground-fault-device": "20 A"}}, "2 yokes: 9 in³"),
        ({"more": {"luminaire": "40 W"}}, "1 yoke: 4.5 in³"),
        ({"more": {"motor": "1/2 hp"}}, "1 yoke: 4.5 in³"),
        ({"terrace-outlet": None}, ""),
    ],
)
def test_straps(devices: dict[str, Any], expected: str) -> None:
    """Of receptacles, switches and ground-fault devices, by their gangs; other wiring is outside the box."""
    data = example("pottery-studio", {"boxes": {"terrace-box": {"box": {"volume": "60 in³"}, "devices": devices}}})
    assert "".join(words for words in counted(filled(TERRACE, data)) if "yoke" in words) == expected


def test_a_strap_counts_by_the_largest_wire_of_its_own_circuit() -> None:
    """Fourteen in and twelve out on the receptacle; the ten of another circuit are none of its business."""
    more = {"planer": {"wires": {"hot": "2 × 10 AWG Cu THHN", "ground": "10 AWG Cu THHN"}}}
    fourteen = {"hot": "14 AWG Cu THHN", "neutral": "14 AWG Cu THHN", "ground": "14 AWG Cu THHN"}
    data = example(
        "joinery-workshop",
        {
            "boxes": {"bench-box": {"devices": {"bench-outlet": {"circuit": "bench-outlets"}}}},
            "routes": {"bench": {"carries": {"bench-outlets": {"wires": fourteen}, **more}}},
        },
    )
    assert counted(filled(BENCH, data)) == [
        "6 conductors: 13.5 in³", "1 yoke: 4.5 in³", "3 grounds: 2.5 in³", "clamps: 2.5 in³",
    ]  # fmt: skip


# What is left alone


@pytest.mark.parametrize(
    ("patch", "why"),
    [
        ({"box": {"kind": "handhole"}}, "an enclosure with wiring space of its own kind"),
        ({"box": {"kind": "pedestal"}}, "an enclosure with wiring space of its own kind"),
        (
            {"box": {"volume": None}, "devices": {"shutoff": {"disconnect": "30 A"}}},
            "an enclosure with wiring space of its own kind",
        ),
        ({"box": {"kind": "conduit body"}, "spliced": False}, "a conduit body in which nothing is joined"),
    ],
)
def test_boxes_that_are_left_alone(patch: dict[str, Any], why: str) -> None:
    """Each with its reason."""
    answer = filled(PULL, example("joinery-workshop", {"boxes": {"pull-box": patch}})).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


def test_a_box_that_nothing_enters() -> None:
    """Yet."""
    data = example("joinery-workshop", {"boxes": {"spare": {"at": "house", "area": "garage", "location": "dry"}}})
    assert filled("/boxes/spare", data).answer.why == "nothing comes in"


def test_a_conduit_body_in_which_something_is_joined() -> None:
    """Wires out that are not those that come in, or a device: it has a volume, whatever is said of splices."""
    body = {"boxes": {"pull-box": {"box": {"kind": "conduit body"}, "spliced": False}}}
    other = {"routes": {"yard": {"carries": {"workshop-feeder": {"wires": {"ground": "8 AWG Cu THWN-2"}}}}}}
    lamp = {"boxes": {"pull-box": {"devices": {"pump": {"motor": "1 hp"}}}}}
    for more in (other, lamp, {"boxes": {"pull-box": {"spliced": True}}}):
        line = filled(PULL, example("joinery-workshop", merged(body, more)))
        assert (line.answer.outcome.value, line.answer.rows) == ("met", ("conduit-body-fill",))


# The answer and the way out


@pytest.mark.parametrize(
    ("box", "expected", "place", "ways"),
    [
        ({"volume": "15 in³"}, "not met", "volume", ["use a box of 15.8 in³ or more for bench-box"]),
        ({"volume": "15.75 in³"}, "met", "volume", []),
        ({"volume": "15 in³", "kind": None}, "not met", "volume", ["use a box of 15.8 in³ or more for bench-box"]),
        ({"volume": None, "size": "square 4 x 1-1/4"}, "met", "size", []),
        ({"volume": None, "size": "octagonal 4 x 1-1/4"}, "not met", "size", ["use an octagonal 4 x 2-1/8 box for bench-box"]),
        ({"volume": None, "size": "device 3 x 2 x 2"}, "not met", "size", ["use a device 3 x 2 x 3-1/2 box for bench-box"]),
        ({"volume": "14 in³", "size": "octagonal 4 x 1-1/2"}, "not met", "volume", ["use a box of 15.8 in³ or more for bench-box"]),
    ],
)  # fmt: skip
def test_the_box_that_is_offered(box: dict[str, Any], expected: str, place: str, ways: list[str]) -> None:
    """Of the bench receptacle with 12 AWG in and out, seven of 2.25 in³: the next of the same shape, else its volume."""
    patch = {"boxes": {"bench-box": {"box": {"clamps": False, **box}}}}
    data = example("joinery-workshop", patch)
    line = filled(BENCH, data)
    assert (line.answer.outcome.value, line.answer.needs) == (expected, "at least 15.75 in³")
    assert line.place == f"{BENCH}/box/{place}"
    assert line.answer.rows == ("box-fill-volume",)
    assert after_each_proposal(data, FILL, BENCH) == dict.fromkeys(ways, "met")


def test_a_standard_box_that_is_just_large_enough_is_offered() -> None:
    """With clamps the bench receptacle needs 18 in³."""
    box = {"clamps": True, "volume": None, "size": "device 3 x 2 x 2"}
    data = example("joinery-workshop", {"boxes": {"bench-box": {"box": box}}})
    assert filled(BENCH, data).answer.needs == "at least 18 in³"
    assert after_each_proposal(data, FILL, BENCH) == {"use a device 3 x 2 x 3-1/2 box for bench-box": "met"}


def test_no_standard_box_is_large_enough() -> None:
    """Then any that is marked with the volume."""
    wires = {"hot": "20 × 12 AWG Cu THHN"}
    patch = {
        "boxes": {"planer-box": {"box": {"volume": None, "size": "square 4 x 1-1/4"}}},
        "routes": {"planer-run": {"carries": {"planer": {"wires": wires}}}},
    }
    data = example("joinery-workshop", patch)
    assert after_each_proposal(data, FILL, PLANER) == {"use a box of 56.5 in³ or more for planer-box": "met"}


def test_the_volume_of_a_standard_box_is_derived() -> None:
    """From the table, at its size."""
    patch = {"boxes": {"bench-box": {"box": {"volume": None, "size": "octagonal 4 x 2-1/8"}}}}
    line = filled(BENCH, example("joinery-workshop", patch))
    assert line.steps[0] == ("an octagonal 4 x 2-1/8 box has 21.5 in³", f"{BENCH}/box/size")


@pytest.mark.parametrize(
    ("volume", "size", "expected", "needs"),
    [
        ("15.5 in³", "octagonal 4 x 1-1/2", "met", "at most 15.5 in³ for an octagonal 4 x 1-1/2 box"),
        ("15.6 in³", "octagonal 4 x 1-1/2", "not met", "at most 15.5 in³ for an octagonal 4 x 1-1/2 box"),
        ("18 in³", "device 3 x 2 x 3-1/2", "met", "at most 18.0 in³ for a device 3 x 2 x 3-1/2 box"),
    ],
)
def test_volume_beside_a_size(volume: str, size: str, expected: str, needs: str) -> None:
    """No more is counted than the table has, unless the box is marked otherwise."""
    data = example("joinery-workshop", {"boxes": {"bench-box": {"box": {"volume": volume, "size": size}}}})
    line = line_at(reviewed(data), STANDARD, BENCH)
    assert (line.answer.outcome.value, line.answer.needs, line.place) == (expected, needs, f"{BENCH}/box/volume")
    assert set(after_each_proposal(data, STANDARD, BENCH).values()) <= {"met"}
    for left_out in ("volume", "size"):
        without = merged(data, {"boxes": {"bench-box": {"box": {left_out: None}}}})
        assert line_at(reviewed(without), STANDARD, BENCH).answer.outcome.value == "does not apply"
