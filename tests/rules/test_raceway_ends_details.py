"""What the inspection list says of the ends of raceways, and openings between a garage and rooms."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import example, reviewed
from support.trenches import after_each_proposal, line_at, steps_at

OPENING = "opening-between-garage-and-dwelling"
YARD, GARAGE, PLANER = "/routes/yard", "/routes/garage-run", "/routes/planer-run"
WALL = {"on": "inside wall", "length": "9 ft", "location": "dry"}
OUTSIDE = {"on": "outside wall", "location": "wet", "physical-damage": False, "sunlight": False}


def planer(legs: list[dict[str, Any]], devices: dict[str, Any] | None = None, **route: Any) -> dict[str, Any]:
    """The joinery workshop with another way to its planer, and what is there."""
    boxes = {"planer-box": {"devices": {"planer-outlet": None, **devices}}} if devices else {}
    return example("joinery-workshop", {"boxes": boxes, "routes": {"planer-run": {"legs": legs, **route}}})


def inspected(of: Review, item: str, subject: str = "") -> str:
    """What the inspection list says under this item; empty where it does not come up."""
    said = [entry.says for entry in of.inspect if entry.item.id == item and entry.subject == subject]
    assert len(said) < 2
    assert of.failures == ()
    return "".join(said)


@pytest.mark.parametrize(
    ("wires", "raceway", "says"),
    [
        ({"hot": "2 × 4 AWG Cu THWN-2"}, "PVC-80 1-1/4 in", "4 AWG enters pull-box and workshop-panel"),
        ({"hot": "2 × 6 AWG Cu THWN-2"}, "PVC-80 1-1/4 in", ""),
        ({"neutral": "4 AWG Cu THWN-2"}, "PVC-80 1-1/4 in", "4 AWG enters"),
        ({"neutral": "4 AWG Cu bare"}, "PVC-80 1-1/4 in", ""),
        ({"hot": "2 × 2 AWG Cu THWN-2"}, "EMT 1-1/4 in", "both ends of the EMT 1-1/4 in, where 2 AWG enters"),
        ({"hot": "2 × 4 AWG Cu THWN-2"}, "none", ""),
        ({"hot": "2 × 4 AWG Cu THWN-2"}, "plumbing pipe 2 in", ""),
        ({"hot": "2 × 4 AWG Cu THWN-2"}, None, ""),
        ({"hot": None}, "PVC-80 1-1/4 in", ""),
    ],
)
def test_bushings_for_large_wires(wires: dict[str, str | None], raceway: str | None, says: str) -> None:
    """From 4 AWG on, insulated, in raceway."""
    route = {"raceway": raceway, "carries": {"workshop-feeder": {"wires": wires}}}
    said = inspected(
        reviewed(example("joinery-workshop", {"routes": {"yard": route}})), "raceway/ends/bushing-for-large-wires", YARD
    )
    assert says in said
    assert bool(said) is bool(says)


def test_the_largest_wire_is_named() -> None:
    """Of all circuits in the raceway."""
    wires = {"planer": {"wires": {"hot": "2 × 4 AWG Cu THHN"}}, "more": {"wires": {"hot": "2 AWG Cu THHN"}}}
    patch = {
        "circuits": {"more": {"kind": "branch circuit", "from": "workshop-panel"}},
        "boxes": {"planer-box": {"devices": {"planer-outlet": {"circuit": "planer"}}}},
        "routes": {"planer-run": {"carries": wires}},
    }
    of = reviewed(example("joinery-workshop", patch))
    assert "where 2 AWG enters" in inspected(of, "raceway/ends/bushing-for-large-wires", PLANER)


def test_large_cable_needs_no_bushing() -> None:
    """Its sheath guards it."""
    route = {"carries": {"workshop-feeder": {"wires": None, "cable": "SER 2-2-2-4 Al"}}}
    of = reviewed(example("joinery-workshop", {"routes": {"yard": route}}))
    assert inspected(of, "raceway/ends/bushing-for-large-wires", YARD) == ""


BARE, TUBE, GROUND = (
    {**WALL, "raceway": "none"},
    {**WALL, "raceway": "EMT 1/2 in"},
    {"buried": "lawn", "length": "9 ft"},
)


@pytest.mark.parametrize(
    ("legs", "raceway", "comes_up"),
    [
        ([TUBE, BARE], "none", True),
        ([BARE, {"bend": "90°"}, TUBE], "none", True),
        ([TUBE, {**WALL, "on": "ceiling"}], "none", True),
        ([TUBE, TUBE], "none", False),
        ([BARE, BARE], "EMT 1/2 in", False),
        ([TUBE, {**GROUND, "raceway": "none"}], "none", False),
        ([{**GROUND, "raceway": "EMT 1/2 in"}, BARE], "none", False),
        ([TUBE, {**WALL, "on": "ceiling"}], None, False),
        ([{**WALL, "on": "ceiling"}, TUBE], None, False),
        ([WALL, WALL], "none", False),
    ],
)
def test_where_cable_goes_on(legs: list[dict[str, Any]], raceway: str | None, comes_up: bool) -> None:
    """Out of its raceway, above ground, in either direction."""
    said = inspected(reviewed(planer(legs, raceway=raceway)), "raceway/ends/end-where-cable-goes-on", PLANER)
    assert ("where the cable leaves the EMT 1/2 in above ground" in said) is comes_up


@pytest.mark.parametrize(
    ("legs", "raceway", "says"),
    [
        ([OUTSIDE, WALL], "EMT 1 in", "EMT 1 in outdoors: arranged to drain"),
        ([{**OUTSIDE, "raceway": "RMC 1 in"}, {**OUTSIDE, "on": "roof"}], "EMT 1 in", "EMT 1 in and RMC 1 in outdoors"),
        ([WALL], "EMT 1 in", ""),
        ([OUTSIDE], "none", ""),
        ([OUTSIDE], None, ""),
        ([OUTSIDE], "plumbing pipe 1 in", ""),
    ],
)
def test_raceway_outdoors_drains(legs: list[dict[str, Any]], raceway: str | None, says: str) -> None:
    """Each kind once, where it is on a surface outdoors."""
    said = inspected(reviewed(planer(legs, raceway=raceway)), "raceway/ends/raceway-outdoors-drains", PLANER)
    assert says in said
    assert bool(said) is bool(says)


@pytest.mark.parametrize(
    ("name", "patch", "says"),
    [
        ("joinery-workshop", {}, "secured to each. EMT: couplings and connectors tight"),
        ("joinery-workshop", {"routes": {"bench": {"legs": [{**WALL, "raceway": "RMC 1 in"}]}}}, "each. EMT and RMC: couplings"),
        ("pottery-studio", {}, "Raceways run complete from box to box, secured to each."),
        ("pottery-studio", {"routes": {"yard": {"raceway": "plumbing pipe 1 in"}}}, ""),
        ("pottery-studio", {"routes": {"yard": {"raceway": None}}}, ""),
        ("orchard-pump", {}, ""),  # raceway on the rises only
    ],
)  # fmt: skip
def test_raceways_from_box_to_box(name: str, patch: dict[str, Any], says: str) -> None:
    """And one electrical path, where they are of metal."""
    said = inspected(reviewed(example(name, patch)), "raceway/ends/metal-raceway-in-one-piece")
    assert says in said
    assert bool(said) is bool(says)
    assert ("couplings" in says) or said == says


def test_conductors_of_a_circuit_together() -> None:
    """Wires that are not in the ground or the air, where other things are said of them."""
    item = "raceway/ends/conductors-of-a-circuit-together"
    assert inspected(reviewed(example("joinery-workshop")), item).endswith(
        "same raceway: garage-run, bench, planer-run."
    )
    more = {
        "circuits": {"more": {"kind": "branch circuit", "from": "workshop-panel"}},
        "boxes": {"planer-box": {"devices": {"planer-outlet": {"circuit": "planer"}}}},
        "routes": {"planer-run": {"carries": {"more": {"cable": "NM-B 12/2"}}}},
    }
    assert inspected(reviewed(example("joinery-workshop", more)), item).endswith(": garage-run, bench, planer-run.")
    span = {"routes": {"bench": {"legs": [{"overhead": "yard", "length": "9 ft"}]}}}
    assert inspected(reviewed(example("joinery-workshop", span)), item).endswith(": garage-run, planer-run.")
    assert inspected(reviewed(example("pottery-studio")), item) == ""


@pytest.mark.parametrize(
    ("leg", "box", "house", "expected"),
    [
        ({"through": "wall", "sealed": False}, {"area": "indoors"}, {}, "not met"),
        ({"through": "floor", "sealed": False}, {"area": "basement"}, {}, "not met"),
        ({"through": "wall", "sealed": True}, {"area": "indoors"}, {}, "met"),
        ({"through": "wall"}, {"area": "indoors"}, {}, "listed"),
        ({"through": "foundation", "sealed": False}, {"area": "indoors"}, {}, ""),
        ({"through": "wall", "sealed": False}, {"area": "garage"}, {}, ""),
        ({"through": "wall", "sealed": False}, {"area": "outdoors"}, {}, ""),
        ({"through": "wall", "sealed": False}, {"area": "ground"}, {}, ""),
        ({"through": "wall", "sealed": False}, {"area": None}, {}, ""),
        ({"through": "wall", "sealed": False}, {"area": "indoors", "at": "workshop"}, {}, ""),
        ({"through": "wall", "sealed": False}, {"area": "indoors"}, {"use": "commercial"}, ""),
    ],
)
def test_an_opening_between_garage_and_rooms(
    leg: dict[str, Any], box: dict[str, Any], house: dict[str, Any], expected: str
) -> None:
    """Of one dwelling; where its state is not told it is on the inspection list alone."""
    patch = {
        "structures": {"house": house},
        "boxes": {"pull-box": {"location": "dry", **box}},
        "routes": {"garage-run": {"legs": [WALL, leg]}},
    }
    of = reviewed(example("joinery-workshop", patch))
    place = f"{GARAGE}/legs/1"
    line = line_at(of, OPENING, place)
    decides = expected in ("met", "not met")
    assert line.answer.outcome.value == (expected if decides else "does not apply")
    if decides:
        assert line.place == f"{place}/sealed"
    said = inspected(of, "raceway/ends/opening-in-a-rated-wall", place)
    assert said.startswith(f"Through the {leg['through']} between garage and dwelling") is bool(expected)


def test_an_opening_between_rooms_is_left_alone() -> None:
    """With no garage at either end."""
    patch = {
        "panels": {"house-panel": {"area": "basement"}},
        "boxes": {"pull-box": {"location": "dry", "area": "indoors"}},
        "routes": {"garage-run": {"legs": [WALL, {"through": "floor", "sealed": False}]}},
    }
    answer = line_at(reviewed(example("joinery-workshop", patch)), OPENING, f"{GARAGE}/legs/1").answer
    assert (answer.outcome.value, answer.why) == ("does not apply", "not between a garage and the rooms of a dwelling")


def test_closing_the_opening_settles_it() -> None:
    """A statement of the plan."""
    patch = {
        "boxes": {"pull-box": {"location": "dry", "area": "indoors"}},
        "routes": {"garage-run": {"legs": [WALL, {"through": "wall", "sealed": False}]}},
    }
    data = example("joinery-workshop", patch)
    assert list(after_each_proposal(data, OPENING, f"{GARAGE}/legs/1").values()) == ["met"]
    assert steps_at(data, OPENING, f"{GARAGE}/legs/1") == []
