"""Ground-fault protection of fixed equipment outdoors."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from precover.rulebook import Cell, Look, Outcome, Table
from support.reviews import lines, outcome, reviewed_example

RULE = "/protection-of-hardwired-equipment-outdoors"
PUMP = "/boxes/post-box/devices/pump"


def post(
    device: dict[str, Any] | None = None,
    *,
    level: str | None = "none",
    circuit: dict[str, Any] | None = None,
    box: dict[str, Any] | None = None,
    **more: Any,
) -> Review:
    """The orchard post with a hard-wired motor, or another device, instead of its receptacle, without protection."""
    breaker = {"ground-fault": level, **(circuit or {}).pop("breaker", {})}
    devices = {"outlet": None, "pump": device or {"motor": "1/2 hp", "hardwired": True}}
    patch = {
        "circuits": {"pump": {"breaker": breaker, **(circuit or {})}},
        "boxes": {"post-box": {**(box or {}), "devices": devices}},
        **more,
    }
    return reviewed_example("orchard-pump", patch)


def line(of: Review) -> Line:
    """The ledger line on the pump."""
    (found,) = [line for line in of.ran if line.rule.id.endswith(RULE) and line.subject == PUMP]
    return found


@pytest.mark.parametrize(("level", "expected"), [("none", "not met"), ("equipment", "not met"), ("class A", "met")])
@pytest.mark.parametrize("head", [{"motor": "1/2 hp"}, {"heater": "1500 W"}, {"equipment": "gate opener"}])
def test_protection(head: dict[str, Any], level: str, expected: str) -> None:
    """A motor, a heater and other equipment alike; equipment protection does not count."""
    assert outcome(post({**head, "hardwired": True}, level=level), RULE, PUMP) == expected


def test_unstated_protection_is_asked_for() -> None:
    """Where only the breaker could protect it, the breaker is asked for."""
    of = post(level=None)
    assert (outcome(of, RULE, PUMP), line(of).place) == ("cannot tell", "/circuits/pump/breaker/ground-fault")


@pytest.mark.parametrize(
    ("hardwired", "level", "expected"),
    [(False, "none", "does not apply"), (None, "none", "cannot tell"), (None, "class A", "met")],
)
def test_hardwired_or_plugged_in(hardwired: bool | None, level: str, expected: str) -> None:
    """What plugs in is looked at through its receptacle; which it is matters only without protection."""
    device = {"motor": "1/2 hp", **({} if hardwired is None else {"hardwired": hardwired})}
    of = post(device, level=level)
    assert outcome(of, RULE, PUMP) == expected
    if expected == "cannot tell":
        assert line(of).place == f"{PUMP}/hardwired"


@pytest.mark.parametrize(("amps", "expected"), [("49 A", "not met"), ("50 A", "not met"), ("51 A", "does not apply")])
def test_rating_of_the_circuit(amps: str, expected: str) -> None:
    """Branch circuits up to 50 A."""
    assert outcome(post(circuit={"breaker": {"rating": amps}}), RULE, PUMP) == expected


@pytest.mark.parametrize(
    ("volts", "expected"),
    [("240 V", "not met"), ("120/240 V", "not met"), ("150 V", "not met"), ("151 V", "does not apply")],
)
def test_voltage_to_ground(volts: str, expected: str) -> None:
    """Circuits up to 150 V to ground."""
    assert outcome(post(circuit={"voltage": volts}), RULE, PUMP) == expected


def test_a_low_voltage_circuit() -> None:
    """Only branch circuits are covered."""
    assert outcome(post(circuit={"kind": "low-voltage", "voltage": "12 V"}), RULE, PUMP) == "does not apply"


def test_place() -> None:
    """Outdoors by area, or because it is on a post; not indoors."""
    assert outcome(post(box={"area": None}), RULE, PUMP) == "not met"
    house = {"at": "farmhouse"}
    assert outcome(post(box={**house, "area": "outdoors"}), RULE, PUMP) == "not met"
    assert outcome(post(box={**house, "area": "ground"}), RULE, PUMP) == "not met"
    assert outcome(post(box={**house, "area": "basement"}), RULE, PUMP) == "does not apply"
    assert outcome(post(box={**house, "area": None}), RULE, PUMP) == "cannot tell"


def test_lights_are_excepted() -> None:
    """Lighting outlets, and transformers, which mostly feed lights."""
    assert lines(post({"luminaire": "40 W"}), RULE, PUMP) == []
    assert lines(post({"transformer": "300 VA"}), RULE, PUMP) == []


@pytest.mark.parametrize(
    ("claim", "expected"), [({"deicing": True}, "does not apply"), ({"deicing": False}, "not met")]
)
def test_deicing_is_claimed(claim: dict[str, bool], expected: str) -> None:
    """Heating of roofs, pavements, pipes and vessels has rules of its own."""
    assert outcome(post({"heater": "800 W", "hardwired": True, **claim}), RULE, PUMP) == expected


def test_listed_hvac_equipment() -> None:
    """The exception had a last day, so it never passes by itself: the authority says whether it still holds."""
    device = {"equipment": "mini-split", "hardwired": True, "hvac": True}
    of = post(device)
    assert outcome(of, RULE, PUMP) == "cannot tell"
    assert "until 1 September 2026" in line(of).answer.why
    assert outcome(post(device, level="class A"), RULE, PUMP) == "met"
    assert outcome(post({**device, "hvac": False}), RULE, PUMP) == "not met"


@pytest.mark.parametrize(("value", "expected"), [("yes", Outcome.DOES_NOT_APPLY), ("no", Outcome.NOT_MET)])
def test_a_pack_settles_the_exception(value: str, expected: Outcome) -> None:
    """Where the authority has said whether the exception holds, nobody asks."""
    of = post({"equipment": "mini-split", "hardwired": True, "hvac": True})
    limits = of.book.tables["limits"]
    key = ("exception for listed HVAC equipment",)
    cells = {**limits.cells, key: Cell("limits", key, ("word", value, "", "", "high", ""), "town")}
    look = Look(of.trace, {**of.book.tables, "limits": Table("limits", limits.columns, cells)})
    pump = of.trace.plan.boxes["post-box"].devices["pump"]
    assert line(of).rule.check(pump, look).outcome is expected


@pytest.mark.parametrize("premises", ["commercial", "agricultural"])
def test_other_premises_are_left_to_the_authority(premises: str) -> None:
    """The requirement is one for dwellings; elsewhere no protection is a question."""
    site = {"premises": premises}
    assert outcome(post(site=site), RULE, PUMP) == "cannot tell"
    assert outcome(post(site=site, level="class A"), RULE, PUMP) == "met"


@pytest.mark.parametrize("floor", ["at or below grade", "above grade"])
@pytest.mark.parametrize("use", ["accessory", "garage", "dwelling"])
def test_published_outdoor_outlet_of_an_accessory_building(use: str, floor: str) -> None:
    """Hard-wired outdoor outlets on an accessory building, up to 150 V to ground and 50 A: protection required.

    Manufacturer page, outdoor outlets in 2023:
    http://www.digitrip.com/us/en-us/markets/residential/nec-2023-updates/gfci-210-8f-outdoor-outlets.html
    """
    of = post(structures={"pump-post": {"use": use, "floor": floor}}, circuit={"breaker": {"rating": "50 A"}})
    assert outcome(of, RULE, PUMP) == "not met"
