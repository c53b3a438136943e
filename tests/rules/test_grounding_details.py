"""Electrodes and their conductor: what a finding says, which sizes decide, and that its ways out leave nothing open."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line
from support.reviews import asked, data_of, example, lines, merged, outcome, reviewed
from support.trenches import after_each_proposal, line_at

WORKSHOP, STUDIO = "/structures/workshop", "/structures/studio"
ELECTRODES = f"{WORKSHOP}/grounding/electrodes"
REQUIRED, PERMITTED, FOOTING = (
    "/electrode-where-a-feeder-comes-in",
    "/electrode-of-a-permitted-kind",
    "/footing-steel-used",
)
SIZE, EARTH, GUARD = "/size-of-the-electrode-conductor", "/no-aluminum-in-the-earth", "/electrode-conductor-protected"
SECOND, APART = "/second-electrode", "/spacing-of-rods"
BARE: dict[str, Any] = {"wires": None, "cable": "UF-B 12/2 no ground"}


def workshop(electrodes: dict[str, Any] | None = None, hot: str = "", **conductor: Any) -> dict[str, Any]:
    """The joinery workshop with other electrodes, facts of their conductor, and hots of its feeder."""
    wires = {"workshop-feeder": {"wires": {"hot": hot}}} if hot else {}
    return example(
        "joinery-workshop",
        {
            "structures": {"workshop": {"grounding": {"electrodes": electrodes or {}, "conductor": conductor}}},
            "routes": {"yard": {"carries": wires}},
        },
    )


def with_only(electrodes: dict[str, Any] | None, conductor: dict[str, Any] | None = None) -> dict[str, Any]:
    """The joinery workshop with these electrodes alone, and nothing said of their conductor but this."""
    data = example("joinery-workshop")
    data["structures"]["workshop"]["grounding"] = {"electrodes": electrodes or {}, "conductor": conductor or {}}
    return data


def after(data: dict[str, Any], line: Line) -> list[dict[str, Any]]:
    """The plan after each way out of a finding."""
    return [applied(data, complete(data, way.patch)) for way in line.answer.proposals]


def open_about_grounding(data: dict[str, Any]) -> list[str]:
    """Findings of the topics on grounding, and facts of the electrodes that are asked for."""
    of = reviewed(data)
    found = [finding.line.rule.id for finding in of.findings if finding.line.rule.topic.startswith("grounding/")]
    return found + [place for place in asked(of) if "/grounding/" in place]


# Electrodes


def test_two_rods_leave_nothing_open() -> None:
    """Where there is neither an electrode nor a word on its conductor: all that is asked of both comes along."""
    data = with_only(None)
    line = line_at(reviewed(data), REQUIRED, WORKSHOP)
    (way,) = line.answer.proposals
    assert way.words == "drive two ground rods at the structure, 6 ft apart"
    (then,) = after(data, line)
    assert list(then["structures"]["workshop"]["grounding"]["electrodes"]) == ["rod-1", "rod-2"]
    assert open_about_grounding(then) == []


def test_proposed_rods_change_nothing_that_is_there() -> None:
    """Neither an electrode of the same name nor what is said of the conductor."""
    pipe = {"kind": "metal water pipe", "bonded": True, "length": "12 ft"}
    data = with_only({"rod-1": pipe}, {"wire": "2 AWG Cu bare", "protection": "PVC-80"})
    (then,) = after(data, line_at(reviewed(data), SECOND, WORKSHOP))
    grounding = then["structures"]["workshop"]["grounding"]
    assert list(grounding["electrodes"]) == ["rod-1", "rod-2", "rod-3"]
    assert grounding["electrodes"]["rod-1"] == pipe
    assert (grounding["conductor"]["wire"], grounding["conductor"]["protection"]) == ("2 AWG Cu bare", "PVC-80")
    assert outcome(reviewed(then), SECOND, WORKSHOP) == "met"


@pytest.mark.parametrize("kind", ["rod", "pipe", "plate"])
@pytest.mark.parametrize(("spacing", "kept"), [(None, "6 ft"), ("9 ft", "9 ft")])
def test_another_rod_is_said_to_stand_apart_from_the_first(kind: str, spacing: str | None, kept: str) -> None:
    """The first has a spacing from then on, unless the plan says one."""
    facts = {"kind": kind, "diameter": "3/4 in", **({"spacing": spacing} if spacing else {})}
    data = workshop({"south-rod": None, "north-rod": {"spacing": None, **facts}})
    line = line_at(reviewed(data), SECOND, WORKSHOP)
    assert line.answer.has == "north-rod alone, not measured"
    (then,) = after(data, line)
    electrodes = then["structures"]["workshop"]["grounding"]["electrodes"]
    assert {name: one["spacing"] for name, one in electrodes.items()} == {"north-rod": kept, "rod-1": "6 ft"}
    assert open_about_grounding(then) == []


def test_spacing_is_said_of_driven_electrodes_only() -> None:
    """A gas pipe beside the rod has none."""
    data = workshop({"south-rod": None, "gas": {"kind": "gas pipe", "bonded": False}})
    (then,) = after(data, line_at(reviewed(data), SECOND, WORKSHOP))
    assert "spacing" not in then["structures"]["workshop"]["grounding"]["electrodes"]["gas"]


def test_the_electrodes_are_named() -> None:
    """All that count, and no others."""
    data = workshop({"gas": {"kind": "gas pipe", "bonded": False}})
    assert line_at(reviewed(data), REQUIRED, WORKSHOP).answer.has == "north-rod, south-rod"
    second = line_at(reviewed(data), SECOND, WORKSHOP).answer
    assert (second.of, second.has) == ("electrodes", "north-rod, south-rod")
    line = line_at(reviewed(data), PERMITTED, f"{ELECTRODES}/north-rod")
    assert (line.answer.outcome.value, line.answer.has) == ("met", "rod")


def test_a_gas_pipe_is_taken_off_the_electrodes() -> None:
    """The way out."""
    data = workshop({"gas": {"kind": "gas pipe", "bonded": True}})
    assert after_each_proposal(data, PERMITTED, f"{ELECTRODES}/gas") == {
        "do not use it as an electrode": "does not apply"
    }


@pytest.mark.parametrize(
    ("taken", "name"),
    [
        ((), "footing"),
        (("footing",), "footing-2"),
        (("footing", "footing-2"), "footing-3"),
        (("footing-1",), "footing"),
    ],
)
def test_steel_of_the_footing_is_used_under_a_free_name(taken: tuple[str, ...], name: str) -> None:
    """Connected, long enough, and with a conductor of which nothing is left to ask."""
    rods = {one: {"kind": "rod", **_ROD} for one in (*taken, "other", "another")}
    data = with_only(rods)
    data["structures"]["workshop"]["new-footing"] = True
    (then,) = after(data, line_at(reviewed(data), FOOTING, WORKSHOP))
    assert then["structures"]["workshop"]["grounding"]["electrodes"][name] == {
        "kind": "concrete-encased",
        "bonded": True,
        "length": "20 ft",
    }
    assert open_about_grounding(then) == []


_ROD = {"bonded": True, "length": "8 ft", "diameter": "5/8 in", "driven": "8 ft", "spacing": "8 ft"}


# What supplies the structure


def second_supply(kind: str, cable: str, hot: str = "") -> dict[str, Any]:
    """One more circuit to the workshop, which has no rods."""
    wiring = {"cable": cable} if cable else {"wires": {"hot": hot, "ground": "1/0 AWG Cu THWN-2"}}
    return {
        "circuits": {"more": {"kind": kind, "from": "house-panel", "voltage": "120 V"}},
        "boxes": {"more-box": {"at": "workshop", "box": {}}},
        "routes": {
            "more": {
                "from": "house-panel",
                "to": "more-box",
                "raceway": "none" if cable else "PVC-80 4 in",
                "carries": {"more": wiring},
                "legs": [{"buried": "lawn", "length": "46 ft", "cover": "24 in"}],
            }
        },
    }


@pytest.mark.parametrize("kind", ["branch circuit", "feeder"])
def test_only_one_lone_branch_circuit_is_given_a_ground_instead_of_electrodes(kind: str) -> None:
    """With a feeder, or a second circuit, electrodes are asked for whatever comes along."""
    ground_alone = example("pottery-studio", {"routes": {"yard": {"carries": {"studio": BARE}}}})
    (way,) = line_at(reviewed(ground_alone), REQUIRED, STUDIO).answer.proposals
    assert way.words == "use UF-B 12/2, with its ground, on yard"
    feeder = merged(ground_alone, {"circuits": {"studio": {"kind": "feeder"}}})
    more = second_supply(kind, "UF-B 12/2")
    more["boxes"]["more-box"]["at"] = "studio"
    for data in (feeder, merged(ground_alone, more)):
        line = line_at(reviewed(data), REQUIRED, STUDIO)
        assert line.answer.outcome.value == "not met"
        assert [way.words for way in line.answer.proposals] == ["drive two ground rods at the structure, 6 ft apart"]


def test_a_lone_circuit_in_metal_needs_no_footing_and_one_without_a_ground_is_told_why() -> None:
    """The derivation names what the circuit does not bring."""
    bare = data_of("routes: {yard: {carries: {studio: {cable: UF-B 12/2 no ground}}}}")
    line = line_at(reviewed(example("pottery-studio", bare)), REQUIRED, STUDIO)
    assert ("studio brings no equipment grounding conductor", "/circuits/studio") in line.steps
    line = line_at(reviewed(example("pottery-studio")), REQUIRED, STUDIO)
    assert line.answer.why == "one branch circuit with an equipment grounding conductor supplies it"
    assert line_at(reviewed(example("pottery-studio")), SIZE, STUDIO).answer.why == line.answer.why
    assert line_at(reviewed(with_only(None)), SIZE, WORKSHOP).answer.why == "no electrode"


# The conductor to the electrodes

STEEL = {"frame": {"kind": "building steel", "bonded": True, "length": "12 ft"}}


@pytest.mark.parametrize(
    ("hot", "least"),
    [
        ("2 × 2 AWG Cu THWN-2", "8 AWG Cu"),
        ("2 × 1 AWG Cu THWN-2", "6 AWG Cu"),
        ("2 × 1/0 AWG Cu THWN-2", "6 AWG Cu"),
        ("2 × 2/0 AWG Cu THWN-2", "4 AWG Cu"),
        ("2 × 1000 kcmil Cu THWN-2", "2/0 AWG Cu"),
        ("2 × 1250 kcmil Cu THWN-2", "3/0 AWG Cu"),
        ("2 × 1/0 AWG Al XHHW-2", "8 AWG Cu"),
        ("2 × 2/0 AWG Al XHHW-2", "6 AWG Cu"),
        ("2 × 2000 kcmil Al XHHW-2", "3/0 AWG Cu"),
    ],
)
def test_by_the_size_and_metal_of_the_supply(hot: str, least: str) -> None:
    """To building steel the whole size of the table is asked for, beyond its last row as well."""
    line = line_at(reviewed(workshop(STEEL, hot)), SIZE, WORKSHOP)
    assert line.answer.needs == f"at least {least}"


@pytest.mark.parametrize(("hot", "least"), [("1/0 AWG Cu THWN-2", "8 AWG Cu"), ("3/0 AWG Cu THWN-2", "4 AWG Cu")])
def test_the_larger_of_two_supplies_decides(hot: str, least: str) -> None:
    """Whichever comes first in the plan: the feeder of 6 AWG asks for 8 AWG."""
    data = merged(workshop(STEEL), second_supply("feeder", "", hot))
    if hot.startswith("1/0"):
        data["routes"]["more"]["carries"]["more"]["wires"]["hot"] = "8 AWG Cu THWN-2"
    assert line_at(reviewed(data), SIZE, WORKSHOP).answer.needs == f"at least {least}"


def test_a_cap_that_asks_for_as_much_as_the_table_is_not_named() -> None:
    """Behind 1/0 AWG the table asks for 6 AWG, as much as a rod can use."""
    line = line_at(reviewed(workshop(hot="2 × 1/0 AWG Cu THWN-2")), SIZE, WORKSHOP)
    assert line.answer.needs == "at least 6 AWG Cu"
    assert not any("no larger than" in step for step, _ in line.steps)


@pytest.mark.parametrize(
    ("hot", "expected"), [("2 × 1/0 AWG Cu THWN-2", "met"), ("3 × 1/0 AWG Cu THWN-2", "cannot tell")]
)
def test_more_than_two_hots_are_side_by_side(hot: str, expected: str) -> None:
    """The table is not entered with one of them."""
    assert outcome(reviewed(workshop(hot=hot)), SIZE, WORKSHOP) == expected


@pytest.mark.parametrize(
    ("electrodes", "hot", "wire", "way"),
    [
        ({}, "", "10 AWG Cu bare", "use 6 AWG Cu bare"),  # 8 AWG would do, but has to be enclosed
        ({}, "", "8 AWG Al THW", "use 6 AWG Al THW"),
        (STEEL, "2 × 250 kcmil Cu THWN-2", "6 AWG Cu bare", "use 2 AWG Cu bare"),
    ],
)
def test_the_conductor_is_enlarged_to_a_size_that_may_run_exposed(
    electrodes: dict[str, Any], hot: str, wire: str, way: str
) -> None:
    """Of the same metal and insulation."""
    data = workshop(electrodes, hot, wire=wire)
    assert after_each_proposal(data, SIZE, WORKSHOP) == {way: "met"}


@pytest.mark.parametrize(
    ("hot", "ways"),
    [
        ("", {"use copper, 6 AWG Cu bare": "does not apply"}),
        ("2 × 3/0 AWG Cu THWN-2", {"use copper, 4 AWG Cu bare": "does not apply"}),
        ("4 × 1/0 AWG Cu THWN-2", {}),  # the size is for the authority
    ],
)
def test_aluminum_in_the_earth_is_changed_for_copper(hot: str, ways: dict[str, str]) -> None:
    """Of the size that the electrodes ask for."""
    data = workshop(STEEL, hot, wire="1/0 AWG Al bare")
    assert after_each_proposal(data, EARTH, WORKSHOP) == ways


@pytest.mark.parametrize(
    ("wire", "hit", "enclosure", "has", "step", "ways"),
    [
        ("8 AWG Cu bare", False, "none", "8 AWG, not enclosed", "smaller than 6 AWG", 2),
        ("8 AWG Cu bare", True, "none", "8 AWG, not enclosed", "smaller than 6 AWG", 1),
        ("8 AWG Cu bare", None, "PVC-40", "8 AWG, enclosed by PVC-40", "smaller than 6 AWG", 1),
        ("6 AWG Cu bare", True, "none", "6 AWG, not enclosed", "it can be hit", 1),
    ],
)
def test_why_a_conductor_is_enclosed(
    wire: str, hit: bool | None, enclosure: str, has: str, step: str, ways: int
) -> None:
    """A small one may be exchanged instead, where nothing can hit it."""
    data = workshop(wire=wire, **{"physical-damage": hit, "protection": enclosure})
    line = line_at(reviewed(data), GUARD, WORKSHOP)
    assert (line.answer.has, line.place) == (has, f"{WORKSHOP}/grounding/conductor/protection")
    assert (step, f"{WORKSHOP}/grounding/conductor") in line.steps
    found = after_each_proposal(data, GUARD, WORKSHOP)
    assert (len(found), set(found.values())) == (ways, {"met"})


def test_where_a_conductor_ends_and_how_it_is_joined() -> None:
    """As it is planned, and what would do."""
    data = workshop(spliced="irreversible", **{"lands-on": "neutral bar"})
    of = reviewed(data)
    assert line_at(of, "/electrode-conductor-in-one-length", WORKSHOP).answer.has == "irreversible"
    assert line_at(reviewed(workshop()), "/electrode-conductor-in-one-length", WORKSHOP).answer.has == "none"
    bar = line_at(of, "/electrode-conductor-on-the-ground-bar", WORKSHOP)
    assert (bar.answer.has, bar.place) == ("neutral bar", f"{WORKSHOP}/grounding/conductor/lands-on")
    (then,) = after(data, bar)
    assert then["structures"]["workshop"]["grounding"]["conductor"]["lands-on"] == "ground bar"
    joined = workshop(spliced="yes")
    (then,) = after(joined, line_at(reviewed(joined), "/electrode-conductor-in-one-length", WORKSHOP))
    assert then["structures"]["workshop"]["grounding"]["conductor"]["spliced"] == "irreversible"


# Rods


@pytest.mark.parametrize(
    ("rule", "fact", "value", "way"),
    [
        ("/length-of-a-rod", "length", "6 ft", "use a longer one: 8 ft"),
        ("/length-of-a-rod", "length", "2 m", "use a longer one: 2.44 m"),
        ("/diameter-of-a-rod", "diameter", "3/8 in", "use a thicker one: 5/8 in"),
        ("/diameter-of-a-rod", "diameter", "10 mm", "use a thicker one: 15.87 mm"),
        (
            "/rod-in-the-earth",
            "driven",
            "7 ft",
            "drive it flush, at a slant or in a trench if rock is in the way: 8 ft",
        ),
        ("/spacing-of-rods", "spacing", "5 ft", "drive it farther from the next: 6 ft"),
        ("/spacing-of-rods", "spacing", "1.5 m", "drive it farther from the next: 1.8 m"),
    ],
)
def test_a_rod_is_exchanged_or_driven_otherwise(rule: str, fact: str, value: str, way: str) -> None:
    """The size in the units of the plan, the fact that is wrong marked."""
    data = workshop({"north-rod": {fact: value, "listed": False}})
    assert line_at(reviewed(data), rule, f"{ELECTRODES}/north-rod").place == f"{ELECTRODES}/north-rod/{fact}"
    assert after_each_proposal(data, rule, f"{ELECTRODES}/north-rod") == {way: "met"}


def test_a_listing_is_not_asked_for_where_it_does_not_matter() -> None:
    """A rod of 5/8 in is thick enough without; the step is there only where the listing helped."""
    place = f"{ELECTRODES}/north-rod"
    thick, thin = (
        workshop({"north-rod": {"listed": True}}),
        workshop({"north-rod": {"listed": True, "diameter": "1/2 in"}}),
    )
    assert str(line_at(reviewed(thick), "/diameter-of-a-rod", place).answer.needs) == "5/8 in"
    line = line_at(reviewed(thin), "/diameter-of-a-rod", place)
    assert (line.answer.outcome.value, str(line.answer.needs)) == ("met", "1/2 in")
    assert ("it is listed", f"{place}/listed") in line.steps


@pytest.mark.parametrize(("unit", "size"), [("5 ft", "6 ft"), ("1.5 m", "1.8 m")])
def test_one_gap_is_told_once(unit: str, size: str) -> None:
    """Of two rods that stand too close, the first; its way out moves both."""
    data = workshop({"north-rod": {"spacing": unit}, "south-rod": {"spacing": unit}})
    place = f"{ELECTRODES}/north-rod"
    assert line_at(reviewed(data), APART, place).place == f"{place}/spacing"
    assert after_each_proposal(data, APART, place) == {f"drive north-rod and south-rod farther apart: {size}": "met"}
    other = line_at(reviewed(data), APART, f"{ELECTRODES}/south-rod")
    assert (other.answer.outcome.value, other.answer.why) == ("does not apply", "the same gap as at north-rod")


@pytest.mark.parametrize(
    ("electrodes", "expected"),
    [
        ({"south-rod": {"spacing": "5 ft"}, "third": {"kind": "plate", "spacing": "5 ft"}}, ["not met"] * 3),
        ({"south-rod": {"spacing": "6 ft"}}, ["not met", "met"]),
        ({"south-rod": {"spacing": None}}, ["not met", "cannot tell"]),
    ],
)
def test_gaps_that_are_not_the_same(electrodes: dict[str, Any], expected: list[str]) -> None:
    """Among three each is told; of two, the one that is stated too small."""
    data = workshop({"north-rod": {"spacing": "5 ft"}, **electrodes})
    assert [line.answer.outcome.value for line in lines(reviewed(data), APART, ELECTRODES)] == expected


@pytest.mark.parametrize(
    ("electrodes", "why"),
    [
        ({}, "no electrode"),
        ({"frame": {"kind": "building steel", "length": "12 ft"}}, "another kind of electrode is there"),
    ],
)
def test_where_no_second_electrode_is_asked_for(electrodes: dict[str, Any], why: str) -> None:
    """Without any, the first is what is wanting."""
    assert line_at(reviewed(with_only(electrodes)), SECOND, WORKSHOP).answer.why == why


def test_a_measured_rod_and_a_pipe_are_written_up_with_their_own_rows() -> None:
    """Resistance for the one, the rule on water pipe for the other."""
    rod = line_at(reviewed(workshop({"south-rod": None, "north-rod": {"resistance": "26 ohm"}})), SECOND, WORKSHOP)
    assert (rod.answer.rows, rod.place) == (("rod-two-unless-25-ohm",), f"{ELECTRODES}/north-rod/resistance")
    alone = line_at(reviewed(workshop({"south-rod": None})), SECOND, WORKSHOP)
    assert (alone.answer.rows, alone.place) == (("rod-two-unless-25-ohm",), f"{ELECTRODES}/north-rod")
    pipe = line_at(
        reviewed(with_only({"pipe": {"kind": "metal water pipe", "bonded": True, "length": "12 ft"}})), SECOND, WORKSHOP
    )
    assert (pipe.answer.rows, pipe.place) == (("water-pipe-backed",), f"{ELECTRODES}/pipe")


@pytest.mark.parametrize(("kind", "why"), [("plate", "not a rod or pipe"), ("ground ring", "not a rod or pipe")])
def test_length_and_thickness_are_asked_of_rods_and_pipes_only(kind: str, why: str) -> None:
    """A plate has neither."""
    of = reviewed(workshop({"thing": {"kind": kind}}))
    for rule in ("/length-of-a-rod", "/diameter-of-a-rod", "/rod-in-the-earth"):
        assert line_at(of, rule, f"{ELECTRODES}/thing").answer.why == why


def test_one_old_three_wire_feeder_is_enough_to_bond_neutral_and_ground_bar() -> None:
    """Whatever else comes to the structure: where the electrode conductor ends makes no difference then."""
    old = {
        "circuits": {"workshop-feeder": {"existing": True}},
        "routes": {"yard": {"carries": {"workshop-feeder": {"wires": {"ground": None}}}}},
    }
    data = merged(merged(workshop(**{"lands-on": "neutral bar"}), old), second_supply("branch circuit", "UF-B 12/2"))
    assert outcome(reviewed(data), "/electrode-conductor-on-the-ground-bar", WORKSHOP) == "does not apply"
