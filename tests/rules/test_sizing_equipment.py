"""Motors, air conditioners, switches and fault currents against their circuits."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from precover.rulebook import Severity
from support.reviews import lines, outcome, reviewed_example

PLANER, BENCH, LIGHTS, STUDIO = "/circuits/planer", "/circuits/bench-outlets", "/circuits/lights", "/circuits/studio"


def workshop(circuits: dict[str, Any] | None = None, **boxes: Any) -> Review:
    """The workshop with other facts of circuits, and of devices by box."""
    devices = {name.replace("_", "-"): {"devices": of} for name, of in boxes.items()}
    return reviewed_example("joinery-workshop", {"circuits": circuits or {}, "boxes": devices})


def machine(device: dict[str, Any], **breaker: Any) -> Review:
    """The planer's box with one device of another kind, and no receptacle."""
    return workshop({"planer": {"breaker": breaker}}, planer_box={"planer-outlet": None, "machine": device})


def inspected(of: Review, name: str) -> list[str]:
    """What the inspection list says under one name."""
    return [entry.says for entry in of.inspect if entry.item.id.endswith(name)]


def test_small_and_shared_motors() -> None:
    """A 1/4 hp fan on a general circuit; 2 hp beside receptacles goes by its conductors, which 12 AWG does not carry."""
    fan = {"motor": "1/4 hp", "hardwired": True, "disconnect-in-sight": True}
    assert outcome(machine(fan, rating="15 A"), "motors/breaker-for-a-motor", PLANER) == "met"
    saw = {"motor": "2 hp", "hardwired": False}
    of = workshop(bench_box={"saw": saw})
    assert outcome(of, "motors/breaker-for-a-motor", BENCH) == "does not apply"
    assert outcome(of, "motors/wire-for-the-motors", BENCH) == "not met"
    assert not inspected(of, "overload-protection")
    assert "overload" in inspected(machine(fan), "overload-protection")[0]


CARRIES = "motors/breaker-that-carries-the-motors"


@pytest.mark.parametrize(
    ("hp", "rating", "expected"),
    [("3 hp", "15 A", "not met"), ("3 hp", "20 A", "met"), ("5 hp", "25 A", "not met"), ("5 hp", "30 A", "met")],
)
def test_a_breaker_carries_its_motor(hp: str, rating: str, expected: str) -> None:
    """By table 17 A and 28 A at 230 V; the way out leaves room for the start."""
    of = machine({"motor": hp, "hardwired": True, "disconnect-in-sight": True}, rating=rating)
    assert outcome(of, CARRIES, PLANER) == expected
    if expected == "not met":
        (line,) = lines(of, CARRIES, PLANER)
        (way,) = line.answer.proposals
        assert way.words == f"use a {'25 A' if hp == '3 hp' else '35 A'} breaker for planer"


@pytest.mark.parametrize(("lamp", "expected"), [("480 W", "met"), ("490 W", "not met")])
def test_a_breaker_carries_a_motor_and_what_is_beside_it(lamp: str, expected: str) -> None:
    """1 hp at 115 V is 16 A by table; 4 A of lights are left of 20 A."""
    of = workshop(
        bench_box={
            "bench-outlet": None,
            "saw": {"motor": "1 hp", "hardwired": True},
            "lamp": {"luminaire": lamp, "listed-for": "dry"},
        }
    )
    assert outcome(of, CARRIES, BENCH) == expected
    words = [way.words for line in lines(of, CARRIES, BENCH) for way in line.answer.proposals]
    assert words == (["give saw a circuit like bench-outlets of its own"] if expected == "not met" else [])


@pytest.mark.parametrize(("current", "expected"), [("24 A", "met"), ("24.1 A", "not met"), (None, "cannot tell")])
def test_a_motor_that_the_table_does_not_list(current: str | None, expected: str) -> None:
    """4 hp goes by its nameplate: 125 % of 24 A is 30 A."""
    motor = {"motor": "4 hp", "full-load-current": current, "hardwired": True, "disconnect-in-sight": True}
    of = machine(motor)
    if expected == "not met":
        of = workshop({"planer": {"terminals": "60 °C"}}, planer_box={"planer-outlet": None, "machine": motor})
    assert outcome(of, "motors/wire-for-the-motors", PLANER) == expected


UNIT = {"equipment": "mini-split", "load": "3 kW", "hvac": True, "hardwired": True, "disconnect-in-sight": True}


@pytest.mark.parametrize(
    ("ampacity", "most", "wire", "breaker"),
    [
        ("30 A", "30 A", "met", "met"),
        ("36 A", "30 A", "not met", "met"),
        ("18 A", "25 A", "met", "not met"),
        (None, None, "cannot tell", "cannot tell"),
    ],
)
def test_nameplates(ampacity: str | None, most: str | None, wire: str, breaker: str) -> None:
    """The conductors by the minimum ampacity, the breaker by the largest."""
    unit = {**UNIT, **({"minimum-ampacity": ampacity, "maximum-breaker": most} if ampacity else {})}
    of, place = machine(unit), "/boxes/planer-box/devices/machine"
    assert outcome(of, "nameplate/wire-for-the-nameplate", place) == wire
    assert outcome(of, "nameplate/breaker-for-the-nameplate", place) == breaker


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({"hardwired": True, "disconnect-in-sight": True}, "met"),
        ({"hardwired": True, "disconnect-in-sight": False}, "not met"),
        ({"hardwired": False}, "met"),
        ({"hardwired": True}, "cannot tell"),
        ({}, "cannot tell"),
    ],
)
def test_disconnect_of_a_motor(facts: dict[str, Any], expected: str) -> None:
    """A plug, a switch in its box, or one in sight."""
    place, rule = "/boxes/planer-box/devices/machine", "in-sight/disconnect-of-a-motor"
    (line,) = [line for line in lines(machine({"motor": "3 hp", **facts}), rule) if line.subject == place]
    assert (line.answer.outcome.value, line.rule.severity) == (expected, Severity.DANGER)
    beside = {"machine": {"motor": "3 hp", **facts}, "planer-outlet": None, "cut-off": {"disconnect": "60 A"}}
    assert outcome(workshop(planer_box=beside), rule, place) == "met"


@pytest.mark.parametrize(("power", "expected"), [("1800 W", "met"), ("1801 W", "not met")])
def test_switch_for_lights(power: str, expected: str) -> None:
    """15 A at 120 V."""
    of = workshop(porch_light_box={"porch-lamp": {"luminaire": power}})
    assert outcome(of, "switch-rating/switch-for-its-load", "/boxes/switch-box/devices/light-switch") == expected


@pytest.mark.parametrize(("hp", "expected"), [("1 hp", "met"), ("1 1/2 hp", "not met")])
def test_switch_for_a_motor(hp: str, expected: str) -> None:
    """16 A is 80 % of a 20 A switch, 20 A is not."""
    patch = {"boxes": {"post-box": {"devices": {"pump": {"motor": hp, "hardwired": True}}}}}
    of = reviewed_example("orchard-pump", patch)
    assert outcome(of, "switch-rating/switch-for-its-load", "/boxes/post-box/devices/main-switch") == expected


@pytest.mark.parametrize(
    ("available", "rating", "expected", "listed"),
    [
        ("10000 A", "10000 A", "met", False),
        ("10001 A", "10000 A", "not met", False),
        ("10000 A", None, "does not apply", True),
        (None, "10000 A", "does not apply", True),
    ],
)
def test_interrupting_rating(available: str | None, rating: str | None, expected: str, listed: bool) -> None:
    """Decided where both are stated, else for the reviewer of the plan."""
    patch = {
        "panels": {"house-panel": {"fault-current": available}},
        "circuits": {"studio": {"breaker": {"interrupting-rating": rating}}},
    }
    of = reviewed_example("pottery-studio", patch)
    assert outcome(of, "interrupting/breaker-for-the-fault", STUDIO) == expected
    assert bool(inspected(of, "fault-current-at-the-service")) is listed


@pytest.mark.parametrize(("length", "expected"), [("280 ft", "met"), ("310 ft", "not met"), (None, "cannot tell")])
def test_fault_at_the_far_end(length: str | None, expected: str) -> None:
    """12 AWG copper has 1.98 ohm per 1000 ft: 100 A at 120 V is 1.2 ohm, some 300 ft. Both as advice, the question too."""
    leg = {"buried": "field", "cover": "24 in", **({"length": length} if length else {})}
    of = reviewed_example("orchard-pump", {"routes": {"to-pump": {"legs": [leg]}}})
    (line,) = lines(of, "fault-loop/fault-trips-at-once", "/circuits/pump")
    assert (line.answer.outcome.value, line.rule.severity) == (expected, Severity.ADVICE)


def test_a_fault_behind_a_feeder_passes_the_feeder_too() -> None:
    """The lights' loop begins at the service."""
    (line,) = lines(reviewed_example("joinery-workshop"), "fault-loop/fault-trips-at-once", LIGHTS)
    alone = lines(reviewed_example("joinery-workshop"), "fault-loop/fault-trips-at-once", "/circuits/workshop-feeder")
    assert line.steps[0][0] > alone[0].steps[0][0]


@pytest.mark.parametrize("name", ["pottery-studio", "joinery-workshop", "orchard-pump"])
def test_the_bundled_examples_have_no_finding_here(name: str) -> None:
    """They are the compliant twins."""
    assert not [f for f in reviewed_example(name).findings if f.line.rule.id.startswith("sizing/")]
