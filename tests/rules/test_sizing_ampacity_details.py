"""Conductors on their terminals and in company: what is found in favour, noted and cited, and how large a wire is offered."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from support.reviews import asked, example, lines, merged, outcome, reviewed, reviewed_example
from support.trenches import after_each_proposal
from support.workshop import planer

AMPACITY = "/breaker-for-the-ampacity"
PLANER, LIGHTS, STUDIO, FEEDER = "/circuits/planer", "/circuits/lights", "/circuits/studio", "/circuits/workshop-feeder"
RUN = "/routes/planer-run/carries/planer/wires/hot"
HELPS = {
    "short": "what lies warmer is short: the ampacity of the rest of the circuit holds",
    "apart": "the circuits lie apart, or together only as far as a nipple is long",
    "dry": "no leg is in a wet place",
    "terminals": "its terminals are marked 75 °C",
}
"""What can be found in favour of conductors that would be too weak at their worst."""


def line(of: Review, place: str, rule: str = AMPACITY) -> Line:
    """The one line of a rule on a circuit."""
    (found,) = [one for one in lines(of, rule, place) if one.subject == place]
    return found


def after_the_sum(of: Review, circuit: str, place: str) -> list[str]:
    """What is noted of conductors after their ampacity was worked out."""
    noted = [words for words, at in line(of, circuit).steps if at == place]
    last = max(n for n, words in enumerate(noted) if words.endswith(" A") or words.startswith("held to"))
    return noted[last + 1 :]


# Terminals


@pytest.mark.parametrize(
    ("rating", "terminals", "expected"),
    [
        ("100 A", "60 °C", "not met"),
        ("100 A", None, "cannot tell"),
        ("100 A", "75 °C", "met"),
        ("110 A", None, "met"),
    ],
)
def test_terminals_up_to_100_amperes(rating: str, terminals: str | None, expected: str) -> None:
    """2 AWG has 95 A on terminals for 60 °C, and 115 A on those for 75 °C, as all are above a rating of 100 A; 3 AWG has
    85 A and 100 A."""
    wire = "3 AWG Cu THHN" if rating == "100 A" else "2 AWG Cu THHN"
    assert outcome(reviewed(planer(wire, rating, terminals=terminals)), AMPACITY, PLANER) == expected


def test_a_smaller_breaker_is_on_marked_terminals_where_they_are_not_known() -> None:
    """50 A on 8 AWG only if they are marked 75 °C; where the plan says they are not, no more than 40 A."""
    unknown = line(reviewed(planer("8 AWG Cu THHN", "60 A")), PLANER).answer
    assert {edit["path"]: edit["value"] for edit in unknown.proposals[0].patch} == {
        "/circuits/planer/breaker/rating": "50 A",
        "/circuits/planer/terminals": "75 °C",
    }
    marked = line(reviewed(planer("8 AWG Cu THHN", "60 A", terminals="60 °C")), PLANER).answer
    assert [edit["value"] for edit in marked.proposals[0].patch] == ["40 A"]
    cable = line(reviewed(planer("NM-B 8/2", "60 A")), PLANER).answer
    assert [edit["value"] for edit in cable.proposals[0].patch] == ["40 A"]


def test_wire_that_is_too_weak_in_any_case_is_not_said_to_be_stronger_than_it_is() -> None:
    """Ten conductors of 8 AWG in one raceway have 26.4 A, whatever their terminals are marked: 30 A, not 50 A."""
    carries = {"carries": {"lights": {"cable": "MC 8/2"}}}
    routes = {"lighting": {"raceway": "EMT 2 in", **carries}, "porch-lighting": carries}
    data = merged(bundle(4), {"circuits": {"lights": {"breaker": {"rating": "60 A"}}}, "routes": routes})
    answer = line(reviewed(data), LIGHTS).answer
    assert "for the 26.4 A of 8 AWG Cu on lighting" in str(answer.needs)


# Facts in favour


@pytest.mark.parametrize(
    ("base", "patch", "circuit", "place", "helped"),
    [
        ("joinery-workshop", planer("8 AWG Cu THHN", "50 A", terminals="75 °C"), PLANER, RUN, ["terminals"]),
        (
            "pottery-studio",
            {
                "site": {"design-high": "95 °F"},
                "routes": {
                    "yard": {
                        "legs": [
                            {"rise": "2 ft", "length": "4 ft"},
                            {"buried": "lawn", "length": "80 ft", "cover": "24 in"},
                            {"rise": "2 ft", "length": "4 ft"},
                        ]
                    }
                },
            },
            STUDIO,
            "/routes/yard/carries/studio/cable",
            ["short"],
        ),
        (
            "pottery-studio",
            {
                "site": {"design-high": "95 °F"},
                "routes": {"yard": {"legs": [{"in": "wall framing", "length": "30 ft", "location": "dry"}]}},
            },
            STUDIO,
            "/routes/yard/carries/studio/cable",
            ["dry"],
        ),
    ],
)
def test_what_is_found_in_favour_is_noted(
    base: str, patch: dict[str, Any], circuit: str, place: str, helped: list[str]
) -> None:
    """That, and nothing that is not so."""
    of = reviewed_example(base, patch)
    assert after_the_sum(of, circuit, place) == [HELPS[name] for name in helped]


@pytest.mark.parametrize("use", ["dwelling", "accessory"])
def test_nothing_is_found_in_favour_of_what_is_not_there(use: str) -> None:
    """No warm leg that could be short, and no company that could lie apart: it is not asked how the cables lie."""
    data = merged(
        planer("8 AWG Cu THHN", "50 A", terminals="75 °C"),
        {"structures": {"workshop": {"use": use}}, "routes": {"planer-run": {"raceway": "none"}}},
    )
    of = reviewed(data)
    assert after_the_sum(of, PLANER, RUN) == [HELPS["terminals"]]
    assert "/routes/planer-run/spaced" not in asked(of)


def test_a_wet_leg_is_nothing_in_favour() -> None:
    """XHHW has 75 °C in it, which marked terminals let it use."""
    data = merged(
        planer("8 AWG Cu XHHW", "50 A", terminals="75 °C"),
        {"routes": {"planer-run": {"legs": [{"on": "inside wall", "length": "18 ft", "location": "wet"}]}}},
    )
    assert after_the_sum(reviewed(data), PLANER, RUN) == [HELPS["terminals"]]


@pytest.mark.parametrize(
    ("rise", "lawn", "expected"),
    [
        ("4 ft", "49 ft", "met"),
        ("4 ft", "48 ft 11 in", "not met"),
        ("5 ft", "200 ft", "met"),
        ("5 ft 1 in", "200 ft", "not met"),
    ],
)
def test_how_short_a_warm_stretch_is(rise: str, lawn: str, expected: str) -> None:
    """Two rises: a tenth of all 80 ft of the circuit, of which 23 ft are in buildings, and 10 ft in any case."""
    end = {"rise": "2 ft", "length": rise}
    legs = [end, {"bend": "90°"}, {"buried": "lawn", "length": lawn, "cover": "24 in"}, end]
    patch = {"site": {"design-high": "95 °F"}, "routes": {"yard": {"legs": legs}}}
    assert outcome(reviewed_example("pottery-studio", patch), AMPACITY, STUDIO) == expected


def test_heat_and_company_are_nothing_to_an_ampacity_before_correction() -> None:
    """46 A of heat ask for 57.5 A before correction: 65 A of 6 AWG on marked terminals, whatever is short, or lies apart."""
    run = {
        "legs": [{"rise": "2 ft", "length": "1 ft"}, {"buried": "lawn", "length": "80 ft"}],
        "carries": {"lights": {"cable": "NM-B 14/2"}},
        "spaced": True,
    }
    devices = {"planer-outlet": None, "heat": {"heater": "11040 W", "circuit": "planer", "hardwired": True}}
    data = merged(
        planer("6 AWG Cu THHN", "60 A", terminals="75 °C"),
        {
            "boxes": {"planer-box": {"devices": {**devices, "lamp": {"luminaire": "9 W", "circuit": "lights"}}}},
            "routes": {"planer-run": {**run, "raceway": "none"}},
        },
    )
    found = line(reviewed(data), PLANER, "/wire-for-the-load")
    assert found.answer.outcome.value == "met"
    assert not {HELPS["short"], HELPS["apart"]} & {words for words, _ in found.steps}


def bundle(more: int, length: str = "20 ft", **route: Any) -> dict[str, Any]:
    """The workshop with more lighting circuits beside the one it has, from the panel to the switch."""
    data = example("joinery-workshop")
    names = [f"extra-{number}" for number in range(more)]
    on = {name: {"luminaire": "9 W", "circuit": name} for name in names}
    on |= {f"outlet-{number}": {"receptacle": "15 A", "circuit": "lights"} for number in (1, 2)}
    run = {
        "legs": [{"on": "inside wall", "length": length, "location": "dry"}],
        "carries": {name: {"cable": "NM-B 14/2"} for name in names},
        **route,
    }
    patch = {
        "circuits": dict.fromkeys(names, data["circuits"]["lights"]),
        "boxes": {"switch-box": {"devices": {"light-switch": {"circuit": "lights"}, **on}}},
        "routes": {"lighting": run},
    }
    result = merged(data, patch)
    assert isinstance(result, dict)
    return result


LIGHTING = "/routes/lighting/carries/lights/cable"


def test_circuits_that_lie_apart() -> None:
    """Ten conductors in the length of a nipple do not heat each other."""
    assert after_the_sum(reviewed(bundle(4, "24 in")), LIGHTS, LIGHTING) == [HELPS["apart"]]
    assert after_the_sum(reviewed(bundle(4, "25 in", spaced=True)), LIGHTS, LIGHTING) == [HELPS["apart"]]


@pytest.mark.parametrize(
    ("legs", "expected"),
    [
        (["EMT 1-1/4 in", "EMT 1-1/4 in"], "not met"),
        (["EMT 1-1/4 in", "none"], "met"),
        (["none", "EMT 1-1/4 in"], "met"),
    ],
)
def test_lengths_in_raceway_are_added_up(legs: list[str], expected: str) -> None:
    """Twice 13 in is more than a nipple; what is kept apart in the open does not count with it."""
    parts: list[dict[str, Any]] = [
        {"on": "inside wall", "length": "13 in", "location": "dry", "raceway": raceway} for raceway in legs
    ]
    data = bundle(4, legs=[parts[0], {"bend": "90°"}, parts[1]], raceway=None, spaced=True)
    assert outcome(reviewed(data), AMPACITY, LIGHTS) == expected


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (19, "25 A × 0.96 × 0.4 = 9.6 A"),
        (20, "25 A × 0.96 × 0.35 = 8.4 A"),
    ],
)
def test_forty_conductors_and_more(more: int, words: str) -> None:
    """40 % for 40 of them, 35 % beyond."""
    of = reviewed(bundle(more, spaced=False))
    assert words in [step for step, _ in line(of, LIGHTS).steps]


@pytest.mark.parametrize(("extra", "counted"), [(False, []), (True, ["current-carrying conductors: 2 + 2 = 4"])])
def test_low_voltage_beside_a_circuit_is_no_company(extra: bool, counted: list[str]) -> None:
    """It is not counted among the current-carrying conductors."""
    data = bundle(1)
    data["circuits"]["bell"] = {"kind": "low-voltage", "from": "switch-box/supply", "voltage": "12 V"}
    data["boxes"]["switch-box"]["devices"]["supply"] = {"transformer": "20 VA", "circuit": "lights"}
    data["boxes"]["porch-light-box"]["devices"] |= {
        "porch-lamp": {"luminaire": "20 W", "circuit": "lights"},
        "bell": {"equipment": "bell", "circuit": "bell"},
    }
    carries = {"lights": {"cable": "NM-B 14/2"}, "bell": {"cable": "low-voltage 18/2"}}
    if extra:
        carries["extra-0"] = {"cable": "NM-B 14/2"}
    data["routes"]["porch-lighting"] |= {"carries": carries, "spaced": False}
    steps = line(reviewed(data), LIGHTS).steps
    assert [words for words, at in steps if "current-carrying" in words and at == "/routes/porch-lighting"] == counted


def test_the_neutral_of_two_legs_of_a_wye_counts() -> None:
    """At 120/208 V it carries as much as a hot, at 120/240 V only the difference."""
    data = bundle(1, spaced=False)
    data["routes"]["lighting"]["carries"]["extra-0"]["cable"] = "NM-B 14/3"
    counts = {}
    for voltage in ("120/208 V", "120/240 V"):
        circuit = {"circuits": {"extra-0": {"voltage": voltage, "multiwire": True}}}
        steps = line(reviewed(merged(data, circuit)), LIGHTS).steps
        counts[voltage] = next(words for words, _ in steps if "current-carrying" in words)
    assert counts == {
        "120/208 V": "current-carrying conductors: 2 + 3 = 5",
        "120/240 V": "current-carrying conductors: 2 + 2 = 4",
    }


def test_cables_are_offered_to_be_kept_apart_only_where_all_lie_in_the_open() -> None:
    """A raceway holds them together."""
    words = "keep the cables apart on lighting"
    assert after_each_proposal(bundle(4, spaced=False), AMPACITY, LIGHTS)[words] == "met"
    further: dict[str, Any] = {
        "boxes": {"porch-light-box": {"devices": {"porch-lamp": {"circuit": "lights"}}}},
        "routes": {
            "porch-lighting": {
                "raceway": "EMT 1-1/4 in",
                "carries": bundle(4)["routes"]["lighting"]["carries"],
                "legs": [{"on": "inside wall", "length": "20 ft", "location": "dry"}],
            }
        },
    }
    partly = merged(bundle(4, spaced=False), further)
    assert not [said for said in after_each_proposal(partly, AMPACITY, LIGHTS) if said.startswith("keep")]
    held = bundle(4, spaced=False, raceway="EMT 1-1/4 in")
    assert words not in after_each_proposal(held, AMPACITY, LIGHTS)
    assert outcome(reviewed(held), AMPACITY, LIGHTS) == "not met"


# What is noted, and cited


def test_the_derivation_of_a_weak_route_keeps_what_belongs_to_it() -> None:
    """The heat of the site, the company on the route, and the wire; nothing of another route."""
    of = reviewed(bundle(4, spaced=False))
    places = [at for _, at in line(of, LIGHTS).steps]
    assert set(places) == {"/site/design-high", "/routes/lighting", LIGHTING}
    motor = {"planer-outlet": None, "saw": {"motor": "7 1/2 hp", "hardwired": True, "disconnect-in-sight": True}}
    of = reviewed_example("joinery-workshop", {"boxes": {"planer-box": {"devices": motor}}})
    weak = line(of, PLANER, "/wire-for-the-motors")
    assert weak.answer.outcome.value == "not met"
    assert "saw: 50 A with 25 % more for the largest" in [words for words, at in weak.steps if at == PLANER]


def test_values_of_attempts_that_came_to_nothing_are_not_shown() -> None:
    """Where marked terminals settle it, the column for the others was not used; where the cable is dry, not the wet."""
    of = reviewed(planer("8 AWG Cu THHN", "50 A", terminals="75 °C"))
    read = [(cell.table, *cell.key) for cell in line(of, PLANER).cells]
    assert ("ampacity", "Cu", "8", "75 °C") in read
    assert ("ampacity", "Cu", "8", "60 °C") not in read
    assert read.count(("limits", "circuit on 60 °C terminals")) == 1
    assert read.count(("ambient-correction", "to 30 °C", "90 °C")) == 1


@pytest.mark.parametrize(
    ("wire", "rating", "high", "rows"),
    [
        ("8 AWG Cu THHN", "60 A", "86 °F", {"terminal-temp-60-75", "ambient-correction"}),
        ("8 AWG Cu TW", "60 A", "86 °F", {"ambient-correction"}),
        ("8 AWG Cu THWN", "60 A", "86 °F", {"ambient-correction"}),
        ("NM-B 8/2", "60 A", "86 °F", {"nm-uf-60c", "ambient-correction"}),
        ("SER 10-10-10 Cu", "30 A", "150 °F", {"se-cable-feeder-inside", "ambient-correction"}),
        ("SER 8-8-8 Cu", "70 A", "86 °F", {"terminal-temp-60-75", "ambient-correction"}),
    ],
)
def test_what_is_cited_is_what_was_counted(wire: str, rating: str, high: str, rows: set[str]) -> None:
    """Terminals, kind of cable, heat; no company where there is none."""
    answer = line(reviewed(planer(wire, rating, high, terminals="75 °C")), PLANER).answer
    assert answer.outcome.value == "not met"
    assert set(answer.rows) == {"branch-ocpd-vs-ampacity", "ampacity-table-locator"} | rows


def test_the_origin_of_a_tap_and_of_a_feeder_is_cited() -> None:
    """Where the wire gets smaller on the way; where a main at the far end might be taken for protection."""
    thin = {"hot": "2 × 8 AWG Cu THWN-2", "neutral": "8 AWG Cu THWN-2"}
    carries = {"carries": {"workshop-feeder": {"wires": thin}}}
    smaller = line(reviewed_example("joinery-workshop", {"routes": {"yard": carries}}), FEEDER).answer
    same = line(
        reviewed_example("joinery-workshop", {"routes": {"yard": carries, "garage-run": carries}}), FEEDER
    ).answer
    assert "tap-10ft" in smaller.rows and "tap-10ft" not in same.rows
    for main in (None, "none"):
        none = {"routes": {"yard": carries}, "panels": {"workshop-panel": {"main": main}}}
        answer = line(reviewed_example("joinery-workshop", none), FEEDER).answer
        assert "feeder-breaker-at-source" not in answer.rows
    assert (
        answer.why == "The wire gets smaller on the way, on yard, and is protected by the breaker at the origin only."
    )
    branch = line(reviewed(planer("8 AWG Cu THHN", "60 A")), PLANER).answer
    assert (branch.why, "tap-10ft" in branch.rows) == ("", False)


# Larger wire


@pytest.mark.parametrize(
    ("wire", "rating", "larger"),
    [
        ("500 kcmil Al THWN-2", "450 A", "900 kcmil Al"),
        ("500 kcmil Al THWN-2", "500 A", None),
        ("12 AWG Cu THHN", "30 A", "10 AWG Cu"),
        ("12 AWG Al THHN", "25 A", "10 AWG Al"),
        ("8 AWG Cu THHN", "60 A", "6 AWG Cu"),
    ],
)
def test_the_smallest_wire_that_would_do_is_offered(wire: str, rating: str, larger: str | None) -> None:
    """By ampacity and by what its size allows; none beyond the end of the table."""
    rule = AMPACITY if rating in ("450 A", "500 A", "60 A") else "/breaker-for-small-wire"
    offered = after_each_proposal(planer(wire, rating, terminals="60 °C"), rule, PLANER)
    assert [words for words in offered if "on planer-run" in words] == (
        [] if larger is None else [f"use {larger} on planer-run"]
    )


def test_larger_wire_is_offered_for_what_is_known() -> None:
    """6 AWG has 65 A on marked terminals, for 70 A; as they are not stated, 4 AWG is sure to do."""
    words = "use 4 AWG Cu on planer-run, and a box 6 in long for planer-box"
    assert words in after_each_proposal(planer("8 AWG Cu THHN", "70 A"), AMPACITY, PLANER)
    marked = planer("8 AWG Cu THHN", "70 A", terminals="75 °C")
    assert "use 6 AWG Cu on planer-run" in after_each_proposal(marked, AMPACITY, PLANER)


def test_larger_wire_is_offered_that_its_size_allows() -> None:
    """12 AWG has 25 A on marked terminals, but is for 20 A."""
    offered = after_each_proposal(
        planer("14 AWG Cu THHN", "25 A", terminals="75 °C"), "/breaker-for-small-wire", PLANER
    )
    assert "use 10 AWG Cu on planer-run" in offered


def test_a_wire_that_just_carries_a_load_is_offered() -> None:
    """30 A on a nameplate: 10 AWG in a cable has 30 A."""
    unit = {"equipment": "mini-split", "load": "3 kW", "hvac": True, "hardwired": True, "disconnect-in-sight": True}
    device = {"planer-outlet": None, "unit": {**unit, "minimum-ampacity": "30 A", "maximum-breaker": "40 A"}}
    data = merged(planer("NM-B 12/2"), {"boxes": {"planer-box": {"devices": device}}})
    offered = after_each_proposal(data, "/wire-for-the-nameplate", "/boxes/planer-box/devices/unit")
    assert offered == {"use 10 AWG Cu on planer-run": "met"}


def test_what_no_fact_can_change_is_not_asked_for() -> None:
    """14 AWG NM behind 20 A is too small by its size, whatever the heat; 6 AWG behind 40 A is enough in any place."""
    data = planer("6 AWG Cu THHN", "40 A", "104 °F")
    data["routes"]["planer-run"]["legs"] = [{"on": "inside wall"}]
    of = reviewed(data)
    assert outcome(of, AMPACITY, PLANER) == "met"
    assert not [place for place in asked(of) if place.endswith(("/length", "/location", "/area", "/terminals"))]


@pytest.mark.parametrize(("thin", "other"), [("garage-run", "yard"), ("yard", "garage-run")])
def test_the_weakest_route_is_named_where_all_are_in_order(thin: str, other: str) -> None:
    """6 AWG has 55 A on any terminals, 4 AWG 70 A."""
    large = {"hot": "2 × 4 AWG Cu THWN-2", "neutral": "4 AWG Cu THWN-2"}
    routes = {other: {"carries": {"workshop-feeder": {"wires": large}}}}
    answer = line(reviewed_example("joinery-workshop", {"routes": routes}), FEEDER).answer
    assert (answer.outcome.value, answer.needs) == ("met", f"for the 55 A of 6 AWG Cu on {thin}")


def test_a_breaker_is_proposed_for_the_smallest_of_several_sizes() -> None:
    """15 A for 14 AWG on one route, although 20 A would do for the 12 AWG on another."""
    routes = {"lighting": {"carries": {"lights": {"cable": "NM-B 12/2"}}}}
    data = example("joinery-workshop", {"circuits": {"lights": {"breaker": {"rating": "25 A"}}}, "routes": routes})
    offered = after_each_proposal(data, "/breaker-for-small-wire", LIGHTS)
    assert offered == {
        "use a 15 A breaker for lights": "met",
        "use 10 AWG Cu on lighting, 10 AWG Cu on porch-lighting": "met",
    }


@pytest.mark.parametrize(("where", "said"), [("attic", ["lighting"]), ("wall framing", [])])
def test_the_heat_of_an_attic_is_looked_at_on_site(where: str, said: list[str]) -> None:
    """Where a circuit crosses one."""
    leg = {"in": where, "length": "9 ft", "location": "dry"}
    of = reviewed_example("joinery-workshop", {"routes": {"lighting": {"legs": [leg]}}})
    says = [one.says for one in of.inspect if one.item.id.endswith("/heat-in-an-attic")]
    assert [words.partition(":")[0] for words in says] == said
    empty = {"from": "workshop-panel", "to": "switch-box", "raceway": "EMT 1/2 in", "carries": {}, "legs": [leg]}
    spare = reviewed_example("joinery-workshop", {"routes": {"spare": empty}})
    assert [one for one in spare.inspect if one.item.id.endswith("/heat-in-an-attic")] == []


@pytest.mark.parametrize(
    ("wire", "receptacles", "most"),
    [
        ("6 AWG Cu TW", 1, "60 A for the 55 A of 6 AWG Cu"),
        ("6 AWG Cu TW", 2, "50 A for the 55 A of 6 AWG Cu"),
        ("8 AWG Cu TW", 2, "40 A for the 40 A of 8 AWG Cu"),
    ],
)
def test_the_breaker_that_is_said_is_one_that_may_be(wire: str, receptacles: int, most: str) -> None:
    """The next standard rating for one receptacle, for two none above the ampacity."""
    devices = {f"outlet-{number}": {"receptacle": "50 A"} for number in range(receptacles)}
    boxes = {"boxes": {"planer-box": {"devices": {"planer-outlet": None, **devices}}}}
    data = merged(planer(wire, "70 A"), boxes)
    assert line(reviewed(data), PLANER).answer.needs == f"at most {most} on planer-run"
