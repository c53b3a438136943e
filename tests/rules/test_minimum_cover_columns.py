"""The columns of the minimum-cover table: what qualifies a circuit for a shallower one."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example
from support.trenches import (
    YARD,
    answer_at,
    garden,
    lawn,
    merged_plan,
    protected,
    steps_at,
    terrace,
    trench,
)

RULE = "cover-over-a-buried-leg"
PVC = {"raceway": "PVC-40 3/4 in"}
PLAIN = {"ground-fault": False, "protects-downstream": False}


@pytest.mark.parametrize("raceway", ["RMC 3/4 in", "IMC 3/4 in"])
def test_rigid_metal_conduit_has_its_own_column(raceway: str) -> None:
    """RMC and IMC; EMT is no rigid conduit, and plumbing pipe is no raceway at all."""
    assert answer_at(trench(lawn("6 in", raceway=raceway)), RULE) == "met"
    assert answer_at(trench(lawn("17 in", raceway="EMT 3/4 in")), RULE) == "not met"
    assert answer_at(trench(lawn("18 in", raceway="plumbing pipe 3/4 in")), RULE) == "not met"
    assert answer_at(trench(lawn("24 in", raceway="plumbing pipe 3/4 in")), RULE) == "met"


@pytest.mark.parametrize(
    "change",
    [
        {"circuits": {"pump": {"voltage": "240 V", "breaker": {"poles": 2}}}},
        {"circuits": {"pump": {"voltage": "120/240 V", "breaker": {"poles": 2}}}},
        {"circuits": {"pump": {"breaker": {"rating": "25 A"}}}},
        {"circuits": {"pump": {"breaker": {"ground-fault": "equipment"}}}},
        {"circuits": {"pump": {"breaker": {"ground-fault": "none"}}}},
        {"site": {"premises": "commercial"}},
        {"site": {"premises": "agricultural"}},
    ],
)
def test_the_small_column_needs_all_its_conditions(change: dict[str, Any]) -> None:
    """120 V, 20 A, a branch circuit of a dwelling, class A protection ahead: without any one of them 12 in will not do."""
    data = protected(lawn("12 in"))
    assert answer_at(data, RULE) == "met"
    assert answer_at(merged_plan(data, change), RULE) == "not met"


def test_fifteen_amperes_and_a_multifamily_dwelling_will_do() -> None:
    """The conditions are upper bounds, and ask for a dwelling, not for a small one."""
    data = protected(lawn("12 in"), site={"premises": "multifamily dwelling"})
    assert answer_at(merged_plan(data, {"circuits": {"pump": {"breaker": {"rating": "15 A"}}}}), RULE) == "met"


def test_a_feeder_never_uses_the_small_column() -> None:
    """Not even behind a class A breaker."""
    change = {
        "circuits": {"workshop-feeder": {"breaker": {"ground-fault": "class A", "rating": "20 A"}, "voltage": "120 V"}},
        "routes": {"yard": {"legs": [lawn("12 in", raceway="PVC-80 1-1/4 in")]}},
    }
    data = merged_plan(example("joinery-workshop"), change)
    assert answer_at(data, RULE, "/routes/yard/legs/0") == "not met"
    assert "a feeder cannot use the shallow column" in steps_at(data, RULE, "/routes/yard/legs/0")


def test_protection_ahead_may_be_breaker_or_receptacle() -> None:
    """A class A breaker, or a class A receptacle whose load side feeds what leaves its box."""
    assert answer_at(terrace({}), RULE, YARD) == "met"
    assert answer_at(terrace({"protects-downstream": False}), RULE, YARD) == "not met"
    assert answer_at(terrace(PLAIN, breaker="class A"), RULE, YARD) == "met"
    assert answer_at(terrace(PLAIN), RULE, YARD) == "not met"


@pytest.mark.parametrize(("trip", "answer"), [("class A", "met"), ("equipment", "not met")])
def test_protection_ahead_may_be_a_device_without_outlets(trip: str, answer: str) -> None:
    """A dead-front device at the buried run's supply end."""
    data = terrace(PLAIN)
    device = {"boxes": {"terrace-box": {"devices": {"blank": {"ground-fault-device": "20 A", "trip": trip}}}}}
    assert answer_at(merged_plan(data, device), RULE, YARD) == answer


def test_protection_behind_the_buried_leg_does_not_count() -> None:
    """A class A receptacle in the studio protects nothing in the yard."""
    behind = {"ground-fault": True, "protects-downstream": True}
    assert answer_at(terrace(PLAIN, **behind), RULE, YARD) == "not met"


def test_protection_two_boxes_ahead_counts() -> None:
    """The route out of a second box is behind the first box's receptacle too."""
    second = {
        "boxes": {"gate-box": {"at": "studio", "area": "outdoors", "location": "wet"}},
        "routes": {
            "on": {
                "from": "entry-box",
                "to": "gate-box",
                "raceway": "none",
                "carries": {"studio": {"cable": "UF-B 12/2"}},
                "legs": [lawn("12 in")],
            }
        },
    }
    assert answer_at(merged_plan(terrace({}), second), RULE, "/routes/on/legs/0") == "met"
    assert answer_at(merged_plan(terrace(PLAIN), second), RULE, "/routes/on/legs/0") == "not met"


def test_a_branch_circuit_behind_a_protected_feeder_is_protected() -> None:
    """A class A breaker of the feeder stands ahead of the outbuilding's branch circuits."""
    on = {
        "circuits": {
            "workshop-feeder": {"breaker": {"ground-fault": "class A"}},
            "bench-outlets": {"breaker": {"ground-fault": "none"}},
        },
        "boxes": {"post-box": {"at": "workshop", "area": "outdoors", "location": "wet"}},
        "routes": {
            "post": {
                "from": "workshop-panel",
                "to": "post-box",
                "raceway": "none",
                "carries": {"bench-outlets": {"cable": "UF-B 12/2"}},
                "legs": [lawn("12 in")],
            }
        },
    }
    data = merged_plan(example("joinery-workshop"), on)
    assert answer_at(data, RULE, "/routes/post/legs/0") == "met"
    plain = {"circuits": {"workshop-feeder": {"breaker": {"ground-fault": "none"}}}}
    assert answer_at(merged_plan(data, plain), RULE, "/routes/post/legs/0") == "not met"


@pytest.mark.parametrize(
    ("use", "circuit", "leg", "answer"),
    [
        ("landscape lighting", {}, {}, "met"),
        ("irrigation control", {}, {}, "met"),
        ("general", {}, {}, "not met"),
        ("landscape lighting", {"voltage": "30 V"}, {}, "met"),
        ("landscape lighting", {"voltage": "31 V"}, {}, "not met"),
        ("pool lighting", {}, PVC, "met"),
        ("pool lighting", {}, {}, "not met"),
        ("pool lighting", {}, {"raceway": "EMT 3/4 in"}, "not met"),
    ],
)
def test_the_thirty_volt_column(use: str, circuit: dict[str, Any], leg: dict[str, Any], answer: str) -> None:
    """Irrigation control and landscape lighting up to 30 V; pool lights in nonmetallic raceway only."""
    assert answer_at(garden(lawn("6 in", **leg), use, **circuit), RULE) == answer


def test_pool_lights_have_to_be_of_a_listed_system() -> None:
    """The transformer tells."""
    unlisted = {"boxes": {"post-box": {"devices": {"power-pack": {"listed-system": False}}}}}
    data = garden(lawn("6 in", **PVC), "pool lighting")
    assert answer_at(merged_plan(data, unlisted), RULE) == "not met"
    unsaid = {"boxes": {"post-box": {"devices": {"power-pack": {"listed-system": None}}}}}
    assert answer_at(merged_plan(data, unsaid), RULE) == "cannot tell"


@pytest.mark.parametrize(
    ("cover", "kit", "place", "use", "answer"),
    [
        ("3 in", "3 in", "lawn", "landscape lighting", "met"),
        ("2 7/8 in", "3 in", "lawn", "landscape lighting", "not met"),
        ("3 in", "3 in", "lawn", "irrigation control", "not met"),
        ("3 in", "3 in", "driveway", "landscape lighting", "not met"),
        ("18 in", "3 in", "driveway", "landscape lighting", "met"),
    ],
)
def test_a_listed_system_may_lie_as_shallow_as_it_says(cover: str, kit: str, place: str, use: str, answer: str) -> None:
    """Landscape lighting only, and not where vehicles go."""
    leg = {"buried": place, "cover": cover, "dwelling-use-only": True}
    assert answer_at(garden(leg, use, **{"kit-depth": kit}), RULE) == answer
