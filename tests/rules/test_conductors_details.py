"""Conductors: ways out that settle what they are for, two hots in every part, and places that look alike."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.rulebook import Outcome
from support.reviews import example, lines, outcome, reviewed, reviewed_example

WET, INSIDE, NM = "/cable-where-it-is-damp-or-wet", "/underground-types-inside-a-building", "/nm-cable-by-building"
SPAN, SUN, CORD, HOTS = "/uf-cable-overhead", "/cable-in-the-sun", "/cord-as-fixed-wiring", "/hots-for-the-voltage"
CABLE, LEG, CIRCUIT = "/routes/yard/carries/studio", "/routes/yard/legs/0", "/circuits/studio"


def laid(cable: dict[str, Any], *legs: dict[str, Any], raceway: str = "none") -> dict[str, Any]:
    """The pottery studio with other wiring between house and studio."""
    route = {"raceway": raceway, "carries": {"studio": cable}, "legs": list(legs)}
    return example("pottery-studio", {"routes": {"yard": route}})


def ways_that_settle(data: dict[str, Any], rule: str, place: str) -> dict[str, bool]:
    """The words of each way out that a rule offers, and whether the rule is met after it."""
    (line,) = lines(reviewed(data), rule, place)
    assert line.answer.outcome is Outcome.NOT_MET
    return {
        way.words: outcome(reviewed(applied(data, complete(data, way.patch))), rule, place) == "met"
        for way in line.answer.proposals
    }


ON_WALL = {"on": "outside wall", "location": "wet", "sunlight": False}
INSIDE_WALL = {"on": "inside wall", "location": "dry"}
OVERHEAD = {"overhead": "yard", "messenger": False}
SUNNY = {"on": "outside wall", "location": "wet", "sunlight": True}


@pytest.mark.parametrize(
    ("data", "rule", "place", "ways"),
    [
        (
            laid({"cable": "MC 12/2", "listed-for": "dry"}, ON_WALL),
            WET,
            CABLE,
            ["use MC cable that is marked for wet places", "use UF-B 12/2"],
        ),
        (
            laid({"cable": "MHF 2-2-4-6 Al", "building-wire": False}, INSIDE_WALL),
            INSIDE,
            CABLE,
            ["use one whose wires are marked as building wire too", "use SER 2-2-4-6 Al"],
        ),
        (laid({"cable": "UF-B 12/2"}, OVERHEAD), SPAN, LEG, ["hang the cable on a messenger wire"]),
        (
            laid({"cable": "UF-B 12/2", "sunlight-resistant": False}, SUNNY),
            SUN,
            CABLE,
            ["use cable marked as resistant to sunlight", "run it in PVC conduit there (PVC-80 3/4 in)"],
        ),
        (
            laid({"cable": "cord 12/3"}, INSIDE_WALL),
            CORD,
            "/routes/yard",
            ["wire it with UF-B 12/2", "wire it with NM-B 12/2"],
        ),
    ],
)
def test_ways_out(data: dict[str, Any], rule: str, place: str, ways: list[str]) -> None:
    """What is offered, each of which settles its finding, or leaves nothing for the rule to look at."""
    found = ways_that_settle(data, rule, place)
    assert list(found) == ways
    for words, met in found.items():
        assert met or words.startswith("run it in PVC conduit"), words


def test_a_leg_in_conduit_is_out_of_the_sun() -> None:
    """The way out that leaves nothing to look at."""
    data = laid({"cable": "UF-B 12/2", "sunlight-resistant": False}, SUNNY)
    (line,) = lines(reviewed(data), SUN, CABLE)
    after = reviewed(applied(data, complete(data, line.answer.proposals[1].patch)))
    assert outcome(after, SUN, CABLE) == "does not apply"


@pytest.mark.parametrize(
    ("cable", "legs", "marked"),
    [
        ("NM-B 12/2", (ON_WALL, SUNNY), True),
        ("NM-B 12/2", (ON_WALL,), False),
        ("NM-B 12/2", (ON_WALL, {"on": "outside wall", "location": "wet"}), False),
    ],
)
def test_the_marking_for_the_sun_goes_with_another_cable_where_any_leg_is_in_it(
    cable: str, legs: tuple[dict[str, Any], ...], marked: bool
) -> None:
    """One sunny leg is enough; where the sun is not said to shine nothing is marked."""
    data = laid({"cable": cable}, *legs)
    (line,) = lines(reviewed(data), WET, CABLE)
    (way,) = line.answer.proposals
    assert (way.words == "use UF-B 12/2, marked as resistant to sunlight") is marked
    assert [edit["value"] for edit in way.patch] == (["UF-B 12/2", True] if marked else ["UF-B 12/2"])


def test_a_feeder_cable_for_indoors_needs_no_marking_for_the_sun() -> None:
    """SER is proposed for inside a building, wherever the rest of the route lies."""
    data = laid({"cable": "MHF 2-2-4-6 Al", "building-wire": False}, INSIDE_WALL, SUNNY)
    (line,) = lines(reviewed(data), INSIDE, CABLE)
    assert [len(way.patch) for way in line.answer.proposals] == [1, 1]
    assert line.answer.proposals[-1].words == "use SER 2-2-4-6 Al"


@pytest.mark.parametrize(
    ("leg", "row"),
    [
        ({"on": "outside wall", "location": "damp"}, "outside-wiring-on-building"),
        ({"on": "inside wall", "location": "damp"}, "wet-inside-outdoor-above-grade"),
    ],
)
def test_wiring_on_a_building_is_wiring_on_its_outside(leg: dict[str, Any], row: str) -> None:
    """A damp wall inside is another place."""
    (line,) = lines(reviewed(laid({"cable": "NM-B 12/2"}, leg)), WET, CABLE)
    assert line.answer.rows == ("nm-not-wet-damp", row)


@pytest.mark.parametrize(
    ("carried", "leg", "expected"),
    [
        (
            {"cable": None, "wires": {"hot": "12 AWG Cu THWN-2", "neutral": "12 AWG Cu THWN-2"}},
            OVERHEAD,
            "does not apply",
        ),
        ({"cable": "UF-B 12/2"}, INSIDE_WALL, "does not apply"),
        ({"cable": "NM-B 12/2"}, OVERHEAD, "does not apply"),
        ({"cable": "UF-B 12/2"}, OVERHEAD, "not met"),
        ({"cable": "UF-B 12/2"}, {**OVERHEAD, "messenger": True}, "met"),
    ],
)
def test_only_uf_cable_in_the_air_hangs_on_a_messenger(
    carried: dict[str, Any], leg: dict[str, Any], expected: str
) -> None:
    """Not wires, not what stays on a wall."""
    carried = {key: value for key, value in carried.items() if value is not None}
    data = laid({}, leg)
    data["routes"]["yard"]["carries"]["studio"] = carried
    assert outcome(reviewed(data), SPAN, LEG) == expected


def test_a_commercial_building_at_one_end_is_enough_to_ask() -> None:
    """NM cable between a home and a shop is for the authority."""
    of = reviewed_example("pottery-studio", {"structures": {"studio": {"use": "commercial"}}})
    data = laid({"cable": "NM-B 12/2"}, INSIDE_WALL)
    assert outcome(reviewed(data), NM, CABLE) == "met"
    data["structures"]["studio"]["use"] = "commercial"
    assert outcome(reviewed(data), NM, CABLE) == "cannot tell"
    assert of is not None


def test_a_cord_that_is_partly_buried_is_looked_at_as_buried_wiring() -> None:
    """Whatever its other legs are."""
    data = laid({"cable": "cord 12/3"}, INSIDE_WALL, {"buried": "lawn", "cover": "24 in"})
    assert outcome(reviewed(data), CORD, "/routes/yard") == "does not apply"


def hots(circuit: dict[str, Any], **carried: dict[str, Any]) -> dict[str, Any]:
    """The pottery studio with another circuit, and other wiring on the routes named."""
    data = example("pottery-studio", {"circuits": {"studio": circuit}})
    for name, wiring in carried.items():
        data["routes"][name.replace("_", "-")]["carries"]["studio"] = wiring
    return data


TWO = {"wires": {"hot": "2 × 12 AWG Cu THWN-2", "neutral": "12 AWG Cu THWN-2", "ground": "12 AWG Cu THWN-2"}}
ONE = {"wires": {"hot": "12 AWG Cu THWN-2", "neutral": "12 AWG Cu THWN-2", "ground": "12 AWG Cu THWN-2"}}
CABLE_2, CABLE_3 = {"cable": "UF-B 12/2"}, {"cable": "UF-B 12/3"}
SHARED = {"multiwire": True, "voltage": "120/240 V"}


@pytest.mark.parametrize(
    ("circuit", "yard", "expected"),
    [
        ({"voltage": "120 V"}, CABLE_2, "does not apply"),
        ({"voltage": "240 V"}, CABLE_2, "met"),
        ({"voltage": "240 V"}, ONE, "not met"),
        ({"voltage": "240 V"}, TWO, "met"),
        (SHARED, CABLE_2, "not met"),
        (SHARED, ONE, "not met"),
        (SHARED, TWO, "not met"),
    ],
)
def test_two_hots(circuit: dict[str, Any], yard: dict[str, Any], expected: str) -> None:
    """Two hot wires, or the insulated conductors that a cable needs for them; the other parts are of 12/2."""
    assert outcome(reviewed(hots(circuit, yard=yard)), HOTS, CIRCUIT) == expected


@pytest.mark.parametrize(("yard", "expected"), [(CABLE_3, "met"), (CABLE_2, "not met"), (TWO, "met"), (ONE, "not met")])
def test_a_multiwire_circuit(yard: dict[str, Any], expected: str) -> None:
    """Three insulated conductors in a cable, or two hot wires, in every part."""
    data = hots(SHARED, garage_wall=CABLE_3, ceiling=CABLE_3, yard=yard)
    (line,) = lines(reviewed(data), HOTS, CIRCUIT)
    assert line.answer.outcome.value == expected
    if expected == "not met":
        of = "hot wires" if "wires" in yard else "insulated conductors"
        assert (line.answer.of, line.place) == (f"{of} on yard", CABLE)
        assert "multiwire has two hots" in line.answer.why


ROOM = ", and PVC-80 1-1/4 in on yard"
"""Raceway that is sure to hold the thicker cable, whoever makes it."""


@pytest.mark.parametrize(
    ("circuit", "routes", "ways"),
    [
        (
            SHARED,
            {"garage_wall": CABLE_3, "ceiling": CABLE_3, "yard": ONE},
            {"pull a second hot: 2 × 12 AWG Cu THWN-2"},
        ),
        (
            SHARED,
            {"garage_wall": CABLE_3, "ceiling": CABLE_3, "yard": CABLE_2},
            {f"pull a second hot: UF-B 12/3{ROOM}"},
        ),
        (
            SHARED,
            {"garage_wall": CABLE_3, "ceiling": CABLE_2, "yard": ONE},
            {"pull a second hot: 2 × 12 AWG Cu THWN-2, UF-B 12/3"},
        ),
        (
            {"multiwire": True, "voltage": "120 V"},
            {"garage_wall": CABLE_3, "ceiling": CABLE_3, "yard": CABLE_2},
            {f"pull a second hot: UF-B 12/3{ROOM}", "state studio as a circuit of one hot"},
        ),
        (
            {"multiwire": True, "voltage": "120 V"},
            {"garage_wall": CABLE_3, "ceiling": CABLE_3, "yard": {"cable": "MHF 2-2-4 Al"}},
            {"state studio as a circuit of one hot"},
        ),
        (SHARED, {"garage_wall": CABLE_3, "ceiling": CABLE_2, "yard": {"cable": "MHF 2-2-4 Al"}}, set()),
        (
            {"multiwire": True, "voltage": None},
            {"garage_wall": CABLE_3, "ceiling": CABLE_3, "yard": CABLE_2},
            {f"pull a second hot: UF-B 12/3{ROOM}"},
        ),
    ],
)
def test_ways_to_two_hots(circuit: dict[str, Any], routes: dict[str, dict[str, Any]], ways: set[str]) -> None:
    """A wire, or a cable with one conductor more, in every part; or a circuit that has one hot after all."""
    data = hots(circuit, **routes)
    (line,) = lines(reviewed(data), HOTS, CIRCUIT)
    assert {way.words for way in line.answer.proposals} == ways
    for way in line.answer.proposals:
        after = reviewed(applied(data, complete(data, way.patch)))
        expected = "does not apply" if way.words.startswith("state") else "met"
        assert outcome(after, HOTS, CIRCUIT) == expected, way.words


@pytest.mark.parametrize(("voltage", "multiwire"), [(None, None), ("24 V", None), (None, True)])
def test_low_voltage_has_no_hots_to_count(voltage: str | None, multiwire: bool | None) -> None:
    """Nothing is asked about it."""
    data = example("pottery-studio")
    garden = {"kind": "low-voltage", "from": "ceiling-box/pack", "voltage": voltage, "multiwire": multiwire}
    data["circuits"]["garden"] = {key: value for key, value in garden.items() if value is not None}
    data["boxes"]["ceiling-box"]["devices"]["pack"] = {"transformer": "60 VA", "circuit": "studio"}
    (line,) = lines(reviewed(data), HOTS, "/circuits/garden")
    assert (line.answer.outcome, line.answer.why) == (Outcome.DOES_NOT_APPLY, "low voltage")


def test_wires_on_a_wall_are_no_cable_in_the_sun() -> None:
    """Their insulation is looked at elsewhere."""
    data = laid({"cable": "UF-B 12/2"}, SUNNY)
    data["routes"]["yard"]["carries"]["studio"] = ONE
    assert outcome(reviewed(data), SUN, CABLE) == "does not apply"


def test_a_dry_leg_is_no_step_towards_wet_places() -> None:
    """The derivation names the damp and wet legs only."""
    data = example("joinery-workshop")
    (line,) = lines(reviewed(data), "/wires-where-it-is-damp-or-wet", "/routes/yard/carries/workshop-feeder")
    assert line.steps and not any("dry place" in words for words, _ in line.steps)
    (line,) = lines(reviewed(data), "/wires-where-it-is-damp-or-wet", "/routes/garage-run/carries/workshop-feeder")
    assert (line.answer.outcome, line.steps) == (Outcome.DOES_NOT_APPLY, ())


def test_all_cords_of_a_route_are_exchanged_together() -> None:
    """Each for cable of its own size; one that cannot be exchanged leaves no way out for the route."""
    more = {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}
    carries = {"studio": {"cable": "cord 12/3"}, "more": {"cable": "cord 14/3"}}
    data = example("pottery-studio", {"circuits": {"more": more}, "routes": {"garage-wall": {"carries": carries}}})
    data["boxes"]["terrace-box"]["devices"]["terrace-outlet"]["circuit"] = "studio"
    assert ways_that_settle(data, CORD, "/routes/garage-wall") == {
        "wire it with UF-B 12/2, UF-B 14/2": True,
        "wire it with NM-B 12/2, NM-B 14/2": True,
    }
    data["routes"]["garage-wall"]["carries"]["more"]["cable"] = "cord 14/2"
    assert ways_that_settle(data, CORD, "/routes/garage-wall") == {}


NEUTRAL = "/neutral-for-the-voltage"
NO_NEUTRAL = {"wires": {"hot": "2 × 12 AWG Cu THWN-2", "ground": "12 AWG Cu THWN-2"}}


@pytest.mark.parametrize(
    ("circuit", "routes", "first", "ways"),
    [
        (
            {},
            {"garage_wall": NO_NEUTRAL, "yard": NO_NEUTRAL},
            "garage-wall",
            {"bring a neutral: 12 AWG Cu THWN-2": True},
        ),
        ({}, {"yard": NO_NEUTRAL, "ceiling": NO_NEUTRAL}, "yard", {"bring a neutral: 12 AWG Cu THWN-2": True}),
        (
            SHARED,
            {"garage_wall": CABLE_3, "yard": NO_NEUTRAL, "ceiling": CABLE_3},
            "yard",
            {"bring a neutral: 12 AWG Cu THWN-2": True},
        ),
        (
            {"voltage": "120/240 V"},
            {"garage_wall": CABLE_3, "yard": CABLE_2, "ceiling": CABLE_2},
            "yard",
            {f"bring a neutral: UF-B 12/3{ROOM}": True},
        ),
        ({}, {"yard": {"wires": {"ground": "12 AWG Cu THWN-2"}}}, "yard", {}),
    ],
)
def test_the_first_part_without_a_neutral_is_named_and_all_get_one(
    circuit: dict[str, Any], routes: dict[str, dict[str, Any]], first: str, ways: dict[str, bool]
) -> None:
    """From the supply on; where the hots are not known, no wire is made up."""
    data = hots(circuit, **routes)
    (line,) = lines(reviewed(data), NEUTRAL, CIRCUIT)
    assert (line.answer.of, line.place) == (f"neutral on {first}", f"/routes/{first}/carries/studio")
    assert ways_that_settle(data, NEUTRAL, CIRCUIT) == ways


def test_a_part_of_unknown_wiring_may_have_a_neutral() -> None:
    """What carries it is asked for by others; the parts that are stated are met."""
    assert outcome(reviewed(hots({}, yard={})), NEUTRAL, CIRCUIT) == "met"
    unknown = hots({}, garage_wall={}, yard={}, ceiling={})
    assert outcome(reviewed(unknown), NEUTRAL, CIRCUIT) == "does not apply"
    assert outcome(reviewed(hots(SHARED, garage_wall={}, yard={}, ceiling={})), HOTS, CIRCUIT) == "does not apply"


@pytest.mark.parametrize(("use", "expected"), [("agricultural", "not met"), ("accessory", "met")])
def test_a_farm_building_at_one_end_is_enough_against_nm_cable(use: str, expected: str) -> None:
    """Between the house and a building with livestock."""
    data = laid({"cable": "NM-B 12/2"}, INSIDE_WALL)
    data["structures"]["studio"] |= {"use": use, "farm-conditions": True}
    (line,) = lines(reviewed(data), NM, CABLE)
    assert line.answer.outcome.value == expected
    assert (
        ("livestock, or much dust, damp or corrosive vapor", "/structures/studio/farm-conditions") in line.steps
    ) == (expected == "not met")


@pytest.mark.parametrize(
    ("cable", "ways"),
    [
        ("MC 6-6-6-8 Al", ["use MC cable that is marked for wet places", "use MHF 6-6-6-8 Al"]),
        ("MC 6-6-6-8 Cu", ["use MC cable that is marked for wet places"]),
    ],
)
def test_the_assembly_for_the_ground_is_made_of_aluminum(cable: str, ways: list[str]) -> None:
    """It is not offered in place of copper."""
    data = laid({"cable": cable, "listed-for": "dry"}, ON_WALL)
    assert list(ways_that_settle(data, WET, CABLE)) == ways


def test_only_the_damp_and_wet_legs_of_a_route_are_steps() -> None:
    """A dry one on the way is none."""
    data = example("joinery-workshop")
    data["routes"]["yard"]["legs"].append({"on": "inside wall", "length": "4 ft", "location": "dry"})
    (line,) = lines(reviewed(data), "/wires-where-it-is-damp-or-wet", "/routes/yard/carries/workshop-feeder")
    assert line.answer.outcome is Outcome.MET
    assert {place for _, place in line.steps} == {f"/routes/yard/legs/{number}" for number in (0, 2, 3, 5)}


def test_inside_a_building_copper_is_exchanged_for_copper() -> None:
    """Service cable is made of either metal."""
    data = laid({"cable": "USE-2 2-2-2-4 Cu"}, INSIDE_WALL)
    assert ways_that_settle(data, INSIDE, CABLE) == {"use SER 2-2-2-4 Cu": True}
