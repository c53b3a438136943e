"""Published worked examples on raceways and boxes, decided through whole plans: source and address stand in each record."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from electrical.computing import records
from electrical.tables import keys
from precover.units.trade_size import METRIC_DESIGNATORS
from support.reviews import example
from support.trenches import answer_at

ROOM, FILL = "fill/room-in-a-box", "fill-of-a-raceway"
BOX, RUN = "/boxes/full-box", "/routes/run"
LETTERS = {"THHN/THWN-2": "THHN", "TW/THW-2": "THW"}


CIRCUIT = {
    "kind": "branch circuit",
    "from": "workshop-panel",
    "voltage": "120 V",
    "multiwire": False,
    "load": "1 A",
    "leg": "L1",
    "breaker": {"rating": "20 A", "poles": 1, "ground-fault": "class A", "readily-accessible": True},
}
"""Described as far as other rules ask, so that nothing has to be tried out for it."""
INSIDE = {"on": "inside wall", "length": "10 ft", "location": "dry", "physical-damage": False}


def _of(computation: str, *wanted: str) -> list[Any]:
    """Records of a computation that publish one of the wanted results."""
    found = [
        record
        for record in records()
        if record["computation"] == computation and "ours" not in record and set(wanted) & set(record["published"])
    ]
    return [pytest.param(record, id=record["id"]) for record in found]


# Boxes


def _full_box(given: dict[str, Any], box: dict[str, Any]) -> dict[str, Any]:
    """A box with the conductors, grounds and straps of a record; where clamps hold a cable, the first size comes in one."""
    grounds = Counter(given["grounds"])
    carried: list[tuple[str, dict[str, Any]]] = []
    for size, count in given["conductors"].items():
        left = count
        if given["clamps"] and not carried:
            left = max(0, count - (2 if grounds.total() > 1 else 3))
            carried.append((size, {"cable": _cable(size, count - left, grounds)}))
        if left:
            wires = {"hot": f"{left} × {size} AWG Cu THHN"}
            if grounds.total():
                ground, several = grounds.popitem()
                wires["ground"] = f"{several} × {ground} AWG Cu bare"
            carried.append((size, {"wires": wires}))
    assert not grounds.total()
    on = {size: f"circuit-{n}" for n, (size, _) in reversed([*enumerate(carried)])}
    devices = {
        f"outlet-{n}": {"receptacle": "20 A", "gangs": gangs, "circuit": on[size]}
        for n, (size, gangs) in enumerate(given["yokes"])
    }
    enclosure = {"kind": "box", "clamps": given["clamps"], "studs": given["fittings"], **box}
    routes = {
        f"run-{n}": {
            "from": "workshop-panel",
            "to": "full-box",
            "raceway": "none" if "cable" in what else "EMT 4 in",
            "carries": {f"circuit-{n}": what},
            "legs": [INSIDE],
        }
        for n, (_, what) in enumerate(carried)
    }
    return _plan(
        len(carried),
        {"full-box": {"at": "workshop", "area": "indoors", "location": "dry", "box": enclosure, "devices": devices}},
        routes,
    )


def _cable(size: str, insulated: int, grounds: Counter[str]) -> str:
    if not grounds.total():
        return f"NM-B {size}/{insulated} no ground"
    ground = next(iter(+grounds))
    grounds[ground] -= 1
    return f"NM-B {'-'.join([size] * insulated + [ground])}"


def _plan(circuits: int, boxes: dict[str, Any], routes: dict[str, Any]) -> dict[str, Any]:
    """The joinery's panels with these circuits, boxes and routes instead of its own behind the workshop's panel."""
    data = example("joinery-workshop")
    for name in ("bench-outlets", "lights", "planer"):
        del data["circuits"][name]
    data["circuits"] |= {f"circuit-{n}": CIRCUIT for n in range(circuits)}
    data["boxes"] = {"pull-box": data["boxes"]["pull-box"], **boxes}
    data["routes"] = {**{name: data["routes"][name] for name in ("garage-run", "yard")}, **routes}
    return data


def _with_volume(given: dict[str, Any], volume: Fraction) -> str:
    return answer_at(_full_box(given, {"volume": f"{float(volume)} in³"}), ROOM, BOX)


@pytest.mark.parametrize("record", _of("box volume", "in3"))
def test_volume_needed(record: dict[str, Any]) -> None:
    """Exactly the published volume is enough, a little less is not."""
    needed = Fraction(str(record["published"]["in3"]))
    assert _with_volume(record["given"], needed + Fraction(1, 100)) == "met"
    assert _with_volume(record["given"], needed - Fraction(1, 100)) == "not met"


@pytest.mark.parametrize("record", _of("box volume", "fits"))
def test_whether_it_fits(record: dict[str, Any]) -> None:
    """In the box of the example."""
    fits = _with_volume(record["given"], Fraction(str(record["given"]["volume"]))) == "met"
    assert fits == record["published"]["fits"]


@pytest.mark.parametrize("record", _of("box volume", "box"))
def test_smallest_standard_box(record: dict[str, Any]) -> None:
    """The published box does, the next smaller of its shape does not."""
    shape = {"round or octagonal": "octagonal"}.get(record["given"]["kind"], record["given"]["kind"])
    sizes = [size for _, size in keys("box-volume", record["given"]["kind"])]
    at = sizes.index(record["published"]["box"])
    assert answer_at(_full_box(record["given"], {"size": f"{shape} {sizes[at]}"}), ROOM, BOX) == "met"
    if at:
        assert answer_at(_full_box(record["given"], {"size": f"{shape} {sizes[at - 1]}"}), ROOM, BOX) == "not met"


@pytest.mark.parametrize("record", _of("conductors in a box", "count"))
def test_conductors_in_a_box(record: dict[str, Any]) -> None:
    """As many as published, and no more."""
    given, count = record["given"], record["published"]["count"]
    box = {"volume": f"{given['volume']} in³"} if "volume" in given else {"size": " ".join(given["box"])}
    for more, answer in ((0, "met"), (1, "not met")):
        conductors = {**given.get("already", {}), given["size"]: count + more}
        whole = {"conductors": conductors, "grounds": [], "yokes": [], "clamps": False, "fittings": 0}
        assert answer_at(_full_box(whole, box), ROOM, BOX) == answer


# Raceways


def _run(wires: dict[str, int], raceway: str, *, nipple: bool) -> dict[str, Any]:
    carries = {}
    for n, (wire, count) in enumerate(wires.items()):
        family, size = wire.rsplit(" ", 1)
        carries[f"circuit-{n}"] = {"wires": {"hot": f"{count} × {size} AWG Cu {LETTERS[family]}"}}
    leg = {**INSIDE, "length": "24 in" if nipple else "10 ft"}
    route = {"from": "workshop-panel", "to": "far-box", "raceway": raceway, "carries": carries, "legs": [leg]}
    return _plan(len(carries), {"far-box": {"at": "workshop", "area": "indoors", "location": "dry"}}, {"run": route})


@pytest.mark.parametrize("record", _of("raceway for wires", "trade_size"))
def test_smallest_raceway(record: dict[str, Any]) -> None:
    """The published trade size does, the next smaller does not."""
    given = record["given"]
    sizes = [*METRIC_DESIGNATORS]
    at = sizes.index(record["published"]["trade_size"])
    for size, answer in ((sizes[at], "met"), (sizes[at - 1], "not met")):
        if size != "3/8":
            data = _run(given["wires"], f"{given['raceway']} {size} in", nipple=given.get("nipple", False))
            assert answer_at(data, FILL, RUN) == answer


@pytest.mark.parametrize("record", _of("equal conductors", "EMT", "IMC", "RMC", "PVC-40", "PVC-80"))
def test_most_equal_conductors(record: dict[str, Any]) -> None:
    """As many as published, and no more."""
    given = record["given"]
    if "wire" not in given:
        pytest.skip("fixture wire: the plan language has no such wire")
    for raceway in given["raceways"]:
        count = record["published"][raceway]
        for more, answer in ((0, "met"), (1, "not met")):
            data = _run({given["wire"]: count + more}, f"{raceway} {given['size']} in", nipple=False)
            assert answer_at(data, FILL, RUN) == answer


@pytest.mark.parametrize("record", _of("bends", "allowed"))
def test_bends(record: dict[str, Any]) -> None:
    """Their sum, between two pull points."""
    legs: list[dict[str, Any]] = [{"on": "inside wall", "length": "10 ft"}]
    legs += [{"bend": f"{bend}°"} for bend in record["given"]["bends"]]
    data = example("joinery-workshop", {"routes": {"garage-run": {"legs": legs}}})
    answer = answer_at(data, "bends-between-pull-points-of-a-raceway", "/routes/garage-run")
    assert (answer == "met") == record["published"]["allowed"]


@pytest.mark.parametrize("record", _of("support", "ft", "box_in"))
def test_supports(record: dict[str, Any]) -> None:
    """The published distances, and a little more."""
    kind, size, case = record["given"]["key"]
    if kind == "NM-B" or case != "general":
        pytest.skip("cable, or a case that a plan does not show")
    raceway = f"{kind} {'1' if size == 'any' else size} in"
    for key, name, unit, rule in (
        ("ft", "support-spacing", "ft", "spacing-of-supports"),
        ("box_in", "support-from-end", "in", "support-near-the-end"),
    ):
        if key in record["published"]:
            most = record["published"][key]
            for more, answer in ((0, "met"), (0.1, "not met")):
                leg = {"on": "inside wall", "length": "10 ft", name: f"{most + more} {unit}"}
                data = example("joinery-workshop", {"routes": {"planer-run": {"raceway": raceway, "legs": [leg]}}})
                assert answer_at(data, rule, "/routes/planer-run/legs/0") == answer


def _wall(feet: object, cold: str, hot: str) -> str:
    leg = {"on": "outside wall", "length": f"{feet} ft", "location": "wet", "expansion-fitting": False}
    patch = {"site": {"design-low": cold, "design-high": hot}, "routes": {"yard": {"legs": [leg]}}}
    return answer_at(example("pottery-studio", patch), "expansion-of-a-straight-run", "/routes/yard")


@pytest.mark.parametrize("record", _of("expansion", "in"))
def test_expansion(record: dict[str, Any]) -> None:
    """A fitting where the published change of length is 1/4 in or more."""
    given = record["given"]
    cold, hot = given.get("cold", "0 °F"), given.get("hot", f"{given.get('change_f')} °F")
    assert (_wall(given["ft"], cold, hot) == "not met") == (record["published"]["in"] >= 0.25)


@pytest.mark.parametrize("record", _of("change that needs a fitting", "change_f"))
def test_change_that_needs_a_fitting(record: dict[str, Any]) -> None:
    """About the published change: a degree more does, a degree less does not."""
    feet, change = record["given"]["ft"], record["published"]["change_f"]
    assert _wall(feet, "0 °F", f"{change + 1} °F") == "not met"
    assert _wall(feet, "0 °F", f"{change - 1} °F") == "met"
