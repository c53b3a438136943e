"""Published tables and decisions on grounding, cell by cell and put to the whole tool."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any

import pytest

from precover.reviewing import Review
from precover.units import ConductorSize
from support.reviews import library, outcome, reviewed_example

PUBLISHED = Path(__file__).parents[1] / "published"
WORKSHOP, FEEDER, PANEL, STUDIO = (
    "/structures/workshop",
    "/circuits/workshop-feeder",
    "/panels/workshop-panel",
    "/structures/studio",
)
REQUIRED = "grounding/electrode/electrode-where-a-feeder-comes-in"
GEC, EGC = "/size-of-the-electrode-conductor", "/size-of-the-equipment-ground"


def rows(name: str) -> list[dict[str, str]]:
    """A table as typed from published pages."""
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def test_every_cell_of_the_equipment_grounding_table() -> None:
    """Table 250.122. Engineering firm page: https://brunsengineering.com/nec-table-250-122/ (all cells); trade newsletter:
    https://mikeholt.com/newsletters.php?action=reply&inResponseTo=9672&letterID=212 (12 copper cells)."""
    cells = library().book().tables["equipment-grounding-conductor"].cells
    published = {
        (f"{row['ocpd_not_exceeding_a']} A", metal): row[f"egc_{metal.lower()}_awg_kcmil"]
        for row in rows("egc_250_122.csv")
        for metal in ("Cu", "Al")
    }
    assert {key: cell.value.designation for key, cell in cells.items()} == published
    assert list(cells) == list(published)


def test_every_cell_of_the_electrode_conductor_table() -> None:
    """Table 250.66. Article: https://buckworks.net/article-grounding-electrode ; trade lesson:
    https://www.voltagelab.com/?p=10400 (all rows on both). Its row up to 1100 kcmil stands here at 1000 kcmil, the
    largest size made below."""
    cells = library().book().tables["grounding-electrode-conductor"].cells
    published = {
        (supply, row[f"largest_ungrounded_{supply.lower()}_max"].replace("1100", "1000"), metal): row[column]
        for row in rows("gec_250_66.csv")
        for supply in ("Cu", "Al")
        for metal, column in (("Cu", "gec_cu_awg"), ("Al", "gec_al_awg_kcmil"))
    }
    ours = {
        (supply, "" if up_to == "larger" else up_to.split()[0], metal): cell.value.designation
        for (supply, up_to, metal), cell in cells.items()
    }
    assert ours == published


def test_caps_of_the_electrode_conductor() -> None:
    """250.66(A) and (B), copper: https://expertce.com/learn-articles/nec-250-66-grounding-electrode-conductor ; aluminum from memory."""
    cells = library().book().tables["grounding-electrode-conductor-caps"].cells
    by_kind = {row["electrode"]: row for row in rows("gec_electrode_limits_250_66.csv")}
    for (kind, metal), cell in cells.items():
        row = by_kind["concrete_encased" if kind == "concrete-encased" else "rod_pipe_plate"]
        assert cell.value.designation == row[f"gec_need_not_exceed_{metal.lower()}_awg"]
        assert cell.from_memory is (metal == "Al")


def workshop(patch: dict[str, Any]) -> Review:
    """The joinery workshop: a feeder with four wires to a panel in a detached building with two rods."""
    return reviewed_example("joinery-workshop", patch)


@pytest.mark.parametrize(
    ("rating", "metal", "size"),
    [
        ("60 A", "Cu", "10"),
        ("400 A", "Al", "1"),
        ("20 A", "Cu", "12"),
        ("4000 A", "Cu", "500"),
    ],
)
def test_equipment_grounding_conductors(rating: str, metal: str, size: str) -> None:
    """60 A: https://www.voltexam.com/questions/electrician/grounding-and-bonding and, for a shed,
    https://life-improver.com/diy/electrical-what-wire-type-size-for-sub-panel-in-a-shed/
    400 A: https://www.ecmag.com/magazine/quizzes/measurements-and-colors
    20 A: https://www.estatepass.ai/contractor/questions/according-to-cec-grounding-requirements-what-size-equipment-grounding-conductor--d266bc/
    4000 A: http://www.neca-neis.org/code-question-of-the-day/code-question/cqd-12-15-2016
    The size that was published passes, the next smaller does not."""
    smaller = {"10": "12", "1": "2", "12": "14", "500": "400"}[size]

    def with_ground(designation: str) -> str:
        wires = {"hot": f"2 × 2000 kcmil {metal} XHHW-2", "ground": f"{ConductorSize(designation)} {metal} XHHW-2"}
        carried = {"carries": {"workshop-feeder": {"wires": wires}}}
        patch = {
            "circuits": {"workshop-feeder": {"breaker": {"rating": rating}}},
            "routes": {"garage-run": carried, "yard": carried},
        }
        return outcome(workshop(patch), EGC, FEEDER)

    assert (with_ground(size), with_ground(smaller)) == ("met", "not met")


def conductor(hot: str, electrodes: dict[str, Any], wire: str) -> str:
    """The answer for an electrode conductor at the workshop with that feeder and those electrodes."""
    patch = {
        "structures": {
            "workshop": {"grounding": {"electrodes": electrodes, "conductor": {"wire": f"{wire} AWG Cu bare"}}}
        },
        "routes": {"yard": {"carries": {"workshop-feeder": {"wires": {"hot": f"2 × {hot} XHHW-2"}}}}},
    }
    return outcome(workshop(patch), GEC, WORKSHOP)


STEEL = {"frame": {"kind": "building steel", "length": "12 ft", "bonded": True}}
FOOTING = {"footing": {"kind": "concrete-encased", "length": "20 ft", "bonded": True}}


@pytest.mark.parametrize(
    ("hot", "electrodes", "wire", "smaller"),
    [
        ("3/0 AWG Cu", STEEL, "4", "6"),
        ("350 kcmil Cu", STEEL, "2", "3"),
        ("250 kcmil Al", STEEL, "4", "6"),
        ("3/0 AWG Cu", FOOTING, "4", "6"),
        ("3/0 AWG Cu", {}, "6", "8"),
    ],
)
def test_electrode_conductors(hot: str, electrodes: dict[str, Any], wire: str, smaller: str) -> None:
    """3/0 copper: https://www.voltexam.com/questions/electrician/grounding-and-bonding
    350 kcmil copper: http://www.ecmweb.com/quizzes/code-quiz-106?page=4
    250 kcmil aluminum: https://iccresidentialelectricalinspectors.examzify.com/question/what-is-the-minimum-size-593b8ef4edabdd79
    (its answer, 1/0, is wrong: the table gives 4)
    to a footing behind 200 A: http://www.inspectionnews.net/home_inspection/archive/index.php/t-54960.html
    6 to rods and 4 to others behind 200 A: https://math.answers.com/electrical-engineering/If_service_is_fed_with_service_entrance_conductors_of_500_MCM_THHN_copper_and_fused_at_400_amps_What_would_be_the_minimum_size_of_a_copper_grounding_electrode_conductor
    (which gives 6 for all in another place, and is wrong there)"""
    assert (conductor(hot, electrodes, wire), conductor(hot, electrodes, smaller)) == ("met", "not met")


def test_the_largest_supply() -> None:
    """Four parallel sets of 500 kcmil aluminum, 2000 kcmil together:
    https://journeymanelectricianstudyguide.examzify.com/question/what-is-the-minimum-size-63a39134f2394a0a
    (its answer, 4, is wrong: the last row gives 3/0). Parallel sets go to the authority, so the cell is looked at."""
    table = library().book().tables["grounding-electrode-conductor"]
    assert table["Al", "larger", "Cu"].value == ConductorSize("3/0")


def test_through_bored_joists() -> None:
    """4 AWG through bored holes is allowed (2006 panel questions): https://www.scribd.com/document/160135201/2005-Nec-Code-Questions"""
    facts = {"wire": "4 AWG Cu bare", "physical-damage": False, "protection": "none"}
    of = workshop({"structures": {"workshop": {"grounding": {"conductor": facts}}}})
    assert outcome(of, "/electrode-conductor-protected", WORKSHOP) == "met"


def test_a_feeder_takes_an_electrode_and_one_circuit_does_not() -> None:
    """Trade forum, electrodes at separate structures:
    https://forums.mikeholt.com/threads/when-are-grounding-electrodes-required-in-separate-structures.104565
    trade magazine: http://www.ecmag.com/section/codes-standards/power-down-earth
    wood shed with a panel, which may not share the rod of the house:
    https://forums.mikeholt.com/threads/bonding-a-residential-shed-with-sub-panel.2551247 (question published, answer ours)"""
    none = {"north-rod": None, "south-rod": None}
    house_rod = {"house": {"grounding": {"electrodes": {"rod": {"kind": "rod", "bonded": True}}}}}
    of = workshop({"structures": {"workshop": {"grounding": {"electrodes": none}}, **house_rod}})
    assert outcome(of, REQUIRED, WORKSHOP) == "not met"
    shared = {"studio": {"multiwire": True, "voltage": "120/240 V", "breaker": {"poles": 2, "common-trip": True}}}
    for circuits in ({}, shared):
        assert outcome(reviewed_example("pottery-studio", {"circuits": circuits}), REQUIRED, STUDIO) == "does not apply"


def test_every_electrode_present_is_used() -> None:
    """Trade magazine: http://www.ecmag.com/section/codes-standards/power-down-earth"""
    pipe = {"pipe": {"kind": "metal water pipe", "length": "30 ft", "bonded": False}}
    of = workshop({"structures": {"workshop": {"grounding": {"electrodes": pipe}}}})
    place = f"{WORKSHOP}/grounding/electrodes/pipe"
    assert outcome(of, "/every-electrode-bonded", place) == "not met"


@pytest.mark.parametrize(("lands_on", "expected"), [("ground bar", "met"), ("neutral bar", "not met")])
def test_where_the_wire_of_the_rod_lands_with_four_wires(lands_on: str, expected: str) -> None:
    """Trade forum, utility building ground rod (2005):
    https://www.electrical-contractor.net/forums/ubbthreads.php/ubb/printthread/Board/2/main/9785/type/thread.html
    a rod is needed, its wire lands on the equipment grounding bar, the neutral is isolated."""
    of = workshop({"structures": {"workshop": {"grounding": {"conductor": {"lands-on": lands_on}}}}})
    assert outcome(of, "/electrode-conductor-on-the-ground-bar", WORKSHOP) == expected
    assert (outcome(of, REQUIRED, WORKSHOP), outcome(of, "/neutral-apart-from-ground", PANEL)) == ("met", "met")


THREE_WIRE = {"yard": {"carries": {"workshop-feeder": {"wires": {"ground": None}}}}}


@pytest.mark.parametrize(("neutral", "expected"), [("isolated", "not met"), ("bonded", "met")])
def test_an_existing_three_wire_feeder(neutral: str, expected: str) -> None:
    """Home repair forum, grounding an outbuilding:
    https://homerepairforum.com/forum/indoor-home-repair/electrical/2032-grounding-an-outbuilding?p=20149
    the neutral is bonded to enclosure and grounding bar; another way is to add a fourth wire and isolate it (ours)."""
    old = {
        "structures": {"workshop": {"metal-path": False}},
        "circuits": {"workshop-feeder": {"existing": True}},
        "panels": {"workshop-panel": {"neutral": neutral}},
    }
    assert outcome(workshop({**old, "routes": THREE_WIRE}), "/neutral-apart-from-ground", PANEL) == expected
    fourth = {"isolated": "met", "bonded": "not met"}[neutral]
    assert outcome(workshop(old), "/neutral-apart-from-ground", PANEL) == fourth


def test_a_new_three_wire_feeder_was_right_in_old_editions_only() -> None:
    """Trade forum, grounding of detached garage (2005):
    http://www.electrical-contractor.net/forums/ubbthreads.php?ubb=showflat&Number=94626
    three wires with the neutral bonded in the editions of that time, a rod in both; since 2008 for existing feeders only."""
    new = workshop({"panels": {"workshop-panel": {"neutral": "bonded"}}, "routes": THREE_WIRE})
    assert outcome(new, "/equipment-ground-all-the-way", FEEDER) == "not met"
    assert outcome(new, "/neutral-apart-from-ground", PANEL) == "not met"
    old = workshop(
        {
            "circuits": {"workshop-feeder": {"existing": True}},
            "panels": {"workshop-panel": {"neutral": "bonded"}},
            "routes": THREE_WIRE,
            "structures": {"workshop": {"grounding": {"electrodes": {"north-rod": None, "south-rod": None}}}},
        }
    )
    assert outcome(old, REQUIRED, WORKSHOP) == "not met"
