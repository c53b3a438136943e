"""Cable in framing: where the marks are, what is offered, and whose cable the inspection list names."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line
from support.reviews import example, merged, reviewed
from support.trenches import after_each_proposal, line_at

LEG = "/routes/ceiling/legs/0"
DISTANCE, GUARD, BEND = "/distance-to-the-face", "/guarded-where-it-can-be-hit", "/bend-of-a-cable"
STUDS = {"in": "wall framing", "length": "9 ft", "location": "dry"}
SURFACE = {"on": "inside wall", "length": "9 ft", "location": "dry"}


def ceiling(*legs: dict[str, Any], cable: str | None = "NM-B 12/2", **route: Any) -> dict[str, Any]:
    """The pottery studio with other legs of the run to its lamp."""
    return example(
        "pottery-studio",
        {"routes": {"ceiling": {"carries": {"studio": {"cable": cable}}, "legs": list(legs), **route}}},
    )


def told(data: dict[str, Any], rule: str, place: str = LEG) -> Line:
    """What a rule says of a leg."""
    return line_at(reviewed(data), rule, place)


def says(data: dict[str, Any], item: str) -> str:
    """What the inspection list says under an item; empty where it does not come up."""
    of = reviewed(data)
    said = "".join(entry.says for entry in of.inspect if entry.item.id.endswith(f"/{item}"))
    assert of.failures == ()
    return said


# Distance to the face


@pytest.mark.parametrize(
    ("facts", "expected", "place"),
    [
        ({"edge-distance": "1 1/4 in"}, "met", "edge-distance"),
        ({"edge-distance": "1 1/4 in", "plates": True}, "met", "edge-distance"),
        ({"edge-distance": "1 in", "plates": True}, "met", "plates"),
        ({"edge-distance": "1 in", "plates": False}, "not met", "edge-distance"),
        ({"edge-distance": "1 1/4 in", "plates": False}, "met", "edge-distance"),
    ],
)
def test_distance_or_plates(facts: dict[str, Any], expected: str, place: str) -> None:
    """The mark is on what decided."""
    data = ceiling(STUDS | facts)
    line = told(data, DISTANCE)
    assert (line.answer.outcome.value, line.place) == (expected, f"{LEG}/{place}")
    if expected == "not met":
        assert after_each_proposal(data, DISTANCE, LEG) == {"guard it with steel plates": "met"}


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        ({}, "not stated: it is on the inspection list"),
        *[({"edge-distance": "1/2 in", "raceway": f"{kind} 1 in"}, "in a raceway that needs no guard")
          for kind in ("RMC", "IMC", "EMT", "PVC-40", "PVC-80", "RTRC", "RTRC-XW")],
    ],
)  # fmt: skip
def test_where_no_distance_is_kept(facts: dict[str, Any], why: str) -> None:
    """A stout raceway needs no guard."""
    answer = told(ceiling(STUDS | facts), DISTANCE).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


# Cable that can be hit


@pytest.mark.parametrize(
    ("facts", "cable", "why"),
    [
        ({"physical-damage": True}, "MC 12/2", "no nonmetallic-sheathed cable"),
        ({"physical-damage": True, "raceway": "PVC-40 1 in"}, "NM-B 12/2", "in PVC conduit: looked at as such"),
        ({"physical-damage": False}, "NM-B 12/2", "it cannot be hit here"),
    ],
)
def test_where_no_guard_is_needed(facts: dict[str, Any], cable: str, why: str) -> None:
    """Each with its reason."""
    answer = told(ceiling(SURFACE | facts, cable=cable), GUARD).answer
    assert (answer.outcome.value, answer.why) == ("does not apply", why)


@pytest.mark.parametrize(
    ("on", "raceway", "has", "ways"),
    [
        ("inside wall", "none", "none", ["run this leg in PVC-80 3/4 in", "run this leg in EMT 3/4 in"]),
        ("inside wall", "ENT 1 in", "ENT 1 in", ["run this leg in PVC-80 3/4 in", "run this leg in EMT 3/4 in"]),
        ("post", "none", "none", ["run this leg in PVC-80 3/4 in", "run this leg in EMT 3/4 in"]),
        ("outside wall", "none", "none", ["run this leg in PVC-80 3/4 in"]),
        ("fence", "none", "none", ["run this leg in PVC-80 3/4 in"]),
    ],
)
def test_the_guard_that_is_offered(on: str, raceway: str, has: str, ways: list[str]) -> None:
    """Thick-walled plastic, and indoors tubing."""
    data = ceiling({**SURFACE, "on": on, "raceway": raceway, "physical-damage": True})
    answer = told(data, GUARD).answer
    assert (answer.outcome.value, answer.has) == ("not met", has)
    assert [way.words for way in answer.proposals] == ways
    assert set(after_each_proposal(data, GUARD, LEG).values()) <= {"met", "does not apply"}


def test_a_guard_is_named() -> None:
    """The raceway itself."""
    answer = told(ceiling({**SURFACE, "raceway": "RMC 1 in", "physical-damage": True}), GUARD).answer
    assert (answer.outcome.value, answer.has) == ("met", "RMC 1 in")


def beside(cable: str, leg: dict[str, Any]) -> dict[str, Any]:
    """Another circuit's cable beside the one to the lamp."""
    taken = {"circuit": "studio"}
    patch = {
        "circuits": {"more": {"kind": "branch circuit", "from": "house-panel"}},
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": taken}},
            "entry-box": {"devices": {"main-switch": taken, "bench-outlet": taken}},
            "ceiling-box": {"devices": {"lamp": taken}},
        },
        "routes": {name: {"carries": {"more": {"cable": "UF-B 14/2"}}} for name in ("garage-wall", "yard")},
    }
    data: dict[str, Any] = merged(ceiling(leg, cable="MC 12/2"), patch)
    data["routes"]["ceiling"]["carries"]["more"] = {"cable": cable}
    return data


@pytest.mark.parametrize(("cable", "expected"), [("NM-B 12/2", "not met"), ("MC 12/2", "does not apply")])
def test_one_soft_cable_among_others(cable: str, expected: str) -> None:
    """It is guarded whatever is beside it."""
    data = beside(cable, {**SURFACE, "physical-damage": True})
    assert told(data, GUARD).answer.outcome.value == expected


# Bends


@pytest.mark.parametrize(
    ("radius", "cable", "expected", "needs"),
    [
        ("2.11 in", "NM-B 12/2", "met", "at least 5 times its diameter: 2.125 in"),  # 5 × 0.422 in, to the next eighth
        ("2.1 in", "NM-B 12/2", "cannot tell", "at least 5 times its diameter: 2.125 in"),
        ("0.95 in", "NM-B 12/2", "cannot tell", "at least 5 times its diameter: 2.125 in"),  # 5 × 0.190 in
        ("0.94 in", "NM-B 12/2", "not met", "at least 5 times its diameter: 2.125 in"),
        ("4.215 in", "NM-B 4/3", "met", "at least 5 times its diameter: 4.25 in"),
        ("4.2 in", "NM-B 4/3", "not met", "at least 5 times its diameter: 4.25 in"),
        ("0.8 in", "UF-B 14/2 no ground", "not met", "at least 5 times its diameter: 2.125 in"),
    ],
)
def test_radius_of_a_cable(radius: str, cable: str, expected: str, needs: str) -> None:
    """From the width on it is enough, below the thickness it is not."""
    data = ceiling(STUDS, {"bend": "90°", "radius": radius}, STUDS, cable=cable)
    line = told(data, BEND, "/routes/ceiling/legs/1")
    assert (line.answer.outcome.value, line.answer.needs) == (expected, needs)
    assert line.place == "/routes/ceiling/legs/1/radius"
    if expected == "not met":
        assert after_each_proposal(data, BEND, "/routes/ceiling/legs/1") == {"bend it more gently": "met"}
        ((edit,),) = [way.patch for way in line.answer.proposals]
        assert needs.endswith(f": {edit['value']}")


@pytest.mark.parametrize(
    ("bend", "cable", "raceway", "why"),
    [
        ({}, "NM-B 12/2", "none", "no radius stated: it is on the inspection list"),
        ({"radius": "1 in"}, "NM-B 12/2", "EMT 1 in", "a bend of the raceway"),
        ({"radius": "1 in"}, "NM-B 6/3", "none", "no nonmetallic-sheathed cable of a size in the table"),
        ({"radius": "1 in"}, "MC 12/2", "none", "no nonmetallic-sheathed cable of a size in the table"),
    ],
)
def test_bends_that_are_not_looked_at(bend: dict[str, Any], cable: str, raceway: str, why: str) -> None:
    """Each with its reason."""
    answer = told(ceiling({"bend": "90°", **bend}, cable=cable, raceway=raceway), BEND).answer
    assert answer.outcome.value == "does not apply"
    assert answer.why.startswith(why)


def test_the_thickest_of_several_cables_counts() -> None:
    """14/3 beside 14/2: 5 × 0.478 in."""
    data = beside("NM-B 14/3", {"bend": "90°", "radius": "2.3 in"})
    data["routes"]["ceiling"]["carries"]["studio"] = {"cable": "NM-B 14/2"}
    assert told(data, BEND).answer.needs == "at least 5 times its diameter: 2.5 in"
    assert told(data, BEND).answer.outcome.value == "cannot tell"


# The inspection list


def bare(data: dict[str, Any]) -> dict[str, Any]:
    """Without the other run of cable that the pottery studio has in a wall."""
    data["routes"]["garage-wall"]["raceway"] = "EMT 1/2 in"
    return data


@pytest.mark.parametrize(
    ("leg", "facts", "framing", "surface"),
    [
        (STUDS, {}, True, False),
        (SURFACE, {}, False, True),
        (STUDS, {"raceway": None}, True, False),  # none is named
        (STUDS, {"raceway": "EMT 1/2 in"}, False, False),
        (SURFACE, {"raceway": "EMT 1/2 in"}, False, False),
        (STUDS, {"cable": "UF-B 12/2"}, True, False),
        (STUDS, {"cable": "MC 12/2"}, False, False),
        (STUDS, {"cable": None}, False, False),
        ({**STUDS, "raceway": "none"}, {"raceway": "EMT 1/2 in"}, True, False),
    ],
)
def test_cable_that_is_named(leg: dict[str, Any], facts: dict[str, Any], framing: bool, surface: bool) -> None:
    """Sheathed cable in no raceway, each run once."""
    data = bare(ceiling(leg, leg, **facts))
    assert ("Cable in framing (ceiling): 1 1/4 in from holes" in says(data, "holes-and-notches")) is framing
    assert ("Exposed cable (ceiling) follows" in says(data, "exposed-cable-along-the-surface")) is surface
    assert says(data, "staples-and-bends").startswith("Cable (ceiling) is fastened every 4.5 ft") is (
        framing or surface
    )
    for item in ("holes-and-notches", "exposed-cable-along-the-surface", "staples-and-bends"):
        assert "()" not in says(data, item)


def test_every_run_is_named() -> None:
    """In the order of the plan."""
    said = says(example("pottery-studio"), "staples-and-bends")
    assert said.startswith("Cable (garage-wall, ceiling) is fastened every 4.5 ft")


def test_wires_in_raceway_are_no_cable() -> None:
    """Nothing comes up."""
    data = example("joinery-workshop")
    for route in ("porch", "lighting", "porch-lighting"):
        data["routes"][route]["raceway"] = "EMT 1/2 in"
    assert [says(data, item) for item in ("holes-and-notches", "staples-and-bends", "under-open-joists")] == [
        "",
        "",
        "",
    ]


@pytest.mark.parametrize(
    ("leg", "cable", "comes_up"),
    [
        ({"in": "basement"}, "NM-B 12/2", True),
        ({"in": "crawl space"}, "NM-B 12/2", True),
        ({"in": "attic"}, "NM-B 12/2", False),
        ({"in": "wall framing"}, "NM-B 12/2", False),
        ({"on": "ceiling"}, "NM-B 12/2", True),
        ({"on": "inside wall"}, "NM-B 12/2", False),
        ({"in": "basement"}, "NM-B 8/2", True),
        ({"in": "basement"}, "NM-B 6/2", False),
        ({"in": "basement"}, "NM-B 10/3", True),
        ({"in": "basement"}, "NM-B 8/3", False),
        ({"in": "basement"}, "NM-B 6-6-10-10", True),  # one of its three is smaller
        ({"in": "basement"}, "NM-B 6/3", False),
    ],
)
def test_small_cable_under_open_joists(leg: dict[str, Any], cable: str, comes_up: bool) -> None:
    """Two 6 AWG or three 8 AWG may hang there."""
    said = says(ceiling({"length": "9 ft", "location": "dry", **leg}, cable=cable), "under-open-joists")
    assert ("small cable (ceiling) goes through bored holes" in said) is comes_up
    assert not comes_up or "only two 6 AWG, three 8 AWG or larger" in said
    assert bool(said) is comes_up


def test_one_small_cable_beside_a_large_one() -> None:
    """It does not hang there."""
    data = beside("NM-B 12/2", {"in": "basement", "length": "9 ft", "location": "dry"})
    data["routes"]["ceiling"]["carries"]["studio"] = {"cable": "NM-B 6/2"}
    assert "small cable (ceiling)" in says(data, "under-open-joists")
