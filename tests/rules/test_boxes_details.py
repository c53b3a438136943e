"""Boxes: how long, how held, within whose reach; and what the inspection list says of them."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line, Review
from support.reviews import asked, example, merged, reviewed
from support.trenches import after_each_proposal, line_at

LENGTH, HELD, WEIGHT, REACH = "length-of-a-pull-box", "box-held-by-raceways", "weight-on-a-box", "box-within-reach"
PULL, TERRACE = "/boxes/pull-box", "/boxes/terrace-box"
WALL = {"on": "inside wall", "length": "9 ft", "location": "dry"}


def inspected(of: Review, item: str, subject: str = "") -> str:
    """What the inspection list says under this item; empty where it does not come up."""
    said = [entry.says for entry in of.inspect if entry.item.id == f"boxes/{item}" and entry.subject == subject]
    assert len(said) < 2
    assert of.failures == ()
    return "".join(said)


# Length


def pulled(sizes: tuple[str, ...], length: str | None, pull: str | None = None, wire: str = "4") -> Line:
    """What is said of the joinery's pull box with raceways of these trade sizes: its feeder's two, and more into it."""
    wires = {"hot": f"2 × {wire} AWG Cu THWN-2", "neutral": f"{wire} AWG Cu THWN-2"}
    feeder = {"carries": {"workshop-feeder": {"wires": wires}}}
    routes: dict[str, Any] = {
        name: feeder | {"raceway": f"EMT {size} in"} for name, size in zip(("garage-run", "yard"), sizes, strict=False)
    }
    more = {f"more-{number}": size for number, size in enumerate(sizes[2:])}
    for name, size in more.items():
        routes[name] = {
            "from": "house-panel", "to": "pull-box", "raceway": f"EMT {size} in",
            "carries": {name: {"wires": {"hot": "4 AWG Cu THWN-2"}}}, "legs": [WALL],
        }  # fmt: skip
    circuit = {"kind": "branch circuit", "from": "house-panel"}
    patch = {
        "circuits": dict.fromkeys(more, circuit),
        "boxes": {"pull-box": {"box": {"length": length}, "pull": pull}},
        "routes": routes,
    }
    return line_at(reviewed(example("joinery-workshop", patch)), LENGTH, PULL)


@pytest.mark.parametrize(
    ("sizes", "length", "pull", "expected", "needs"),
    [
        (("2", "1-1/4"), "16 in", None, "met", "at least 16 in"),  # enough for either kind of pull
        (("2", "1-1/4"), "15.9 in", "straight", "not met", "at least 16 in"),
        (("2", "1-1/4"), "12 in", "angle", "met", "at least 12 in"),
        (("2", "1-1/4"), "12 in", None, "cannot tell", ""),
        (("2", "1-1/4"), "11.9 in", None, "not met", "at least 12 in"),  # too short for either
        (("1-1/4", "2"), "12 in", "angle", "met", "at least 12 in"),
        (("2",), "12 in", "angle", "met", "at least 12 in"),
        # At an angle all but the smallest may be in the wall of the largest: 6 × 2, 1-1/2 and 1-1/4.
        (("2", "1-1/2", "1-1/4"), "13.5 in", "angle", "met", "at least 13.5 in"),
        (("2", "1-1/2", "1-1/4", "1"), "14.75 in", "angle", "met", "at least 14.75 in"),
        (("2", "1-1/2", "1-1/4", "1"), "11.9 in", "angle", "not met", "at least 12 in"),
        # Five of 2 in: 6 × 2 and three more are 18, more than 8 × 2.
        (("2", "2", "2", "2", "2"), "18 in", None, "met", "at least 18 in"),
        (("2", "2", "2", "2", "2"), "17 in", "straight", "met", "at least 16 in"),
    ],
)
def test_length_by_the_kind_of_pull(
    sizes: tuple[str, ...], length: str, pull: str | None, expected: str, needs: str
) -> None:
    """Eight times the largest straight on, six times and the others round a corner."""
    line = pulled(sizes, length, pull)
    assert line.answer.outcome.value == expected
    if expected == "cannot tell":
        assert line.answer.asks is not None
        assert line.answer.asks.place == f"{PULL}/pull"
    else:
        assert (line.answer.needs, line.place) == (needs, f"{PULL}/box/length")


@pytest.mark.parametrize(
    ("sizes", "length", "added", "enough"),
    [
        (("2", "1-1/2", "1-1/4"), "13.4 in", "1-1/2 in", "13.5 in"),
        (("2", "1-1/2", "1-1/4"), "12 in", "1-1/2 in", "13.5 in"),
        (("2", "1-1/2", "1-1/4", "1"), "14.7 in", "1-1/2 in + 1-1/4 in", "14.75 in"),
        (("2", "2", "2", "2", "2"), "17 in", "2 in + 2 in + 2 in", "18 in"),
    ],
)
def test_which_raceways_share_a_wall_is_for_the_authority(
    sizes: tuple[str, ...], length: str, added: str, enough: str
) -> None:
    """Between the least and the most at an angle, and nothing is asked for that the plan could state."""
    answer = pulled(sizes, length, "angle").answer
    assert (answer.outcome.value, answer.asks) == ("cannot tell", None)
    assert f"whether {added} is in the wall" in answer.why
    assert answer.why.endswith(f"round a corner {enough} is enough")
    assert pulled(sizes, length).answer.asks is not None


def test_the_longest_that_it_may_need_is_offered() -> None:
    """Whatever the pull is."""
    for sizes, words in ((("2", "1-1/4"), "use a box 16 in long"), (("2",) * 5, "use a box 18 in long")):
        (way,) = pulled(sizes, "9 in").answer.proposals
        assert way.words == words
        assert [(edit["path"], f"use a box {edit['value']} long") for edit in way.patch] == [
            (f"{PULL}/box/length", words)
        ]


@pytest.mark.parametrize(("size", "written"), [("1-1/4", "1-1/4 in"), ("2", "2 in"), ("3/4", "3/4 in")])
def test_the_derivation_of_a_length(size: str, written: str) -> None:
    """By the largest raceway."""
    words = f"largest raceway {written}, 8 times straight, 6 times at an angle"
    assert pulled((size, "1/2"), "1 in").steps == ((words, PULL),)


@pytest.mark.parametrize("length", ["1 in", "16 in"])
def test_the_derivation_tells_what_is_added(length: str) -> None:
    """Whether it is long enough or not."""
    steps = [step for step, _ in pulled(("1-1/4", "2", "1", "1-1/2"), length, "angle").steps]
    assert any(step.endswith("at the most 1-1/2 in + 1-1/4 in") for step in steps)


SWITCH = {"isolator": {"disconnect": "60 A", "opens": "all hots"}}


@pytest.mark.parametrize(
    ("wire", "patch", "why"),
    [
        ("6", {}, "no 4 AWG or larger in raceway"),
        ("4", {"boxes": {"pull-box": {"box": {"kind": "conduit body"}}}}, "no wires in raceway, or a conduit body"),
        (
            "4",
            {"routes": {"garage-run": {"raceway": "none"}, "yard": {"raceway": "none"}}},
            "no wires in raceway, or a",
        ),
        (
            "4",
            {"routes": {"garage-run": {"raceway": "plumbing pipe 2 in"}, "yard": {"raceway": "none"}}},
            "no wires in raceway, or a conduit body",
        ),
        ("4", {"boxes": {"pull-box": {"devices": SWITCH}}}, "the enclosure of a switch, with wiring space of its own"),
    ],
)
def test_boxes_that_do_not_go_by_length(wire: str, patch: dict[str, Any], why: str) -> None:
    """Small wires, cable, conduit bodies, and the enclosure of a switch."""
    wires = {"hot": f"2 × {wire} AWG Cu THWN-2", "neutral": f"{wire} AWG Cu THWN-2"}
    feeder = {"carries": {"workshop-feeder": {"wires": wires}}}
    data = example("joinery-workshop", {"routes": {"garage-run": feeder, "yard": feeder}})
    answer = line_at(reviewed(merged(data, patch)), LENGTH, PULL).answer
    assert answer.outcome.value == "does not apply"
    assert answer.why.startswith(why)


@pytest.mark.parametrize(("length", "expected"), [("4 in", "not met"), ("9 in", "cannot tell"), ("10 in", "met")])
def test_a_switch_in_a_box_does_not_silence_its_stated_length(length: str, expected: str) -> None:
    """Eight times 1-1/4 in straight, six times at an angle, with the switch as without."""
    wires = {"hot": "2 × 4 AWG Cu THWN-2", "neutral": "4 AWG Cu THWN-2"}
    feeder = {"carries": {"workshop-feeder": {"wires": wires}}}
    data = example("joinery-workshop", {"routes": {"garage-run": feeder, "yard": feeder}})
    for devices in (SWITCH, {}):
        of = merged(data, {"boxes": {"pull-box": {"box": {"length": length}, "devices": devices}}})
        assert line_at(reviewed(of), LENGTH, PULL).answer.outcome.value == expected


def test_large_wire_beside_a_raceway_of_small_wire() -> None:
    """What is in the raceway counts."""
    wires = {"raceway": "none", "carries": {"workshop-feeder": {"wires": {"hot": "2 × 4 AWG Cu THWN-2"}}}}
    small = {
        "from": "house-panel", "to": "pull-box", "raceway": "EMT 1 in", "legs": [WALL],
        "carries": {"more": {"wires": {"hot": "12 AWG Cu THWN-2"}}},
    }  # fmt: skip
    patch = {
        "circuits": {"more": {"kind": "branch circuit", "from": "house-panel"}},
        "routes": {"garage-run": wires, "yard": wires, "more": small},
    }
    answer = line_at(reviewed(example("joinery-workshop", patch)), LENGTH, PULL).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", "no 4 AWG or larger in raceway")


def test_one_raceway_is_enough() -> None:
    """Where the other wires come out of none; an unnamed one is asked for."""
    wires = {"carries": {"workshop-feeder": {"wires": {"hot": "2 × 4 AWG Cu THWN-2"}}}}
    routes = {"garage-run": wires | {"raceway": "EMT 2 in"}, "yard": wires | {"raceway": "none"}}
    data = example("joinery-workshop", {"boxes": {"pull-box": {"box": {"length": "16 in"}}}, "routes": routes})
    assert line_at(reviewed(data), LENGTH, PULL).answer.outcome.value == "met"
    unnamed = merged(data, {"routes": {"garage-run": {"raceway": None}}})
    assert "/routes/garage-run/raceway" in asked(reviewed(unnamed))


FAR = {"legs": [{"buried": "lawn", "cover": "24 in", "length": "400 ft"}]}
"""So far that the voltage drop asks for 2 AWG."""


@pytest.mark.parametrize(
    ("patch", "told"),
    [
        ({}, ", and a box 10 in long for pull-box"),
        ({"routes": {"garage-run": {"raceway": "EMT 2 in"}}}, ", and a box 16 in long for pull-box"),
        ({"boxes": {"pull-box": {"box": {"length": "4 in"}}}}, ""),  # stated, and a finding of its own if it is too short
        ({"boxes": {"pull-box": {"box": {"kind": "conduit body"}}}}, ""),
        ({"boxes": {"pull-box": {"devices": SWITCH}}}, ""),
        ({"routes": {"garage-run": {"raceway": None}, "yard": {"raceway": "none"}}}, ""),
        # Large wire in raceway was there before, so that the length is asked for anyhow; small wire, or cable, was not.
        ({"routes": {"more": {"carries": {"more": {"wires": {"hot": "4 AWG Cu THWN-2"}}}}}}, ""),
        ({"routes": {"more": {"carries": {"more": {"wires": {"neutral": "4 AWG Cu THWN-2"}}}}}}, ""),
        ({"routes": {"more": {"carries": {"more": {"cable": "SER 4-4-4-6 Al", "wires": None}}}}}, ""),
        ({"routes": {"more": {"carries": {"more": {"wires": {"hot": "6 AWG Cu THWN-2"}}}}}}, ", and a box 10 in long for pull-box"),
        ({"routes": {"more": {"raceway": "none", "carries": {"more": {"cable": "SER 4-4-4-6 Al", "wires": None}}}}},
         ", and a box 10 in long for pull-box"),
    ],
)  # fmt: skip
def test_larger_wire_comes_with_a_box_that_it_can_be_pulled_through(patch: dict[str, Any], told: str) -> None:
    """Of a length that the plan had no reason to state before, enough for either kind of pull."""
    more = {
        "from": "house-panel", "to": "pull-box", "raceway": "EMT 2 in", "legs": [WALL],
        "carries": {"more": {"wires": {"hot": "12 AWG Cu THWN-2"}}},
    }  # fmt: skip
    data = example("joinery-workshop", {"routes": {"yard": FAR}, "circuits": {"workshop-feeder": {"load": "40 A"}}})
    if "more" in patch.get("routes", {}):
        data = merged(data, {"circuits": {"more": {"kind": "feeder", "from": "house-panel"}}, "routes": {"more": more}})
    answer = line_at(reviewed(merged(data, patch)), "/drop-of-one-circuit", "/circuits/workshop-feeder").answer
    words = [way.words for way in answer.proposals if way.words.startswith("run ")]
    assert words == [f"run workshop-feeder in 2 AWG, all the way{told}"]


def test_4_awg_is_large() -> None:
    """The feeder of a larger breaker."""
    data = example("joinery-workshop", {"circuits": {"planer": {"load": "62 A"}}})
    (way,) = line_at(reviewed(data), "/breaker-carries-the-load", "/circuits/workshop-feeder").answer.proposals
    assert way.words.endswith("a 70 A breaker, with conductors and a panel to match, and a box 10 in long for pull-box")


def test_the_box_that_comes_with_larger_wire_is_stated() -> None:
    """After it nothing is asked of the box, whatever the pull is."""
    data = example("joinery-workshop", {"routes": {"yard": FAR}, "circuits": {"workshop-feeder": {"load": "40 A"}}})
    place = "/circuits/workshop-feeder"
    (way,) = line_at(reviewed(data), "/drop-of-one-circuit", place).answer.proposals
    after = reviewed(applied(data, complete(data, way.patch)))
    assert line_at(after, "/drop-of-one-circuit", place).answer.outcome.value == "met"
    assert line_at(after, LENGTH, PULL).answer.outcome.value == "met"
    assert not [place for place in asked(after) if place.startswith(PULL)]


def test_large_cable_is_on_the_inspection_list() -> None:
    """Each kind once, from 4 AWG on."""
    item = "pull-boxes/large-cable-in-a-box"
    for cable, says in (("SER 4-4-4-6 Al", "SER 4-4-4-6 Al: the box is as long"), ("SER 6-6-6-8 Cu", "")):
        carried = {"carries": {"workshop-feeder": {"wires": None, "cable": cable}}}
        of = reviewed(example("joinery-workshop", {"routes": {"garage-run": carried, "yard": carried}}))
        assert inspected(of, item, PULL).startswith(says)
        assert bool(inspected(of, item, PULL)) is bool(says)
    wires = {"carries": {"workshop-feeder": {"wires": {"hot": "2 × 4 AWG Cu THWN-2"}}}}
    assert inspected(reviewed(example("joinery-workshop", {"routes": {"yard": wires}})), item, PULL) == ""


# What holds a box


@pytest.mark.parametrize(
    ("box", "kinds", "expected", "has", "row"),
    [
        ({"held-by": "structure"}, ("RMC", "RMC"), "met", "fastened to the structure", ()),
        ({"held-by": "raceway"}, ("RMC", "IMC"), "met", "held by 2 threaded raceways", ()),
        ({"held-by": "raceway"}, ("RMC", "EMT"), "not met", "held by 1 threaded raceways", ("box-support",)),
        ({"held-by": "raceway"}, ("EMT", "EMT"), "not met", "held by 0 threaded raceways", ("box-support",)),
        ({"held-by": "raceway"}, ("PVC-40", "PVC-80"), "not met", "held by PVC-40 1-1/4 in", ("box-support",)),
        ({"held-by": "raceway"}, ("RMC", "LFNC"), "not met", "held by LFNC 1-1/4 in", ("box-support",)),
        ({"held-by": "raceway", "devices": {"lamp": {"luminaire": "9 W"}}}, ("RMC", "PVC-80"), "not met",
         "held by PVC-80 1-1/4 in", ("pvc-not-support-light",)),
        ({"held-by": "raceway", "devices": {"pump": {"motor": "1 hp"}}}, ("RMC", "PVC-80"), "not met",
         "held by PVC-80 1-1/4 in", ("box-support",)),
    ],
)  # fmt: skip
def test_what_holds_a_box(
    box: dict[str, Any], kinds: tuple[str, str], expected: str, has: str, row: tuple[str, ...]
) -> None:
    """The structure, or two threaded raceways; plastic none, least of all a luminaire."""
    routes = {name: {"raceway": f"{kind} 1-1/4 in"} for name, kind in zip(("garage-run", "yard"), kinds, strict=True)}
    of = reviewed(
        example("joinery-workshop", {"boxes": {"pull-box": {**box, "box": {"volume": "99 in³"}}}, "routes": routes})
    )
    line = line_at(of, HELD, PULL)
    assert (line.answer.outcome.value, line.answer.has, line.answer.rows) == (expected, has, row)
    assert line.place == f"{PULL}/held-by"
    if "PVC" in has:
        assert ("a luminaire" in line.answer.why) is (row == ("pvc-not-support-light",))


@pytest.mark.parametrize(("volume", "expected"), [("100 in³", "met"), ("101 in³", "not met")])
def test_a_large_box_is_not_held_by_raceways(volume: str, expected: str) -> None:
    """Over 100 in³ it is fastened, which settles it."""
    routes = {name: {"raceway": "RMC 1-1/4 in"} for name in ("garage-run", "yard")}
    boxes = {"pull-box": {"held-by": "raceway", "box": {"volume": volume}}}
    data = example("joinery-workshop", {"boxes": boxes, "routes": routes})
    line = line_at(reviewed(data), HELD, PULL)
    assert line.answer.outcome.value == expected
    if expected == "not met":
        assert (line.answer.of, line.answer.rows) == ("volume", ("box-support",))
        assert line.answer.needs == "at most 100 in³ for a box on its raceways"
        assert after_each_proposal(data, HELD, PULL) == {"fasten the box to the structure": "met"}


@pytest.mark.parametrize(
    ("weight", "holds", "expected", "needs"),
    [
        ("50 lb", None, "met", "at most 50 lb on an ordinary box"),
        ("23 kg", None, "met", "at most 50 lb on an ordinary box"),
        ("24 kg", None, "not met", "at most 50 lb on this box"),
        ("60 lb", "60 lb", "met", "at most 60 lb, for which the box is listed"),
        ("60 lb", "59 lb", "not met", "at most 59 lb on this box"),
    ],
)
def test_weight_of_a_luminaire(weight: str, holds: str | None, expected: str, needs: str) -> None:
    """Of the box's listing where it has one."""
    box = {"box": {"holds": holds}, "devices": {"lamp": {"weight": weight}}}
    data = example("pottery-studio", {"boxes": {"ceiling-box": box}})
    place = "/boxes/ceiling-box/devices/lamp"
    line = line_at(reviewed(data), WEIGHT, place)
    assert (line.answer.outcome.value, line.answer.needs, line.place) == (expected, needs, f"{place}/weight")
    if expected == "not met":
        assert after_each_proposal(data, WEIGHT, place) == {f"use a box listed to hold {weight}": "met"}


def test_how_boxes_are_fastened_is_on_the_inspection_list() -> None:
    """Unless the plan says it of every box; plastic raceway only where there is some."""
    item, plastic = "holding/boxes-are-fastened", "PVC raceway holds up no box"
    said = inspected(reviewed(example("pottery-studio")), item)
    assert "Only up to 100 in³ may hang on two threaded raceways, held within 3 ft (18 in with a device" in said
    assert plastic in said
    steel = example("pottery-studio", {"routes": {"yard": {"raceway": "RMC 3/4 in"}}})
    assert inspected(reviewed(steel), item).endswith("with a device or luminaire).")
    unnamed = example("pottery-studio", {"routes": {"yard": {"raceway": None}}})
    assert plastic not in inspected(reviewed(unnamed), item)
    held = {name: {"held-by": "structure"} for name in ("terrace-box", "entry-box", "ceiling-box")}
    assert inspected(reviewed(example("pottery-studio", {"boxes": held})), item) == ""
    assert inspected(reviewed(example("pottery-studio", {"boxes": {"terrace-box": held["terrace-box"]}})), item) != ""


@pytest.mark.parametrize(
    ("name", "comes_up"), [("ceiling fan", True), ("Fan", True), ("fanlight", False), ("split heat pump", False)]
)
def test_a_fan_is_on_the_inspection_list(name: str, comes_up: bool) -> None:
    """By its name."""
    data = example("pottery-studio", {"boxes": {"ceiling-box": {"devices": {"it": {"equipment": name}}}}})
    said = inspected(reviewed(data), "holding/fan-on-a-box", "/boxes/ceiling-box/devices/it")
    assert ("its weight over 35 lb, and from the structure over 70 lb" in said) is comes_up


# Within reach


@pytest.mark.parametrize(
    ("box", "expected", "row", "why"),
    [
        ({"accessible": False}, "not met", ("box-accessible",), ""),
        (
            {"accessible": False, "area": "ground"},
            "not met",
            ("junction-clear-of-earth",),
            "in the earth only a handhole",
        ),
        ({"accessible": False, "area": "ground", "box": {"kind": "handhole"}}, "not met", ("box-accessible",), ""),
        ({"accessible": False, "area": "ground", "box": {"kind": "pedestal"}}, "not met", ("box-accessible",), ""),
        ({"accessible": True, "area": "ground"}, "met", (), ""),
        ({"accessible": None, "area": "ground", "box": {"kind": "pedestal"}}, "does not apply", (), "not stated"),
    ],
)
def test_reach(box: dict[str, Any], expected: str, row: tuple[str, ...], why: str) -> None:
    """In the earth it is asked about, but for what is made for it."""
    data = example("joinery-workshop", {"boxes": {"pull-box": box}})
    line = line_at(reviewed(data), REACH, PULL)
    assert (line.answer.outcome.value, line.answer.rows) == (expected, row)
    assert why in line.answer.why
    assert bool(line.answer.why) is bool(why)
    if expected != "does not apply":
        assert line.place == f"{PULL}/accessible"
    in_earth = box.get("area") == "ground" and "box" not in box
    assert line.steps == ((("set in the earth, and not said to be a handhole", PULL),) if in_earth else ())
    if expected == "not met":
        assert after_each_proposal(data, REACH, PULL) == {"put it where it can be reached": "met"}


def test_every_box_is_on_the_inspection_list() -> None:
    """By name; a plan without boxes has nothing to be reached, filled or grounded."""
    of = reviewed(example("orchard-pump"))
    assert inspected(of, "reach/boxes-within-reach").endswith("when the walls are closed: post-box.")
    feeder = {"to": "workshop-panel", "legs": [WALL]}
    data = example("joinery-workshop", {"routes": {"garage-run": feeder}})
    data["boxes"], data["routes"] = {}, {"garage-run": data["routes"]["garage-run"]}
    for circuit in ("bench-outlets", "lights", "planer"):
        del data["circuits"][circuit]
    none = reviewed(data)
    for item in (
        "reach/boxes-within-reach", "wiring/wiring-in-boxes", "wiring/grounds-in-boxes",
        "wiring/devices-are-grounded", "wiring/boxes-flush-with-the-wall", "holding/boxes-are-fastened",
    ):  # fmt: skip
        assert inspected(none, item) == ""


@pytest.mark.parametrize(
    ("yard", "wall", "says"),
    [
        ({}, {}, "from UF-B 12/2 to NM-B 12/2 is made up in this box, not in a taped joint; the NM-B 12/2 stays"),
        (
            {"carries": {"studio": {"cable": None, "wires": {"hot": "12 AWG Cu THWN-2"}}}},
            {},
            "from single wires to NM-B 12/2",
        ),
        ({"legs": [{"overhead": "yard"}]}, {}, "from UF-B 12/2 to NM-B 12/2"),
        ({"legs": [{"buried": "lawn"}]}, {}, "from UF-B 12/2 to NM-B 12/2"),
        ({"legs": [{"rise": "2 ft"}]}, {}, "from UF-B 12/2 to NM-B 12/2"),
        ({"legs": [{"on": "outside wall"}]}, {}, ""),
        ({"carries": {"studio": {"cable": "NM-B 12/2"}}}, {}, ""),
        ({}, {"carries": {"studio": {"cable": "UF-B 12/2"}}}, ""),
    ],
)
def test_a_change_of_wiring(yard: dict[str, Any], wall: dict[str, Any], says: str) -> None:
    """Where wiring from the ground or the air goes over into cable for indoors."""
    of = reviewed(example("pottery-studio", {"routes": {"yard": yard, "garage-wall": wall}}))
    said = inspected(of, "reach/change-of-wiring", TERRACE)
    assert says in said
    assert bool(said) is bool(says)


@pytest.mark.parametrize(
    ("box", "comes_up"),
    [({}, False), ({"box": {"kind": "handhole"}}, True), ({"area": "ground"}, True), ({"box": {"kind": "pedestal"}}, False)],
)  # fmt: skip
def test_the_lid_of_a_handhole(box: dict[str, Any], comes_up: bool) -> None:
    """Of whatever is set in the earth."""
    of = reviewed(example("joinery-workshop", {"boxes": {"pull-box": box}}))
    assert ("flush with the ground" in inspected(of, "reach/handhole-in-the-ground", PULL)) is comes_up
