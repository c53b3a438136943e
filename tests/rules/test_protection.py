"""What counts as class A protection, and what is asked about it."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan import Plan
from precover.reviewing import open_plan
from precover.rulebook import Look
from precover_rules.protection import class_a_of
from support.receptacles import BENCH, PLANER, POST, RULE, TERRACE, line, studio
from support.reviews import asked, example, library, outcome, reviewed, reviewed_example, written


def test_its_own() -> None:
    """A class A receptacle protects itself without feeding on."""
    of = studio(bench={"ground-fault": True, "protects-downstream": False})
    assert (outcome(of, RULE, BENCH), line(of, BENCH).answer.has) == ("met", "class A of its own")


def test_a_box_ahead() -> None:
    """A receptacle ahead protects by its load side."""
    of = reviewed_example("pottery-studio")
    assert line(of, BENCH).answer.has == "class A at terrace-outlet in terrace-box"
    assert ("class A protection", TERRACE) in line(of, BENCH).steps


def test_a_box_ahead_that_does_not_feed_on() -> None:
    """A receptacle whose load side is unused protects itself only, and the finding says so."""
    of = reviewed_example(
        "pottery-studio",
        {"boxes": {"terrace-box": {"devices": {"terrace-outlet": {"protects-downstream": False}}}}},
    )
    assert outcome(of, RULE, TERRACE) == "met"
    assert outcome(of, RULE, BENCH) == "not met"
    assert "load side" in line(of, BENCH).answer.why


def test_a_box_behind_protects_nothing_ahead() -> None:
    """Protection does not reach back toward the supply."""
    of = studio(bench={"ground-fault": True, "protects-downstream": True})
    assert outcome(of, RULE, TERRACE) == "not met"


@pytest.mark.parametrize(("after", "expected"), [(None, "not met"), ("guard", "met")])
def test_the_same_box(after: str | None, expected: str) -> None:
    """In its own box only the load side protects: `after` says so."""
    guard = {"receptacle": "20 A", "voltage": "125 V", "ground-fault": True, "protects-downstream": False}
    patch = {
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}},
            "entry-box": {"devices": {"guard": guard, "bench-outlet": {"after": after} if after else {}}},
        }
    }
    assert outcome(reviewed_example("pottery-studio", patch), RULE, BENCH) == expected


@pytest.mark.parametrize(("trip", "expected"), [("class A", "met"), ("equipment", "not met")])
def test_a_device_without_a_receptacle(trip: str, expected: str) -> None:
    """A dead-front device ahead protects if it is class A."""
    patch = {
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": None, "guard": {"ground-fault-device": "20 A", "trip": trip}}}
        }
    }
    of = reviewed_example("pottery-studio", patch)
    assert outcome(of, RULE, BENCH) == expected
    if expected == "not met":
        assert line(of, BENCH).answer.has == "equipment protection at guard in terrace-box"


@pytest.mark.parametrize(("level", "expected"), [("class A", "met"), ("equipment", "not met"), ("none", "not met")])
def test_the_breaker(level: str, expected: str) -> None:
    """A breaker protects its whole circuit if it is class A."""
    data = example("pottery-studio", {"circuits": {"studio": {"breaker": {"ground-fault": level}}}})
    data["boxes"]["terrace-box"]["devices"]["terrace-outlet"]["ground-fault"] = False
    of = reviewed(data)
    assert {outcome(of, RULE, place) for place in (BENCH, TERRACE)} == {expected}
    if level == "equipment":
        assert line(of, BENCH).answer.has == "equipment protection at the breaker of circuit studio"


@pytest.mark.parametrize(("level", "expected"), [("class A", "met"), ("equipment", "not met"), ("none", "not met")])
def test_the_feeder(level: str, expected: str) -> None:
    """The breaker of a feeder protects what the panel behind it feeds."""
    patch = {
        "circuits": {
            "workshop-feeder": {"breaker": {"ground-fault": level}},
            "planer": {"breaker": {"ground-fault": "none"}},
        }
    }
    of = reviewed_example("joinery-workshop", patch)
    assert outcome(of, RULE, PLANER) == expected
    if level == "equipment":
        assert line(of, PLANER).answer.has == "equipment protection at the breaker of circuit workshop-feeder"


@pytest.mark.parametrize("circuit", [{"voltage": "120/240 V"}, {"voltage": "240 V"}, {"multiwire": True}])
def test_two_hots_behind_a_receptacle(circuit: dict[str, Any]) -> None:
    """The load side of a receptacle carries one hot and its own neutral: it cannot feed what two hots share."""
    of = reviewed_example("pottery-studio", {"circuits": {"studio": circuit}})
    assert outcome(of, RULE, TERRACE) == "met"
    assert outcome(of, RULE, BENCH) == "not met"
    both = {"circuits": {"studio": {**circuit, "breaker": {"ground-fault": "class A"}}}}
    assert outcome(reviewed_example("pottery-studio", both), RULE, BENCH) == "met"


def test_wiring_with_one_hot_settles_what_is_not_said_of_the_circuit() -> None:
    """Two-conductor cable cannot share a neutral; three-conductor cable can, and then it is asked for."""
    assert (
        outcome(reviewed_example("pottery-studio", {"circuits": {"studio": {"multiwire": None}}}), RULE, BENCH) == "met"
    )
    routes = {name: {"carries": {"studio": {"cable": "UF-B 12/3"}}} for name in ("garage-wall", "yard", "ceiling")}
    of = reviewed_example("pottery-studio", {"circuits": {"studio": {"multiwire": None}}, "routes": routes})
    assert (outcome(of, RULE, BENCH), line(of, BENCH).place) == ("cannot tell", "/circuits/studio/multiwire")


def test_protection_of_its_own() -> None:
    """Nobody asks a receptacle behind a class A breaker whether it is one itself (as in the example)."""
    assert outcome(reviewed_example("orchard-pump"), RULE, POST) == "met"


def test_protection_of_a_receptacle_ahead() -> None:
    """A receptacle ahead of which nothing is said does not matter behind a class A breaker."""
    patch = {
        "circuits": {"studio": {"breaker": {"ground-fault": "class A"}}},
        "boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": None, "protects-downstream": None}}}},
    }
    of = reviewed_example("pottery-studio", patch)
    assert {outcome(of, RULE, place) for place in (BENCH, TERRACE)} == {"met"}
    assert ("class A protection", "/circuits/studio/breaker") in line(of, BENCH).steps


def test_the_last_hope_is_asked_for() -> None:
    """With nothing else ahead, the breaker decides."""
    of = reviewed_example(
        "orchard-pump",
        {
            "circuits": {"pump": {"breaker": {"ground-fault": None}}},
            "boxes": {"post-box": {"devices": {"outlet": {"ground-fault": False}}}},
        },
    )
    assert line(of, POST).place == "/circuits/pump/breaker/ground-fault"
    assert "/circuits/pump/breaker/ground-fault" in asked(of)


def test_premises() -> None:
    """What kind of premises it is matters only to what has no protection."""
    assert outcome(reviewed_example("orchard-pump", {"site": {"premises": None}}), RULE, POST) == "met"
    bare = {
        "site": {"premises": None},
        "circuits": {"pump": {"breaker": {"ground-fault": "none"}}},
        "boxes": {"post-box": {"devices": {"outlet": {"ground-fault": False}}}},
    }
    assert line(reviewed_example("orchard-pump", bare), POST).place == "/site/premises"


def test_a_low_voltage_secondary_is_not_protected_by_its_primary() -> None:
    """A transformer isolates: a fault behind it draws nothing through a device ahead of it."""
    data = example(
        "orchard-pump",
        {
            "circuits": {"garden": {"kind": "low-voltage", "from": "post-box/transformer", "voltage": "12 V"}},
            "boxes": {
                "post-box": {"devices": {"transformer": {"transformer": "300 VA"}}},
                "lamp-box": {"at": "pump-post", "devices": {"lamp": {"luminaire": "10 W"}}},
            },
            "routes": {
                "garden": {
                    "from": "post-box",
                    "to": "lamp-box",
                    "raceway": "none",
                    "carries": {"garden": {"cable": "low-voltage 12/2"}},
                    "legs": [{"buried": "lawn", "length": "10 ft", "cover": "6 in"}],
                }
            },
        },
    )
    look, plan = look_at(data)
    devices = plan.boxes["post-box"].devices
    assert class_a_of(devices["transformer"], look) is not None
    assert class_a_of(plan.boxes["lamp-box"].devices["lamp"], look) is None


def look_at(data: dict[str, Any]) -> tuple[Look, Plan]:
    """A look at plan data, and the plan."""
    opened = open_plan("test.plan.yaml", written(data))
    return Look(opened.trace, library().book().tables), opened.plan


def test_described_protectors_come_first() -> None:
    """No unstated fact is read where a protector that the plan describes fully is enough."""
    look, plan = look_at(example("orchard-pump"))
    assert class_a_of(plan.boxes["post-box"].devices["outlet"], look) is not None


def test_a_protector_that_fails_in_one_fact_is_not_asked_for_another() -> None:
    """A receptacle that does not feed on protects nothing behind it, whatever it is."""
    data = example(
        "pottery-studio", {"boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": None}}}}}
    )
    data["boxes"]["terrace-box"]["devices"]["terrace-outlet"]["protects-downstream"] = False
    look, plan = look_at(data)
    assert class_a_of(plan.boxes["entry-box"].devices["bench-outlet"], look) is None


def test_a_namesake_in_another_box() -> None:
    """`after` means the device of its own box, not one of the same name ahead that does not feed on."""
    guard = {"receptacle": "20 A", "voltage": "125 V", "protects-downstream": False}
    patch = {
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": None, "guard": {**guard, "ground-fault": True}}},
            "entry-box": {
                "devices": {"guard": {**guard, "ground-fault": False}, "bench-outlet": {"after": "guard"}},
            },
        }
    }
    assert outcome(reviewed_example("pottery-studio", patch), RULE, BENCH) == "not met"


def test_two_hots_behind_a_receptacle_that_does_not_feed_on() -> None:
    """There is no doubt about it then."""
    patch = {
        "circuits": {"studio": {"voltage": "120/240 V"}},
        "boxes": {"terrace-box": {"devices": {"terrace-outlet": {"protects-downstream": False}}}},
    }
    assert outcome(reviewed_example("pottery-studio", patch), RULE, BENCH) == "not met"
