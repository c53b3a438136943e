"""Questions that rules of several topics ask: conductors of a circuit, protection ahead, buildings, legs one by one."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan import BuriedLeg, Carried, RiseLeg
from precover.rulebook import Answer, Look, Missing, Outcome, met, not_met
from precover.rulebook.answer import does_not_apply
from precover.tracing import Lying
from precover_rules.along import along
from precover_rules.assembly_for_burial import laid_as_assembly
from precover_rules.circuit_conductors import grounding_path, hot_wire, is_multiwire, uses_neutral
from precover_rules.lengths import metres_of
from precover_rules.protection import class_a_of, feeds_one_hot_of_two
from precover_rules.raceways import trade_size
from precover_rules.separate_structures import supplies_to
from support.reviews import reviewed_example

WALL, YARD = "garage-wall", "yard"


def look(patch: dict[str, Any] | None = None, example: str = "pottery-studio") -> Look:
    """At an example, or a variation of it."""
    of = reviewed_example(example, patch or {})
    return Look(of.trace, of.book.tables)


def carried_by(carries: dict[str, Any], *, route: str = WALL, multiwire: bool | None = None) -> dict[str, Any]:
    """The studio's circuit with other wiring on one route, and with or without a word on its neutral."""
    return {"circuits": {"studio": {"multiwire": multiwire}}, "routes": {route: {"carries": {"studio": carries}}}}


def wires(hot: str) -> dict[str, Any]:
    """Wires in place of a cable."""
    return {"cable": None, "wires": {"hot": hot, "neutral": "12 AWG Cu THWN-2", "ground": "12 AWG Cu THWN-2"}}


@pytest.mark.parametrize(
    ("patch", "expected"),
    [
        (carried_by({}, multiwire=True), True),
        (carried_by({"cable": "NM-B 12/3"}, multiwire=False), False),
        (carried_by({}), False),
        (carried_by({"cable": "NM-B 12/3"}), False),
        (carried_by(wires("12 AWG Cu THWN-2")), False),
    ],
)
def test_whether_hots_share_a_neutral(patch: dict[str, Any], expected: bool) -> None:
    """As stated; where nothing is, not with two wires on some part of the way."""
    seen = look(patch)
    assert is_multiwire(seen.plan.circuits["studio"], seen) is expected


@pytest.mark.parametrize(
    "wall",
    [{"cable": "NM-B 12/3"}, wires("2 × 12 AWG Cu THWN-2"), {"cable": None, "wires": {"neutral": "12 AWG Cu THWN-2"}}],
)
def test_a_shared_neutral_is_asked_for_where_there_are_wires_for_it(wall: dict[str, Any]) -> None:
    """On every part of the way."""
    cables = {name: {"carries": {"studio": {"cable": "UF-B 12/3"}}} for name in (YARD, "ceiling")}
    patch = carried_by(wall)
    seen = look({**patch, "routes": {**patch["routes"], **cables}})
    with pytest.raises(Missing) as missing:
        is_multiwire(seen.plan.circuits["studio"], seen)
    assert missing.value.fact.place == "/circuits/studio/multiwire"


@pytest.mark.parametrize(
    ("voltage", "multiwire", "expected"),
    [("120 V", False, True), ("120/240 V", False, True), ("240 V", False, False), ("240 V", True, True)],
)
def test_what_uses_a_neutral(voltage: str, multiwire: bool, expected: bool) -> None:
    """120 V, both voltages, or two hots that share it."""
    seen = look({"circuits": {"studio": {"voltage": voltage, "multiwire": multiwire}}})
    assert uses_neutral(seen.plan.circuits["studio"], seen) is expected


@pytest.mark.parametrize(
    ("carries", "expected"),
    [({}, ("12", "Cu", 0)), (wires("2 × 10 AWG Al XHHW-2"), ("10", "Al", 2))],
)
def test_a_hot_conductor(carries: dict[str, Any], expected: tuple[str, str, int]) -> None:
    """Size, metal and number; a cable's hots are not counted."""
    seen = look(carried_by(carries, multiwire=False))
    size, metal, count = hot_wire(seen.plan.routes[WALL].carries["studio"], seen)
    assert (size.designation, metal, count) == expected


def without_ground(**raceways: str) -> dict[str, Any]:
    """Wires without an equipment ground, in raceway all along."""
    bare = {"cable": None, "wires": {"hot": "12 AWG Cu THWN-2", "neutral": "12 AWG Cu THWN-2"}}
    return {"routes": {name: {"raceway": kind, "carries": {"studio": bare}} for name, kind in raceways.items()}}


@pytest.mark.parametrize(
    ("wall", "yard", "expected"),
    [
        ("EMT 1/2 in", "RMC 3/4 in", ("yes", None)),
        ("EMT 1/2 in", "PVC-80 3/4 in", ("no", YARD)),
        ("FMC 1/2 in", "RMC 3/4 in", ("no", WALL)),
    ],
)
def test_a_raceway_as_the_ground(wall: str, yard: str, expected: tuple[str, str | None]) -> None:
    """Metal all the way; 14 ft of flexible metal raceway is too long."""
    seen = look(without_ground(**{WALL: wall, YARD: yard}))
    way = [seen.plan.routes[WALL], seen.plan.routes[YARD]]
    found, where = grounding_path(way, seen.plan.circuits["studio"], seen)
    assert (found, None if where is None else where.id) == expected


def test_the_first_doubtful_part_is_named() -> None:
    """Short flexible metal raceway counts only under conditions that no plan shows."""
    short = [{"in": "wall framing", "length": "2 ft", "location": "dry"}]
    patch = without_ground(**{WALL: "FMC 1/2 in", "ceiling": "FMC 1/2 in"})
    for name in (WALL, "ceiling"):
        patch["routes"][name]["legs"] = short
    seen = look(patch)
    way = [seen.plan.routes[WALL], seen.plan.routes["ceiling"]]
    found, where = grounding_path(way, seen.plan.circuits["studio"], seen)
    assert (found, where) == ("within limits", seen.plan.routes[WALL])


def answering(outcomes: list[Outcome]) -> Any:
    """A check that answers leg by leg."""
    answers = {
        Outcome.MET: met("leg", "so"),
        Outcome.NOT_MET: not_met("leg", "so", "otherwise", why="because"),
        Outcome.DOES_NOT_APPLY: does_not_apply("no"),
        Outcome.CANNOT_TELL: Answer(Outcome.CANNOT_TELL, "leg", "so", why="because"),
    }
    waiting = iter(outcomes)

    def check(_lying: Lying, _look: Look) -> Answer:
        return answers[next(waiting)]

    return check


M, N, D, C = Outcome.MET, Outcome.NOT_MET, Outcome.DOES_NOT_APPLY, Outcome.CANNOT_TELL


@pytest.mark.parametrize(
    ("outcomes", "expected", "why"),
    [
        ([M, D, M, M], M, ""),
        ([D, D, D, D], D, "no"),
        ([D, M, D, D], M, ""),
        ([M, N, C, M], N, "in leg 3; because"),
        ([C, M, M, C], C, "in legs 1 and 6; because"),
        ([N, N, C, N], N, "in legs 1, 3 and 6; because"),
    ],
)
def test_legs_one_by_one(outcomes: list[Outcome], expected: Outcome, why: str) -> None:
    """The worst counts, and every leg that is as bad is named; bends are no legs to lie in."""
    seen = look()
    carried: Carried = seen.plan.routes[YARD].carries["studio"]
    answer = along(carried, seen, answering(outcomes))
    assert (answer.outcome, answer.why) == (expected, why)


def test_legs_of_some_kinds_only() -> None:
    """No other leg is looked at."""
    seen = look()
    carried: Carried = seen.plan.routes[YARD].carries["studio"]
    answer = along(carried, seen, answering([N]), among=(BuriedLeg,))
    assert (answer.outcome, answer.why) == (N, "in leg 3; because")
    answer = along(carried, seen, answering([M, N]), among=(RiseLeg,))
    assert (answer.outcome, answer.why) == (N, "in leg 5; because")


@pytest.mark.parametrize(
    ("wall", "expected"),
    [
        ("none", ["/routes/garage-wall/carries/studio", "/routes/garage-wall/legs/0"]),
        ("EMT 3/4 in", ["/routes/garage-wall/carries/studio"]),
    ],
)
def test_single_wires_get_raceway_where_they_have_none(wall: str, expected: list[str]) -> None:
    """In the framing of a wall; not where raceway is there."""
    seen = look({"routes": {WALL: {"raceway": wall}}})
    route = seen.plan.routes[WALL]
    changes = laid_as_assembly(route, route.carries["studio"], "MHF 6-6-6-6 Al", seen)
    assert [thing.place for thing, _, _ in changes] == expected


def test_a_route_is_as_long_as_its_legs() -> None:
    """14 ft."""
    seen = look()
    assert metres_of(seen.plan.routes[WALL], True, seen) == pytest.approx(14 * 0.3048)


@pytest.mark.parametrize(
    ("device", "circuit", "expected"),
    [
        ({}, {"voltage": "240 V"}, True),
        ({}, {"voltage": "120 V"}, False),
        ({"ground-fault": False}, {"voltage": "240 V"}, False),
        ({"protects-downstream": False}, {"voltage": "240 V"}, False),
    ],
)
def test_a_receptacle_that_feeds_one_hot_of_two(
    device: dict[str, Any], circuit: dict[str, Any], expected: bool
) -> None:
    """It protects others by its load side, which has one hot."""
    boxes = {"terrace-box": {"devices": {"terrace-outlet": device}}}
    seen = look({"boxes": boxes, "circuits": {"studio": circuit}})
    assert feeds_one_hot_of_two(seen.plan.boxes["terrace-box"].devices["terrace-outlet"], seen) is expected  # type: ignore[arg-type]


def test_a_breaker_feeds_both_hots() -> None:
    """It is no receptacle."""
    seen = look({"circuits": {"studio": {"voltage": "240 V", "breaker": {"ground-fault": "class A"}}}})
    assert not feeds_one_hot_of_two(seen.plan.circuits["studio"].breaker, seen)


def test_an_unstated_protector_is_asked_for_only_where_none_is_stated() -> None:
    """The receptacle ahead protects the bench, whatever the breaker is; without it the breaker is asked for."""
    unsaid = {"circuits": {"studio": {"breaker": {"ground-fault": None}}}}
    seen = look(unsaid)
    bench = seen.plan.boxes["entry-box"].devices["bench-outlet"]
    found = class_a_of(bench, seen)
    assert found is seen.plan.boxes["terrace-box"].devices["terrace-outlet"]
    plain = {"boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}}}}
    seen = look({**unsaid, **plain})
    bench = seen.plan.boxes["entry-box"].devices["bench-outlet"]
    with pytest.raises(Missing) as missing:
        class_a_of(bench, seen)
    place = missing.value.fact.place
    assert place == "/circuits/studio/breaker/ground-fault"
    for supposed, expected in (("class A", seen.plan.circuits["studio"].breaker), ("none", None)):
        seen.supposed[place] = supposed
        assert class_a_of(bench, seen) is expected


@pytest.mark.parametrize(
    ("structure", "patch", "expected"),
    [
        ("studio", {}, ["studio"]),
        ("house", {}, []),
        ("studio", {"structures": {"studio": {"detached": False}}}, []),
    ],
)
def test_what_supplies_a_separate_structure(structure: str, patch: dict[str, Any], expected: list[str]) -> None:
    """Not the building with the service, and not a part of the dwelling."""
    seen = look(patch)
    assert [supply.circuit.id for supply in supplies_to(seen.plan.structures[structure], seen)] == expected


@pytest.mark.parametrize(("raceway", "expected"), [("PVC-80 3/4 in", "3/4"), ("none", ""), ("plumbing pipe 1 in", "")])
def test_the_trade_size_of_a_raceway(raceway: str, expected: str) -> None:
    """Only of what is made for wiring."""
    seen = look({"routes": {YARD: {"raceway": raceway}}})
    assert trade_size(seen.stated(seen.plan.routes[YARD].raceway)) == expected
