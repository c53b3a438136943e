"""Other sizes of cable and wire as a plan writes them, and the ways out that are made of them."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan import Cable, Conductor
from precover.units import ConductorSize
from precover_rules.sizing.rewiring import cable_of, wire_of
from support.reviews import example, lines, outcome, reviewed
from support.trenches import after_each_proposal

AMPACITY, CAPPED = "/breaker-for-the-ampacity", "/breaker-for-small-wire"
BENCH, PLANER, STUDIO = "/circuits/bench-outlets", "/circuits/planer", "/circuits/studio"


@pytest.mark.parametrize(
    ("written", "insulated", "ground", "expected"),
    [
        ("NM-B 12/2", ["10", "10"], None, "NM-B 10/2"),
        ("UF-B 12/2 no ground", ["10", "10"], None, "UF-B 10/2 no ground"),
        ("NM-B 12/2", ["10", "10"], "10", "NM-B 10/2"),
        ("NM-B 12/2", ["10", "10"], "8", "NM-B 10-10-8 Cu"),
        ("SER 2-2-2-4 Al", ["1/0", "1/0", "1/0"], None, "SER 1/0-1/0-1/0-4 Al"),
        ("SER 2-2-2-4 Al", ["1/0", "1/0", "1/0"], "2", "SER 1/0-1/0-1/0-2 Al"),
        ("SEU 2-2-2 Al", ["1/0", "1/0", "1/0"], "4", "SEU 1/0-1/0-1/0 Al"),
        ("MC 2/3", ["1", "1", "1"], None, "MC 1/3"),
        ("MC 2/2", ["1/0", "1/0"], None, "MC 1/0-1/0-2 Cu"),
        ("MC 2/3 Al", ["1/0", "1/0", "1/0"], "1", "MC 1/0-1/0-1/0-1 Al"),
        ("MC 2/3 no ground", ["1/0", "1/0", "1/0"], None, None),
        ("MC 2/3 no ground", ["1/0", "1/0", "2"], None, None),
        ("low-voltage 2/2", ["1/0", "1/0"], None, None),
        ("low-voltage 2/2", ["1", "1"], None, "low-voltage 1/2"),
        ("low-voltage 12/2", ["10", "10"], "8", "low-voltage 10/2"),
        ("NM-B 12/3", ["10", "10", "12"], None, "NM-B 10-10-12-12 Cu"),
    ],
)
def test_a_cable_in_other_sizes(written: str, insulated: list[str], ground: str | None, expected: str | None) -> None:
    """Written as it was, or size by size where its ground is another than its kind brings, or a size has a stroke itself; and
    read as what was meant."""
    of_ground = None if ground is None else ConductorSize(ground)
    sizes = [ConductorSize(one) for one in insulated]
    found = cable_of(Cable.parse(written), sizes, of_ground)
    assert found == expected
    if found is not None:
        assert list(Cable.parse(found).insulated) == sizes


def test_a_wire_in_another_size() -> None:
    """Count, metal and insulation stay."""
    assert wire_of(Conductor.parse("2 x 6 AWG Cu THWN-2"), ConductorSize("4")) == "2 × 4 AWG Cu THWN-2"
    assert wire_of(Conductor.parse("10 AWG Al XHHW-2"), ConductorSize("8")) == "8 AWG Al XHHW-2"


def test_cable_is_not_offered_in_sizes_that_are_not_made() -> None:
    """UF-B ends at 4 AWG (common practice): 120 ft of it at 16 A and 120 V would ask for more."""
    legs = [{"buried": "lawn", "length": "400 ft", "cover": "24 in"}]
    data = example("pottery-studio", {"circuits": {"studio": {"load": "16 A"}}, "routes": {"yard": {"legs": legs}}})
    (line,) = [one for one in lines(reviewed(data), "/drop-of-one-circuit") if one.subject == STUDIO]
    assert not [way for way in line.answer.proposals if way.words.startswith("run studio")]


@pytest.mark.parametrize("cable", ["cord 12/3", "low-voltage 12/2", "MC 12/2"])
def test_a_drop_over_miles_of_any_cable(cable: str) -> None:
    """No cable that nobody can write, and none of a size that cord is not made in (2 AWG, common practice)."""
    legs = [{"on": "inside wall", "length": "9000 ft", "location": "dry", "physical-damage": False}]
    yard = {"raceway": "none", "legs": legs, "carries": {"studio": {"cable": cable}}}
    data = example("pottery-studio", {"circuits": {"studio": {"load": "16 A"}}, "routes": {"yard": yard}})
    (line,) = [one for one in lines(reviewed(data), "/drop-of-one-circuit") if one.subject == STUDIO]
    assert line.answer.outcome.value == "not met"
    assert not [way for way in line.answer.proposals if "cable" in str(way.patch)]


def test_larger_wire_brings_its_ground() -> None:
    """12 AWG run in 8 AWG for its length: the ground grows in the same ratio, from what the breaker asks for."""
    far = {"legs": [{"on": "inside wall", "length": "150 ft", "location": "dry", "physical-damage": False}]}
    data = example("joinery-workshop", {"circuits": {"bench-outlets": {"load": "14 A"}}, "routes": {"bench": far}})
    rule = "/drop-of-one-circuit"
    (line,) = [one for one in lines(reviewed(data), rule) if one.subject == BENCH]
    (way,) = [way for way in line.answer.proposals if way.words.startswith("run bench-outlets")]
    values = {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch if "/bench/" in edit["path"]}
    assert len(set(values.values())) == 1
    assert set(values) == {"hot", "neutral", "ground"}
    assert set(after_each_proposal(data, rule, BENCH).values()) == {"met"}


def test_grounds_grow_on_every_route() -> None:
    """One way out for all of them, so that nothing of the finding is left."""
    carries = {"workshop-feeder": {"wires": {"hot": "2 × 1 AWG Cu THWN-2", "neutral": "1 AWG Cu THWN-2"}}}
    data = example("joinery-workshop", {"routes": {"garage-run": {"carries": carries}, "yard": {"carries": carries}}})
    rule, feeder = "/ground-grows-with-the-hots", "/circuits/workshop-feeder"
    after = after_each_proposal(data, rule, feeder)
    assert list(after.values()) == ["met"]
    assert next(iter(after)).endswith("all the way")


# Cables that heat each other, and breakers that are to be kept


def bundled(spaced: bool, raceway: str = "none") -> dict[str, Any]:
    """The joinery workshop with four more circuits beside the lights, in one bundle of ten conductors."""
    names = [f"more-{number}" for number in range(4)]
    breaker = {"rating": "15 A", "poles": 1, "ground-fault": "none", "readily-accessible": True}
    circuit = {"kind": "branch circuit", "from": "workshop-panel", "voltage": "120 V", "multiwire": False}
    return example(
        "joinery-workshop",
        {
            "circuits": {name: {**circuit, "breaker": breaker} for name in names},
            "routes": {
                "lighting": {
                    "raceway": raceway,
                    "spaced": spaced,
                    "carries": {name: {"cable": "NM-B 14/2"} for name in names},
                    "legs": [{"in": "wall framing", "length": "40 ft", "location": "dry"}],
                }
            },
        },
    )


def test_bundled_cables_may_be_kept_apart() -> None:
    """25 A x 0.96 x 50 % is below 15 A, and no breaker may be the next larger but where one outlet is on it."""
    data = bundled(spaced=False)
    data["boxes"]["switch-box"]["devices"] |= {
        "outlet": {"receptacle": "15 A", "circuit": "more-0"},
        "second": {"receptacle": "15 A", "circuit": "more-0"},
    }
    data["boxes"]["switch-box"]["devices"]["light-switch"]["circuit"] = "lights"
    assert outcome(reviewed(data), AMPACITY, "/circuits/more-0") == "not met"
    after = after_each_proposal(data, AMPACITY, "/circuits/more-0")
    assert next(iter(after.items())) == ("keep the cables apart on lighting", "met")
    in_raceway = {**data, "routes": {**data["routes"]}}
    in_raceway["routes"]["lighting"] = {**data["routes"]["lighting"], "raceway": "EMT 2 in"}
    assert not [words for words in after_each_proposal(in_raceway, AMPACITY, "/circuits/more-0") if "apart" in words]


def test_the_derivation_is_about_the_route_that_is_too_weak() -> None:
    """What was worked out for the others is left out of it."""
    data = example("joinery-workshop", {"site": {"design-high": "150 °F"}})
    assert outcome(reviewed(data), AMPACITY, "/circuits/workshop-feeder") == "not met"
    (line,) = [one for one in lines(reviewed(data), AMPACITY) if one.subject == "/circuits/workshop-feeder"]
    routes = {place.split("/")[2] for _, place in line.steps if place and place.startswith("/routes/")}
    assert len(routes) == 1
    assert len(line.steps) == len(set(line.steps))


def test_no_smaller_breaker_where_an_appliance_needs_the_larger() -> None:
    """A 30 A receptacle is there for what draws more than 20 A: its wire is enlarged."""
    wires = {"wires": {"hot": "2 × 12 AWG Cu THHN", "ground": "10 AWG Cu THHN"}}
    data = example("joinery-workshop", {"routes": {"planer-run": {"carries": {"planer": wires}}}})
    assert list(after_each_proposal(data, CAPPED, PLANER)) == ["use 10 AWG Cu on planer-run"]


@pytest.mark.parametrize(("load", "lower"), [("15 A", True), ("16 A", False), (None, True)])
def test_no_smaller_breaker_than_the_planned_load(load: str | None, lower: bool) -> None:
    """14 AWG behind 20 A: 15 A would do for its size, not for more load than that."""
    routes = {"lighting": {"carries": {"lights": {"cable": "NM-B 14/2"}}}}
    circuits = {"lights": {"load": load, "breaker": {"rating": "20 A"}}}
    data = example("joinery-workshop", {"circuits": circuits, "routes": routes})
    words = list(after_each_proposal(data, CAPPED, "/circuits/lights"))
    assert ("use a 15 A breaker for lights" in words) is lower


@pytest.mark.parametrize(("heater", "lower"), [("1440 W", True), ("1450 W", False)])
def test_no_smaller_breaker_than_the_heat(heater: str, lower: bool) -> None:
    """12 A at 125 % is what 15 A carries."""
    routes = {name: {"carries": {"lights": {"cable": "NM-B 14/2"}}} for name in ("lighting", "porch-lighting")}
    heat = {"porch-light-box": {"devices": {"porch-lamp": None, "heat": {"heater": heater, "hardwired": True}}}}
    circuits = {"lights": {"breaker": {"rating": "20 A"}}}
    data = example("joinery-workshop", {"circuits": circuits, "boxes": heat, "routes": routes})
    words = list(after_each_proposal(data, CAPPED, "/circuits/lights"))
    assert ("use a 15 A breaker for lights" in words) is lower
