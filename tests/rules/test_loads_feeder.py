"""The calculated load of a feeder, and what carries it: below, at and above; asked only where it decides."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from support.reviews import asked, lines, outcome, reviewed_example

FEEDER, PANEL, HOUSE = "/circuits/workshop-feeder", "/panels/workshop-panel", "/panels/house-panel"
BREAKER, CONDUCTORS = "/breaker-carries-the-load", "/conductors-carry-the-load"
CARRIES, PROTECTED = "/panel-carries-the-load", "/bus-is-protected"
NOTHING: dict[str, Any] = {
    "circuits": {"bench-outlets": None, "lights": None},
    "boxes": {"bench-box": None, "yard-box": None, "switch-box": None, "porch-light-box": None},
    "routes": {"bench": None, "porch": None, "lighting": None, "porch-lighting": None},
}
"""The workshop with nothing but its planer."""


def shop(planer: dict[str, Any] | None = None, only: bool = False, **parts: Any) -> Review:
    """The joinery workshop, its planer's circuit changed, and other parts of the plan."""
    patch: dict[str, Any] = {"circuits": {}, "boxes": {}, "routes": {}}
    if only:
        patch = {key: dict(value) for key, value in NOTHING.items()}
    patch["circuits"] |= {"planer": planer or {}} | parts.pop("circuits", {})
    patch["boxes"] |= parts.pop("boxes", {})
    return reviewed_example("joinery-workshop", patch | parts)


def equipped(devices: dict[str, Any], **circuit: Any) -> Review:
    """The workshop with only these devices, on its 240 V circuit."""
    gone = {"planer-outlet": None}
    return shop(circuit, only=True, boxes={"planer-box": {"devices": gone | devices}})


def needs(review: Review) -> str:
    """The load that the feeder's breaker has to carry, as said."""
    (line,) = lines(review, BREAKER, FEEDER)
    return str(line.answer.needs).removeprefix("at least ").removesuffix(", the calculated load")


def steps(line: Line) -> list[str]:
    """The derivation in words."""
    return [step for step, _ in line.steps]


@pytest.mark.parametrize(
    ("load", "expected"), [("58 A", "met"), ("58.4 A", "met"), ("58.5 A", "not met"), ("70 A", "not met")]
)
def test_the_breaker_carries_the_load(load: str, expected: str) -> None:
    """360 VA of receptacles and a lamp of 20 W take 1.58 A of the 60 A at 240 V."""
    assert outcome(shop({"load": load}), BREAKER, FEEDER) == expected


@pytest.mark.parametrize(
    ("bench", "lights", "expected"),
    [
        ({"load": "31 A"}, {"load": "30 A"}, "met"),  # not said on which legs: spread
        ({"load": "31 A", "leg": "L1"}, {"load": "30 A", "leg": "L2"}, "met"),
        ({"load": "30 A", "leg": "L1"}, {"load": "30 A", "leg": "L1"}, "met"),  # just what the breaker carries
        ({"load": "31 A", "leg": "L1"}, {"load": "30 A", "leg": "L1"}, "not met"),
        ({"load": "31 A", "leg": "L2"}, {"load": "30 A", "leg": "L2"}, "not met"),
    ],
)
def test_the_heavier_leg_counts(bench: dict[str, Any], lights: dict[str, Any], expected: str) -> None:
    """Both 120 V circuits on one leg of a 60 A feeder, and nothing on the other."""
    gone = {"boxes": {"planer-box": None}, "routes": {"planer-run": None}}
    circuits = {"bench-outlets": bench, "lights": lights, "planer": None}
    review = reviewed_example("joinery-workshop", {"circuits": circuits} | gone)
    assert outcome(review, BREAKER, FEEDER) == expected
    if expected == "not met":
        (line,) = lines(review, BREAKER, FEEDER)
        assert needs(review) == "61 A"
        other = "L1" if bench["leg"] == "L2" else "L2"
        assert line.answer.proposals[0].words == f"put lights on {other}"


def test_a_planer_on_both_legs_is_on_either() -> None:
    """50 A on both, and 11 A on the one that the plan names: 61 A."""
    circuits = {"bench-outlets": {"load": "11 A", "leg": "L1"}, "lights": {"load": "1 A", "leg": "L2"}}
    assert needs(shop({"load": "50 A"}, circuits=circuits)) == "61 A"


def test_a_larger_feeder_comes_with_what_it_needs() -> None:
    """Breaker, hots, neutral, ground and main, and a box to pull 4 AWG through; the bus is large enough. Where 6 AWG might do (its terminals are not stated)
    a ground of 6 AWG would be short of the ratio by a few circular mils."""
    (line,) = lines(shop({"load": "62 A"}), BREAKER, FEEDER)
    (way,) = line.answer.proposals
    assert {edit["path"]: edit["value"] for edit in way.patch} == {
        "/circuits/workshop-feeder/breaker/rating": "70 A",
        "/routes/garage-run/carries/workshop-feeder/wires/hot": "2 × 4 AWG Cu THWN-2",
        "/routes/garage-run/carries/workshop-feeder/wires/neutral": "4 AWG Cu THWN-2",
        "/routes/garage-run/carries/workshop-feeder/wires/ground": "4 AWG Cu THWN-2",
        "/routes/yard/carries/workshop-feeder/wires/hot": "2 × 4 AWG Cu THWN-2",
        "/routes/yard/carries/workshop-feeder/wires/neutral": "4 AWG Cu THWN-2",
        "/routes/yard/carries/workshop-feeder/wires/ground": "4 AWG Cu THWN-2",
        "/panels/workshop-panel/main": "70 A",
        "/boxes/pull-box/box/length": "10 in",
    }


def test_what_is_counted() -> None:
    """Each circuit is named with what was counted for it."""
    (line,) = lines(shop({"load": "24 A"}), BREAKER, FEEDER)
    assert steps(line)[:3] == [
        "bench-outlets: 360 VA, 2 receptacles at 180 VA",
        "lights: 20 VA, porch-lamp",
        "planer: 5760 VA, planned for 24 A",
    ]
    assert line.answer.needs == "at least 25.6 A, the calculated load"


def test_an_unknown_load_counts_its_breaker_and_is_not_asked_for() -> None:
    """A 50 A welder outlet of unknown load: 50 A and 1.58 A are within 60 A whatever it draws."""
    review = shop({"breaker": {"rating": "50 A"}})
    assert outcome(review, BREAKER, FEEDER) == "met"
    assert "/circuits/planer/load" not in asked(review)


def test_an_unknown_load_is_asked_for_where_it_decides() -> None:
    """On a 60 A circuit it could be too much, or little."""
    review = shop({"breaker": {"rating": "60 A"}})
    assert outcome(review, BREAKER, FEEDER) == "cannot tell"
    assert "/circuits/planer/load" in asked(review)


def test_a_heater_counts_125_percent() -> None:
    """4800 W at 240 V: 20 A, and a quarter more."""
    assert needs(equipped({"heater": {"heater": "4800 W"}})) == "25 A"


@pytest.mark.parametrize(("continuous", "expected"), [(True, "50 A"), (False, "40 A")])
def test_equipment_counts_by_its_load(continuous: bool, expected: str) -> None:
    """A charger of 9.6 kVA: continuous or not."""
    charger = {"equipment": "car charger", "load": "9600 VA", "continuous": continuous}
    assert needs(equipped({"charger": charger})) == expected


def test_equipment_of_unknown_duration_is_continuous_until_that_decides() -> None:
    """50 A continuous is within 60 A; 62.5 A is not, and 50 A would be."""
    assert needs(equipped({"charger": {"equipment": "car charger", "load": "9600 VA"}})) == "50 A"
    review = equipped({"charger": {"equipment": "car charger", "load": "12 kVA"}})
    assert asked(review).count("/boxes/planer-box/devices/charger/continuous") == 1


def test_the_largest_motor_counts_125_percent() -> None:
    """3 hp at 230 V is 17 A by table, 1 hp 8 A: 17 × 1.25 + 8."""
    assert needs(equipped({"saw": {"motor": "3 hp"}, "fan": {"motor": "1 hp"}})) == "29.3 A"


def test_a_motor_that_is_not_in_the_table_counts_as_stated() -> None:
    """4 hp has no row."""
    assert needs(equipped({"saw": {"motor": "4 hp", "full-load-current": "20 A"}})) == "25 A"


def test_of_two_that_cannot_run_together_the_larger_counts() -> None:
    """The bench's circuit is left out where it cannot run with the planer's."""
    with_both = shop({"load": "50 A"}, circuits={"bench-outlets": {"load": "16 A"}})
    either = shop({"load": "50 A"}, circuits={"bench-outlets": {"load": "16 A", "not-with": "planer"}})
    assert (needs(with_both), needs(either)) == ("58.1 A", "50.1 A")


def test_a_larger_breaker_is_a_way_out() -> None:
    """The next standard rating settles this finding."""
    (line,) = lines(shop({"load": "62 A"}), BREAKER, FEEDER)
    assert [way.patch[0]["value"] for way in line.answer.proposals] == ["70 A"]


@pytest.mark.parametrize(("load", "expected"), [("83 A", "met"), ("83.5 A", "not met"), ("89 A", "does not apply")])
def test_the_conductors_carry_the_load(load: str, expected: str) -> None:
    """4 AWG copper carries 85 A at 75 °C; a 90 A breaker may be the next above that, but the load may not. Beyond 90 A
    the breaker is the finding."""
    four = {"hot": "2 × 4 AWG Cu THWN-2", "neutral": "4 AWG Cu THWN-2", "ground": "8 AWG Cu THWN-2"}
    carries = {"carries": {"workshop-feeder": {"wires": four}}}
    review = reviewed_example(
        "joinery-workshop",
        {
            "circuits": {
                "workshop-feeder": {"breaker": {"rating": "90 A"}, "terminals": "75 °C"},
                "planer": {"load": load},
            },
            "routes": {"garage-run": carries, "yard": carries},
        },
    )
    assert outcome(review, CONDUCTORS, FEEDER) == expected


@pytest.mark.parametrize(
    ("bus", "main", "expected"),
    [
        ("60 A", "none", "met"),
        ("59 A", "none", "not met"),
        ("50 A", "50 A", "met"),
        ("50 A", "60 A", "not met"),
        ("100 A", "100 A", "met"),
        ("125 A", "none", "met"),
    ],
)
def test_one_breaker_protects_the_bus(bus: str, main: str, expected: str) -> None:
    """The feeder's 60 A or the main; a main may be larger than the feeder's breaker."""
    assert outcome(shop(panels={"workshop-panel": {"bus": bus, "main": main}}), PROTECTED, PANEL) == expected


def test_the_main_is_asked_for_only_where_the_feeder_does_not_protect() -> None:
    """A bus of 100 A behind 60 A needs no main; one of 50 A does."""
    assert outcome(shop(panels={"workshop-panel": {"main": None}}), PROTECTED, PANEL) == "met"
    assert outcome(shop(panels={"workshop-panel": {"main": None, "bus": "50 A"}}), PROTECTED, PANEL) == "cannot tell"


@pytest.mark.parametrize(("load", "expected"), [("38 A", "met"), ("38.5 A", "not met"), ("60 A", "does not apply")])
def test_a_main_carries_the_load(load: str, expected: str) -> None:
    """A main of 40 A; what is too much for the feeder's 60 A is said of the feeder only."""
    review = shop({"load": load}, panels={"workshop-panel": {"main": "40 A"}})
    assert outcome(review, CARRIES, PANEL) == expected


@pytest.mark.parametrize(("main", "expected"), [("25 A", "not met"), ("30 A", "met")])
def test_the_service_carries_what_the_plan_adds(main: str, expected: str) -> None:
    """24 A and 1.58 A behind the feeder."""
    review = shop({"load": "24 A"}, panels={"house-panel": {"main": main}})
    assert outcome(review, CARRIES, HOUSE) == expected


def test_what_else_the_service_supplies_is_on_the_list() -> None:
    """The rest of the house is no part of the plan."""
    says = [one.says for one in shop().inspect if one.item.id.endswith("/service-has-room")]
    assert len(says) == 1
    assert "workshop-feeder (60 A)" in says[0]


@pytest.mark.parametrize(("spaces", "expected"), [(3, "not met"), (4, "met"), (12, "met")])
def test_a_space_for_each_pole(spaces: int, expected: str) -> None:
    """Two single poles and one double."""
    assert outcome(shop(panels={"workshop-panel": {"spaces": spaces}}), "/spaces-for-the-breakers", PANEL) == expected


def test_spaces_that_are_not_stated_are_counted_on_site() -> None:
    """No query: an entry of the list with the poles."""
    review = shop(panels={"workshop-panel": {"spaces": None}})
    assert outcome(review, "/spaces-for-the-breakers", PANEL) == "does not apply"
    assert "Free spaces in workshop-panel for 4 more poles, of breakers that its label lists." in [
        one.says for one in review.inspect
    ]
