"""Boxes: how long, how held, within whose reach, apart from what; and what the inspection list says of them."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from support.reviews import asked, example, merged, reviewed
from support.trenches import after_each_proposal, line_at

LENGTH, HELD, WEIGHT, REACH = "length-of-a-pull-box", "box-held-by-raceways", "weight-on-a-box", "box-within-reach"
RACEWAY, BOX = "low-voltage-in-a-raceway-with-power", "low-voltage-in-a-box-with-power"
PULL, BENCH, TERRACE, ENTRY = "/boxes/pull-box", "/boxes/bench-box", "/boxes/terrace-box", "/boxes/entry-box"
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
        # At an angle all but the largest and one in the other wall are added: 6 × 2 and 1-1/4 and 1.
        (("2", "1-1/2", "1-1/4", "1"), "14.25 in", "angle", "met", "at least 14.25 in"),
        (("2", "1-1/2", "1-1/4", "1"), "14.2 in", "angle", "not met", "at least 14.25 in"),
        (("2", "1-1/2", "1-1/4", "1"), "11.9 in", "angle", "not met", "at least 12 in"),
        # Five of 2 in: 6 × 2 and three more are 18, more than 8 × 2.
        (("2", "2", "2", "2", "2"), "18 in", None, "met", "at least 18 in"),
        (("2", "2", "2", "2", "2"), "17 in", "straight", "met", "at least 16 in"),
        (("2", "2", "2", "2", "2"), "17 in", "angle", "not met", "at least 18 in"),
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


def test_the_longest_that_it_may_need_is_offered() -> None:
    """Whatever the pull is."""
    for sizes, words in ((("2", "1-1/4"), "use a box 16 in long"), (("2",) * 5, "use a box 18 in long")):
        assert [way.words for way in pulled(sizes, "9 in").answer.proposals] == [words]


@pytest.mark.parametrize(("size", "written"), [("1-1/4", "1-1/4 in"), ("2", "2 in"), ("3/4", "3/4 in")])
def test_the_derivation_of_a_length(size: str, written: str) -> None:
    """By the largest raceway."""
    words = f"largest raceway {written}, 8 times straight, 6 times at an angle"
    assert pulled((size, "1/2"), "1 in").steps == ((words, PULL),)


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
    ],
)
def test_boxes_that_do_not_go_by_length(wire: str, patch: dict[str, Any], why: str) -> None:
    """Small wires, cable, and conduit bodies."""
    wires = {"hot": f"2 × {wire} AWG Cu THWN-2", "neutral": f"{wire} AWG Cu THWN-2"}
    feeder = {"carries": {"workshop-feeder": {"wires": wires}}}
    data = example("joinery-workshop", {"routes": {"garage-run": feeder, "yard": feeder}})
    answer = line_at(reviewed(merged(data, patch)), LENGTH, PULL).answer
    assert answer.outcome.value == "does not apply"
    assert answer.why.startswith(why)


def test_one_raceway_is_enough() -> None:
    """Where the other wires come out of none; an unnamed one is asked for."""
    wires = {"carries": {"workshop-feeder": {"wires": {"hot": "2 × 4 AWG Cu THWN-2"}}}}
    routes = {"garage-run": wires | {"raceway": "EMT 2 in"}, "yard": wires | {"raceway": "none"}}
    data = example("joinery-workshop", {"boxes": {"pull-box": {"box": {"length": "16 in"}}}, "routes": routes})
    assert line_at(reviewed(data), LENGTH, PULL).answer.outcome.value == "met"
    unnamed = merged(data, {"routes": {"garage-run": {"raceway": None}}})
    assert "/routes/garage-run/raceway" in asked(reviewed(unnamed))


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
    assert plastic not in inspected(reviewed(steel), item)
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


# Low voltage


def garden(carried: dict[str, Any], box: dict[str, Any] | None = None, **yard: Any) -> dict[str, Any]:
    """The pottery studio with a low-voltage circuit through its yard."""
    patch = {
        "circuits": {"garden": {"kind": "low-voltage", "from": "terrace-box/pack", "voltage": "12 V"}},
        "boxes": {
            "terrace-box": {"devices": {"pack": {"transformer": "60 VA"}}},
            "entry-box": {
                "box": box or {},
                "devices": {"main-switch": {"circuit": "studio"}, "bench-outlet": {"circuit": "studio"}},
            },
        },
        "routes": {"yard": {"carries": {"garden": carried}, **yard}},
    }
    return example("pottery-studio", patch)


@pytest.mark.parametrize(
    ("carried", "expected", "why"),
    [
        ({"cable": "low-voltage 14/2"}, "not met", "not insulated for the power beside it"),
        ({"cable": "UF-B 14/2"}, "cannot tell", "allowed only where they are insulated"),
        ({"wires": {"hot": "2 × 14 AWG Cu THWN-2"}}, "cannot tell", "allowed only where they are insulated"),
    ],
)
def test_low_voltage_in_one_raceway(carried: dict[str, Any], expected: str, why: str) -> None:
    """The mark is on what is carried there."""
    line = line_at(reviewed(garden(carried)), RACEWAY, "/routes/yard")
    assert (line.answer.outcome.value, line.answer.has) == (expected, "garden in one raceway with power")
    assert line.place == "/routes/yard/carries/garden"
    assert why in line.answer.why


def test_circuits_of_one_kind_need_nothing_between_them() -> None:
    """Power beside power, low voltage alone or beside low voltage, and one circuit alone."""
    more = {"kind": "branch circuit", "from": "house-panel"}
    power = {
        "circuits": {"garden": more},
        "routes": {"garage-wall": {"carries": {"garden": {"cable": "NM-B 12/2"}}}},
        "boxes": {"terrace-box": {"devices": {"pack": None, "terrace-outlet": {"circuit": "studio"}}}},
    }
    of = reviewed(merged(garden({"cable": "UF-B 12/2"}), power))
    for rule, place in ((RACEWAY, "/routes/yard"), (BOX, ENTRY)):
        answer = line_at(of, rule, place).answer
        assert (answer.outcome.value, answer.why) == ("does not apply", "all of one kind")
    one = line_at(reviewed(example("pottery-studio")), RACEWAY, "/routes/yard").answer
    assert (one.outcome.value, one.why) == ("does not apply", "one circuit only")
    second = {"kind": "low-voltage", "from": "terrace-box/pack", "voltage": "12 V"}
    path = {
        "from": "terrace-box", "to": "lamp-box", "raceway": "PVC-40 1 in", "legs": [{"buried": "lawn"}],
        "carries": {"garden": {"cable": "low-voltage 14/2"}, "pond": {"cable": "low-voltage 14/2"}},
    }  # fmt: skip
    low = merged(
        garden({"cable": "low-voltage 14/2"}),
        {
            "circuits": {"pond": second},
            "boxes": {"lamp-box": {"at": "studio", "area": "outdoors", "location": "wet"}},
            "routes": {"path": path, "yard": {"carries": {"garden": None}}},
        },
    )
    of = reviewed(low)
    for rule, place in ((RACEWAY, "/routes/path"), (BOX, "/boxes/lamp-box")):
        answer = line_at(of, rule, place).answer
        assert (answer.outcome.value, answer.why) == ("does not apply", "all of one kind")


@pytest.mark.parametrize(("barrier", "expected"), [(True, "met"), (False, "not met")])
def test_a_barrier_in_the_box(barrier: bool, expected: str) -> None:
    """It settles it, where there is no transformer that keeps the two apart."""
    data = garden({"cable": "low-voltage 14/2"}, {"barrier": barrier})
    line = line_at(reviewed(data), BOX, ENTRY)
    assert (line.answer.outcome.value, line.place) == (expected, f"{ENTRY}/box/barrier")
    if expected == "not met":
        assert line.answer.has == "garden in one box with power"
        assert after_each_proposal(data, BOX, ENTRY) == {"put a barrier between them": "met"}
    own = line_at(reviewed(data), BOX, TERRACE).answer
    assert (own.outcome.value, own.why) == ("does not apply", "all of one kind")


def test_another_transformer_keeps_nothing_apart() -> None:
    """What it has apart is its own secondary."""
    data = garden({"cable": "low-voltage 14/2"}, {"barrier": False})
    data["boxes"]["entry-box"]["devices"]["bell"] = {"transformer": "20 VA", "circuit": "studio"}
    assert line_at(reviewed(data), BOX, ENTRY).answer.outcome.value == "not met"


def test_other_cables_are_on_the_inspection_list() -> None:
    """Where anything is carried at all."""
    item = "low-voltage/other-cables-apart"
    assert "and 2 in from open power wiring" in inspected(reviewed(example("orchard-pump")), item)
    data = example("orchard-pump")
    data["routes"]["to-pump"]["carries"] = {}
    del data["boxes"]["post-box"]["devices"]
    assert inspected(reviewed(data), item) == ""


# What is made up in them


@pytest.mark.parametrize(
    ("rating", "kind", "expected"),
    [
        ("20 A", True, "met"),
        ("20 A", False, "not met"),
        ("15 A", False, "not met"),
        ("30 A", False, "does not apply"),
        ("20 A", None, "does not apply"),
    ],
)
def test_grounding_type(rating: str, kind: bool | None, expected: str) -> None:
    """Of 15 and 20 A."""
    outlet = {"receptacle": rating, "grounding-type": kind}
    data = example("pottery-studio", {"boxes": {"terrace-box": {"devices": {"terrace-outlet": outlet}}}})
    rule, place = "receptacle-of-grounding-type", f"{TERRACE}/devices/terrace-outlet"
    line = line_at(reviewed(data), rule, place)
    assert line.answer.outcome.value == expected
    if expected != "does not apply":
        assert line.place == f"{place}/grounding-type"
    if expected == "not met":
        assert after_each_proposal(data, rule, place) == {"use a receptacle of the grounding type": "met"}


METAL = {"boxes": {"entry-box": {"box": {"material": "steel"}}}}


def test_grounds_in_metal_boxes() -> None:
    """With their metal, and a jumper where a receptacle is."""
    item = "wiring/grounds-in-boxes"
    assert inspected(reviewed(example("pottery-studio")), item) == (
        "All equipment grounds in a box are joined with each other."
    )
    assert inspected(reviewed(example("pottery-studio", METAL)), item) == (
        "All equipment grounds in a box are joined with each other and to the metal of entry-box; in entry-box a jumper "
        "to each receptacle, or one listed to ground through its yoke."
    )
    lamp = {"boxes": {"ceiling-box": {"box": {"material": "aluminum"}}}}
    assert inspected(reviewed(example("pottery-studio", lamp)), item) == (
        "All equipment grounds in a box are joined with each other and to the metal of ceiling-box."
    )


@pytest.mark.parametrize(
    ("devices", "parts"),
    [
        ({}, "receptacles (of the grounding type), metal yokes of switches"),
        ({"main-switch": None}, "receptacles (of the grounding type)"),
        ({"outlet": None}, "metal yokes of switches"),
        ({"outlet": None, "lamp": {"luminaire": "9 W"}}, "metal yokes of switches, exposed metal of luminaires"),
        ({"main-switch": None, "outlet": None}, ""),
    ],
)
def test_devices_that_are_grounded(devices: dict[str, Any], parts: str) -> None:
    """Those that the plan has."""
    of = reviewed(example("orchard-pump", {"boxes": {"post-box": {"devices": devices}}}))
    expected = f"Connected to the equipment ground: {parts}." if parts else ""
    assert inspected(of, "wiring/devices-are-grounded") == expected


def test_free_ends_and_set_back() -> None:
    """With the lengths for it."""
    of = reviewed(example("joinery-workshop"))
    said = inspected(of, "wiring/wiring-in-boxes")
    for words in ("6 in of free conductor", "3 in of it reaching outside", "within 8 in do, with 1/4 in of sheath"):
        assert words in said
    flush = inspected(of, "wiring/boxes-flush-with-the-wall")
    assert flush.startswith("switch-box, porch-light-box: flush with the face")
    assert "no more than 1/4 in back" in flush
    assert inspected(reviewed(example("orchard-pump")), "wiring/boxes-flush-with-the-wall") == ""
