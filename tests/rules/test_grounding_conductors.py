"""Grounding electrode conductors, equipment grounding conductors, and neutral apart from ground."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from precover.rulebook import Severity
from support.reviews import example, lines, outcome, reviewed, reviewed_example

WORKSHOP, FEEDER, PANEL = "/structures/workshop", "/circuits/workshop-feeder", "/panels/workshop-panel"
SIZE, EARTH, GUARD = "/size-of-the-electrode-conductor", "/no-aluminum-in-the-earth", "/electrode-conductor-protected"
BAR, ONE_LENGTH = "/electrode-conductor-on-the-ground-bar", "/electrode-conductor-in-one-length"
PATH, GROUND = "/equipment-ground-all-the-way", "/size-of-the-equipment-ground"
APART, GROUND_BAR, NEUTRAL = "/neutral-apart-from-ground", "/ground-bar-in-the-panel", "/neutral-for-120-volt-loads"
NO_GROUND = {"wires": {"ground": None}}
FOOTING = {"footing": {"kind": "concrete-encased", "bonded": True, "length": "20 ft"}}
STEEL = {"frame": {"kind": "building steel", "bonded": True, "length": "12 ft"}}


def electrode_conductor(electrodes: dict[str, Any] | None = None, hot: str = "", **facts: Any) -> Review:
    """The joinery workshop with other facts of its electrode conductor, other electrodes, other hots."""
    grounding = {"conductor": facts, "electrodes": electrodes or {}}
    wires = {"workshop-feeder": {"wires": {"hot": hot}}} if hot else {}
    return reviewed_example(
        "joinery-workshop",
        {"structures": {"workshop": {"grounding": grounding}}, "routes": {"yard": {"carries": wires}}},
    )


def feeder(yard: dict[str, Any], garage: dict[str, Any] | None = None, raceway: str = "", **circuit: Any) -> Review:
    """The workshop's feeder with other wiring in the yard and in the garage."""
    return reviewed_example(
        "joinery-workshop",
        {
            "circuits": {"workshop-feeder": circuit},
            "routes": {
                "yard": {"carries": {"workshop-feeder": yard}, **({"raceway": raceway} if raceway else {})},
                "garage-run": {"carries": {"workshop-feeder": garage or {}}},
            },
        },
    )


@pytest.mark.parametrize(
    ("wire", "expected"),
    [
        ("10 AWG Cu bare", "not met"),
        ("8 AWG Cu bare", "met"),
        ("6 AWG Cu bare", "met"),
        ("8 AWG Al bare", "not met"),
        ("6 AWG Al bare", "met"),
        (None, "cannot tell"),
    ],
)
def test_by_the_supply_conductors(wire: str | None, expected: str) -> None:
    """8 AWG copper, or 6 AWG aluminum, for a feeder of 6 AWG copper."""
    of = electrode_conductor(wire=wire)
    assert outcome(of, SIZE, WORKSHOP) == expected
    if expected != "cannot tell":
        assert ("supplied by 6 AWG Cu", "/routes/yard") in lines(of, SIZE, WORKSHOP)[0].steps


@pytest.mark.parametrize(
    ("electrodes", "wire", "expected"),
    [
        ({}, "8 AWG Cu bare", "not met"),
        ({}, "6 AWG Cu bare", "met"),
        ({}, "6 AWG Al bare", "not met"),
        ({}, "4 AWG Al bare", "met"),
        (FOOTING, "6 AWG Cu bare", "not met"),
        (FOOTING, "4 AWG Cu bare", "met"),
        (STEEL, "4 AWG Cu bare", "not met"),
        (STEEL, "2 AWG Cu bare", "met"),
        ({**FOOTING, **STEEL}, "4 AWG Cu bare", "not met"),
    ],
)
def test_no_larger_than_what_it_goes_to_can_use(electrodes: dict[str, Any], wire: str, expected: str) -> None:
    """With a feeder of 250 kcmil copper: 6 AWG to rods, 4 AWG to a footing, the table's 2 AWG to steel."""
    assert outcome(electrode_conductor(electrodes, "2 × 250 kcmil Cu THWN-2", wire=wire), SIZE, WORKSHOP) == expected


def test_the_cap_is_named_in_the_derivation() -> None:
    """Only where it decides."""
    large = lines(electrode_conductor(hot="2 × 250 kcmil Cu THWN-2"), SIZE, WORKSHOP)[0].steps
    assert any("to a rod no larger than 6 AWG Cu is asked for" in step for step, _ in large)
    assert not any("no larger" in step for step, _ in lines(electrode_conductor(), SIZE, WORKSHOP)[0].steps)


def test_parallel_conductors_are_for_the_authority() -> None:
    """The table is entered with their areas added."""
    for wire in ("6 AWG Cu bare", None):
        (line,) = lines(electrode_conductor(hot="4 × 1/0 AWG Cu THWN-2", wire=wire), SIZE, WORKSHOP)
        assert (line.answer.outcome.value, line.answer.asks) == ("cannot tell", None), "no fact would settle it"


@pytest.mark.parametrize(
    ("wire", "earth", "expected"),
    [
        ("6 AWG Cu bare", True, "does not apply"),
        ("4 AWG Al bare", True, "not met"),
        ("4 AWG Al bare", False, "met"),
        ("4 AWG Al bare", None, "cannot tell"),
        (None, False, "met"),
        (None, True, "cannot tell"),
    ],
)
def test_aluminum_in_the_earth(wire: str | None, earth: bool | None, expected: str) -> None:
    """Copper may lie there."""
    assert outcome(electrode_conductor(wire=wire, **{"in-earth": earth}), EARTH, WORKSHOP) == expected


@pytest.mark.parametrize(
    ("wire", "hit", "enclosure", "expected"),
    [
        ("6 AWG Cu bare", False, "none", "met"),
        ("4 AWG Cu bare", False, None, "met"),
        ("6 AWG Cu bare", True, "none", "not met"),
        ("6 AWG Cu bare", True, "PVC-40", "not met"),
        ("6 AWG Cu bare", None, "none", "cannot tell"),
        ("6 AWG Cu bare", None, "PVC-80", "met"),
        ("8 AWG Cu bare", False, "none", "not met"),
        ("8 AWG Cu bare", None, "none", "not met"),
        *[("8 AWG Cu bare", True, kind, "met") for kind in ("RMC", "IMC", "EMT", "PVC-80", "RTRC-XW", "armor")],
        ("8 AWG Cu bare", True, None, "cannot tell"),
    ],
)
def test_enclosed(wire: str, hit: bool | None, enclosure: str | None, expected: str) -> None:
    """6 AWG and larger where it can be hit, smaller everywhere."""
    of = electrode_conductor(wire=wire, **{"physical-damage": hit, "protection": enclosure})
    assert outcome(of, GUARD, WORKSHOP) == expected


@pytest.mark.parametrize(
    ("lands_on", "expected"),
    [("ground bar", "met"), ("disconnect enclosure", "met"), ("neutral bar", "not met"), (None, "cannot tell")],
)
def test_where_it_ends(lands_on: str | None, expected: str) -> None:
    """Not on the isolated neutral."""
    assert outcome(electrode_conductor(**{"lands-on": lands_on}), BAR, WORKSHOP) == expected
    old = feeder(NO_GROUND, existing=True)
    assert outcome(old, BAR, WORKSHOP) == "does not apply"


@pytest.mark.parametrize(
    ("spliced", "expected"), [("no", "met"), ("irreversible", "met"), ("yes", "not met"), (None, "cannot tell")]
)
def test_splices(spliced: str | None, expected: str) -> None:
    """None, or irreversible ones."""
    assert outcome(electrode_conductor(spliced=spliced), ONE_LENGTH, WORKSHOP) == expected


def test_without_an_electrode_there_is_no_conductor_to_look_at() -> None:
    """That it is wanting is another finding."""
    of = electrode_conductor({"north-rod": None, "south-rod": None})
    assert {outcome(of, rule, WORKSHOP) for rule in (SIZE, EARTH, GUARD, BAR, ONE_LENGTH)} == {"does not apply"}


@pytest.mark.parametrize(
    ("yard", "raceway", "expected"),
    [
        ({}, "", "met"),
        (NO_GROUND, "", "not met"),
        (NO_GROUND, "RMC 1-1/4 in", "met"),
        (NO_GROUND, "IMC 1-1/4 in", "met"),
        (NO_GROUND, "EMT 1-1/4 in", "met"),
        (NO_GROUND, "PVC-80 1-1/4 in", "not met"),
        (NO_GROUND, "none", "not met"),
        (NO_GROUND, "plumbing pipe 1-1/4 in", "not met"),
        (NO_GROUND, "LFMC 1-1/4 in", "not met"),  # counts up to 6 ft only
        (NO_GROUND, "FMC 1-1/4 in", "not met"),
        ({"wires": None, "cable": "UF-B 6/3"}, "none", "met"),
        ({"wires": None, "cable": "UF-B 6/3 no ground"}, "none", "not met"),
        ({"wires": None}, "none", "cannot tell"),
    ],
)
def test_a_fault_path_all_the_way(yard: dict[str, Any], raceway: str, expected: str) -> None:
    """A wire, or metal raceway of a kind that counts; rods do not help."""
    of = feeder(yard, raceway=raceway)
    (line,) = lines(of, PATH, FEEDER)
    assert (line.answer.outcome.value, line.rule.severity) == (expected, Severity.DANGER)


def test_one_leg_without_it_breaks_the_path() -> None:
    """A metal raceway with one leg in PVC; and a bare cable in metal on the first part only."""
    data = example(
        "joinery-workshop", {"routes": {"yard": {"raceway": "RMC 1-1/4 in", "carries": {"workshop-feeder": NO_GROUND}}}}
    )
    assert outcome(reviewed(data), PATH, FEEDER) == "met"
    data["routes"]["yard"]["legs"][2]["raceway"] = "PVC-40 1-1/4 in"
    assert outcome(reviewed(data), PATH, FEEDER) == "not met"
    of = feeder({}, NO_GROUND)
    assert outcome(of, PATH, FEEDER) == "met", "the run in the garage is EMT"


def test_branch_circuits_to_another_structure_too() -> None:
    """And not those that stay; an existing feeder is exempt, an existing branch circuit is not."""
    bare = {"routes": {"yard": {"carries": {"studio": {"cable": "UF-B 12/2 no ground"}}}}}
    assert outcome(reviewed_example("pottery-studio", bare), PATH, "/circuits/studio") == "not met"
    existing = bare | {"circuits": {"studio": {"existing": True}}}
    assert outcome(reviewed_example("pottery-studio", existing), PATH, "/circuits/studio") == "not met"
    assert outcome(feeder(NO_GROUND, existing=True), PATH, FEEDER) == "does not apply"
    assert outcome(feeder({}, existing=True), PATH, FEEDER) == "met"
    assert outcome(reviewed_example("joinery-workshop"), PATH, "/circuits/lights") == "does not apply"


@pytest.mark.parametrize(
    ("rating", "wire", "expected"),
    [
        ("60 A", "12 AWG Cu THWN-2", "not met"),
        ("60 A", "10 AWG Cu THWN-2", "met"),
        ("60 A", "8 AWG Cu THWN-2", "met"),
        ("61 A", "10 AWG Cu THWN-2", "not met"),
        ("61 A", "8 AWG Cu THWN-2", "met"),
        ("40 A", "10 AWG Cu THWN-2", "met"),
        ("60 A", "10 AWG Al THWN-2", "not met"),
        ("60 A", "8 AWG Al THWN-2", "met"),
        ("400 A", "6 AWG Cu THWN-2", "met"),
        (None, "12 AWG Cu THWN-2", "cannot tell"),
        (None, "6 AWG Cu THWN-2", "met"),
    ],
)
def test_size_of_the_equipment_ground(rating: str | None, wire: str, expected: str) -> None:
    """By the device ahead, the next row between two, and no larger than the 6 AWG hots."""
    of = feeder({"wires": {"ground": wire}}, {"wires": {"ground": "6 AWG Cu THWN-2"}}, breaker={"rating": rating})
    assert outcome(of, GROUND, FEEDER) == expected


def test_a_device_beyond_the_table() -> None:
    """The table ends at 6000 A: no crash, and no pass."""
    of = feeder({"wires": {"ground": "10 AWG Cu THWN-2"}}, breaker={"rating": "7000 A"})
    assert outcome(of, GROUND, FEEDER) == "cannot tell"


def test_the_smallest_part_decides() -> None:
    """The wire in the garage is too small, that in the yard is not."""
    (line,) = lines(feeder({}, {"wires": {"ground": "12 AWG Cu THWN-2"}}), GROUND, FEEDER)
    assert (line.answer.outcome.value, line.place) == (
        "not met",
        "/routes/garage-run/carries/workshop-feeder/wires/ground",
    )
    assert ("behind 60 A", f"{FEEDER}/breaker/rating") in line.steps


def panel(feeder_facts: dict[str, Any] | None = None, three_wire: bool = False, **facts: Any) -> Review:
    """The workshop with other facts of its panel and feeder."""
    yard = {"carries": {"workshop-feeder": NO_GROUND}} if three_wire else {}
    return reviewed_example(
        "joinery-workshop",
        {
            "structures": {"workshop": {"metal-path": False}},
            "panels": {"workshop-panel": facts},
            "circuits": {"workshop-feeder": feeder_facts or {}},
            "routes": {"yard": yard},
        },
    )


@pytest.mark.parametrize(
    ("existing", "three_wire", "neutral", "expected"),
    [
        (None, False, "isolated", "met"),
        (None, False, "bonded", "not met"),
        (None, False, None, "cannot tell"),
        (None, True, "bonded", "not met"),
        (False, True, "bonded", "not met"),
        (True, False, "bonded", "not met"),
        (True, True, "bonded", "met"),
        (True, True, "isolated", "not met"),
    ],
)
def test_neutral(existing: bool | None, three_wire: bool, neutral: str | None, expected: str) -> None:
    """Bonded again only with a three-wire feeder that was there before."""
    of = panel({} if existing is None else {"existing": existing}, three_wire, neutral=neutral)
    (line,) = lines(of, APART, PANEL)
    assert (line.answer.outcome.value, line.rule.severity) == (expected, Severity.DANGER)
    assert outcome(of, APART, "/panels/house-panel") == "does not apply"


def test_a_panel_in_the_same_building_is_never_bonded() -> None:
    """The exception is for another structure."""
    data = example(
        "joinery-workshop",
        {
            "panels": {"workshop-panel": {"neutral": "bonded"}},
            "circuits": {"workshop-feeder": {"existing": True}},
            "routes": {"yard": {"carries": {"workshop-feeder": NO_GROUND}}},
        },
    )
    for kind in ("panels", "boxes"):
        for thing in data[kind].values():
            thing["at"] = "house"
    of = reviewed(data)
    assert (outcome(of, APART, PANEL), outcome(of, PATH, FEEDER)) == ("not met", "not met")


@pytest.mark.parametrize(("bar", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_ground_bar(bar: bool | None, expected: str) -> None:
    """In a panel fed by a feeder with a ground."""
    assert outcome(panel(**{"ground-bar": bar}), GROUND_BAR, PANEL) == expected
    assert outcome(panel({"existing": True}, True, **{"ground-bar": bar}), GROUND_BAR, PANEL) == "does not apply"


@pytest.mark.parametrize(
    ("yard", "expected"),
    [
        ({}, "met"),
        ({"wires": {"neutral": None}}, "not met"),
        ({"wires": None, "cable": "UF-B 6/3"}, "met"),
        ({"wires": None, "cable": "UF-B 6/2"}, "not met"),
        ({"wires": None}, "cannot tell"),
    ],
)
def test_neutral_for_120_volt_loads(yard: dict[str, Any], expected: str) -> None:
    """All the way."""
    assert outcome(feeder(yard), NEUTRAL, FEEDER) == expected


@pytest.mark.parametrize(("voltage", "expected"), [("240 V", "does not apply"), ("120/240 V", "not met")])
def test_240_volt_loads_need_no_neutral(voltage: str, expected: str) -> None:
    """A workshop with nothing but a planer, of two voltages or of one."""
    of = reviewed_example(
        "joinery-workshop",
        {
            "circuits": {"lights": None, "bench-outlets": None, "planer": {"voltage": voltage}},
            "boxes": dict.fromkeys(("bench-box", "yard-box", "switch-box", "porch-light-box")),
            "routes": {
                **dict.fromkeys(("bench", "porch", "lighting", "porch-lighting")),
                "yard": {"carries": {"workshop-feeder": {"wires": {"neutral": None}}}},
            },
        },
    )
    assert outcome(of, NEUTRAL, FEEDER) == expected


def test_a_120_volt_feeder_of_two_wires_has_its_neutral() -> None:
    """One hot and one neutral."""
    two_wire = {"wires": None, "cable": "UF-B 6/2"}
    of = feeder(two_wire, two_wire, voltage="120 V")
    assert outcome(of, NEUTRAL, FEEDER) == "met"


def test_the_bond_stands_on_the_inspection_list() -> None:
    """Taken out with four wires; made with an old three-wire feeder, and then no metal may join the buildings."""
    new = [entry.says for entry in panel().inspect if entry.item.id.endswith("bond-of-the-neutral")]
    old = [
        entry.says for entry in panel({"existing": True}, True).inspect if entry.item.id.endswith("bond-of-the-neutral")
    ]
    assert "taken out" in new[0] and "no metal pipe, raceway or shield joins the structures" in old[0]
