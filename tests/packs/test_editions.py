"""The editions: each change of one is a plan whose verdict it changes, and the rest is as in the edition before.

What changed with which edition is told by the sources that the packs name cell by cell.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any, NamedTuple

import pytest

from precover.rulebook import Rulebook
from support.reviews import example, library, reviewed

EDITIONS = ("us-2017", "us-2020", "us-2023", "us-2026")
WORKSHOP, STUDIO, PUMP = "joinery-workshop", "pottery-studio", "orchard-pump"
NONE, MET, NOT, QUERY = "does not apply", "met", "not met", "cannot tell"


class Turn(NamedTuple):
    """A plan, a rule and a place, and what the rule answers there in each edition; None where there is no such rule."""

    base: str
    patch: dict[str, Any]
    rule: str
    place: str
    answers: tuple[str | None, str | None, str | None, str | None]


def outlet(**facts: Any) -> dict[str, Any]:
    """The pump's post receptacle with other facts, on a circuit without ground-fault protection."""
    breaker = {"circuits": {"pump": {"breaker": {"ground-fault": "none"}}}}
    return {**breaker, "boxes": {"post-box": {"devices": {"outlet": {"ground-fault": False, **facts}}}}}


POST = "/boxes/post-box/devices/outlet"
GFCI = "ground-fault/receptacles/protection-of-a-receptacle"
HARDWIRED = "ground-fault/hardwired-outlets/protection-of-hardwired-equipment-outdoors"


def hardwired(rating: str = "20 A", **facts: Any) -> dict[str, Any]:
    """A gate opener wired on the post in place of the receptacle, without ground-fault protection."""
    device = {"equipment": "gate opener", "hardwired": True, "load": "500 VA", **facts}
    return {
        "circuits": {"pump": {"breaker": {"rating": rating, "ground-fault": "none"}}},
        "boxes": {"post-box": {"devices": {"outlet": None, "opener": device}}},
    }


OPENER = "/boxes/post-box/devices/opener"
SERVICE = {"panels": {"house-panel": {"replaced": True, "surge-protection": False, "emergency-disconnect": False}}}


def guest_house(emergency: bool | None = None) -> dict[str, Any]:
    """The workshop as a dwelling on its feeder, all of it indoors."""
    service = {} if emergency is None else {"emergency-disconnect": emergency}
    return {
        "structures": {"workshop": {"use": "dwelling", "habitable": True}},
        "panels": {"workshop-panel": {"surge-protection": False}, "house-panel": service},
    }


RAISED = {
    "structures": {"studio": {"floor": "above grade"}},
    "boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}}},
}
DAMP_ROOM = {**RAISED, "boxes": {**RAISED["boxes"], "entry-box": {"location": "damp"}}}
ONE_BAY = {"structures": {"studio": {"use": "garage", "vehicle-bays": 1}}}
FOR_THE_DOOR = {
    "structures": {"studio": {"use": "garage", "vehicle-bays": 2}},
    "circuits": {
        "opener": {
            "kind": "branch circuit",
            "from": "house-panel",
            "voltage": "120 V",
            "multiwire": False,
            "breaker": {"rating": "20 A", "ground-fault": "class A"},
        }
    },
    "routes": {
        "garage-wall": {"carries": {"opener": {"cable": "NM-B 12/2"}}},
        "yard": {"carries": {"opener": {"cable": "UF-B 12/2"}}},
    },
    "boxes": {
        "terrace-box": {"devices": {"terrace-outlet": {"circuit": "studio"}}},
        "entry-box": {
            "devices": {
                "door": {"receptacle": "20 A", "voltage": "125 V", "height": "8 ft", "circuit": "opener"},
                "bench-outlet": {"circuit": "studio"},
                "main-switch": {"circuit": "studio"},
            }
        },
    },
}
EMT = {"routes": {"yard": {"raceway": "EMT 3/4 in"}}}
TEN_AMPERES = {
    "circuits": {"lights": {"breaker": {"rating": "10 A"}}},
    "boxes": {
        "second-light-box": {
            "at": "workshop",
            "area": "outdoors",
            "location": "damp",
            "box": {"kind": "box", "material": "PVC", "volume": "20 in³", "listed-for": "wet", "mounting": "flush"},
            "devices": {"lamp": {"luminaire": "20 W", "listed-for": "damp", "switched-by": "switch-box/light-switch"}},
        }
    },
    "routes": {
        "to-second-light": {
            "from": "porch-light-box",
            "to": "second-light-box",
            "raceway": "none",
            "carries": {"lights": {"cable": "NM-B 14/2"}},
            "legs": [{"in": "wall framing", "length": "8 ft", "location": "dry", "edge-distance": "1 1/2 in"}],
        }
    },
}


def five_grounds() -> dict[str, Any]:
    """Five cables in a box of 29.5 in³: with grounds counted once 29.25 in³ are needed, with a quarter more 29.81 in³."""
    box = {"kind": "box", "material": "PVC", "volume": "20 in³", "listed-for": "wet", "mounting": "surface"}
    names = [f"lamp-box-{number}" for number in range(3)]
    return {
        "boxes": {
            "terrace-box": {"spliced": True, "box": {"volume": "29.5 in³", "clamps": False}},
            **{
                name: {"at": "house", "area": "outdoors", "location": "damp", "box": box, "devices": {"lamp": LAMP}}
                for name in names
            },
        },
        "routes": {
            f"to-{name}": {
                "from": "terrace-box",
                "to": name,
                "raceway": "none",
                "carries": {"studio": {"cable": "UF-B 12/2"}},
                "legs": [{"on": "outside wall", "length": "8 ft", "location": "damp"}],
            }
            for name in names
        },
    }


LAMP = {"luminaire": "20 W", "listed-for": "damp"}
ROOF = {
    "site": {"design-high": "95 °F"},
    "routes": {
        "planer-run": {
            "carries": {"planer": {"wires": {"hot": "2 × 10 AWG Cu TW"}}},
            "legs": [{"on": "roof", "length": "30 ft", "location": "wet", "sunlight": True, "above-roof": "13/16 in"}],
        }
    },
}

TURNS = {
    "five grounds in a box": Turn(
        STUDIO, five_grounds(), "boxes/fill/room-in-a-box", "/boxes/terrace-box", (MET, NOT, NOT, NOT)
    ),
    "a raceway 13/16 in above a sunny roof": Turn(
        WORKSHOP, ROOF, "sizing/overcurrent/breaker-for-the-ampacity", "/circuits/planer", (NOT, MET, MET, MET)
    ),
    "receptacles of 250 V outdoors": Turn(
        PUMP,
        outlet(voltage="250 V") | {"circuits": {"pump": {"voltage": "240 V", "breaker": {"ground-fault": "none"}}}},
        GFCI,
        POST,
        (NONE, NOT, NOT, NOT),
    ),
    "receptacles of 30 A outdoors": Turn(PUMP, outlet(receptacle="30 A"), GFCI, POST, (NONE, NOT, NOT, NOT)),
    "damp rooms": Turn(STUDIO, DAMP_ROOM, GFCI, "/boxes/entry-box/devices/bench-outlet", (NONE, NOT, NOT, NOT)),
    "floors above grade": Turn(STUDIO, RAISED, GFCI, "/boxes/entry-box/devices/bench-outlet", (NONE, NONE, NONE, NOT)),
    "hard-wired equipment outdoors": Turn(PUMP, hardwired(), HARDWIRED, OPENER, (None, NOT, NOT, NOT)),
    "hard-wired equipment on 60 A": Turn(PUMP, hardwired("60 A"), HARDWIRED, OPENER, (None, NONE, NONE, NOT)),
    "listed HVAC equipment": Turn(PUMP, hardwired(hvac=True), HARDWIRED, OPENER, (None, QUERY, QUERY, QUERY)),
    "EMT where it can be hit": Turn(
        STUDIO, EMT, "burial/rising-raceway/raceway-where-it-can-be-hit", "/routes/yard/legs/0", (NOT, MET, MET, MET)
    ),
    "circuits of 10 A": Turn(
        WORKSHOP,
        TEN_AMPERES,
        "sizing/branch-ratings/rating-of-a-branch-circuit",
        "/circuits/lights",
        (NOT, NOT, MET, MET),
    ),
    "garages of one bay": Turn(
        STUDIO,
        ONE_BAY,
        "loads/garage-circuit/garage-has-its-receptacle-circuit",
        "/structures/studio",
        (NOT, NOT, MET, MET),
    ),
    "a circuit for a door opener only": Turn(
        STUDIO,
        FOR_THE_DOOR,
        "loads/garage-circuit/garage-has-its-receptacle-circuit",
        "/structures/studio",
        (MET, NOT, NOT, NOT),
    ),
    "surge protection of a service": Turn(
        WORKSHOP, SERVICE, "loads/surge/surge-protection-of-a-dwelling", "/panels/house-panel", (None, NOT, NOT, NOT)
    ),
    "surge protection of a feeder": Turn(
        WORKSHOP,
        guest_house(),
        "loads/surge/surge-protection-of-a-dwelling",
        "/panels/workshop-panel",
        (None, NONE, NOT, NOT),
    ),
    "emergency disconnect of a service": Turn(
        WORKSHOP,
        SERVICE,
        "loads/service-disconnect/emergency-disconnect-of-the-service",
        "/panels/house-panel",
        (None, NOT, NOT, NOT),
    ),
    "emergency disconnect of a dwelling on a feeder": Turn(
        WORKSHOP,
        guest_house(emergency=False),
        "disconnect/dwelling/emergency-disconnect-outside",
        "/structures/workshop",
        (None, None, NOT, NOT),
    ),
    "emergency disconnect ahead of that dwelling": Turn(
        WORKSHOP,
        guest_house(emergency=True),
        "disconnect/dwelling/emergency-disconnect-outside",
        "/structures/workshop",
        (None, None, NOT, QUERY),
    ),
}


def answer(turn: Turn, edition: str) -> str | None:
    """What the rule says of the place in an edition."""
    made = reviewed(example(turn.base, turn.patch), (edition,))
    found = [line.answer.outcome.value for line in made.ran if line.rule.id == turn.rule and line.subject == turn.place]
    assert len(found) < 2
    return found[0] if found else None


@pytest.mark.parametrize("turn", TURNS.values(), ids=TURNS)
def test_a_change_changes_the_verdict(turn: Turn) -> None:
    """In the editions before it and from it on."""
    assert tuple(answer(turn, edition) for edition in EDITIONS) == turn.answers


def in_force(edition: str) -> Rulebook:
    """The book of an edition."""
    return library().book((edition,))


def values(edition: str) -> dict[tuple[str, tuple[str, ...]], str]:
    """Every value of an edition, by table and key."""
    tables = in_force(edition).tables
    return {(name, key): cell.text for name in tables for key, cell in tables[name].cells.items()}


def test_a_value_knows_what_it_was_in_the_edition_before() -> None:
    """Everything that two editions differ in, and nothing else, is a change of the later one."""
    for before, after in pairwise(EDITIONS):
        was, now = values(before), values(after)
        assert was.keys() <= now.keys()
        for (table, key), text in now.items():
            cell = in_force(after).tables[table][key]
            assert (cell.set_by, cell.was) == (after, None)
            if (table, key) not in was:
                assert cell.earlier is None
            elif text != was[table, key]:
                assert cell.earlier is not None
                assert (cell.earlier.text, cell.earlier.set_by) == (was[table, key], before)


def test_a_rule_appears_with_its_edition() -> None:
    """And stays; the default edition has every rule there is."""
    known = [{rule.id for rule in in_force(edition).rules} for edition in EDITIONS]
    assert known[0] < known[1] < known[2] == known[3]
    assert known[2] == {rule.id for topic in library().topics.values() for rule in topic.rules}
    assert in_force("us-2023").off == ()
    assert all(off.switch.reason and off.by_edition for off in in_force("us-2017").off)


@pytest.mark.parametrize(
    ("topic", "places"),
    [
        ("burial/minimum-cover", ("Table 300.5", "Table 300.5", "Table 300.5(A)", "")),
        ("disconnect/location", ("225.32", "225.32", "225.31(B)", "225.31(B)")),
        ("burial/rising-raceway", ("352.10(F)", "352.10(F)", "352.10(K)", "")),
    ],
)
def test_where_to_look_goes_by_the_edition(topic: str, places: tuple[str, ...]) -> None:
    """No number of one edition stands for another; one that is not known is left out."""
    for edition, place in zip(EDITIONS, places, strict=True):
        book = in_force(edition)
        found = {place for rule in book.topics[topic].rules for place in book.look_up(rule)}
        assert (place in found) if place else not any(other in found for other in places if other)


def test_what_is_only_from_memory_is_marked() -> None:
    """A change without a published source says so."""
    memory = [
        cell for table in in_force("us-2017").tables.values() for cell in table.cells.values() if cell.from_memory
    ]
    assert ("raceways-against-damage", ("EMT",)) in {(cell.table, cell.key) for cell in memory}


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_examples_are_well_in_every_edition(edition: str) -> None:
    """Nothing to settle, and no rule fails for a value that its edition does not have."""
    for name in (WORKSHOP, STUDIO, PUMP):
        made = reviewed(example(name), (edition,))
        assert (made.findings, made.failures) == ((), ())
        made = reviewed(example(f"{name}-uncorrected"), (edition,))
        assert made.failures == ()
