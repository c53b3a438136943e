"""Grounds that grow with larger hots, what larger wire brings along, and what is passed over."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example, merged, outcome, reviewed, reviewed_example
from support.reviews import line_of as line
from support.trenches import after_each_proposal

GROWS, AMPACITY, CAPPED = "/ground-grows-with-the-hots", "/breaker-for-the-ampacity", "/breaker-for-small-wire"
PLANER, FEEDER = "/circuits/planer", "/circuits/workshop-feeder"


def planer(wires: dict[str, Any] | str, rating: str = "30 A", high: str = "86 °F", **circuit: Any) -> dict[str, Any]:
    """The workshop's planer on other wires, or on a cable."""
    carried = {"wires": None, "cable": wires} if isinstance(wires, str) else {"wires": wires}
    return example(
        "joinery-workshop",
        {
            "site": {"design-high": high},
            "circuits": {"planer": {"breaker": {"rating": rating}, **circuit}},
            "routes": {"planer-run": {"raceway": "none", "carries": {"planer": carried}}},
        },
    )


# Grounds with larger hots


@pytest.mark.parametrize(
    ("hot", "ground", "rating", "expected", "needs"),
    [
        ("2 AWG Cu THHN", "4 AWG Cu THHN", "50 A", "met", "at least 4 AWG Cu, in ratio to hots of 2 AWG where 8 AWG"),
        (
            "2 AWG Cu THHN",
            "6 AWG Cu THHN",
            "50 A",
            "not met",
            "at least 4 AWG Cu, in ratio to hots of 2 AWG where 8 AWG",
        ),
        (
            "6 AWG Cu THHN",
            "10 AWG Cu THHN",
            "20 A",
            "not met",
            "at least 6 AWG Cu, in ratio to hots of 6 AWG where 12 AWG",
        ),
        (
            "6 AWG Cu THHN",
            "8 AWG Cu THHN",
            "20 A",
            "not met",
            "at least 6 AWG Cu, in ratio to hots of 6 AWG where 12 AWG",
        ),
        ("6 AWG Cu THHN", "6 AWG Cu THHN", "20 A", "does not apply", ""),
        ("10 AWG Cu THHN", "10 AWG Cu THHN", "30 A", "does not apply", ""),
        (
            "8 AWG Cu THHN",
            "10 AWG Cu THHN",
            "30 A",
            "not met",
            "at least 8 AWG Cu, in ratio to hots of 8 AWG where 10 AWG",
        ),
        ("8 AWG Cu THHN", "12 AWG Cu THHN", "30 A", "does not apply", ""),
        ("8 AWG Cu THHN", "10 AWG Al THHN", "20 A", "cannot tell", "a size in ratio to the hots"),
        ("8 AWG Cu THHN", "8 AWG Al THHN", "20 A", "cannot tell", "a size in ratio to the hots"),
        (
            "6 AWG Al THHN",
            "8 AWG Al THHN",
            "25 A",
            "not met",
            "at least 6 AWG Al, in ratio to hots of 6 AWG where 10 AWG",
        ),
        ("2 AWG Al THHN", "4 AWG Cu THHN", "40 A", "met", "at least 4 AWG Cu, in ratio to hots of 2 AWG where 8 AWG"),
        (
            "2 AWG Al THHN",
            "6 AWG Cu THHN",
            "40 A",
            "not met",
            "at least 4 AWG Cu, in ratio to hots of 2 AWG where 8 AWG",
        ),
    ],
)
def test_the_ground_of_larger_hots(hot: str, ground: str, rating: str, expected: str, needs: str) -> None:
    """In the ratio of their circular mils, never larger than they are; of another metal that would have to be, it is for the
    authority. One below the table is told elsewhere."""
    data = planer({"hot": f"2 × {hot}", "ground": ground}, rating, terminals="75 °C")
    found = line(reviewed(data), GROWS, PLANER)
    assert found.answer.outcome.value == expected
    assert str(found.answer.needs).startswith(needs)
    if expected == "not met":
        assert found.place == "/routes/planer-run/carries/planer/wires/ground"
        size = needs.removeprefix("at least ").partition(",")[0]
        assert after_each_proposal(data, GROWS, PLANER) in (
            {f"use {size} THHN as the equipment ground": "met"},
            {f"use {size} THHN as the equipment ground": "does not apply"},
        )


def test_hots_that_heat_makes_larger_are_not_larger_than_needed() -> None:
    """6 AWG TW has 31.9 A at 122 °F, 8 AWG 23.2 A: the ground behind 30 A stays 10 AWG."""
    data = planer({"hot": "2 × 6 AWG Cu TW", "ground": "10 AWG Cu TW"}, "30 A", "122 °F")
    answer = line(reviewed(data), GROWS, PLANER).answer
    assert (answer.outcome.value, answer.needs) == (
        "met",
        "at least 10 AWG Cu: the hots are no larger than needed",
    )


def test_the_ratio_is_in_the_derivation() -> None:
    """What would do, how much larger the hots are, and what that makes of the ground."""
    data = planer({"hot": "2 × 6 AWG Cu THHN", "ground": "8 AWG Cu THHN"}, "20 A")
    words = [step for step, _ in line(reviewed(data), GROWS, PLANER).steps]
    assert words[0] == "12 AWG Cu would do for 20 A on planer-run"
    assert any("26240 cmil / 6530 cmil" in step for step in words)


@pytest.mark.parametrize(
    ("cable", "rating", "expected", "proposed"),
    [
        ("SER 6-6-10 Cu", "30 A", "not met", "SER 6-6-6 Cu"),
        ("SER 6-6-6 Cu", "30 A", "does not apply", None),
        ("SER 8-8-10 Cu", "50 A", "met", None),
    ],
)
def test_the_ground_in_a_cable(cable: str, rating: str, expected: str, proposed: str | None) -> None:
    """A cable with one that is large enough is proposed."""
    data = planer(cable, rating, terminals="75 °C")
    found = line(reviewed(data), GROWS, PLANER)
    assert found.answer.outcome.value == expected
    if proposed is not None:
        assert found.place == "/routes/planer-run/carries/planer/cable"
        assert list(after_each_proposal(data, GROWS, PLANER)) == [f"use {proposed}"]


@pytest.mark.parametrize(
    ("patch", "why"),
    [
        ({"routes": {"planer-run": {"carries": {"planer": {"wires": {"ground": None}}}}}}, "or there is no wire"),
        (
            {
                "boxes": {
                    "planer-box": {"devices": {"planer-outlet": None, "saw": {"motor": "3 hp", "hardwired": True}}}
                }
            },
            "sized by a motor or an air conditioner",
        ),
    ],
)
def test_where_a_ground_is_not_looked_at(patch: dict[str, Any], why: str) -> None:
    """None there, and a motor's."""
    data = planer({"hot": "2 × 6 AWG Cu THHN", "ground": "10 AWG Cu THHN"}, "20 A")
    answer = line(reviewed(merged(data, patch)), GROWS, PLANER).answer
    assert answer.outcome.value == "does not apply" and why in answer.why


# What larger wire brings along


@pytest.mark.parametrize(
    ("wires", "rating", "changed"),
    [
        ({"hot": "2 × 12 AWG Cu THHN", "ground": "12 AWG Cu THHN"}, "30 A", {"hot": "2 × 10 AWG Cu THHN"}),
        (
            {"hot": "2 × 12 AWG Cu THHN", "neutral": "12 AWG Cu TW", "ground": "12 AWG Cu THHN"},
            "30 A",
            {"hot": "2 × 10 AWG Cu THHN", "neutral": "10 AWG Cu TW"},
        ),
        (
            {"hot": "2 × 12 AWG Cu THHN", "neutral": "14 AWG Cu THHN", "ground": "12 AWG Cu THHN"},
            "30 A",
            {"hot": "2 × 10 AWG Cu THHN"},
        ),
    ],
)
def test_a_neutral_as_large_as_the_hots_grows_with_them(
    wires: dict[str, str], rating: str, changed: dict[str, str]
) -> None:
    """One that was smaller carries less."""
    (way,) = line(reviewed(planer(wires, rating)), CAPPED, PLANER).answer.proposals
    assert {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch} == changed


def test_a_ground_grows_in_ratio_with_larger_wire() -> None:
    """6 AWG to 2/0 AWG over 500 ft: 10 AWG behind 60 A to 2 AWG, and not to the size of the hots."""
    far = {"routes": {"yard": {"legs": [{"buried": "lawn", "length": "500 ft"}]}}}
    (way,) = line(reviewed_example("joinery-workshop", far), "/drop-of-one-circuit", FEEDER).answer.proposals
    edits = {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch}
    assert (edits["hot"], edits["ground"]) == ("2 × 2/0 AWG Cu THWN-2", "2 AWG Cu THWN-2")


def test_a_thin_neutral_is_enlarged_against_voltage_drop() -> None:
    """As all of the way counts there; for the ampacity of the hots it would stay."""
    patch = {
        "circuits": {"bench-outlets": {"load": "10 A", "breaker": {"rating": "15 A"}}},
        "routes": {
            "bench": {
                "carries": {"bench-outlets": {"wires": {"neutral": "14 AWG Cu THHN"}}},
                "legs": [{"on": "inside wall", "length": "100 ft", "location": "dry"}],
            }
        },
    }
    place = "/circuits/bench-outlets"
    (way,) = line(reviewed_example("joinery-workshop", patch), "/drop-of-one-circuit", place).answer.proposals
    edits = {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch if "/bench/" in edit["path"]}
    assert edits["hot"] == edits["neutral"]


def test_a_thin_neutral_in_a_cable_stays_with_larger_hots() -> None:
    """It carries the unbalance, or a neutral's rule tells of it."""
    data = planer("SER 8-8-10-10 Cu", "60 A", voltage="120/240 V", terminals="75 °C")
    cables = [
        edit["value"]
        for way in line(reviewed(data), AMPACITY, PLANER).answer.proposals
        for edit in way.patch
        if edit["path"].endswith("/cable")
    ]
    assert cables == ["SER 6-6-10-10 Cu"]


@pytest.mark.parametrize(
    ("cable", "rating", "larger"),
    [
        ("NM-B 8/2", "100 A", "NM-B 2/2"),
        ("NM-B 8/2", "110 A", None),
        ("UF-B 8/2", "70 A", "UF-B 4/2"),
        ("UF-B 8/2", "80 A", None),
        ("SER 8-8-8 Cu", "110 A", "SER 2-2-8 Cu"),
        ("NM-B 12/2", "30 A", "NM-B 10/2"),
    ],
)
def test_cable_is_proposed_in_sizes_that_it_is_sold_in(cable: str, rating: str, larger: str | None) -> None:
    """NM-B up to 2 AWG, UF-B up to 4 AWG (common practice), service cable in any."""
    rule = CAPPED if cable == "NM-B 12/2" else AMPACITY
    ways = line(reviewed(planer(cable, rating, terminals="75 °C")), rule, PLANER).answer.proposals
    cables = [edit["value"] for way in ways for edit in way.patch if edit["path"].endswith("/cable")]
    assert cables == ([] if larger is None else [larger])


# What is passed over, and what is not


@pytest.mark.parametrize(
    ("wires", "rating", "expected"),
    [
        ({"hot": "2 × 16 AWG Cu THHN"}, "20 A", "does not apply"),
        ({"hot": "2 × 14 AWG Cu THHN"}, "20 A", "not met"),
        ({"hot": "2 × 14 AWG Al THHN"}, "20 A", "does not apply"),
        ({"hot": "2 × 12 AWG Al THHN"}, "20 A", "not met"),
        ("cord 12/2", "20 A", "does not apply"),
        ("low-voltage 12/2", "20 A", "does not apply"),
    ],
)
def test_wire_that_is_no_building_wire_is_told_elsewhere(
    wires: dict[str, Any] | str, rating: str, expected: str
) -> None:
    """Too small for any, flexible, or for low voltage."""
    of = reviewed(planer(wires, rating))
    assert outcome(of, CAPPED, PLANER) == expected
    if expected == "does not apply":
        assert line(of, AMPACITY, PLANER).answer.why == "no conductors of a building wire's size"


@pytest.mark.parametrize(
    ("hot", "expected", "has"),
    [
        ("2 × 900 kcmil Cu THWN-2", "met", "60 A"),
        ("2 × 1000 kcmil Cu THWN-2", "cannot tell", "1000 kcmil on planer-run"),
        ("3 × 6 AWG Cu THHN", "cannot tell", "3 hot conductors on planer-run"),
        ("2 × 6 AWG Cu bare", "cannot tell", "bare hot conductors on planer-run"),
        ("2 × 6 AWG Cu THHN", "met", "60 A"),
    ],
)
def test_where_the_table_of_ampacities_ends(hot: str, expected: str, has: str) -> None:
    """Up to 900 kcmil, two hots, insulated; all else is for the authority."""
    of = reviewed(planer({"hot": hot}, "60 A"))
    found = line(of, AMPACITY, PLANER)
    assert (outcome(of, CAPPED, PLANER), of.failures) == ("does not apply", ())
    assert (found.answer.outcome.value, str(found.answer.has)) == (expected, has)
    if expected == "cannot tell":
        assert found.place == "/routes/planer-run/carries/planer/wires/hot"


def test_what_is_too_weak_is_told_before_what_no_table_is_for() -> None:
    """8 AWG on one route, bare wire on the other."""
    bare = {"carries": {"workshop-feeder": {"wires": {"hot": "2 × 4 AWG Cu bare"}}}}
    thin = {"carries": {"workshop-feeder": {"wires": {"hot": "2 × 8 AWG Cu THWN-2", "neutral": "8 AWG Cu THWN-2"}}}}
    assert outcome(reviewed_example("joinery-workshop", {"routes": {"yard": bare}}), AMPACITY, FEEDER) == "cannot tell"
    both = reviewed_example("joinery-workshop", {"routes": {"yard": bare, "garage-run": thin}})
    assert outcome(both, AMPACITY, FEEDER) == "not met"


@pytest.mark.parametrize(
    ("devices", "expected"),
    [
        ({"planer-outlet": {"receptacle": "20 A", "single": True}}, "met"),
        ({"planer-outlet": {"receptacle": "20 A", "single": False}}, "not met"),
        ({"planer-outlet": {"receptacle": "20 A", "single": None}}, "cannot tell"),
        ({"planer-outlet": {"receptacle": "30 A", "single": None}}, "met"),
        (
            {"planer-outlet": {"receptacle": "20 A", "single": True}, "b": {"receptacle": "20 A", "single": True}},
            "not met",
        ),
        ({"planer-outlet": None, "heat": {"heater": "3 kW"}}, "met"),
    ],
)
def test_when_the_next_standard_rating_may_be_used(devices: dict[str, Any], expected: str) -> None:
    """6 AWG TW has 55 A: 60 A for one receptacle or none. Above 20 A they are single."""
    data = merged(planer({"hot": "2 × 6 AWG Cu TW"}, "60 A"), {"boxes": {"planer-box": {"devices": devices}}})
    assert outcome(reviewed(data), AMPACITY, PLANER) == expected


@pytest.mark.parametrize(
    ("devices", "circuit", "wire", "lower"),
    [
        ({"planer-outlet": {"receptacle": "30 A"}}, {}, "12", None),
        ({"planer-outlet": {"receptacle": "30 A"}, "lamp": {"luminaire": "9 W"}}, {}, "12", None),
        ({"planer-outlet": {"receptacle": "20 A"}}, {}, "12", "20 A"),
        ({"planer-outlet": {"receptacle": "20 A"}}, {}, "14", "15 A"),
        ({"planer-outlet": None, "lamp": {"luminaire": "9 W"}, "heat": {"heater": "3840 W"}}, {}, "12", "20 A"),
        ({"planer-outlet": None, "lamp": {"luminaire": "9 W"}, "heat": {"heater": "3841 W"}}, {}, "12", None),
        ({"planer-outlet": {"receptacle": "20 A"}}, {"load": "20 A"}, "12", "20 A"),
        ({"planer-outlet": {"receptacle": "20 A"}}, {"load": "20.1 A"}, "12", None),
        ({"planer-outlet": None, "heat": {"heater": "3840 W"}}, {"voltage": None}, "12", "20 A"),
    ],
)
def test_no_breaker_is_proposed_that_is_too_small_for_what_is_planned(
    devices: dict[str, Any], circuit: dict[str, Any], wire: str, lower: str | None
) -> None:
    """A receptacle for an appliance, heat at 125 %, a planned load; what is not known asks for nothing."""
    data = merged(planer({"hot": f"2 × {wire} AWG Cu THHN"}), {"boxes": {"planer-box": {"devices": devices}}})
    of = reviewed(merged(data, {"circuits": {"planer": circuit}}))
    ways = [way.words for way in line(of, CAPPED, PLANER).answer.proposals]
    assert ([words for words in ways if "breaker" in words], of.failures) == (
        [] if lower is None else [f"use a {lower} breaker for planer"],
        (),
    )
