"""Voltage drop by its wires: impedances, and the ways out."""

from __future__ import annotations

import re
from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line, Review
from support.reviews import example, lines, reviewed, reviewed_example
from support.trenches import after_each_proposal

ALONE = "/drop-of-one-circuit"
PUMP, BENCH, PLANER = "/circuits/pump", "/circuits/bench-outlets", "/circuits/planer"


def line(of: Review, place: str, rule: str = ALONE) -> Line:
    """The one line of a rule at a place."""
    (found,) = [one for one in lines(of, rule, place) if one.subject == place]
    return found


def percent(of: Review, place: str, rule: str = ALONE) -> float:
    """The drop that a line says."""
    said = re.search(r"([0-9.]+) %", str(line(of, place, rule).answer.has))
    assert said is not None
    return float(said[1])


# Impedances


def read(wires: dict[str, Any], **route: Any) -> list[tuple[str, ...]]:
    """The impedances that were read for the planer's run."""
    data = example("joinery-workshop", {"routes": {"planer-run": {"carries": {"planer": wires}, **route}}})
    cells = line(reviewed(data), PLANER).cells
    tables = ("ac-impedance", "conductor-properties")
    return list(dict.fromkeys((cell.table, *cell.key) for cell in cells if cell.table in tables))


def two(wire: str) -> dict[str, Any]:
    """Two hots of a wire."""
    return {"wires": {"hot": f"2 × {wire}", "ground": None}}


@pytest.mark.parametrize(
    ("wire", "around", "expected"),
    [
        ("14 AWG Cu THHN", "EMT 1 in", ("14", "steel", "resistance Cu")),
        ("12 AWG Al THHN", "EMT 1 in", ("12", "steel", "resistance Al")),
        ("500 kcmil Cu THHN", "EMT 1 in", ("500", "steel", "resistance Cu")),
        ("10 AWG Cu THHN", "PVC-40 1 in", ("10", "PVC", "resistance Cu")),
        ("10 AWG Cu THHN", "none", ("10", "PVC", "resistance Cu")),
        ("10 AWG Cu THHN", None, ("10", "steel", "resistance Cu")),
    ],
)
def test_which_impedance_is_taken(wire: str, around: str | None, expected: tuple[str, ...]) -> None:
    """By size, metal, and what is around it: steel where that is not stated."""
    size, kind, resistance = expected
    assert read(two(wire), raceway=around) == [
        ("ac-impedance", size, kind, resistance),
        ("ac-impedance", size, kind, "reactance"),
    ]


def test_one_leg_in_metal_is_enough() -> None:
    """The higher impedance is taken for the whole route."""
    legs = [
        {"on": "inside wall", "length": "9 ft", "location": "dry", "raceway": raceway}
        for raceway in ("none", "EMT 1 in")
    ]
    found = read(two("10 AWG Cu THHN"), raceway=None, legs=legs)
    assert {key[2] for key in found} == {"steel"}


@pytest.mark.parametrize(("wire", "metal"), [("16 AWG Cu THHN", "Cu"), ("14 AWG Al THHN", "Al")])
def test_wire_below_the_table_has_its_resistance_to_direct_current(wire: str, metal: str) -> None:
    """And no reactance."""
    size = wire.split()[0]
    assert read(two(wire)) == [("conductor-properties", size, "stranded", f"resistance {metal}")]


@pytest.mark.parametrize(
    ("wires", "factor"),
    [
        ({"hot": "12 AWG Cu THHN", "neutral": "12 AWG Cu THHN"}, 2.0 + 2.0),
        ({"hot": "12 AWG Cu THHN", "neutral": "10 AWG Cu THHN"}, 2.0 + 1.2),
        ({"hot": "12 AWG Cu THHN", "neutral": "12 AWG Al THHN"}, 2.0 + 3.2),
        ({"hot": "2 × 12 AWG Cu THHN", "neutral": "12 AWG Cu THHN"}, 1.0 + 2.0),
    ],
)
def test_hot_and_neutral_have_their_own_resistance(wires: dict[str, str], factor: float) -> None:
    """12 AWG has 2.0 ohm for 1000 ft, 10 AWG 1.2, 12 AWG aluminum 3.2; wires side by side share the current."""
    patch = {
        "circuits": {"bench-outlets": {"load": "16 A"}},
        "routes": {
            "bench": {
                "carries": {"bench-outlets": {"wires": wires}},
                "legs": [{"on": "inside wall", "length": "200 ft", "location": "dry"}],
            },
            "porch": None,
        },
        "boxes": {"yard-box": None},
    }
    of = reviewed_example("joinery-workshop", patch)
    assert percent(of, BENCH) == pytest.approx(100 * 16 * 0.2 * factor / 120, abs=0.06)


@pytest.mark.parametrize(("neutral", "lost"), [("12 AWG Cu THHN", "2.9 %"), ("10 AWG Cu THHN", "2.3 %")])
def test_the_bound_knows_hot_from_neutral(neutral: str, lost: str) -> None:
    """16 A over 55 ft."""
    patch = {
        "circuits": {"bench-outlets": {"load": "16 A"}},
        "routes": {
            "bench": {
                "carries": {"bench-outlets": {"wires": {"neutral": neutral}}},
                "legs": [{"on": "inside wall", "length": "55 ft", "location": "dry"}],
            },
            "porch": None,
        },
        "boxes": {"yard-box": None},
    }
    assert line(reviewed_example("joinery-workshop", patch), BENCH).answer.has == f"up to {lost} at bench-box"


def test_the_solution_knows_hot_from_neutral() -> None:
    """30 A in a leg of 0.49 ohm for 1000 ft, and 6 A in a neutral of 1.2 ohm, over 513 ft."""
    carries = {"carries": {"workshop-feeder": {"wires": {"neutral": "10 AWG Cu THWN-2"}}}}
    patch = {
        "circuits": {"bench-outlets": {"load": "10 A"}, "lights": {"load": "4 A"}, "planer": {"load": "20 A"}},
        "routes": {"garage-run": carries, "yard": {**carries, "legs": [{"buried": "lawn", "length": "500 ft"}]}},
    }
    drop = percent(reviewed_example("joinery-workshop", patch), "/circuits/workshop-feeder")
    assert drop == pytest.approx(100 * (30 * 0.49 + 6 * 1.2) * 0.513 / 120, abs=0.1)


# Ways out


@pytest.mark.parametrize(("feet", "amps"), [(800, "1 A"), (2400, None), (140, "6 A"), (57, "15 A")])
def test_the_load_that_would_do_is_proposed_in_whole_amperes(feet: int, amps: str | None) -> None:
    """16 A are assumed: 120 V × 3 % over 4 ohm for 1000 ft; less than 1 A is no proposal."""
    leg = {"buried": "field", "cover": "24 in", "length": f"{feet} ft"}
    data = example("orchard-pump", {"circuits": {"pump": {"load": None}}, "routes": {"to-pump": {"legs": [leg]}}})
    offered = {words: after for words, after in after_each_proposal(data, ALONE, PUMP).items() if "plan" in words}
    assert offered == ({} if amps is None else {f"plan pump for no more than {amps}": "met"})


def test_no_wire_is_proposed_where_none_is_large_enough() -> None:
    """4/0 AWG is the largest that is proposed."""
    leg = {"buried": "field", "cover": "24 in", "length": "20000 ft"}
    data = example("orchard-pump", {"routes": {"to-pump": {"legs": [leg]}}})
    assert after_each_proposal(data, ALONE, PUMP) == {}


def test_a_thin_neutral_is_exchanged_where_it_is_what_loses() -> None:
    """The hots stay, and with them the ground."""
    wires = {"hot": "6 AWG Cu THHN", "neutral": "14 AWG Cu THHN"}
    leg = {"on": "inside wall", "length": "100 ft", "location": "dry"}
    data = example(
        "joinery-workshop",
        {
            "circuits": {"bench-outlets": {"load": "14 A"}},
            "routes": {"bench": {"carries": {"bench-outlets": {"wires": wires}}, "legs": [leg]}, "porch": None},
            "boxes": {"yard-box": None},
        },
    )
    words = "run the neutral of bench-outlets in 12 AWG, all the way"
    assert after_each_proposal(data, ALONE, BENCH) == {words: "met"}
    (way,) = line(reviewed(data), BENCH).answer.proposals
    after = applied(data, complete(data, way.patch))["routes"]["bench"]["carries"]["bench-outlets"]["wires"]
    assert after == {"hot": "6 AWG Cu THHN", "neutral": "12 AWG Cu THHN", "ground": "12 AWG Cu THHN"}


@pytest.mark.parametrize(
    ("feet", "size", "room"),
    [
        (200, "8 AWG", ""),
        (1850, "3/0 AWG", ", and EMT 1-1/2 in on bench, and a box 12 in long for bench-box"),
        (2100, "4/0 AWG", ", and EMT 2 in on bench, and a box 16 in long for bench-box"),
        (2400, None, ""),
    ],
)
def test_the_smallest_wire_that_does_is_proposed(feet: int, size: str | None, room: str) -> None:
    """Up to 4/0 AWG, with a ground in the same ratio, and room for it all."""
    leg = {"on": "inside wall", "length": f"{feet} ft", "location": "dry"}
    data = example(
        "joinery-workshop",
        {
            "circuits": {"bench-outlets": {"load": "10 A"}},
            "routes": {"bench": {"legs": [leg]}, "porch": None},
            "boxes": {"yard-box": None},
        },
    )
    expected = {} if size is None else {f"run bench-outlets in {size}, all the way{room}": "met"}
    assert after_each_proposal(data, ALONE, BENCH) == expected
    for way in line(reviewed(data), BENCH).answer.proposals:
        wires = {edit["path"].rpartition("/")[2]: edit["value"] for edit in way.patch if "/wires/" in edit["path"]}
        assert wires == dict.fromkeys(("hot", "neutral", "ground"), f"{size} Cu THHN")


def test_only_what_is_smaller_is_replaced() -> None:
    """The end of the way is 8 AWG already."""
    leg = {"in": "wall framing", "length": "40 ft", "location": "dry"}
    data = example(
        "joinery-workshop",
        {
            "circuits": {"bench-outlets": {"load": "16 A"}},
            "routes": {
                "bench": {"legs": [{"on": "inside wall", "length": "50 ft", "location": "dry"}]},
                "porch": {"carries": {"bench-outlets": {"cable": "NM-B 10/2"}}, "legs": [leg]},
            },
        },
    )
    (way,) = line(reviewed(data), BENCH).answer.proposals
    assert way.words == "run bench-outlets in 10 AWG, all the way"
    assert {edit["path"].split("/")[2] for edit in way.patch} == {"bench"}
    assert set(after_each_proposal(data, ALONE, BENCH).values()) == {"met"}


@pytest.mark.parametrize(
    ("raceway", "larger"),
    [("PVC-80 3/4 in", "PVC-80 1 in"), ("PVC-80 2 in", None), ("none", None)],
)
def test_a_raceway_becomes_large_enough_for_the_cable(raceway: str, larger: str | None) -> None:
    """A larger cable is sure to fit in what is proposed with it."""
    leg = {"buried": "lawn", "length": "60 ft", "cover": "24 in"}
    patch = {"circuits": {"studio": {"load": "16 A"}}, "routes": {"yard": {"raceway": raceway, "legs": [leg]}}}
    data = example("pottery-studio", patch)
    (way,) = line(reviewed(data), "/circuits/studio").answer.proposals
    edits = {edit["path"]: edit["value"] for edit in way.patch}
    assert edits["/routes/yard/carries/studio/cable"] == "UF-B 10/2"
    assert edits.get("/routes/yard/raceway") == larger
