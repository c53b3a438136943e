"""Breakers against the ampacity of conductors where they lie."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from precover.rulebook import Severity
from support.reviews import asked, data_of, example, lines, merged, outcome, reviewed, reviewed_example

SMALL, AMPACITY = "overcurrent/breaker-for-small-wire", "overcurrent/breaker-for-the-ampacity"
PLANER, FEEDER, STUDIO = "/circuits/planer", "/circuits/workshop-feeder", "/circuits/studio"


def planer(
    wire: str,
    rating: str | None = "30 A",
    high: str | None = "86 °F",
    run: dict[str, Any] | None = None,
    **circuit: Any,
) -> Review:
    """The planer's circuit of the workshop: two wires in conduit 18 ft long, with one receptacle."""
    carried = {"wires": {"hot": f"2 × {wire}"}} if "AWG" in wire else {"wires": None, "cable": wire}
    return reviewed_example(
        "joinery-workshop",
        {
            "site": {"design-high": high},
            "circuits": {"planer": {"breaker": {"rating": rating}, **circuit}},
            "routes": {"planer-run": {"carries": {"planer": carried}, **(run or {})}},
        },
    )


def line(of: Review, place: str, rule: str = AMPACITY) -> Line:
    """The one line of a rule on a circuit."""
    (found,) = [one for one in lines(of, rule, place) if one.subject == place]
    return found


def steps(of: Review, place: str) -> str:
    """The derivation of an ampacity, in one text."""
    return "; ".join(words for words, _ in line(of, place).steps)


@pytest.mark.parametrize(
    ("wire", "rating", "expected"),
    [
        ("14 AWG Cu THHN", "15 A", "met"),
        ("14 AWG Cu THHN", "20 A", "not met"),
        ("12 AWG Cu THHN", "20 A", "met"),
        ("12 AWG Cu THHN", "25 A", "not met"),
        ("10 AWG Cu THHN", "30 A", "met"),
        ("10 AWG Cu THHN", "35 A", "not met"),
        ("12 AWG Al THHN", "15 A", "met"),
        ("12 AWG Al THHN", "20 A", "not met"),
        ("10 AWG Al THHN", "25 A", "met"),
        ("10 AWG Al THHN", "30 A", "not met"),
        ("8 AWG Cu THHN", "60 A", "does not apply"),
        ("14 AWG Cu THHN", None, "cannot tell"),
    ],
)
def test_small_wire_by_its_size(wire: str, rating: str | None, expected: str) -> None:
    """Whatever its ampacity; and the ampacity rule does not tell the same mistake again."""
    of = planer(wire, rating)
    assert line(of, PLANER, SMALL).answer.outcome.value == expected
    assert line(of, PLANER, SMALL).rule.severity is Severity.DANGER
    if expected == "not met":
        assert outcome(of, AMPACITY, PLANER) == "does not apply"


@pytest.mark.parametrize(
    ("wire", "rating", "terminals", "expected"),
    [
        ("8 AWG Cu THHN", "40 A", None, "met"),
        ("8 AWG Cu THHN", "45 A", None, "cannot tell"),
        ("8 AWG Cu THHN", "45 A", "60 °C", "not met"),
        ("8 AWG Cu THHN", "50 A", "75 °C", "met"),
        ("8 AWG Cu THHN", "60 A", None, "not met"),
        ("8 AWG Cu TW", "50 A", "75 °C", "not met"),
        ("6 AWG Cu THHN", "60 A", "60 °C", "met"),
        ("6 AWG Cu THHN", "70 A", "60 °C", "not met"),
        ("6 AWG Cu THHN", "70 A", "75 °C", "met"),
        ("6 AWG Cu THHN", "80 A", "75 °C", "not met"),
        ("1 AWG Cu THHN", "110 A", None, "met"),
        ("1 AWG Cu THHN", "125 A", None, "met"),
        ("NM-B 8/2", "40 A", "75 °C", "met"),
        ("NM-B 8/2", "45 A", "75 °C", "not met"),
        ("NM-B 6/2", "60 A", None, "met"),
        ("NM-B 6/2", "70 A", "75 °C", "not met"),
    ],
)
def test_terminals_and_the_next_standard_rating(wire: str, rating: str, terminals: str | None, expected: str) -> None:
    """40, 50 and 55 A for 8 AWG, 55 and 65 A for 6 AWG; above 100 A terminals are made for 75 °C. Terminals are asked
    for only where they decide."""
    of = planer(wire, rating, terminals=terminals)
    assert outcome(of, AMPACITY, PLANER) == expected
    assert ("/circuits/planer/terminals" in asked(of)) == (expected == "cannot tell")


@pytest.mark.parametrize(("single", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_no_rounding_up_with_two_receptacles(single: bool | None, expected: str) -> None:
    """12 AWG at 60 °C and 95 °F has 18.2 A: 20 A only if it feeds no more than one receptacle. A duplex is two."""
    legs = [{"on": "outside wall", "length": "30 ft", "location": "wet"}]
    outlet = {"boxes": {"post-box": {"devices": {"outlet": {"single": single}}}}}
    patch = {"site": {"design-high": "95 °F"}, "routes": {"to-pump": {"raceway": "PVC-80 3/4 in", "legs": legs}}}
    of = reviewed(merged(example("orchard-pump", patch), outlet))
    assert outcome(of, AMPACITY, "/circuits/pump") == expected
    assert "/boxes/post-box/devices/outlet/single" in asked(of) or expected != "cannot tell"


@pytest.mark.parametrize(
    ("high", "expected"),
    [("95 °F", "not met"), ("86 °F", "met"), ("70 °F", "met"), ("30 °C", "met"), (None, "cannot tell")],
)
def test_heat_outdoors(high: str | None, expected: str) -> None:
    """UF cable on an outside wall, with several receptacles on the circuit: 60 °C insulation where it is wet."""
    legs = [{"on": "outside wall", "length": "30 ft", "location": "wet"}]
    of = reviewed_example("pottery-studio", {"site": {"design-high": high}, "routes": {"yard": {"legs": legs}}})
    assert outcome(of, AMPACITY, STUDIO) == expected


@pytest.mark.parametrize(
    ("rise", "lawn", "expected"),
    [("4 ft", "80 ft", "met"), ("4 ft", "30 ft", "not met"), ("6 ft", "200 ft", "not met")],
)
def test_short_warm_ends(rise: str, lawn: str, expected: str) -> None:
    """Two rises: together no more than 10 ft and a tenth of the whole circuit, or they count."""
    end = {"rise": "2 ft", "length": rise}
    legs = [end, {"buried": "lawn", "length": lawn, "cover": "24 in"}, end]
    patch = {"site": {"design-high": "95 °F"}, "routes": {"yard": {"legs": legs}}}
    assert outcome(reviewed_example("pottery-studio", patch), AMPACITY, STUDIO) == expected


def test_a_dry_place_gives_uf_its_better_insulation() -> None:
    """In a wall of the studio UF starts from 90 °C like NM, and is held to 60 °C."""
    legs = [{"in": "wall framing", "length": "30 ft", "location": "dry"}]
    of = reviewed_example("pottery-studio", {"site": {"design-high": "95 °F"}, "routes": {"yard": {"legs": legs}}})
    assert outcome(of, AMPACITY, STUDIO) == "met"
    assert "30 A × 0.96 = 28.8 A" in steps(of, STUDIO)


@pytest.mark.parametrize(
    ("leg", "expected"),
    [
        ({"sunlight": True}, "not met"),
        ({"sunlight": False}, "met"),
        ({}, "cannot tell"),
        ({"sunlight": True, "above-roof": "1/2 in"}, "not met"),
        ({"sunlight": True, "above-roof": "3/4 in"}, "met"),
    ],
)
def test_a_sunny_roof(leg: dict[str, Any], expected: str) -> None:
    """60 °F more: 10 AWG TW would be at 155 °F, too hot for its insulation; at 95 °F it has 27.3 A for 30 A."""
    run = {"legs": [{"on": "roof", "length": "30 ft", "location": "wet", **leg}]}
    assert outcome(planer("10 AWG Cu TW", "30 A", "95 °F", run), AMPACITY, PLANER) == expected


def test_xhhw_2_on_a_sunny_roof_is_not_counted_hotter() -> None:
    """The insulation that the added heat is not for."""
    run = {"legs": [{"on": "roof", "length": "30 ft", "location": "wet", "sunlight": True}]}
    of = planer("10 AWG Cu XHHW-2", "30 A", "95 °F", run)
    assert "× 0.96" in steps(of, PLANER)


def crowd(more: int, raceway: str, length: str = "20 ft", **route: Any) -> dict[str, Any]:
    """The workshop with more circuits like the lights beside them in one raceway or bundle, each of two wires."""
    lights = example("joinery-workshop")["circuits"]["lights"]
    extra = {f"extra-{number}": lights for number in range(more)}
    cables = {name: {"cable": "NM-B 14/2"} for name in ("lights", *extra)}
    legs = [{"on": "inside wall", "length": length, "location": "dry"}]
    run = {"raceway": raceway, "carries": cables, "legs": legs, **route}
    data = example("joinery-workshop", {"circuits": extra, "routes": {"lighting": run}})
    outlets = {f"lamp-{name}": {"luminaire": "9 W", "circuit": name} for name in extra}
    devices = {"light-switch": {"circuit": "lights"}, **outlets}
    devices |= {f"outlet-{number}": {"receptacle": "15 A", "circuit": "lights"} for number in (1, 2)}
    result = merged(data, {"boxes": {"switch-box": {"devices": devices}}})
    assert isinstance(result, dict)
    return result


@pytest.mark.parametrize(
    ("more", "raceway", "length", "spaced", "expected"),
    [
        (1, "none", "20 ft", None, "met"),
        (3, "none", "20 ft", None, "met"),
        (4, "none", "20 ft", None, "cannot tell"),
        (4, "none", "20 ft", True, "met"),
        (4, "none", "20 ft", False, "not met"),
        (4, "none", "24 in", None, "met"),
        (4, "EMT 1-1/4 in", "20 ft", True, "not met"),
        (4, "EMT 1-1/4 in", "24 in", None, "met"),
        (4, "EMT 1-1/4 in", "25 in", None, "not met"),
    ],
)
def test_company(more: int, raceway: str, length: str, spaced: bool | None, expected: str) -> None:
    """14 AWG NM at 95 °F has 24 A: 16.8 A with 8 conductors, 12 A with 10; 15 A are wanted, with two receptacles."""
    of = reviewed(crowd(more, raceway, length, **({} if spaced is None else {"spaced": spaced})))
    assert outcome(of, AMPACITY, "/circuits/lights") == expected


def test_a_neutral_of_two_hots_does_not_count() -> None:
    """Feeder and planer in one conduit: 2 + 2 conductors, the feeder's neutral carries the difference only."""
    patch = {"routes": {"planer-run": {"carries": {"planer": {"wires": {"neutral": "10 AWG Cu THHN"}}}}}}
    data = merged(crowd(1, "EMT 1 in"), patch)
    assert "2 + 2 = 4" in steps(reviewed(data), "/circuits/lights")


@pytest.mark.parametrize(
    ("cable", "rating", "held"),
    [("SER 10-10-10 Cu", "30 A", True), ("SER 8-8-8 Al", "40 A", False), ("SER 8-8-8 Cu", "50 A", False)],
)
def test_small_service_cable_is_held_to_60(cable: str, rating: str, held: bool) -> None:
    """10 AWG and smaller, which insulation may keep warm; larger sizes go by their terminals."""
    of = planer(cable, rating, run={"raceway": "none"}, terminals="75 °C")
    assert outcome(of, AMPACITY, PLANER) == "met"
    assert ("the kind of cable (60 °C)" in steps(of, PLANER)) is held


def test_the_weakest_route_decides_and_a_smaller_wire_is_named() -> None:
    """The main at the far end does not stand in for the breaker at the source."""
    wires = {"hot": "2 × 8 AWG Cu THWN-2", "neutral": "8 AWG Cu THWN-2"}
    of = reviewed_example("joinery-workshop", {"routes": {"yard": {"carries": {"workshop-feeder": {"wires": wires}}}}})
    answer = line(of, FEEDER).answer
    assert (answer.outcome.value, answer.needs) == ("not met", "at most 50 A for the 50 A of 8 AWG Cu on yard")
    assert {"tap-10ft", "feeder-breaker-at-source"} <= set(answer.rows)
    assert answer.why == "The main of workshop-panel does not protect the wire ahead of it."


@pytest.mark.parametrize("hot", ["4 × 1/0 AWG Cu THWN-2", "2 × 6 AWG Cu bare", "2 × 1000 kcmil Cu THWN-2"])
def test_what_the_table_is_not_for(hot: str) -> None:
    """Parallel, bare and very large conductors are for the authority."""
    of = reviewed_example(
        "joinery-workshop", {"routes": {"yard": {"carries": {"workshop-feeder": {"wires": {"hot": hot}}}}}}
    )
    found = line(of, FEEDER)
    assert (found.answer.outcome.value, found.answer.asks) == ("cannot tell", None)


def test_cord_and_low_voltage_are_passed_over() -> None:
    """Each has its own rules."""
    cord = planer("cord 10/3")
    assert {outcome(cord, rule, PLANER) for rule in (SMALL, AMPACITY)} == {"does not apply"}


def test_an_attic_is_for_the_inspector() -> None:
    """A plan does not show how hot it gets."""
    of = planer("10 AWG Cu THHN", run={"legs": [{"in": "attic", "length": "20 ft", "location": "dry"}]})
    assert any("attic" in entry.says for entry in of.inspect if entry.item.id.endswith("heat-in-an-attic"))


def test_the_locators_are_those_that_decided() -> None:
    """A breaker too large for NM cable is looked up under NM cable, not under terminals."""
    nm = line(planer("NM-B 8/2", "50 A"), PLANER).answer.rows
    wires = line(planer("8 AWG Cu THHN", "60 A"), PLANER).answer.rows
    assert "nm-uf-60c" in nm and "terminal-temp-60-75" not in nm
    assert "terminal-temp-60-75" in wires and "nm-uf-60c" not in wires


def test_unknown_wire_and_unknown_rating() -> None:
    """Nothing is taken for granted."""
    unknown = data_of("routes: {planer-run: {carries: {planer: {wires: {hot: null}}}}}")
    assert outcome(reviewed_example("joinery-workshop", unknown), AMPACITY, PLANER) == "cannot tell"
    assert outcome(planer("10 AWG Cu THHN", None), AMPACITY, PLANER) == "cannot tell"


def test_an_area_that_decides_how_hot_it_gets_is_asked_for() -> None:
    """Framing between a garage and outdoors is warm; where one end's area is not stated, that cannot be told."""
    patch: dict[str, Any] = {
        "site": {"design-high": "92 °F"},
        "routes": {"garage-wall": {"carries": {"studio": {"cable": "UF-B 12/2"}}}},
    }
    rule, place = "sizing/overcurrent/breaker-for-the-ampacity", "/circuits/studio"
    patch["boxes"] = {
        "terrace-box": {"area": None, "devices": {"one-more": {"receptacle": "20 A", "voltage": "125 V"}}}
    }
    unknown = reviewed_example("pottery-studio", patch)
    patch["boxes"]["terrace-box"]["area"] = "outdoors"
    assert outcome(reviewed_example("pottery-studio", patch), rule, place) == "not met"
    assert outcome(unknown, rule, place) == "cannot tell"
    assert "/boxes/terrace-box/area" in asked(unknown)
