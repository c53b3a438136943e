"""What a circuit is planned for, against its breaker and its wire: counted with what is wired on it, and never asked for."""

from __future__ import annotations

from typing import Any

import pytest

from support.offered import offered, settled
from support.reviews import asked, example, merged, outcome, reviewed
from support.reviews import line_of as line

BREAKER, WIRE, CARRIES = "load/breaker-for-the-load", "load/wire-for-the-load", "/breaker-that-carries-the-motors"
BENCH, PLANER, FEEDER = "/circuits/bench-outlets", "/circuits/planer", "/circuits/workshop-feeder"
KILN: dict[str, Any] = {"equipment": "kiln", "load": "5500 W", "hardwired": True, "continuous": False}


def bench(load: str | None, **more: Any) -> dict[str, Any]:
    """The joinery workshop, its receptacles on 20 A planned for a load, with more in their box."""
    circuits = {"bench-outlets": {"load": load}}
    return example("joinery-workshop", {"circuits": circuits, "boxes": {"bench-box": {"devices": more}}})


def planer(device: dict[str, Any], load: str | None, **circuit: Any) -> dict[str, Any]:
    """The joinery workshop with a machine in the box of the planer, its circuit planned for a load."""
    devices = {"planer-outlet": None, "machine": device}
    circuits = {"planer": {"load": load, **circuit}}
    return example("joinery-workshop", {"circuits": circuits, "boxes": {"planer-box": {"devices": devices}}})


# Branch circuits


@pytest.mark.parametrize(
    ("load", "expected"), [(None, "does not apply"), ("0 A", "does not apply"), ("20 A", "met"), ("20.1 A", "not met")]
)
def test_receptacles_are_held_to_what_is_planned_for_them(load: str | None, expected: str) -> None:
    """What is plugged in is not known otherwise; nothing is asked for it."""
    review = reviewed(bench(load))
    assert outcome(review, BREAKER, BENCH) == expected
    assert not asked(review)


def test_a_planned_load_says_where_it_comes_from() -> None:
    """It is not called continuous, nor the contrary."""
    answer = line(reviewed(bench("40 A")), BREAKER, BENCH)
    assert [step for step, _ in answer.steps] == ["planned for 40 A"]
    assert [place for _, place in answer.steps] == [f"{BENCH}/load"]
    assert answer.answer.rows == ("permissible-loads",)
    assert (str(answer.answer.has), str(answer.answer.needs)) == ("20 A", "at least 40 A for its load")


@pytest.mark.parametrize(
    ("load", "expected", "needs"),
    [
        (None, "met", "at least 12.5 A for its load"),
        ("9 A", "met", "at least 12.5 A for its load"),
        ("17.5 A", "met", "at least 20 A for its load"),
        ("18 A", "not met", "at least 20.5 A for its load"),
    ],
)
def test_what_runs_for_hours_counts_more_within_what_is_planned(load: str | None, expected: str, needs: str) -> None:
    """10 A of heating, and the rest as it stands."""
    answer = line(reviewed(bench(load, warmer={"heater": "1200 W", "hardwired": True})), BREAKER, BENCH).answer
    assert (answer.outcome.value, answer.needs) == (expected, needs)


def test_both_rows_are_cited_where_both_decide() -> None:
    """A load above the breaker, with heating in it; of more heat than is planned the planned load is no reason."""
    warmer = {"heater": "1200 W", "hardwired": True}
    rows = ("continuous-load-125", "heater-continuous")
    assert line(reviewed(bench("30 A", warmer=warmer)), BREAKER, BENCH).answer.rows == ("permissible-loads", *rows)
    hot = bench("2 A", warmer=warmer | {"heater": "2400 W"})
    assert line(reviewed(hot), BREAKER, BENCH).answer.rows == rows


def test_a_larger_breaker_is_offered_where_it_suits_what_is_on_the_circuit() -> None:
    """Not for receptacles for whatever comes, nor for lights."""
    larger = "use a 35 A breaker for planer, and 8 AWG Cu on planer-run"
    assert settled(planer(KILN, "34 A"), BREAKER, PLANER)[larger] == []
    assert offered(bench("40 A"), BREAKER, BENCH) == []
    lights = example("joinery-workshop", {"circuits": {"lights": {"load": "18 A"}}})
    assert offered(lights, BREAKER, "/circuits/lights")[0] == "use a 20 A breaker for lights"
    assert offered(merged(lights, {"circuits": {"lights": {"load": "21 A"}}}), BREAKER, "/circuits/lights") == []


def test_wire_carries_what_is_planned() -> None:
    """6 AWG cable, held to 55 A, on the next standard rating."""
    cable = {"raceway": "none", "carries": {"planer": {"wires": None, "cable": "NM-B 6/2"}}}
    for load, expected in (("55 A", "met"), ("56 A", "not met"), (None, "does not apply")):
        data = merged(planer(KILN, load, breaker={"rating": "60 A"}), {"routes": {"planer-run": cable}})
        found = line(reviewed(data), WIRE, PLANER)
        assert found.answer.outcome.value == expected
        assert (f"planned for {load}" in [step for step, _ in found.steps]) is (load is not None)


@pytest.mark.parametrize(("load", "expected"), [(None, "met"), ("20 A", "met"), ("31 A", "not met")])
def test_a_motor_circuit_carries_what_is_planned(load: str | None, expected: str) -> None:
    """Its motor is part of that, and starts with a quarter more of its own current."""
    motor = {"motor": "3 hp", "hardwired": True, "disconnect-in-sight": True}
    review = reviewed(planer(motor, load))
    assert outcome(review, CARRIES, PLANER) == expected
    wire = line(review, "/wire-for-the-motors", PLANER)
    wanted = {None: "21.25 A", "20 A": "24.25 A", "31 A": "35.25 A"}[load]
    assert f"machine: {wanted} with 25 % more for the largest" in [step for step, _ in wire.steps]
    assert ("planned for 31 A" in [step for step, _ in wire.steps]) is (load == "31 A")


@pytest.mark.parametrize(("load", "expected"), [(None, "does not apply"), ("30 A", "met"), ("31 A", "not met")])
def test_the_breaker_of_an_air_conditioner_carries_what_is_planned(load: str | None, expected: str) -> None:
    """Its wire goes by its nameplate all the same."""
    unit = {"equipment": "mini-split", "load": "3 kW", "hvac": True, "hardwired": True, "minimum-ampacity": "18 A",
            "maximum-breaker": "30 A", "disconnect-in-sight": True}  # fmt: skip
    review = reviewed(planer(unit, load))
    assert outcome(review, BREAKER, PLANER) == expected
    assert outcome(review, WIRE, PLANER) == "does not apply"
    assert not asked(review)


# Feeders


@pytest.mark.parametrize(
    ("load", "expected"), [("20 A", "met"), ("60 A", "met"), ("61 A", "not met"), (None, "met")]
)  # fmt: skip
def test_a_feeder_carries_what_it_is_planned_for(load: str | None, expected: str) -> None:
    """60 A, whatever is behind it so far."""
    data = example("joinery-workshop", {"circuits": {"workshop-feeder": {"load": load}}})
    found = line(reviewed(data), "feeder/breaker-carries-the-load", FEEDER)
    assert found.answer.outcome.value == expected
    assert ("workshop-feeder: planned for 61 A" in [step for step, _ in found.steps]) is (load == "61 A")
    if load == "61 A":
        assert found.answer.needs == "at least 61 A, which it is planned for"
        assert found.answer.rows == ("feeder-size-calculated",)
        assert settled(data, "feeder/breaker-carries-the-load", FEEDER)


def test_nothing_behind_a_feeder_is_no_reason_to_pass_over_its_load() -> None:
    """A panel that is to be filled later."""
    none = dict.fromkeys(("bench-outlets", "lights", "planer"))
    data = example("joinery-workshop", {"circuits": none | {"workshop-feeder": {"load": "80 A"}}})
    data["boxes"] = {name: box for name, box in data["boxes"].items() if name == "pull-box"}
    data["routes"] = {name: data["routes"][name] for name in ("garage-run", "yard")}
    assert outcome(reviewed(data), "feeder/breaker-carries-the-load", FEEDER) == "not met"
    unplanned = merged(data, {"circuits": {"workshop-feeder": {"load": None}}})
    assert outcome(reviewed(unplanned), "feeder/breaker-carries-the-load", FEEDER) == "does not apply"


def test_a_feeder_whose_panel_is_not_on_the_plan_is_held_to_its_load() -> None:
    """Its breaker and its wire, as far as the plan has it."""
    circuits = dict.fromkeys(("bench-outlets", "lights", "planer")) | {"workshop-feeder": {"load": "80 A"}}
    data = example("joinery-workshop", {"circuits": circuits})
    data["boxes"] = {name: box for name, box in data["boxes"].items() if name == "pull-box"}
    data["routes"] = {"garage-run": data["routes"]["garage-run"]}
    del data["panels"]["workshop-panel"]
    breaker, wire = "feeder/breaker-carries-the-load", "feeder/conductors-carry-the-load"
    found = line(reviewed(data), breaker, FEEDER).answer
    assert (found.outcome.value, found.proposals) == ("not met", ())
    fewer = merged(data, {"circuits": {"workshop-feeder": {"load": "58 A", "terminals": "60 °C"}}})
    assert outcome(reviewed(fewer), breaker, FEEDER) == "met"
    assert outcome(reviewed(fewer), wire, FEEDER) == "not met"
    for kind in ("feeder", "low-voltage"):
        load = "80 A" if kind == "low-voltage" else None
        none = merged(data, {"circuits": {"workshop-feeder": {"load": load, "kind": kind}}})
        assert outcome(reviewed(none), breaker, FEEDER) == "does not apply"


def test_the_wire_and_the_panel_of_a_feeder_carry_what_it_is_planned_for() -> None:
    """6 AWG at 55 A behind 60 A; a main of 60 A."""
    data = example("joinery-workshop", {"circuits": {"workshop-feeder": {"load": "58 A", "terminals": "60 °C"}}})
    wire = line(reviewed(data), "feeder/conductors-carry-the-load", FEEDER)
    assert (wire.answer.outcome.value, wire.answer.needs) == ("not met", "at least 58 A, which it is planned for")
    small = {
        "circuits": {"workshop-feeder": {"load": "58 A", "terminals": "60 °C"}},
        "panels": {"workshop-panel": {"main": "50 A"}},
    }
    panel = line(reviewed(example("joinery-workshop", small)), "/panel-carries-the-load", "/panels/workshop-panel")
    assert (panel.answer.outcome.value, panel.answer.needs) == ("not met", "at least 58 A, the load of what is planned")


def test_a_feeder_planned_for_less_than_stands_behind_it_is_held_to_what_stands_there() -> None:
    """The larger of the two counts for its panel."""

    def needs(load: str | None) -> str:
        data = example("joinery-workshop", {"circuits": {"workshop-feeder": {"load": load}}})
        return str(line(reviewed(data), "/panel-carries-the-load", "/panels/workshop-panel").answer.needs)

    assert needs(None) == needs("10 A") == "at least 31.6 A, the load of what is planned"
    assert needs("50 A") == "at least 50 A, the load of what is planned"
