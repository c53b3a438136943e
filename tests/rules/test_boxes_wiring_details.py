"""What shares a box or raceway with power, and what is made up in boxes."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.offered import offered, settled, taken
from support.reviews import example, merged, reviewed
from support.trenches import after_each_proposal, line_at

RACEWAY, BOX = "low-voltage-in-a-raceway-with-power", "low-voltage-in-a-box-with-power"
TERRACE, ENTRY = "/boxes/terrace-box", "/boxes/entry-box"
WALL = {"on": "inside wall", "length": "9 ft", "location": "dry"}


def inspected(of: Review, item: str, subject: str = "") -> str:
    """What the inspection list says under this item; empty where it does not come up."""
    said = [entry.says for entry in of.inspect if entry.item.id == f"boxes/{item}" and entry.subject == subject]
    assert len(said) < 2
    assert of.failures == ()
    return "".join(said)


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


YARD = "/routes/yard"
LOW = {"cable": "low-voltage 14/2", "listed-for": "wet"}


def test_low_voltage_gets_a_raceway_of_its_own() -> None:
    """On the same way, of the same type, and sure to hold it; the power stays where it is."""
    data = garden(LOW)
    words = "lay garden in PVC-80 1-1/4 in of its own, beside yard"
    assert settled(data, RACEWAY, YARD) == {words: []}
    after = taken(data, RACEWAY, YARD, words)["routes"]
    assert list(after["yard"]["carries"]) == ["studio"]
    own, was = after["yard-low-voltage"], data["routes"]["yard"]
    assert own["carries"] == {"garden": LOW}
    assert own["legs"] == was["legs"]
    assert [own[key] for key in ("from", "to", "seal-at-from")] == [was[key] for key in ("from", "to", "seal-at-from")]


def test_low_voltage_circuits_share_a_raceway_of_their_own() -> None:
    """Both of them; on a name that is free, and in a size that holds both."""
    data = garden(LOW | {"width": "0.4 in"})
    second = {"kind": "low-voltage", "from": "terrace-box/pack", "voltage": "12 V"}
    yard = {"carries": {"pond": LOW | {"width": "0.4 in"}}}
    data = merged(data, {"circuits": {"pond": second}, "routes": {"yard": yard}})
    data["routes"]["yard-low-voltage"] = data["routes"].pop("ceiling")
    words = "lay garden and pond in PVC-80 1-1/4 in of their own, beside yard"
    assert offered(data, RACEWAY, YARD) == [words]
    after = taken(data, RACEWAY, YARD, words)["routes"]
    assert list(after["yard-low-voltage-2"]["carries"]) == ["garden", "pond"]
    assert list(after["yard"]["carries"]) == ["studio"]


@pytest.mark.parametrize(
    ("width", "raceway", "own"),
    [
        (None, "plumbing pipe 2 in", None),
        (None, "PVC-80 4 in", "PVC-80 1-1/4 in"),
        ("0.2 in", "PVC-80 4 in", "PVC-80 1/2 in"),
        ("0.4 in", "PVC-80 4 in", "PVC-80 3/4 in"),
        ("0.4 in", "EMT 1-1/4 in", "EMT 1/2 in"),
    ],
)
def test_a_raceway_for_low_voltage_is_the_smallest_for_it(width: str | None, raceway: str, own: str | None) -> None:
    """However large that of the power is; plumbing pipe is not offered once more."""
    low = LOW if width is None else LOW | {"width": width}
    words = [f"lay garden in {own} of its own, beside yard"] if own else []
    assert offered(garden(low, raceway=raceway), RACEWAY, YARD) == words


def test_no_raceway_is_offered_for_a_cable_that_is_not_named() -> None:
    """How large it would have to be is not known."""
    data = garden(LOW | {"width": "0.2 in"})
    more = {"circuits": {"pond": {"kind": "low-voltage", "from": "terrace-box/pack", "voltage": "12 V"}}}
    data = merged(data, more | {"routes": {"yard": {"carries": {"pond": {}}}}})
    assert line_at(reviewed(data), RACEWAY, YARD).answer.proposals == ()


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
    spare = {"from": "house-panel", "to": "entry-box", "raceway": "PVC-40 1 in", "carries": {}, "legs": [WALL]}
    assert inspected(reviewed(example("pottery-studio", {"routes": {"spare": spare}})), item) != ""
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
