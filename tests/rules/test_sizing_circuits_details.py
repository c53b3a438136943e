"""Motors, air conditioners, loads, switches, faults, and wire kinds: what is counted, asked, said and offered."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from support.reviews import example, merged, outcome, reviewed, reviewed_example
from support.reviews import line_of as line
from support.trenches import after_each_proposal

PLANER, BENCH, LIGHTS = "/circuits/planer", "/circuits/bench-outlets", "/circuits/lights"
MACHINE = "/boxes/planer-box/devices/machine"


def machine(
    device: dict[str, Any], rating: str = "30 A", wire: str | None = None, high: str = "95 °F", **more: Any
) -> dict[str, Any]:
    """The workshop with one machine in the planer's box, or with more beside it, on wire of some size."""
    wires = {} if wire is None else {"hot": f"2 × {wire}"}
    return example(
        "joinery-workshop",
        {
            "site": {"design-high": high},
            "circuits": {"planer": {"breaker": {"rating": rating}}},
            "boxes": {"planer-box": {"devices": {"planer-outlet": None, "machine": device, **more}}},
            "routes": {"planer-run": {"carries": {"planer": {"wires": wires}}}},
        },
    )


def motor(hp: str, **facts: Any) -> dict[str, Any]:
    """A motor that is wired in and can be cut off in sight."""
    return {"motor": hp, "hardwired": True, "disconnect-in-sight": True, **facts}


def unit(least: str = "18 A", most: str = "30 A", **facts: Any) -> dict[str, Any]:
    """A mini-split with its nameplate."""
    return {
        "equipment": "mini-split",
        "load": "3 kW",
        "hvac": True,
        "hardwired": True,
        "minimum-ampacity": least,
        "maximum-breaker": most,
        "disconnect-in-sight": True,
        **facts,
    }


# Motors

WIRE, MOST, CARRIES = "/wire-for-the-motors", "/breaker-for-a-motor", "/breaker-that-carries-the-motors"


@pytest.mark.parametrize(
    ("more", "wanted"),
    [
        ({}, "21.25 A"),
        ({"second": motor("1 hp")}, "29.25 A"),
        ({"second": motor("5 hp")}, "52 A"),
        ({"heat": {"heater": "960 W"}}, "26.25 A"),
        ({"press": {"equipment": "press", "load": "960 VA", "continuous": False}}, "25.25 A"),
        ({"press": {"equipment": "press", "load": "960 VA", "continuous": True}}, "26.25 A"),
        ({"outlet": {"receptacle": "30 A", "single": True}}, "21.25 A"),
    ],
)
def test_what_the_wire_to_motors_carries(more: dict[str, Any], wanted: str) -> None:
    """3 hp at 230 V draws 17 A: a quarter more for the largest motor, and all else that is wired, heat at 125 %."""
    answer = line(reviewed(machine(motor("3 hp"), "60 A", "6 AWG Cu THHN", **more)), WIRE, PLANER).answer
    assert (answer.outcome.value, answer.needs) == ("met", f"at least {wanted} for its motors")


@pytest.mark.parametrize(
    ("hp", "rating", "expected", "most"),
    [
        ("3 hp", "45 A", "met", "at most 45 A"),
        ("3 hp", "50 A", "not met", "at most 45 A for a motor of 17 A"),
        ("1/6 hp", "15 A", "met", "a small motor of 2.2 A on a general circuit"),
        ("1/6 hp", "20 A", "not met", "at most 10 A for a motor of 2.2 A"),
        ("3/4 hp", "15 A", "met", "at most 20 A"),
        ("3/4 hp", "20 A", "met", "at most 20 A"),
        ("3/4 hp", "25 A", "not met", "at most 20 A for a motor of 6.9 A"),
    ],
)
def test_the_largest_breaker_of_a_motor(hp: str, rating: str, expected: str, most: str) -> None:
    """250 % or the next standard rating; up to 6 A, whatever that is, 15 A at 240 V."""
    data = machine(motor(hp), rating)
    answer = line(reviewed(data), MOST, PLANER).answer
    assert (answer.outcome.value, answer.needs) == (expected, most)
    offered = after_each_proposal(data, MOST, PLANER)
    assert offered == ({f"use a {most.split()[2]} A breaker for planer": "met"} if expected == "not met" else {})


@pytest.mark.parametrize(
    ("current", "rating", "expected"),
    [
        ("6 A", "20 A", "met"),
        ("6 A", "25 A", "not met"),
        ("6.1 A", "20 A", "met"),
        ("5.9 A", "20 A", "met"),
        ("3 A", "20 A", "met"),
        ("3 A", "25 A", "not met"),
    ],
)
def test_small_motors_at_120_volts(current: str, rating: str, expected: str) -> None:
    """Up to 6 A on 20 A; above by 250 %."""
    devices = {"bench-outlet": None, "fan": motor("1/8 hp", **{"full-load-current": current})}
    patch = {
        "circuits": {"bench-outlets": {"breaker": {"rating": rating}}},
        "boxes": {"bench-box": {"devices": devices}, "yard-box": {"devices": {"porch-outlet": None}}},
    }
    assert outcome(reviewed_example("joinery-workshop", patch), MOST, BENCH) == expected


def test_a_motor_that_shares_its_circuit_has_no_breaker_of_its_own() -> None:
    """Neither is its breaker too large by its current, nor is a larger one offered; nor is anything said of a feeder."""
    beside = machine(motor("3 hp"), "15 A", second=motor("1 hp"))
    of = reviewed(beside)
    assert (outcome(of, MOST, PLANER), outcome(of, CARRIES, PLANER)) == ("does not apply", "not met")
    assert after_each_proposal(beside, CARRIES, PLANER) == {}
    for rule in (WIRE, MOST, CARRIES):
        assert outcome(of, rule, "/circuits/workshop-feeder") == "does not apply"
        assert outcome(of, rule, LIGHTS) == "does not apply"


def test_a_breaker_that_carries_a_motor_leaves_room_for_its_start() -> None:
    """5 hp draws 28 A by table: 35 A, not 30 A, is offered, and settles it."""
    assert after_each_proposal(machine(motor("5 hp"), "25 A"), CARRIES, PLANER) == {
        "use a 35 A breaker for planer": "met"
    }
    met = line(reviewed(machine(motor("5 hp"), "30 A")), CARRIES, PLANER).answer
    assert met.needs == "at least 28 A for what runs on it"


def test_how_long_something_runs_beside_a_motor_is_asked_for_where_it_decides() -> None:
    """4 A beside 17 A, or 5 A if it runs for hours."""
    press = {"equipment": "press", "load": "960 VA"}
    for rating, expected in (("21 A", "cannot tell"), ("22 A", "met"), ("20 A", "not met")):
        of = reviewed(machine(motor("3 hp"), rating, press=press))
        assert outcome(of, CARRIES, PLANER) == expected


def test_a_way_out_is_offered_where_a_fact_that_is_not_stated_changes_nothing() -> None:
    """12 AWG does not carry 25.25 A, nor 26.25 A: larger wire is proposed all the same."""
    press = {"equipment": "press", "load": "960 VA"}
    data = machine(motor("3 hp"), "30 A", "12 AWG Cu THHN", press=press)
    assert after_each_proposal(data, WIRE, PLANER) == {"use 10 AWG Cu on planer-run": "met"}


def test_the_largest_breaker_of_a_motor_is_in_the_derivation() -> None:
    """From its current."""
    (words,) = [words for words, at in line(reviewed(machine(motor("3 hp"))), MOST, PLANER).steps if at == MACHINE]
    assert "42.5 A" in words and "45 A" in words


def test_bare_wire_to_a_motor_is_for_the_authority() -> None:
    """No table holds for it; a wire that is too weak elsewhere is told first."""
    answer = line(reviewed(machine(motor("3 hp"), wire="6 AWG Cu bare")), WIRE, PLANER).answer
    assert (answer.outcome.value, answer.asks) == ("cannot tell", None)


@pytest.mark.parametrize(("hardwired", "said"), [(True, 1), (None, 1), (False, 0)])
def test_overload_protection_is_looked_at_on_site(hardwired: bool | None, said: int) -> None:
    """Of every motor but one that is plugged in."""
    of = reviewed(machine({"motor": "3 hp", "hardwired": hardwired, "disconnect-in-sight": True}))
    says = [one.says for one in of.inspect if one.item.id.endswith("/overload-protection")]
    assert len(says) == said and all(words.startswith("machine: ") for words in says)


# Air conditioners

PLATE_WIRE, PLATE_BREAKER = "/wire-for-the-nameplate", "/breaker-for-the-nameplate"


@pytest.mark.parametrize(
    ("facts", "expected"),
    [({}, "not met"), ({"hvac": None}, "does not apply"), ({"hardwired": False}, "does not apply")],
)
def test_which_equipment_has_a_nameplate_to_go_by(facts: dict[str, Any], expected: str) -> None:
    """Air-conditioning equipment that is wired in."""
    of = reviewed(machine(unit("50 A", "20 A", **facts)))
    assert {outcome(of, rule, MACHINE) for rule in (PLATE_WIRE, PLATE_BREAKER)} == {expected}


@pytest.mark.parametrize(
    ("most", "rating", "expected"), [("30 A", "30 A", "met"), ("30 A", "35 A", "not met"), ("25 A", "30 A", "not met")]
)
def test_the_largest_breaker_on_a_nameplate(most: str, rating: str, expected: str) -> None:
    """Is offered where it is passed."""
    data = machine(unit(most=most), rating)
    found = line(reviewed(data), PLATE_BREAKER, MACHINE)
    assert (found.answer.outcome.value, found.answer.needs) == (expected, f"at most {most}")
    assert found.place == "/circuits/planer/breaker/rating"
    offered = {f"use a {most} breaker for planer": "met"} if expected == "not met" else {}
    assert after_each_proposal(data, PLATE_BREAKER, MACHINE) == offered


def test_weak_wire_is_made_larger_on_every_route() -> None:
    """The weakest is said, and the way out is for all of them; where it cannot be for one, there is none."""
    devices = {"bench-outlet": None, "unit": unit("26 A", "40 A")}
    patch: dict[str, Any] = {
        "circuits": {"bench-outlets": {"breaker": {"rating": "30 A"}}},
        "boxes": {
            "bench-box": {"devices": {"bench-outlet": None}},
            "yard-box": {"devices": devices | {"porch-outlet": None}},
        },
    }
    place = "/boxes/yard-box/devices/unit"
    data = example("joinery-workshop", patch)
    answer = line(reviewed(data), PLATE_WIRE, place).answer
    assert (str(answer.has), answer.needs) == ("20 A", "at least 26 A on porch for its nameplate")
    assert after_each_proposal(data, PLATE_WIRE, place) == {"use 10 AWG Cu on bench, 10 AWG Cu on porch": "met"}
    far = merged(data, {"boxes": {"yard-box": {"devices": {"unit": {"minimum-ampacity": "120 A"}}}}})
    assert outcome(reviewed(far), PLATE_WIRE, place) == "not met"
    assert after_each_proposal(far, PLATE_WIRE, place) == {}


def test_what_goes_by_its_equipment() -> None:
    """A breaker above the ampacity is in order for a motor or an air conditioner alone, not for it and something else."""
    rule = "/breaker-for-the-ampacity"
    for device in (motor("3 hp"), unit()):
        assert outcome(reviewed(machine(device, "45 A")), rule, PLANER) == "does not apply"
        lamp = {"luminaire": "9 W"}
        capped = "/breaker-for-small-wire"
        assert outcome(reviewed(machine(device, "45 A", more=lamp)), capped, PLANER) == "not met"
        switch = {"disconnect": "60 A"}
        assert outcome(reviewed(machine(device, "45 A", more=switch)), capped, PLANER) == "does not apply"
    plain = unit(hvac=None)
    assert outcome(reviewed(machine(plain, "45 A")), "/breaker-for-small-wire", PLANER) == "not met"


# Disconnects in sight

SIGHT, SIGHT_OF_UNIT = "/disconnect-of-a-motor", "/disconnect-of-an-air-conditioner"


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({"hardwired": True, "disconnect-in-sight": True}, "met"),
        ({"hardwired": True, "disconnect-in-sight": False}, "not met"),
        ({"hardwired": False, "disconnect-in-sight": None}, "met"),
        ({"hardwired": None, "disconnect-in-sight": True}, "met"),
        ({"hardwired": None, "disconnect-in-sight": False}, "cannot tell"),
        ({"hvac": None, "disconnect-in-sight": False}, "does not apply"),
    ],
)
def test_disconnect_of_an_air_conditioner(facts: dict[str, Any], expected: str) -> None:
    """In sight, or a plug; of other equipment nothing is said."""
    assert outcome(reviewed(machine(unit(**facts))), SIGHT_OF_UNIT, MACHINE) == expected


def test_a_switch_of_another_circuit_is_no_disconnect() -> None:
    """Only one that opens the motor's own."""
    cut_off = {"disconnect": "60 A", "circuit": "lights"}
    for name, expected in (("planer", "met"), ("lights", "not met")):
        data = machine({**motor("3 hp", **{"disconnect-in-sight": False}), "circuit": "planer"})
        data["boxes"]["planer-box"]["devices"]["cut-off"] = {**cut_off, "circuit": name}
        data["routes"]["more"] = {
            "from": "switch-box",
            "to": "planer-box",
            "raceway": "none",
            "carries": {"lights": {"cable": "NM-B 14/2"}},
            "legs": [{"in": "wall framing", "length": "5 ft"}],
        }
        assert outcome(reviewed(data), SIGHT, MACHINE) == expected


@pytest.mark.parametrize(
    ("rating", "taken", "name", "said"),
    [
        ("30 A", (), "disconnect", "30 A"),
        (None, (), "disconnect", "60 A"),
        ("30 A", ("disconnect",), "disconnect-2", "30 A"),
        ("30 A", ("disconnect", "disconnect-2"), "disconnect-3", "30 A"),
    ],
)
def test_the_disconnect_that_is_proposed(rating: str | None, taken: tuple[str, ...], name: str, said: str) -> None:
    """Beside the machine, under a name that is free, rated for its circuit; nothing is said against the device itself."""
    others = {other: {"receptacle": "30 A", "voltage": "250 V", "single": True} for other in taken}
    data = machine(motor("3 hp", **{"disconnect-in-sight": False}), "30 A", **others)
    data["circuits"]["planer"]["breaker"]["rating"] = rating
    if rating is None:
        del data["circuits"]["planer"]["breaker"]["rating"]
    (way,) = line(reviewed(data), SIGHT, MACHINE).answer.proposals
    (edit,) = way.patch
    assert (edit["path"], edit["value"]["disconnect"]) == (f"/boxes/planer-box/devices/{name}", said)
    said_of_it = {"indicating": True, "identified": True, "readily-accessible": True, "circuit": "planer"}
    assert edit["value"] | said_of_it == edit["value"]
    after = reviewed(applied(data, complete(data, way.patch)))
    assert outcome(after, SIGHT, MACHINE) == "met"
    against = [one for one in after.findings if one.line.subject == f"/boxes/planer-box/devices/{name}"]
    assert [one.line.rule.id for one in against] == []


@pytest.mark.parametrize(
    ("kind", "ways"), [("box", 1), ("pedestal", 1), ("handhole", 0), ("conduit body", 0), (None, 0)]
)
def test_no_disconnect_is_put_into_a_fitting(kind: str | None, ways: int) -> None:
    """Nor into what the plan does not name."""
    data = machine(motor("3 hp", **{"disconnect-in-sight": False}))
    data = merged(data, {"boxes": {"planer-box": {"box": {"kind": kind}}}})
    assert len(line(reviewed(data), SIGHT, MACHINE).answer.proposals) == ways


# Loads

BREAKER, HOTS = "/breaker-for-the-load", "/wire-for-the-load"


@pytest.mark.parametrize(
    ("device", "rating", "needs", "rows"),
    [
        ({"heater": "4800 W"}, "20 A", "at least 25 A for its load", {"continuous-load-125", "heater-continuous"}),
        (
            {"equipment": "kiln", "load": "6000 VA", "continuous": True},
            "30 A",
            "at least 31.25 A for its load",
            {"continuous-load-125"},
        ),
        (
            {"equipment": "kiln", "load": "7440 VA", "continuous": False},
            "30 A",
            "at least 31 A for its load",
            {"continuous-load-125"},
        ),
    ],
)
def test_a_breaker_below_its_load(device: dict[str, Any], rating: str, needs: str, rows: set[str]) -> None:
    """With what runs for hours at 125 %, heat always; heating is cited where there is some."""
    answer = line(reviewed(machine({**device, "hardwired": True}, rating)), BREAKER, PLANER).answer
    assert (answer.outcome.value, answer.needs, set(answer.rows)) == ("not met", needs, rows)


def test_loads_are_added_up() -> None:
    """5 A for hours and 10 A for a while: 16.25 A."""
    press = {"equipment": "press", "load": "2400 VA", "continuous": False, "hardwired": True}
    data = machine({"heater": "1200 W", "hardwired": True}, "20 A", press=press)
    assert line(reviewed(data), BREAKER, PLANER).answer.needs == "at least 16.25 A for its load"


@pytest.mark.parametrize(
    ("rating", "wire", "load", "offered"),
    [
        ("20 A", "10 AWG Cu THHN", "4800 W", {"use a 25 A breaker for planer": "met"}),
        (
            "20 A",
            "12 AWG Cu THHN",
            "4800 W",
            {
                "use a 25 A breaker for planer": "met",
                "use a 25 A breaker for planer, and 10 AWG Cu on planer-run": "met",
            },
        ),
    ],
)
def test_a_larger_breaker_comes_with_larger_wire(rating: str, wire: str, load: str, offered: dict[str, str]) -> None:
    """Where the wire that is planned would be too small for it; the ground is large enough as it is."""
    data = machine({"heater": load, "hardwired": True}, rating, wire)
    assert after_each_proposal(data, BREAKER, PLANER) == offered


@pytest.mark.parametrize(
    ("load", "rating", "wire", "expected", "why"),
    [
        ("13.1 kVA", "60 A", "6 AWG Cu TW", "met", ""),
        ("13.3 kVA", "60 A", "6 AWG Cu TW", "not met", ""),
        ("11 kVA", "60 A", "6 AWG Cu TW", "does not apply", "below the next smaller breaker"),
        ("15 kVA", "60 A", "6 AWG Cu TW", "does not apply", "its breaker is too small already"),
        ("13.3 kVA", "60 A", "8 AWG Cu TW", "does not apply", "too large for its conductors"),
        ("12.48 kVA", "60 A", "6 AWG Cu TW", "met", ""),
        ("12 kVA", "60 A", "6 AWG Cu TW", "does not apply", "below the next smaller breaker"),
        ("14.4 kVA", "60 A", "6 AWG Cu TW", "not met", ""),
    ],
)
def test_wire_for_the_load(load: str, rating: str, wire: str, expected: str, why: str) -> None:
    """6 AWG TW has 55 A, behind 60 A as the next standard rating; each mistake is told once."""
    kiln = {"equipment": "kiln", "load": load, "continuous": False, "hardwired": True}
    answer = line(reviewed(machine(kiln, rating, wire, "86 °F")), HOTS, PLANER).answer
    assert answer.outcome.value == expected
    assert why in answer.why
    if expected == "not met":
        assert set(answer.rows) == {"continuous-load-125"}


def test_wire_carries_its_load_where_it_lies() -> None:
    """6 AWG TW has 50.05 A at 95 °F, behind 60 A as the next standard rating."""
    for load, expected in (("12.01 kVA", "met"), ("12.02 kVA", "not met")):
        kiln = {"equipment": "kiln", "load": load, "continuous": False, "hardwired": True}
        assert outcome(reviewed(machine(kiln, "60 A", "6 AWG Cu TW")), HOTS, PLANER) == expected


def test_wire_carries_the_sum_of_its_load() -> None:
    """16 A for hours, and 33 or 35 A for a while: 49 A or 51 A, where it has 50.05 A."""
    for load, expected in (("7920 VA", "met"), ("8400 VA", "not met")):
        kiln = {"equipment": "kiln", "load": load, "continuous": False, "hardwired": True}
        heat = {"heater": "3840 W", "hardwired": True}
        assert outcome(reviewed(machine(kiln, "60 A", "6 AWG Cu TW", heat=heat)), HOTS, PLANER) == expected


def test_a_load_on_wire_that_no_table_is_for() -> None:
    """Is for the authority."""
    kiln = {"equipment": "kiln", "load": "13 kVA", "continuous": False, "hardwired": True}
    of = reviewed(machine(kiln, "60 A", "6 AWG Cu bare"))
    assert (outcome(of, HOTS, PLANER), of.failures) == ("cannot tell", ())


def test_a_load_beyond_any_wire() -> None:
    """625 A: a breaker of 700 A is made, wire that carries it alone is not."""
    kiln = {"equipment": "kiln", "load": "150 kVA", "continuous": False, "hardwired": True}
    assert after_each_proposal(machine(kiln), BREAKER, PLANER) == {"use a 700 A breaker for planer": "met"}


def test_how_long_a_load_runs_is_asked_for_where_it_decides() -> None:
    """25 A on 30 A, or 31.25 A; 4 A are fine either way."""
    for load, expected in (("6000 VA", "cannot tell"), ("960 VA", "met"), ("7201 VA", "not met")):
        of = reviewed(machine({"equipment": "kiln", "load": load, "hardwired": True}))
        assert outcome(of, BREAKER, PLANER) == expected


def test_heating_among_other_load_is_cited() -> None:
    """With what is looked up for continuous load."""
    press = {"equipment": "press", "load": "2400 VA", "continuous": False, "hardwired": True}
    answer = line(reviewed(machine({"heater": "4800 W", "hardwired": True}, press=press)), BREAKER, PLANER).answer
    assert (answer.outcome.value, set(answer.rows)) == ("not met", {"continuous-load-125", "heater-continuous"})


def test_continuous_load_is_counted_whole_before_correction_only() -> None:
    """44.8 A for hours ask for 56 A before correction, 6 AWG TW has 55 A; 43 A for 53.75 A, and after correction for
    35 °C it has 50 A, which carries 43 A."""
    for load, expected in (("10.32 kVA", "met"), ("10.75 kVA", "not met")):
        kiln = {"equipment": "kiln", "load": load, "continuous": True, "hardwired": True}
        data = machine(kiln, "60 A", "6 AWG Cu TW")
        assert outcome(reviewed(data), HOTS, PLANER) == expected, load


def test_what_has_no_load_of_its_own() -> None:
    """Receptacles only; motors and air conditioners go by their current."""
    of = reviewed_example("joinery-workshop")
    assert line(of, BREAKER, BENCH).answer.why == "no load of its own is planned on it"
    assert outcome(of, BREAKER, "/circuits/workshop-feeder") == "does not apply"
    both = machine(motor("3 hp"), lamp={"luminaire": "9 W"})
    assert outcome(reviewed(both), BREAKER, PLANER) == "does not apply"
    assert outcome(reviewed(machine(unit("18 A", load="9 kW"))), BREAKER, PLANER) == "does not apply"
    assert outcome(reviewed(machine({"heater": "9 kW", "hardwired": True})), BREAKER, PLANER) == "not met"


# Snap switches

SWITCH, RULE = "/boxes/switch-box/devices/light-switch", "/switch-for-its-load"


@pytest.mark.parametrize(
    ("devices", "expected", "offered"),
    [
        ({"porch-lamp": {"luminaire": "1801 W"}}, "not met", ["use a switch of 20 A"]),
        ({"porch-lamp": {"luminaire": "2400 W"}}, "not met", ["use a switch of 20 A"]),
        ({"porch-lamp": {"luminaire": "2401 W"}}, "not met", ["use a switch of 30 A"]),
        ({"porch-lamp": {"luminaire": "3601 W"}}, "not met", []),
        (
            {"second": {"luminaire": "1790 W", "switched-by": "switch-box/light-switch"}},
            "not met",
            ["use a switch of 20 A"],
        ),
        ({"second": {"luminaire": "1790 W"}}, "met", []),
    ],
)
def test_a_switch_carries_the_lights_that_it_switches(
    devices: dict[str, Any], expected: str, offered: list[str]
) -> None:
    """Together, at 120 V; in the ratings that are made."""
    data = example("joinery-workshop", {"boxes": {"porch-light-box": {"devices": devices}}})
    assert outcome(reviewed(data), RULE, SWITCH) == expected
    assert after_each_proposal(data, RULE, SWITCH) == dict.fromkeys(offered, "met")


@pytest.mark.parametrize(
    ("box", "fan", "expected"),
    [
        ("switch-box", {"motor": "3/4 hp", "hardwired": True}, "not met"),
        ("switch-box", {"motor": "1/2 hp", "hardwired": True}, "met"),
        ("switch-box", {"motor": "3/4 hp", "hardwired": None}, "not met"),
        ("switch-box", {"motor": "3/4 hp", "hardwired": False}, "does not apply"),
        ("porch-light-box", {"motor": "3/4 hp", "hardwired": True}, "does not apply"),
    ],
)
def test_a_switch_takes_a_motor_in_its_box(box: str, fan: dict[str, Any], expected: str) -> None:
    """13.8 A are more than 80 % of 15 A; what is plugged in, or elsewhere, is not known to be switched by it."""
    boxes: dict[str, Any] = {"porch-light-box": {"devices": {"porch-lamp": None}}}
    boxes.setdefault(box, {"devices": {}})["devices"]["fan"] = fan
    data = example("joinery-workshop", {"boxes": boxes})
    answer = line(reviewed(data), RULE, SWITCH).answer
    assert answer.outcome.value == expected
    if expected == "not met":
        assert answer.needs == "at least 17.25 A, for a motor load of 13.8 A at 80 %"
