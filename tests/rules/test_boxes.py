"""Boxes: room in them, their length, how they are held and reached, and what is in them together."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, example, merged, reviewed, reviewed_example
from support.trenches import after_each_proposal, answer_at, steps_at

FILL, STANDARD, LENGTH = "fill/room-in-a-box", "volume-of-a-standard-box", "length-of-a-pull-box"
TERRACE, PULL, BENCH = "/boxes/terrace-box", "/boxes/pull-box", "/boxes/bench-box"


def _terrace(box: dict[str, Any], **more: Any) -> dict[str, Any]:
    return example("pottery-studio", {"boxes": {"terrace-box": {"box": box, **more}}})


# Room


@pytest.mark.parametrize(
    ("volume", "clamps", "answer"),
    [
        ("18 in³", None, "met"),
        ("17.9 in³", None, "cannot tell"),
        ("17.9 in³", True, "not met"),
        ("17.9 in³", False, "met"),
        ("15.75 in³", False, "met"),
        ("15.7 in³", False, "not met"),
        ("15.7 in³", None, "not met"),
        (None, None, "cannot tell"),
    ],
)
def test_a_box_with_a_receptacle_and_two_cables(volume: str | None, clamps: bool | None, answer: str) -> None:
    """Four conductors, the receptacle for two, the grounds and the clamp for one each: 8 or 7 of 2.25 in³."""
    assert answer_at(_terrace({"volume": volume, "clamps": clamps}), FILL, TERRACE) == answer


def test_clamps_are_asked_for_only_where_they_decide() -> None:
    """Between 15.75 and 18 in³."""
    assert f"{TERRACE}/box/clamps" in asked(reviewed(_terrace({"volume": "17 in³"})))
    for volume in ("14 in³", "18 in³"):
        assert f"{TERRACE}/box/clamps" not in asked(reviewed(_terrace({"volume": volume})))


def test_what_is_counted() -> None:
    """The derivation has each part."""
    steps = " / ".join(steps_at(_terrace({}), FILL, TERRACE))
    assert "4 conductors: 9 in³" in steps
    assert "1 yoke: 4.5 in³" in steps
    assert "2 grounds: 2.25 in³" in steps
    assert "clamps: 2.25 in³" in steps
    assert "together 18 in³" in steps


@pytest.mark.parametrize(("volume", "clamps"), [("14 in³", None), ("17 in³", True), ("10 in³", False)])
def test_a_larger_box_settles_it(volume: str, clamps: bool | None) -> None:
    """Large enough for what the plan leaves open."""
    ways = after_each_proposal(_terrace({"volume": volume, "clamps": clamps}), FILL, TERRACE)
    assert list(ways.values()) == ["met"]


def test_a_stud_takes_room() -> None:
    """One more of the largest."""
    data = example("pottery-studio", {"boxes": {"ceiling-box": {"box": {"volume": "9 in³", "clamps": True}}}})
    assert answer_at(data, FILL, "/boxes/ceiling-box") == "met"
    data["boxes"]["ceiling-box"]["box"]["studs"] = 1
    assert answer_at(data, FILL, "/boxes/ceiling-box") == "not met"


@pytest.mark.parametrize(
    ("volume", "gangs", "answer"),
    [("17.5 in³", None, "met"), ("17.4 in³", None, "cannot tell"), ("17.4 in³", 2, "not met"), ("12.5 in³", 1, "met"),
     ("12.4 in³", None, "not met")],
)  # fmt: skip
def test_a_wide_receptacle_takes_two_gangs(volume: str, gangs: int | None, answer: str) -> None:
    """A 30 A receptacle on three 10 AWG: 7 of 2.5 in³ in two gangs, 5 in one."""
    box = {"box": {"volume": volume}, "devices": {"planer-outlet": {"gangs": gangs}}}
    data = example("joinery-workshop", {"boxes": {"planer-box": box}})
    assert answer_at(data, FILL, "/boxes/planer-box") == answer


@pytest.mark.parametrize(
    ("volume", "spliced", "answer"),
    [("32.5 in³", None, "met"), ("32 in³", None, "cannot tell"), ("32 in³", True, "not met"), ("32 in³", False, "met"),
     ("17.4 in³", None, "not met")],
)  # fmt: skip
def test_wires_that_pass_through_unbroken_count_once(volume: str, spliced: bool | None, answer: str) -> None:
    """The joinery's pull box: three 6 AWG and a 10 AWG ground, in and out."""
    box = {"box": {"volume": volume}, "spliced": spliced}
    assert answer_at(example("joinery-workshop", {"boxes": {"pull-box": box}}), FILL, PULL) == answer


def test_a_conduit_body_counts_only_with_a_splice() -> None:
    """Unbroken wires need no volume there; with a splice it needs one that is marked."""
    data = example("joinery-workshop", {"boxes": {"pull-box": {"box": {"kind": "conduit body", "volume": None}}}})
    assert answer_at(merged(data, {"boxes": {"pull-box": {"spliced": False}}}), FILL, PULL) == "does not apply"
    spliced = merged(data, {"boxes": {"pull-box": {"spliced": True}}})
    assert answer_at(spliced, FILL, PULL) == "cannot tell"
    assert f"{PULL}/box/volume" in asked(reviewed(spliced))
    small = merged(spliced, {"boxes": {"pull-box": {"box": {"volume": "20 in³"}}}})
    (finding,) = [one for one in reviewed(small).findings if one.line.rule.id.endswith(FILL)]
    assert finding.line.answer.rows == ("conduit-body-fill",)


def test_grounds_beyond_four_are_quarters() -> None:
    """Five cables into one box: the fifth ground is a quarter of 2.25 in³ more."""
    routes = {
        f"spur-{n}": {"from": "terrace-box", "to": f"far-{n}", "raceway": "none", "carries": {"studio": {"cable": "UF-B 12/2"}}, "legs": [{"in": "joist bays"}]}
        for n in range(3)
    }  # fmt: skip
    far = {f"far-{n}": {"at": "house", "area": "indoors", "location": "dry"} for n in range(3)}
    data = merged(example("pottery-studio", {"routes": routes}), {"boxes": far})
    steps = " / ".join(steps_at(merged(data, {"boxes": {"terrace-box": {"box": {"volume": "40 in³"}}}}), FILL, TERRACE))
    assert "10 conductors: 22.5 in³" in steps
    assert "5 grounds: 2.812 in³" in steps


def test_a_standard_box_brings_its_volume() -> None:
    """By the table of metal boxes, and a larger one is offered."""
    data = example(
        "joinery-workshop", {"boxes": {"bench-box": {"box": {"volume": None, "size": "device 3 x 2 x 2-1/2"}}}}
    )
    assert answer_at(data, FILL, BENCH) == "not met"
    ways = after_each_proposal(data, FILL, BENCH)
    assert list(ways) == ["use a device 3 x 2 x 3-1/2 box for bench-box"]
    assert set(ways.values()) == {"met"}


@pytest.mark.parametrize(
    ("volume", "size", "answer"),
    [
        ("21 in³", "square 4 x 1-1/2", "met"),
        ("21.1 in³", "square 4 x 1-1/2", "not met"),
        ("30 in³", None, "does not apply"),
    ],
)
def test_a_standard_box_has_no_more_than_its_volume(volume: str, size: str | None, answer: str) -> None:
    """The marked volume beside the size."""
    data = example("joinery-workshop", {"boxes": {"bench-box": {"box": {"volume": volume, "size": size}}}})
    assert answer_at(data, STANDARD, BENCH) == answer


def test_enclosures_of_their_own_kind_are_left_alone() -> None:
    """A handhole; an enclosed switch, unless the plan states its room."""
    assert answer_at(_terrace({"kind": "handhole"}), FILL, TERRACE) == "does not apply"
    switch = {"terrace-outlet": None, "shutoff": {"disconnect": "30 A"}}
    assert answer_at(_terrace({"volume": None}, devices=switch), FILL, TERRACE) == "does not apply"
    assert answer_at(_terrace({"volume": "1 in³"}, devices=switch), FILL, TERRACE) == "not met"
    standard = {"volume": None, "size": "device 3 x 2 x 1-1/2"}
    assert answer_at(_terrace(standard, devices=switch), FILL, TERRACE) == "not met"


# Length


def _large(length: str | None, pull: str | None, raceway: str = "PVC-80 1-1/4 in", size: str = "4") -> dict[str, Any]:
    wires = {"hot": f"2 × {size} AWG Cu THWN-2", "neutral": f"{size} AWG Cu THWN-2"}
    routes = {name: {"carries": {"workshop-feeder": {"wires": wires}}} for name in ("garage-run", "yard")}
    routes["yard"]["raceway"] = raceway
    return example(
        "joinery-workshop", {"boxes": {"pull-box": {"box": {"length": length}, "pull": pull}}, "routes": routes}
    )


@pytest.mark.parametrize(
    ("length", "pull", "answer"),
    [
        ("10 in", None, "met"),
        ("9.9 in", None, "cannot tell"),
        ("9.9 in", "straight", "not met"),
        ("7.5 in", "angle", "met"),
        ("7.4 in", None, "not met"),
        (None, None, "cannot tell"),
    ],
)
def test_length_for_four_awg(length: str | None, pull: str | None, answer: str) -> None:
    """Eight times 1-1/4 in straight, six times at an angle."""
    assert answer_at(_large(length, pull), LENGTH, PULL) == answer
    assert answer_at(_large(length, pull), FILL, PULL) == "does not apply"


def test_the_largest_raceway_counts() -> None:
    """Of 2 in: 16 in."""
    assert answer_at(_large("15.9 in", "straight", "PVC-80 2 in"), LENGTH, PULL) == "not met"
    assert answer_at(_large("16 in", None, "PVC-80 2 in"), LENGTH, PULL) == "met"
    assert set(after_each_proposal(_large("6 in", "angle"), LENGTH, PULL).values()) == {"met"}


def test_six_awg_goes_by_volume() -> None:
    """No length is asked for."""
    assert answer_at(_large(None, None, size="6"), LENGTH, PULL) == "does not apply"


@pytest.mark.parametrize(
    ("hot", "ground", "answer"),
    [
        ("6 AWG Cu THWN-2", "6 AWG Cu bare", "met"),
        ("6 AWG Cu THWN-2", "4 AWG Cu bare", "cannot tell"),
        ("4 AWG Cu THWN-2", "4 AWG Cu bare", "does not apply"),
    ],
)
def test_a_ground_larger_than_the_allowances_go(hot: str, ground: str, answer: str) -> None:
    """Beside small conductors neither volume nor length knows it: nothing is asked for, the inspector decides."""
    wires = {"hot": f"2 × {hot}", "neutral": hot, "ground": ground}
    routes = {name: {"carries": {"workshop-feeder": {"wires": wires}}} for name in ("garage-run", "yard")}
    boxes = {"pull-box": {"box": {"volume": "100 in³", "length": "40 in"}, "spliced": True}}
    plan = example("joinery-workshop", {"boxes": boxes, "routes": routes})
    assert answer_at(plan, FILL, PULL) == answer
    assert answer_at(plan, LENGTH, PULL) == ("met" if answer == "does not apply" else "does not apply")


# Reach and holding


@pytest.mark.parametrize(
    ("box", "answer"),
    [
        ({"accessible": True}, "met"),
        ({"accessible": False}, "not met"),
        ({"accessible": None}, "does not apply"),
        ({"accessible": None, "area": "ground"}, "cannot tell"),
        ({"accessible": None, "area": "ground", "box": {"kind": "handhole"}}, "does not apply"),
    ],
)
def test_a_box_within_reach(box: dict[str, Any], answer: str) -> None:
    """Asked about only in the earth."""
    assert answer_at(example("joinery-workshop", {"boxes": {"pull-box": box}}), "box-within-reach", PULL) == answer


@pytest.mark.parametrize(
    ("kinds", "volume", "answer"),
    [
        (("RMC", "RMC"), "100 in³", "met"),
        (("RMC", "IMC"), "100.1 in³", "not met"),
        (("RMC", "EMT"), "100 in³", "not met"),
        (("RMC", "PVC-80"), "100 in³", "not met"),
    ],
)
def test_a_box_held_by_its_raceways(kinds: tuple[str, str], volume: str, answer: str) -> None:
    """Two threaded ones, up to 100 in³, never PVC."""
    routes = {name: {"raceway": f"{kind} 1-1/4 in"} for name, kind in zip(("garage-run", "yard"), kinds, strict=True)}
    boxes = {"pull-box": {"held-by": "raceway", "box": {"volume": volume}}}
    data = example("joinery-workshop", {"boxes": boxes, "routes": routes})
    assert answer_at(data, "box-held-by-raceways", PULL) == answer
    if answer == "not met":
        assert set(after_each_proposal(data, "box-held-by-raceways", PULL).values()) == {"met"}


@pytest.mark.parametrize(
    ("weight", "holds", "answer"),
    [("50 lb", None, "met"), ("51 lb", None, "not met"), ("51 lb", "51 lb", "met"), ("52 lb", "51 lb", "not met"),
     (None, None, "does not apply")],
)  # fmt: skip
def test_a_heavy_luminaire(weight: str | None, holds: str | None, answer: str) -> None:
    """50 lb on an ordinary box."""
    box = {"box": {"holds": holds}, "devices": {"lamp": {"weight": weight}}}
    data = example("pottery-studio", {"boxes": {"ceiling-box": box}})
    assert answer_at(data, "weight-on-a-box", "/boxes/ceiling-box/devices/lamp") == answer


@pytest.mark.parametrize(("kind", "answer"), [(True, "met"), (False, "not met"), (None, "does not apply")])
def test_receptacles_of_grounding_type(kind: bool | None, answer: str) -> None:
    """Only where the plan says otherwise."""
    devices = {"terrace-outlet": {"grounding-type": kind}}
    place = f"{TERRACE}/devices/terrace-outlet"
    assert answer_at(_terrace({}, devices=devices), "receptacle-of-grounding-type", place) == answer


# Low voltage beside power


def _garden(cable: str | dict[str, Any], raceway: str = "PVC-80 3/4 in", barrier: bool | None = None) -> dict[str, Any]:
    carried = {"cable": cable} if isinstance(cable, str) else {"wires": cable}
    patch = {
        "circuits": {"garden": {"kind": "low-voltage", "from": "terrace-box/pack", "voltage": "12 V"}},
        "boxes": {
            "terrace-box": {"devices": {"pack": {"transformer": "60 VA"}}},
            "entry-box": {
                "box": {"barrier": barrier},
                "devices": {"main-switch": {"circuit": "studio"}, "bench-outlet": {"circuit": "studio"}},
            },
        },
        "routes": {"yard": {"raceway": raceway, "carries": {"garden": carried}}},
    }
    return example("pottery-studio", patch)


@pytest.mark.parametrize(
    ("cable", "raceway", "answer"),
    [
        ("low-voltage 14/2", "PVC-80 1 in", "not met"),
        ("UF-B 14/2", "PVC-80 1 in", "cannot tell"),
        ({"hot": "2 × 14 AWG Cu THWN-2"}, "PVC-80 1 in", "cannot tell"),
        ("low-voltage 14/2", "none", "met"),
    ],
)
def test_low_voltage_in_one_raceway_with_power(cable: str | dict[str, Any], raceway: str, answer: str) -> None:
    """Never as low-voltage cable; as wires insulated for the power it is for the authority."""
    assert answer_at(_garden(cable, raceway), "low-voltage-in-a-raceway-with-power", "/routes/yard") == answer


@pytest.mark.parametrize(("barrier", "answer"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_low_voltage_in_one_box_with_power(barrier: bool | None, answer: str) -> None:
    """A barrier; the transformer's own box is left alone."""
    data = _garden("low-voltage 14/2", barrier=barrier)
    assert answer_at(data, "low-voltage-in-a-box-with-power", "/boxes/entry-box") == answer
    assert answer_at(data, "low-voltage-in-a-box-with-power", TERRACE) == "does not apply"


# The inspection list


def test_the_inspection_list_names_this_plans_boxes() -> None:
    """Metal ones for their bond, those let into a wall, the change of cable."""

    def says(name: str, patch: dict[str, Any] | None = None) -> dict[str, str]:
        return {entry.item.id: entry.says for entry in reviewed_example(name, patch or "").inspect}

    joinery, pottery = says("joinery-workshop"), says("pottery-studio")
    assert "bench-box, switch-box, planer-box" in joinery["boxes/wiring/grounds-in-boxes"]
    assert "switch-box, porch-light-box" in joinery["boxes/wiring/boxes-flush-with-the-wall"]
    assert "6 in of free conductor" in joinery["boxes/wiring/wiring-in-boxes"]
    assert "from UF-B 12/2 to NM-B 12/2" in pottery["boxes/reach/change-of-wiring"]
    assert "boxes/reach/change-of-wiring" not in joinery
    fan = {"boxes": {"ceiling-box": {"devices": {"fan": {"equipment": "ceiling fan"}}}}}
    assert "35 lb" in says("pottery-studio", fan)["boxes/holding/fan-on-a-box"]
    assert "boxes/holding/fan-on-a-box" not in pottery
