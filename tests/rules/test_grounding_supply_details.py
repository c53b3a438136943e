"""Grounds and neutrals that come with the supply: which parts lack them, how large, and what brings them."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from support.reviews import example, merged, outcome, reviewed
from support.trenches import after_each_proposal, line_at

FEEDER, PANEL = "/circuits/workshop-feeder", "/panels/workshop-panel"
PATH, SIZE, NEUTRAL = "/equipment-ground-all-the-way", "/size-of-the-equipment-ground", "/neutral-for-120-volt-loads"
WITHIN, APART, BAR = "/equipment-ground-within-a-structure", "/neutral-apart-from-ground", "/ground-bar-in-the-panel"
NO_GROUND: dict[str, Any] = {"wires": {"ground": None}}
NO_NEUTRAL: dict[str, Any] = {"wires": {"neutral": None}}
YARD = "/routes/yard/carries/workshop-feeder"
FRAMING = [{"in": "wall framing", "length": "10 ft"}]
TRENCH = [{"buried": "lawn", "length": "50 ft", "cover": "24 in"}]


def fed(
    yard: dict[str, Any],
    garage: dict[str, Any] | None = None,
    panel: dict[str, Any] | None = None,
    breaker: dict[str, Any] | None = None,
    **route: Any,
) -> dict[str, Any]:
    """The joinery workshop with other wiring of its feeder, another panel, another breaker ahead."""
    return example(
        "joinery-workshop",
        {
            "circuits": {"workshop-feeder": {"breaker": breaker or {}}},
            "panels": {"workshop-panel": panel or {}},
            "routes": {
                "yard": {"carries": {"workshop-feeder": yard}, **route},
                "garage-run": {"carries": {"workshop-feeder": garage or {}}},
            },
        },
    )


def cable(text: str) -> dict[str, Any]:
    """A cable in place of the wires."""
    return {"wires": None, "cable": text}


# A ground is brought


@pytest.mark.parametrize(
    ("panel", "words"),
    [
        ({"neutral": "isolated"}, ""),
        ({"neutral": "bonded"}, "; then isolate the neutral of workshop-panel"),
        ({"neutral": None}, ""),  # nothing is said against a neutral of which nothing is known
    ],
)
def test_the_neutral_is_isolated_with_the_ground_only_where_it_is_bonded(panel: dict[str, Any], words: str) -> None:
    """And the wire is as large as 60 A ahead ask for."""
    (way,) = line_at(reviewed(fed(NO_GROUND, panel=panel)), PATH, FEEDER).answer.proposals
    assert way.words == f"pull 10 AWG Cu THWN-2 as the equipment ground on yard{words}"
    assert len(way.patch) == (2 if words else 1)


@pytest.mark.parametrize(
    ("wiring", "legs", "words"),
    [
        ("UF-B 6/3 no ground", TRENCH, "use UF-B 6/3, with its ground, on yard"),
        ("SEU 2-2-2 Al", TRENCH, "use MHF 2-2-2-8 Al, with its ground, on yard"),
        ("SE 2-2-2 Al", TRENCH, "use MHF 2-2-2-8 Al, with its ground, on yard"),
        ("SEU 2-2-2 Al", FRAMING, "use SER 2-2-2-8 Al, with its ground, on yard"),
        ("SEU 6-6-6 Cu", FRAMING, "use SER 6-6-6-10 Cu, with its ground, on yard"),
        ("SEU 6-6-6 Cu", TRENCH, None),  # the assembly for the ground is made of aluminum
        ("low-voltage 6/3", TRENCH, None),
    ],
)
def test_a_cable_without_ground_is_exchanged_for_one_that_is_made(
    wiring: str, legs: list[dict[str, Any]], words: str | None
) -> None:
    """Of the same sizes and metal, for the place where it lies."""
    data = fed(cable(wiring), raceway="none", legs=legs)
    assert outcome(reviewed(data), PATH, FEEDER) == "not met"
    assert after_each_proposal(data, PATH, FEEDER) == ({words: "met"} if words else {})


def test_only_the_assembly_for_the_ground_needs_a_raceway_in_the_building() -> None:
    """Its wires are twisted together without a sheath; cable for use inside has one."""
    passage = {"through": "wall", "length": "8 in"}
    for legs, paths in ((TRENCH, ["cable", "raceway"]), (FRAMING, ["cable"])):
        data = fed(cable("SEU 2-2-2 Al"), raceway="none", legs=[*legs, passage])
        (way,) = line_at(reviewed(data), PATH, FEEDER).answer.proposals
        assert [edit["path"].rpartition("/")[2] for edit in way.patch] == paths


@pytest.mark.parametrize("rating", [None, "7000 A"])
@pytest.mark.parametrize("yard", [NO_GROUND, cable("SEU 2-2-2 Al")])
def test_no_size_is_made_up_for_a_ground(rating: str | None, yard: dict[str, Any]) -> None:
    """Where the device ahead is not known, or the table ends below it."""
    line = line_at(reviewed(fed(yard, breaker={"rating": rating}, raceway="none")), PATH, FEEDER)
    assert (line.answer.outcome.value, line.answer.proposals) == ("not met", ())


def test_a_ground_in_some_parts_only_is_not_offered() -> None:
    """Half a fault path is none: nothing is known of a ground for the first part."""
    data = fed(NO_GROUND, {**cable("low-voltage 6/3")})
    data["routes"]["garage-run"]["raceway"] = "none"
    line = line_at(reviewed(data), PATH, FEEDER)
    assert (line.answer.outcome.value, line.answer.proposals) == ("not met", ())


# Where it goes


def test_flexible_raceway_of_a_feeder_is_for_the_authority() -> None:
    """Short enough to count, under conditions that no plan shows."""
    line = line_at(
        reviewed(fed(NO_GROUND, raceway="FMC 1-1/4 in", legs=[{**FRAMING[0], "length": "5 ft"}])), PATH, FEEDER
    )
    assert (line.answer.outcome.value, line.place) == ("cannot tell", "/routes/yard")
    assert line.answer.has == "flexible metal raceway on yard"


@pytest.mark.parametrize("kind", ["feeder", "branch circuit"])
def test_a_circuit_that_goes_nowhere_has_no_ground_to_look_at(kind: str) -> None:
    """It is in no route yet."""
    more = {"circuits": {"spare": {"kind": kind, "from": "workshop-panel", "voltage": "120 V"}}}
    of = reviewed(example("joinery-workshop", more))
    expected = "it goes nowhere" if kind == "feeder" else "it stays in its structure"
    assert line_at(of, PATH, "/circuits/spare").answer.why == expected
    expected = "no branch circuit" if kind == "feeder" else "it goes nowhere"
    assert line_at(of, WITHIN, "/circuits/spare").answer.why == expected
    assert line_at(of, SIZE, "/circuits/spare").answer.why == "no equipment grounding wire"


def test_a_circuit_that_leaves_its_building_is_looked_at_once() -> None:
    """By the rule on the way to another structure, not by that on wiring inside."""
    of = reviewed(example("pottery-studio"))
    assert line_at(of, WITHIN, "/circuits/studio").answer.why == "it goes to another structure"
    assert outcome(of, PATH, "/circuits/studio") == "met"


def test_low_voltage_wiring_needs_no_ground() -> None:
    """Neither its path nor its size is looked at, behind a transformer on the workshop's wall."""
    data = example(
        "joinery-workshop",
        {
            "boxes": {
                "yard-box": {"devices": {"pack": {"transformer": "300 VA", "secondary": "12 V"}}},
                "lamp-box": {"at": "house", "area": "outdoors", "location": "wet"},
            },
            "circuits": {"path": {"kind": "low-voltage", "from": "yard-box/pack", "voltage": "12 V"}},
            "routes": {
                "path": {
                    "from": "yard-box",
                    "to": "lamp-box",
                    "raceway": "none",
                    "carries": {"path": {"wires": {"hot": "12 AWG Cu THWN-2", "ground": "18 AWG Cu THWN-2"}}},
                    "legs": [{"buried": "lawn"}],
                }
            },
        },
    )
    of = reviewed(data)
    for rule in (PATH, SIZE):
        assert line_at(of, rule, "/circuits/path").answer.why == "low voltage"
    assert line_at(of, WITHIN, "/circuits/path").answer.why == "no branch circuit"


@pytest.mark.parametrize(
    ("existing", "expected", "place"),
    [(False, "not met", "/routes/lighting/carries/lights"), (True, "cannot tell", "/routes/lighting/carries/lights")],
)
def test_the_part_without_a_ground_is_marked(existing: bool, expected: str, place: str) -> None:
    """The second half of the way has one."""
    data = example(
        "joinery-workshop",
        {
            "circuits": {"lights": {"existing": existing}},
            "routes": {"lighting": {"carries": {"lights": {"cable": "NM-B 14/2 no ground"}}}},
        },
    )
    line = line_at(reviewed(data), WITHIN, "/circuits/lights")
    assert (line.answer.outcome.value, line.place, line.answer.has) == (expected, place, "none on lighting")
    assert line.answer.rows == ("feeder-egc-kind",)


def test_flexible_raceway_in_a_building_is_marked() -> None:
    """The part that it is around; a receptacle behind it cites its own requirement first."""
    bench = {
        "raceway": "FMC 1/2 in",
        "legs": [{**FRAMING[0], "length": "5 ft"}],
        "carries": {"bench-outlets": NO_GROUND},
    }
    line = line_at(
        reviewed(example("joinery-workshop", {"routes": {"bench": bench}})), WITHIN, "/circuits/bench-outlets"
    )
    assert (line.answer.outcome.value, line.place) == ("cannot tell", "/routes/bench")
    assert line.answer.has == "flexible metal raceway on bench"
    assert line.answer.rows == ("receptacle-grounding-type", "feeder-egc-kind")


# How large it is


@pytest.mark.parametrize(
    ("yard", "breaker", "at", "way"),
    [
        ({"wires": {"ground": "12 AWG Cu THHN"}}, "60 A", f"{YARD}/wires/ground", "use 10 AWG Cu THHN"),
        ({"wires": {"ground": "10 AWG Al XHHW-2"}}, "60 A", f"{YARD}/wires/ground", "use 8 AWG Al XHHW-2"),
        (cable("SER 6-6-6-12 Al"), "60 A", f"{YARD}/cable", "use SER 6-6-6-8 Al"),
        (cable("SER 2-2-2-8 Al"), "100 A", f"{YARD}/cable", "use SER 2-2-2-6 Al"),
    ],
)
def test_a_ground_is_enlarged_where_it_stands(yard: dict[str, Any], breaker: str, at: str, way: str) -> None:
    """Of the same metal and insulation, or in a cable with the same hots."""
    data = fed(yard, {"wires": {"ground": "4 AWG Cu THWN-2"}}, breaker={"rating": breaker})
    assert line_at(reviewed(data), SIZE, FEEDER).place == at
    assert after_each_proposal(data, SIZE, FEEDER) == {way: "met"}


@pytest.mark.parametrize(
    ("wires", "expected", "needs"),
    [
        (
            {"hot": "2 × 12 AWG Cu THHN", "ground": "12 AWG Cu THHN"},
            "met",
            "no larger than the hot conductors, 12 AWG Cu",
        ),
        ({"hot": "2 × 12 AWG Cu THHN", "ground": "14 AWG Cu THHN"}, "not met", "at least 10 AWG Cu"),
        ({"hot": "2 × 12 AWG Al THHN", "ground": "12 AWG Cu THHN"}, "not met", "at least 10 AWG Cu"),
        ({"hot": "2 × 12 AWG Cu THHN", "ground": "10 AWG Cu THHN"}, "met", "at least 10 AWG Cu"),
    ],
)
def test_a_ground_need_not_be_larger_than_hots_of_its_metal(wires: dict[str, str], expected: str, needs: str) -> None:
    """Hots of 12 AWG behind 60 A are another finding."""
    line = line_at(reviewed(fed({"wires": wires}, {"wires": wires})), SIZE, FEEDER)
    assert (line.answer.outcome.value, line.answer.needs) == (expected, needs)


def test_beyond_the_table_the_size_is_for_the_authority() -> None:
    """And the wire is marked."""
    line = line_at(reviewed(fed({}, breaker={"rating": "7000 A"})), SIZE, FEEDER)
    assert (line.answer.has, line.answer.why) == ("10 AWG Cu", "the table ends below 7000 A")


def test_a_receptacle_among_other_outlets_cites_its_own_requirement() -> None:
    """One is enough; lights alone have none to cite."""
    bare = {"carries": {"lights": {"cable": "NM-B 14/2 no ground"}}}
    data = example("joinery-workshop", {"routes": {"lighting": bare}})
    assert line_at(reviewed(data), WITHIN, "/circuits/lights").answer.rows == ("feeder-egc-kind",)
    data["boxes"]["switch-box"]["devices"]["outlet"] = {"receptacle": "15 A"}
    line = line_at(reviewed(data), WITHIN, "/circuits/lights")
    assert line.answer.rows == ("receptacle-grounding-type", "feeder-egc-kind")


def test_a_part_of_unknown_wiring_beside_one_that_is_too_small() -> None:
    """Too small whatever the other turns out to be; what is known to be too small is named."""
    line = line_at(reviewed(fed({"wires": {"ground": "12 AWG Cu THWN-2"}}, {"wires": None})), SIZE, FEEDER)
    assert (line.answer.outcome.value, line.place) == ("not met", f"{YARD}/wires/ground")


def test_grounds_that_are_too_small_are_named_with_their_parts() -> None:
    """The first is the finding, the others are told with it; one step enlarges all."""
    small = {"wires": {"ground": "12 AWG Cu THWN-2"}}
    data = fed(small, small)
    (way,) = line_at(reviewed(data), SIZE, FEEDER).answer.proposals
    assert way.words == "use 10 AWG Cu THWN-2 on garage-run; use 10 AWG Cu THWN-2 on yard"
    assert [edit["path"] for edit in way.patch] == [
        "/routes/garage-run/carries/workshop-feeder/wires/ground",
        f"{YARD}/wires/ground",
    ]


def test_further_parts_with_too_small_a_ground_are_listed() -> None:
    """14 AWG behind 20 A, from end to end."""
    wires = {"hot": "12 AWG Cu THWN-2", "neutral": "12 AWG Cu THWN-2", "ground": "14 AWG Cu THWN-2"}
    data = example("pottery-studio")
    for name in ("garage-wall", "yard", "ceiling"):
        data["routes"][name]["carries"]["studio"] = {"wires": wires}
    line = line_at(reviewed(data), SIZE, "/circuits/studio")
    assert line.answer.why == "too small as well: 14 AWG Cu on yard, 14 AWG Cu on ceiling"
    assert set(after_each_proposal(data, SIZE, "/circuits/studio").values()) == {"met"}


# The neutral


@pytest.mark.parametrize(
    ("yard", "garage", "words"),
    [
        (NO_NEUTRAL, {}, "bring a neutral: 6 AWG Cu THWN-2"),
        (NO_NEUTRAL, NO_NEUTRAL, "bring a neutral: 6 AWG Cu THWN-2"),
        (cable("UF-B 6/2"), NO_NEUTRAL, "bring a neutral: 6 AWG Cu THWN-2, UF-B 6/3, and PVC-80 2 in on yard"),
        ({"wires": {"neutral": None, "hot": None}}, NO_NEUTRAL, None),
        (cable("SER 6-6-6 Cu"), NO_NEUTRAL, None),
        ({"wires": None}, NO_NEUTRAL, None),
    ],
)
def test_a_neutral_is_brought_all_the_way_or_not_offered(
    yard: dict[str, Any], garage: dict[str, Any], words: str | None
) -> None:
    """Like the hots, or a cable with one conductor more, in every part that lacks it."""
    data = fed(yard, garage)
    line = line_at(reviewed(data), NEUTRAL, FEEDER)
    assert (line.answer.outcome.value, line.answer.needs) == ("not met", "a neutral, for bench-outlets")
    part = "garage-run" if garage else "yard"
    assert (line.answer.of, line.place) == (f"feeder on {part}", f"/routes/{part}/carries/workshop-feeder")
    assert after_each_proposal(data, NEUTRAL, FEEDER) == ({words: "met"} if words else {})


def test_only_a_feeder_to_a_panel_is_asked_for_a_neutral_of_its_panel() -> None:
    """A branch circuit has another rule, and what is fed from the service is no feeder's matter."""
    of = reviewed(example("joinery-workshop"))
    assert line_at(of, NEUTRAL, "/circuits/lights").answer.why == "no feeder to a panel"
    for rule in (APART, BAR):
        assert line_at(of, rule, "/panels/house-panel").answer.why == "service equipment"


def test_a_ground_bar_is_fitted() -> None:
    """The way out."""
    data = fed({}, panel={"ground-bar": False})
    assert line_at(reviewed(data), BAR, PANEL).place == f"{PANEL}/ground-bar"
    assert after_each_proposal(data, BAR, PANEL) == {"fit a grounding bar": "met"}


# The bond behind an old feeder of three wires


def old(neutral: str, patch: dict[str, Any] | None = None) -> dict[str, Any]:
    """The workshop behind such a feeder, with a change."""
    data = fed(NO_GROUND, panel={"neutral": neutral, "ground-bar": None})
    data["circuits"]["workshop-feeder"]["existing"] = True
    data["structures"]["workshop"]["metal-path"] = False
    made = merged(data, patch or {})
    assert isinstance(made, dict)
    return made


def test_an_isolated_neutral_behind_three_wires_is_bonded() -> None:
    """Else a fault has no way back; with the bond it is as it may be."""
    data = old("isolated")
    line = line_at(reviewed(data), APART, PANEL)
    assert (line.place, line.answer.why) == (f"{PANEL}/neutral", "a fault has no way back to trip the breaker")
    assert line.answer.rows == ("feeder-four-wire",)
    assert after_each_proposal(data, APART, PANEL) == {"bond the neutral to the enclosure and the grounding bar": "met"}
    step = "workshop-feeder was there before, without an equipment grounding conductor"
    assert (step, FEEDER) in line_at(reviewed(old("bonded")), APART, PANEL).steps


@pytest.mark.parametrize(
    ("neutral", "words", "values"),
    [
        ("bonded", "; then isolate the neutral of workshop-panel", ["10 AWG Cu THWN-2", "isolated", True]),
        ("isolated", "; keep the neutral isolated", ["10 AWG Cu THWN-2", "isolated", True]),
    ],
)
def test_four_wires_bring_an_isolated_neutral_and_a_ground_bar(neutral: str, words: str, values: list[Any]) -> None:
    """Where metal joins the buildings, no bond is offered."""
    data = old(neutral, {"structures": {"workshop": {"metal-path": True}}})
    line = line_at(reviewed(data), APART, PANEL)
    assert "a metal path joins the structures" in line.answer.why
    (way,) = line.answer.proposals
    assert way.words == f"pull 10 AWG Cu THWN-2 as the equipment ground on yard{words}"
    assert [edit["value"] for edit in way.patch] == values
    after = reviewed(applied(data, complete(data, way.patch)))
    assert (outcome(after, APART, PANEL), outcome(after, BAR, PANEL)) == ("met", "met")


MIDDLE: dict[str, Any] = {
    "panels": {"garage-panel": {"at": "house", "duty": "feeder panel", "main": "100 A"}},
    "circuits": {
        "garage": {
            "kind": "feeder",
            "from": "house-panel",
            "voltage": "120/240 V",
            "breaker": {"rating": "100 A", "ground-fault": "none"},
        },
        "workshop-feeder": {"from": "garage-panel"},
    },
    "routes": {
        "to-garage": {
            "from": "house-panel",
            "to": "garage-panel",
            "raceway": "none",
            "carries": {"garage": {"cable": "SER 2-2-2-4 Al"}},
            "legs": FRAMING,
        },
        "garage-run": {"from": "garage-panel"},
    },
}
"""One more panel between the service and the workshop's feeder."""


@pytest.mark.parametrize(
    ("near", "far", "expected", "named"),
    [
        ("none", "none", "met", ""),
        ("none", "equipment", "not met", "garage"),
        ("equipment", "none", "not met", "workshop-feeder"),
    ],
)
def test_ground_fault_protection_anywhere_ahead_forbids_the_bond(
    near: str, far: str, expected: str, named: str
) -> None:
    """That of the feeder itself, and of the one that feeds the panel it begins in."""
    breakers = {
        "circuits": {
            "workshop-feeder": {"breaker": {"ground-fault": near}},
            "garage": {"breaker": {"ground-fault": far}},
        }
    }
    line = line_at(reviewed(old("bonded", merged(MIDDLE, breakers))), APART, PANEL)
    assert line.answer.outcome.value == expected
    assert line.answer.why.startswith(f"ground-fault protection at {named} is ahead" if named else "")


def test_a_ground_fault_device_in_the_way_forbids_the_bond() -> None:
    """In a box between the panels."""
    device = {"boxes": {"pull-box": {"devices": {"trip": {"ground-fault-device": "60 A", "trip": "equipment"}}}}}
    line = line_at(reviewed(old("bonded", device)), APART, PANEL)
    assert (line.answer.outcome.value, line.answer.why.partition(":")[0]) == ("not met", "trip is ahead")


def test_where_a_panel_in_the_same_building_is_bonded_another_row_is_cited() -> None:
    """Neutral isolated in any panel behind the service, and four wires only to another structure."""
    data = example(
        "joinery-workshop",
        MIDDLE | {"panels": {"garage-panel": {**MIDDLE["panels"]["garage-panel"], "neutral": "bonded"}}},
    )
    line = line_at(reviewed(data), APART, "/panels/garage-panel")
    assert (line.answer.outcome.value, line.answer.rows) == ("not met", ("feeder-neutral-isolated",))
    other = line_at(reviewed(fed({}, panel={"neutral": "bonded"})), APART, PANEL)
    assert (other.answer.rows, other.place) == (("feeder-four-wire",), f"{PANEL}/neutral")
    assert other.answer.why == "with two bonds the ground wire and every metal part carry neutral current"
