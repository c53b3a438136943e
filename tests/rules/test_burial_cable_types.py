"""Which cables and wires may lie in the earth."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan.conductors import CABLE_TYPES
from support.reviews import library, reviewed
from support.trenches import LEG, after_each_proposal, answer_at, garden, lawn, line_at, merged_plan, trench

DIRECT = "cable-in-the-earth"
SERVICE = "service-entrance-cable-underground"
CORD = "cord-in-the-ground"
SINGLES = "single-conductors-in-the-earth"
UNDER = "wiring-under-a-building"
PUMP = "/routes/to-pump/carries/pump"
PVC = {"raceway": "PVC-40 1 in"}


def _cable(text: str, **leg: Any) -> dict[str, Any]:
    return trench(lawn("24 in", **leg), carries={"pump": {"cable": text}})


def _marked(cable: str, marked: bool | None, **leg: Any) -> dict[str, Any]:
    data = _cable(cable, **leg)
    if marked is not None:
        data["routes"]["to-pump"]["carries"]["pump"]["marked-for-burial"] = marked
    return data


def _wires(insulation: str, **more: Any) -> dict[str, Any]:
    wire = f"12 AWG Cu {insulation}"
    wires = {"hot": wire, "neutral": wire, "ground": wire, **more}
    return {"pump": {"cable": None, "wires": {key: value for key, value in wires.items() if value}}}


def test_every_cable_of_the_plan_language_is_judged() -> None:
    """By the table, or by the rules of service-entrance cable and of cord."""
    cells = library().book().tables["burial-methods"].cells
    others = {"SE", "SER", "SEU", "cord"}
    assert {kind for what, kind in cells if what == "cable"} | others == set(CABLE_TYPES)


@pytest.mark.parametrize("cable", ["UF-B 12/2", "USE-2 8-8-8-8 Al", "USE 8-8-8-8 Al", "MHF 2-2-4-6 Al"])
def test_cables_made_for_the_earth(cable: str) -> None:
    """The underground types, and the direct-burial assembly."""
    assert answer_at(_cable(cable), DIRECT, PUMP) == "met"


@pytest.mark.parametrize("cable", ["NM-B 12/2", "AC 12/2"])
def test_cables_for_dry_places(cable: str) -> None:
    """A mark for burial does not make them what they are not.

    EC&M Code Q&A on NM cable: http://ecmweb.com/qampa/code-qa-nm-cable-rules
    """
    for marked in (True, False):
        assert answer_at(_marked(cable, marked), DIRECT, PUMP) == "not met"


@pytest.mark.parametrize("cable", ["MC 12/2", "MI 12/2", "TC-ER 12/2"])
@pytest.mark.parametrize(("marked", "answer"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_cables_that_have_to_be_marked(cable: str, marked: bool | None, answer: str) -> None:
    """Not stated is not a yes."""
    assert answer_at(_marked(cable, marked), DIRECT, PUMP) == answer


def test_low_voltage_cable_has_to_be_identified_for_it() -> None:
    """The 30 V column is for cable that is.

    License-renewal course, 2017 change: https://www.electricallicenserenewal.com/Electrical-Continuing-Education-Courses/NEC-Content.php?sectionID=272
    """
    for marked, answer in ((True, "met"), (False, "not met")):
        data = garden(lawn("6 in"))
        data["routes"]["to-pump"]["carries"]["garden"]["marked-for-burial"] = marked
        assert answer_at(data, DIRECT, "/routes/to-pump/carries/garden") == answer


@pytest.mark.parametrize("cable", ["NM-B 12/2", "UF-B 12/2", "MC 12/2"])
def test_cable_in_a_raceway_is_not_in_the_earth(cable: str) -> None:
    """Whether it may be in the wet inside of the raceway is another topic."""
    assert answer_at(_cable(cable, **PVC), DIRECT, PUMP) == "does not apply"


@pytest.mark.parametrize("cable", ["SE 8-8-8-8 Al", "SER 8-8-8-8 Al", "SEU 8-8-8 Al"])
@pytest.mark.parametrize("leg", [{}, PVC])
def test_service_entrance_cable_does_not_go_below_ground(cable: str, leg: dict[str, Any]) -> None:
    """In a raceway or not, and it is found once."""
    data = _cable(cable, **leg)
    assert answer_at(data, SERVICE, PUMP) == "not met"
    assert answer_at(data, DIRECT, PUMP) == "does not apply"
    assert answer_at(_cable("USE-2 8-8-8-8 Al", **leg), SERVICE, PUMP) == "met"


@pytest.mark.parametrize("leg", [{}, PVC])
def test_cord_does_not_go_into_the_ground(leg: dict[str, Any]) -> None:
    """In a raceway or not, and it is found once."""
    data = _cable("cord 12/3", **leg)
    assert answer_at(data, CORD, PUMP) == "not met"
    assert answer_at(data, DIRECT, PUMP) == "does not apply"
    assert answer_at(_cable("UF-B 12/2", **leg), CORD, PUMP) == "met"


@pytest.mark.parametrize("insulation", ["USE", "USE-2", "RHH/RHW-2/USE-2", "UF"])
def test_wires_identified_for_burial(insulation: str) -> None:
    """Each letter that says so."""
    assert answer_at(trench(lawn("24 in"), carries=_wires(insulation)), SINGLES, PUMP) == "met"


@pytest.mark.parametrize("insulation", ["THWN-2", "THHN", "THHN/THWN-2", "XHHW-2", "RHW-2", "TW"])
def test_wires_for_wet_places_are_not_for_the_earth(insulation: str) -> None:
    """In a raceway they would do; one wrong wire among right ones is enough."""
    assert answer_at(trench(lawn("24 in"), carries=_wires(insulation)), SINGLES, PUMP) == "not met"
    assert answer_at(trench(lawn("24 in", **PVC), carries=_wires(insulation)), SINGLES, PUMP) == "does not apply"
    mixed = _wires("USE-2", neutral=f"12 AWG Cu {insulation}")
    assert answer_at(trench(lawn("24 in"), carries=mixed), SINGLES, PUMP) == "not met"


def test_a_bare_grounding_conductor() -> None:
    """Of copper it is for the authority, of aluminum it is not accepted, and a bare hot never is."""
    for ground, answer in (("12 AWG Cu bare", "cannot tell"), ("10 AWG Al bare", "not met")):
        assert answer_at(trench(lawn("24 in"), carries=_wires("USE-2", ground=ground)), SINGLES, PUMP) == answer
    assert answer_at(trench(lawn("24 in"), carries=_wires("USE-2", hot="12 AWG Cu bare")), SINGLES, PUMP) == "not met"


def test_the_hot_is_asked_for_and_a_neutral_that_is_not_listed_is_not() -> None:
    """Where the others will do, its type is what matters."""
    line = line_at(reviewed(trench(lawn("24 in"), carries=_wires("USE-2", hot=None))), SINGLES, PUMP)
    assert line.answer.asks is not None
    assert line.answer.asks.place.endswith("/wires/hot")
    assert answer_at(trench(lawn("24 in"), carries=_wires("USE-2", neutral=None)), SINGLES, PUMP) == "met"


@pytest.mark.parametrize(
    ("cable", "more", "answer"),
    [
        ("UF-B 12/2", {}, "not met"),
        ("UF-B 12/2", PVC, "met"),
        ("NM-B 12/2", {}, "not met"),
        ("USE-2 8-8-8-8 Al", {}, "not met"),
        ("MC 12/2", {"marked-for-burial": True}, "met"),
        ("MC 12/2", {"marked-for-burial": False}, "not met"),
        ("MI 12/2", {"marked-for-burial": True}, "met"),
        ("MI 12/2", {}, "cannot tell"),
        ("UF-B 12/2", {"raceway": "plumbing pipe 3/4 in"}, "does not apply"),
    ],
)
def test_below_a_building(cable: str, more: dict[str, Any], answer: str) -> None:
    """A raceway, or armored cable marked for burial."""
    leg = {key: value for key, value in more.items() if key == "raceway"}
    marked = {key: value for key, value in more.items() if key != "raceway"}
    made = trench({"buried": "building", "length": "10 ft", **leg}, carries={"pump": {"cable": cable, **marked}})
    assert answer_at(made, UNDER) == answer


def test_wires_below_a_building_go_in_a_raceway() -> None:
    """Whatever their insulation."""
    for leg, answer in (({}, "not met"), (PVC, "met")):
        made = trench({"buried": "building", "length": "10 ft", **leg}, carries=_wires("USE-2"))
        assert answer_at(made, UNDER) == answer


@pytest.mark.parametrize(
    ("rule", "data"),
    [
        (DIRECT, _cable("NM-B 12/2")),
        (DIRECT, _marked("MC 12/2", False)),
        (SERVICE, _cable("SER 8-8-8-8 Al")),
        (CORD, _cable("cord 12/3")),
        (SINGLES, trench(lawn("24 in"), carries=_wires("THWN-2"))),
        (SINGLES, trench(lawn("24 in"), carries=_wires("USE-2", ground="12 AWG Cu bare"))),
        (UNDER, trench({"buried": "building", "length": "10 ft"})),
    ],
)
def test_every_way_out_settles_it(rule: str, data: dict[str, Any]) -> None:
    """Other cable, other wires, or a raceway."""
    ways = after_each_proposal(data, rule, LEG if rule == UNDER else PUMP)
    assert ways
    assert set(ways.values()) <= {"met", "does not apply"}


def test_a_cord_gives_way_to_cable_with_as_many_live_conductors() -> None:
    """A cord counts its grounding conductor among its conductors."""
    assert list(after_each_proposal(_cable("cord 12/3"), CORD, PUMP)) == ["lay UF-B 12/2 instead"]


def test_the_finding_is_at_the_cable() -> None:
    """What is to be changed is marked."""
    answer = line_at(reviewed(_cable("NM-B 12/2")), DIRECT, PUMP).answer
    assert answer.at == "/routes/to-pump/carries/pump/cable"


def test_one_cable_is_written_up_once() -> None:
    """However many legs it lies in; they are named."""
    data = _cable("NM-B 12/2")
    data["routes"]["to-pump"]["legs"].insert(2, lawn("24 in"))
    found = [finding for finding in reviewed(data).findings if finding.line.rule.id.endswith(DIRECT)]
    assert [(finding.line.subject, finding.line.answer.why) for finding in found] == [(PUMP, "in legs 2 and 3")]


def test_the_raceway_below_a_building_holds_the_cable() -> None:
    """Three 2 AWG and a 4 AWG are too much for trade size 1, a small cable is not."""
    for cable, size in (("USE-2 2-2-2-4 Al", "3"), ("UF-B 12/2", "3/4")):
        data = trench({"buried": "building", "length": "10 ft"}, carries={"pump": {"cable": cable}})
        (way,) = line_at(reviewed(data), UNDER).answer.proposals
        assert way.patch[0]["value"] == f"PVC-80 {size} in"


@pytest.mark.parametrize(
    ("cable", "rating", "way"),
    [
        ("SEU 8-8-8 Al", "20 A", "lay MHF 8-8-8-10 Al instead"),  # of its three wires one is the neutral
        ("SEU 8-8-8 Al", None, None),
        ("SEU 8-8-8 Al", "7000 A", None),
        ("SER 8-8-8-8 Al", None, "lay MHF 8-8-8-8 Al instead"),
        ("SER 8-8-8-8 Cu", "20 A", None),  # the assembly is made of aluminum
        ("SEU 8/3 Al", "20 A", "lay UF-B 8/3 instead"),
    ],
)
def test_what_is_laid_in_place_of_service_cable(cable: str, rating: str | None, way: str | None) -> None:
    """As many wires, and a ground; nothing where the size of that is not known."""
    data = merged_plan(_cable(cable), {"circuits": {"pump": {"breaker": {"rating": rating}}}})
    assert answer_at(data, SERVICE, PUMP) == "not met"
    assert list(after_each_proposal(data, SERVICE, PUMP)) == ([way] if way else [])


@pytest.mark.parametrize("cord", ["cord 12/2", "cord 14/2"])
def test_a_cord_without_two_live_conductors_is_exchanged_for_nothing(cord: str) -> None:
    """A count of two is one wire and the ground."""
    data = _cable(cord)
    assert answer_at(data, CORD, PUMP) == "not met"
    assert after_each_proposal(data, CORD, PUMP) == {}


@pytest.mark.parametrize(("passage", "paths"), [([], ["cable"]), ([{"through": "wall"}], ["cable", "raceway"])])
def test_the_assembly_is_in_a_raceway_where_it_leaves_the_earth(
    passage: list[dict[str, str]], paths: list[str]
) -> None:
    """It has no sheath."""
    data = _cable("SER 8-8-8-8 Al")
    data["routes"]["to-pump"]["legs"] += passage
    (way,) = line_at(reviewed(data), SERVICE, PUMP).answer.proposals
    assert [edit["path"].rpartition("/")[2] for edit in way.patch] == paths


@pytest.mark.parametrize(
    ("wires", "outcome", "has", "changed"),
    [
        (_wires("USE-2", ground="12 AWG Al bare"), "not met", "ground bare", ["ground"]),
        (_wires("USE-2", ground="12 AWG Cu bare"), "cannot tell", "ground bare", ["ground"]),
        (_wires("USE-2", neutral="12 AWG Cu bare"), "not met", "neutral bare", ["neutral"]),
        (
            _wires("USE-2", hot="12 AWG Al bare", neutral="12 AWG Al bare"),
            "not met",
            "hot bare, neutral bare",
            ["hot", "neutral"],
        ),
        (_wires("THWN-2", ground="12 AWG Cu bare"), "not met", "hot THWN-2, neutral THWN-2", ["hot", "neutral"]),
    ],
)
def test_which_wires_are_exchanged(wires: dict[str, Any], outcome: str, has: str, changed: list[str]) -> None:
    """Bare aluminum is eaten by the soil, bare copper is for the authority; only what is wrong is changed."""
    line = line_at(reviewed(trench(lawn("24 in"), carries=wires)), SINGLES, PUMP)
    assert (line.answer.outcome.value, line.answer.has) == (outcome, has)
    (way,) = line.answer.proposals
    assert [edit["path"].rpartition("/")[2] for edit in way.patch] == changed
    assert {edit["value"].rpartition(" ")[2] for edit in way.patch} == {"USE-2"}


@pytest.mark.parametrize(
    ("cable", "marked", "raceway", "answer"),
    [
        ("MC 12/2", True, "none", "met"),
        ("MC 12/2", False, "none", "not met"),
        ("UF-B 12/2", True, "none", "not met"),
        ("UF-B 12/2", None, "PVC-40 1 in", "met"),
        ("UF-B 12/2", None, "plumbing pipe 1 in", "does not apply"),
    ],
)
def test_what_may_lie_below_a_building(cable: str, marked: bool | None, raceway: str, answer: str) -> None:
    """Cable made for it and marked so, or a raceway for wiring; UF is for open ground."""
    data = _marked(cable, marked, buried="building", raceway=raceway)
    assert answer_at(data, UNDER) == answer
    assert answer_at(_marked(cable, marked, raceway=raceway), UNDER) == "does not apply"


@pytest.mark.parametrize(("passage", "offered"), [([], True), ([{"through": "wall"}], False)])
def test_an_assembly_larger_than_any_raceway_is_known_for(passage: list[dict[str, str]], offered: bool) -> None:
    """Dimensions end at 500 kcmil: it is offered only where it needs no raceway."""
    data = _cable("SER 600-600-600-4 Al")
    data["routes"]["to-pump"]["legs"] += passage
    line = line_at(reviewed(data), SERVICE, PUMP)
    assert (line.answer.outcome.value, bool(line.answer.proposals)) == ("not met", offered)
