"""The disconnecting means of a separate structure: there, first, in reach, at the entry, marked, opening every hot."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from precover.rulebook import Severity
from support.reviews import asked, line_of, lines, outcome, reviewed_example

STUDIO, WORKSHOP, POST = "/structures/studio", "/structures/workshop", "/structures/pump-post"
SWITCH = "/boxes/entry-box/devices/main-switch"
NEEDED, FIRST = "/disconnect-at-the-structure", "/disconnect-comes-first"
OPENS, SHOWS = "/opens-every-hot", "/shows-open-or-closed"
REACH, ENTRY, MARKED = "/disconnect-readily-accessible", "/disconnect-where-the-supply-enters", "/disconnect-identified"
SNAP, OLD, NEW = (
    "/snap-switch-for-a-small-circuit",
    "/service-rated-where-the-neutral-is-bonded",
    "/service-rated-for-other-feeders",
)
THREE_WIRE = {
    "circuits": {"workshop-feeder": {"existing": True}},
    "routes": {"yard": {"carries": {"workshop-feeder": {"wires": {"ground": None}}}}},
}


def studio(switch: dict[str, Any] | None, **rest: Any) -> Review:
    """The pottery studio with other facts of its main switch (None takes it out), and further changes of the entry box."""
    devices: dict[str, Any] = {"main-switch": switch, **rest.pop("devices", {})}
    lamp = {"ceiling-box": {"devices": {"lamp": {"switched-by": None}}}} if switch is None else {}
    return reviewed_example("pottery-studio", {"boxes": {"entry-box": {"devices": devices}, **lamp}, **rest})


def workshop(**panel: Any) -> Review:
    """The joinery workshop with other facts of its panel."""
    return reviewed_example("joinery-workshop", {"panels": {"workshop-panel": panel}})


def test_a_switch_a_main_or_the_breakers_do() -> None:
    """Each of the three, and where it is."""
    for of, place, has in (
        (studio({}), STUDIO, "main-switch in entry-box"),
        (workshop(), WORKSHOP, "the main of workshop-panel"),
        (workshop(main="none"), WORKSHOP, "the breakers of workshop-panel"),
        (reviewed_example("orchard-pump"), POST, "main-switch in post-box"),
    ):
        (line,) = lines(of, NEEDED, place)
        assert (line.answer.outcome.value, line.answer.has) == ("met", has)


@pytest.mark.parametrize("switch", [None, {"role": "lighting"}, {"role": "equipment"}])
def test_without_one(switch: dict[str, str] | None) -> None:
    """A switch for lights or equipment is none; the breaker at the house is named as what does not count."""
    (line,) = lines(studio(switch), NEEDED, STUDIO)
    assert line.answer.outcome.value == "not met"
    assert line.rule.severity is Severity.CORRECTION
    assert ("the breaker of studio is at another structure", "/circuits/studio") in line.steps


def test_a_switch_of_unstated_role_is_asked_about_only_where_nothing_else_serves() -> None:
    """Alone it could be the disconnect; beside a disconnect, or behind a panel, it does not matter."""
    assert asked(studio({"role": None})) == [f"{SWITCH}/role"]
    beside = studio({"role": None}, devices={"cut-off": disconnect()})
    assert outcome(beside, NEEDED, STUDIO) == "met"
    assert f"{SWITCH}/role" not in asked(beside)


def test_where_nothing_comes_from_outside() -> None:
    """The house with the service; and a structure that is part of the house."""
    of = reviewed_example("pottery-studio", {"structures": {"studio": {"detached": False}}})
    assert outcome(of, NEEDED, "/structures/house") == "does not apply"
    assert outcome(of, NEEDED, STUDIO) == "does not apply"
    for rule in (NEEDED, "/six-handles-at-most"):
        why = line_of(of, rule, "/structures/house").answer.why
        assert why == "no branch circuit or feeder comes here from another structure"


def test_whether_it_is_detached_is_asked_where_it_matters() -> None:
    """Without a disconnect it does; with one it does not."""
    there = {"structures": {"studio": {"detached": None}}}
    assert outcome(studio({}, **there), NEEDED, STUDIO) == "met"
    assert outcome(studio(None, **there), NEEDED, STUDIO) == "cannot tell"


@pytest.mark.parametrize(
    ("use", "device", "expected"),
    [
        ("lighting pole", {"luminaire": "60 W"}, "does not apply"),
        ("lighting pole", {"receptacle": "20 A"}, "not met"),
        ("post", {"luminaire": "60 W"}, "not met"),
        ("garage", {"luminaire": "60 W"}, "not met"),
    ],
)
def test_a_pole_with_luminaires_only(use: str, device: dict[str, str], expected: str) -> None:
    """The exception goes no farther than the pole: not to a receptacle on it, and not to a garage."""
    of = reviewed_example(
        "orchard-pump",
        {
            "structures": {"pump-post": {"use": use}},
            "boxes": {"post-box": {"devices": {"main-switch": None, "outlet": None, "thing": device}}},
        },
    )
    assert outcome(of, NEEDED, POST) == expected


def test_low_voltage_is_no_supply() -> None:
    """A garden light on 12 V from the house needs no disconnect."""
    of = reviewed_example(
        "orchard-pump",
        {
            "circuits": {
                "pump": {"kind": "low-voltage", "from": "shed-box/transformer", "voltage": "12 V"},
                "lights": {"kind": "branch circuit", "from": "farmhouse-panel"},
            },
            "boxes": {
                "shed-box": {"at": "farmhouse", "box": {}, "devices": {"transformer": {"transformer": "150 VA"}}},
                "post-box": {"devices": {"main-switch": None, "outlet": None, "lamp": {"luminaire": "10 W"}}},
            },
            "routes": {
                "to-pump": {"from": "shed-box"},
                "in": {
                    "from": "farmhouse-panel",
                    "to": "shed-box",
                    "carries": {"lights": {"cable": "NM-B 14/2"}},
                    "legs": [{"in": "basement", "length": "4 ft"}],
                },
            },
        },
    )
    assert outcome(of, NEEDED, POST) == "does not apply"


def test_what_is_fed_ahead_of_it() -> None:
    """A disconnect in the second box leaves the receptacle of the first ahead of it; a bare pull box may be ahead."""
    moved = {"switch": "20 A", "role": "disconnect", "opens": "all hots"}
    of = reviewed_example(
        "pottery-studio",
        {
            "boxes": {
                "entry-box": {"devices": {"main-switch": None}},
                "ceiling-box": {"devices": {"main-switch": moved, "lamp": {"switched-by": None}}},
            }
        },
    )
    (line,) = lines(of, FIRST, STUDIO)
    assert (line.answer.outcome.value, line.answer.has, line.place) == ("not met", "entry-box", "/boxes/entry-box")
    of = reviewed_example(
        "pottery-studio",
        {
            "boxes": {
                "entry-box": {"devices": {"main-switch": None, "bench-outlet": None}},
                "ceiling-box": {"devices": {"main-switch": moved, "lamp": {"switched-by": None}}},
            }
        },
    )
    assert outcome(of, FIRST, STUDIO) == "met"


def test_the_first_of_two_is_the_disconnect() -> None:
    """An enclosed switch ahead of the workshop's panel is taken, not the panel's main."""
    of = reviewed_example(
        "joinery-workshop",
        {
            "boxes": {"outside-box": {"at": "workshop", "box": {}, "devices": {"cut-off": disconnect()}}},
            "routes": {
                "yard": {"to": "outside-box"},
                "in": {
                    "from": "outside-box",
                    "to": "workshop-panel",
                    "raceway": "none",
                    "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}},
                    "legs": [{"through": "wall", "length": "8 in"}],
                },
            },
        },
    )
    (line,) = lines(of, NEEDED, WORKSHOP)
    assert line.answer.has == "cut-off in outside-box"
    assert outcome(of, FIRST, WORKSHOP) == "met"


@pytest.mark.parametrize(
    ("opens", "circuit", "expected"),
    [
        ("all hots", {}, "met"),
        ("one hot", {}, "met"),
        ("neutral", {}, "not met"),
        ("all hots", {"voltage": "240 V"}, "met"),
        ("one hot", {"voltage": "240 V"}, "not met"),
        ("one hot", {"voltage": "120/240 V"}, "not met"),
        ("one hot", {"multiwire": True}, "not met"),
        ("neutral", {"voltage": None, "multiwire": None}, "not met"),
        ("one hot", {"voltage": None}, "cannot tell"),
        ("all hots", {"voltage": None, "multiwire": None}, "met"),
        (None, {}, "cannot tell"),
    ],
)
def test_what_a_switch_opens(opens: str | None, circuit: dict[str, Any], expected: str) -> None:
    """One hot is all there is on a 120 V supply; two hots take two poles; the voltage is asked only for one pole."""
    of = studio({"opens": opens}, circuits={"studio": circuit})
    assert outcome(of, OPENS, STUDIO) == expected
    assert lines(of, OPENS, STUDIO)[0].rule.severity is Severity.DANGER


@pytest.mark.parametrize(
    ("breaker", "expected"),
    [
        ({"poles": 2, "common-trip": True}, "met"),
        ({"poles": 2, "common-trip": False}, "not met"),
        ({"poles": 1}, "not met"),
        ({"common-trip": None}, "cannot tell"),
    ],
)
def test_breakers_that_serve_together_open_all_hots_of_their_circuits(breaker: dict[str, Any], expected: str) -> None:
    """The 240 V planer, in a panel without a main."""
    patch = {"panels": {"workshop-panel": {"main": "none"}}, "circuits": {"planer": {"breaker": breaker}}}
    assert outcome(reviewed_example("joinery-workshop", patch), OPENS, WORKSHOP) == expected


def disconnect(**facts: Any) -> dict[str, Any]:
    """A disconnect switch with nothing against it."""
    kept = {"type": "general-use switch", "opens": "all hots", "indicating": True, "identified": True}
    return {"disconnect": "60 A", **kept, "readily-accessible": True, "at-entry": True, "enclosure": "3R", **facts}


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({}, "met"),
        ({"indicating": False}, "not met"),
        ({"indicating": None}, "cannot tell"),
        ({"indicating": None, "type": "breaker"}, "met"),
    ],
)
def test_showing_its_position(facts: dict[str, Any], expected: str) -> None:
    """A breaker's handle always does."""
    given = {key: value for key, value in disconnect(**facts).items() if value is not None}
    of = studio({}, devices={"cut-off": given})
    assert outcome(of, SHOWS, "/boxes/entry-box/devices/cut-off") == expected


@pytest.mark.parametrize(("rule", "key"), [(REACH, "readily-accessible"), (ENTRY, "at-entry"), (MARKED, "identified")])
@pytest.mark.parametrize(("value", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_a_fact_of_the_disconnect(rule: str, key: str, value: bool | None, expected: str) -> None:
    """Of a switch and of a panel alike."""
    assert outcome(studio({key: value}), rule, STUDIO) == expected
    assert outcome(workshop(**{key: value}), rule, WORKSHOP) == expected


def test_on_a_post_everything_is_at_the_entry() -> None:
    """Nothing is asked."""
    assert outcome(reviewed_example("orchard-pump"), ENTRY, POST) == "does not apply"


@pytest.mark.parametrize(
    ("rating", "expected"),
    [("15 A", "met"), ("20 A", "met"), ("21 A", "not met"), ("30 A", "not met"), (None, "cannot tell")],
)
def test_a_snap_switch_is_sure_for_one_small_circuit(rating: str | None, expected: str) -> None:
    """Beyond 20 A sources disagree: the finding is a query, not a correction."""
    of = studio({}, circuits={"studio": {"breaker": {"rating": rating}}})
    (line,) = lines(of, SNAP, STUDIO)
    assert (line.answer.outcome.value, line.rule.severity) == (expected, Severity.QUERY)


def test_a_snap_switch_for_a_feeder() -> None:
    """A query too; a main breaker is no snap switch."""
    of = reviewed_example(
        "joinery-workshop",
        {
            "boxes": {
                "outside-box": {
                    "at": "workshop",
                    "box": {},
                    "devices": {"cut-off": {"switch": "30 A", "role": "disconnect"}},
                }
            },
            "routes": {
                "yard": {"to": "outside-box"},
                "in": {
                    "from": "outside-box",
                    "to": "workshop-panel",
                    "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}},
                    "legs": [{"through": "wall", "length": "8 in"}],
                },
            },
        },
    )
    assert outcome(of, SNAP, WORKSHOP) == "not met"
    assert outcome(of, NEW, WORKSHOP) == "not met"
    assert outcome(workshop(), SNAP, WORKSHOP) == "does not apply"


@pytest.mark.parametrize(("rated", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_service_rated(rated: bool | None, expected: str) -> None:
    """A correction where the neutral of an old three-wire feeder is bonded, advice for other feeders."""
    old = reviewed_example("joinery-workshop", {"panels": {"workshop-panel": {"service-rated": rated}}, **THREE_WIRE})
    assert (outcome(old, OLD, WORKSHOP), outcome(old, NEW, WORKSHOP)) == (expected, "does not apply")
    new = workshop(**{"service-rated": rated})
    assert (outcome(new, OLD, WORKSHOP), outcome(new, NEW, WORKSHOP)) == ("does not apply", expected)
    assert lines(new, NEW, WORKSHOP)[0].rule.severity is Severity.ADVICE
    assert outcome(studio({}), NEW, STUDIO) == "does not apply"


def test_the_inspection_list() -> None:
    """What only a person on site sees, with this plan's names."""
    feeder = {
        "panels": {"workshop-panel": {"main": "none"}},
        "site": {"premises": "two-family dwelling"},
        "circuits": {"workshop-feeder": {"breaker": {"readily-accessible": False}}},
    }
    said = {
        entry.item.id.rpartition("/")[2]: entry.says for entry in reviewed_example("joinery-workshop", feeder).inspect
    }
    assert "workshop-feeder cannot be reached at once" in said["branch-breakers-within-reach"]
    assert "the breakers of workshop-panel stand together" in said["grouped-and-marked"]
    assert "Each occupant of workshop" in said["every-occupant-can-reach-it"]
    said = {entry.item.id.rpartition("/")[2]: entry.says for entry in studio({}).inspect}
    assert "In entry-box the supply goes to main-switch first" in said["disconnect-first-in-its-box"]
    assert "main-switch in entry-box is marked on and off" in said["snap-switch-shows-its-position"]
    assert not {"grouped-and-marked", "every-occupant-can-reach-it", "branch-breakers-within-reach"} & set(said)
    locked = studio({}, devices={"cut-off": disconnect(lockable=True)})
    assert "locking cut-off open" in " ".join(entry.says for entry in locked.inspect)
