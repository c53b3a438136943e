"""Disconnects that are not where they look to be, what is counted, and what proposals bring along."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Review
from precover.rulebook import Outcome
from support.offered import offered, settled, taken
from support.reviews import asked, example, lines, merged, outcome, reviewed, reviewed_example

STUDIO, WORKSHOP = "/structures/studio", "/structures/workshop"
NEEDED, OUTSIDE, HANDLES = "/disconnect-at-the-structure", "/emergency-disconnect-outside", "/six-handles-at-most"
SNAP, TOGETHER, ENTRY = "/snap-switch-for-a-small-circuit", "/hots-open-together", "/disconnect-where-the-supply-enters"
CUT_OFF = {"disconnect": "100 A", "type": "general-use switch", "opens": "all hots", "enclosure": "3R"}


def by_way_of_a_box(at: str, area: str, devices: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop as a dwelling, its feeder by way of one more box."""
    box = {"at": at, "area": area, "location": "wet", "box": {"kind": "box"}, "devices": devices}
    inside = {
        "from": "entry",
        "to": "workshop-panel",
        "raceway": "none",
        "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}},
        "legs": [{"through": "wall", "length": "8 in"}],
    }
    return example(
        "joinery-workshop",
        {
            "structures": {"workshop": {"use": "dwelling"}},
            "boxes": {"entry": box},
            "routes": {"yard": {"to": "entry"}, "inside": inside},
        },
    )


@pytest.mark.parametrize(
    ("at", "area", "devices", "expected"),
    [
        ("workshop", "outdoors", {"cut-off": CUT_OFF}, "met"),
        ("workshop", "indoors", {"cut-off": CUT_OFF}, "not met"),
        ("house", "outdoors", {"cut-off": CUT_OFF}, "not met"),
        ("workshop", "outdoors", {"outlet": {"receptacle": "20 A"}}, "not met"),
        ("workshop", "outdoors", {}, "not met"),
    ],
)
def test_where_an_emergency_disconnect_counts(at: str, area: str, devices: dict[str, Any], expected: str) -> None:
    """Outdoors, and at the dwelling itself; another device there is none."""
    of = reviewed(by_way_of_a_box(at, area, devices))
    (line,) = lines(of, OUTSIDE, WORKSHOP)
    assert line.answer.outcome.value == expected
    if expected == "met":
        assert (line.answer.has, line.place) == ("entry", "/boxes/entry")


@pytest.mark.parametrize(
    ("area", "devices", "ways"),
    [
        ("outdoors", {}, 1),
        ("outdoors", {"emergency-disconnect": {"receptacle": "20 A"}}, 0),
    ],
)
def test_an_emergency_disconnect_is_proposed_where_there_is_a_place_for_it(
    area: str, devices: dict[str, Any], ways: int
) -> None:
    """In an outdoor box that the supply comes to, unless the name is taken; the device proposed has nothing against it."""
    data = by_way_of_a_box("workshop", area, devices)
    (line,) = lines(reviewed(data), OUTSIDE, WORKSHOP)
    assert len(line.answer.proposals) == ways
    for way in line.answer.proposals:
        after = reviewed(applied(data, complete(data, way.patch)))
        assert outcome(after, OUTSIDE, WORKSHOP) == "met"
        against = [one for one in after.findings if one.line.rule.topic.startswith("disconnect/")]
        assert [one.line.rule.id for one in against] == []


def cottage(*patches: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop as a dwelling, with patches."""
    data = example("joinery-workshop", {"structures": {"workshop": {"use": "dwelling"}}})
    for patch in patches:
        data = merged(data, patch)
    return data


BREAKER = "put an enclosed breaker of 100 A, which is the emergency disconnect,"
BY_THE_WALL = f"{BREAKER} outdoors, where yard goes through the wall of workshop"


def test_an_emergency_disconnect_is_put_where_the_supply_goes_through_the_wall() -> None:
    """Its route is cut there: what lies in the yard comes to it, what goes through the wall leaves it."""
    data = cottage()
    assert settled(data, OUTSIDE, WORKSHOP) == {BY_THE_WALL: []}
    after = taken(data, OUTSIDE, WORKSHOP, BY_THE_WALL)
    was, yard, onward = (
        plan["routes"][name] for plan, name in ((data, "yard"), (after, "yard"), (after, "yard-onward"))
    )
    assert yard["legs"] == was["legs"][:-1]
    assert onward["legs"] == was["legs"][-1:]
    assert (yard["to"], onward["to"]) == ("workshop-emergency-disconnect", "workshop-panel")
    assert onward["from"] == yard["to"]
    assert (yard["seal-at-from"], onward["seal-at-to"]) == (True, True)
    assert "seal-at-to" not in yard
    assert "seal-at-from" not in onward
    assert [yard[key] for key in ("raceway", "carries")] == [onward[key] for key in ("raceway", "carries")]
    assert after["boxes"]["workshop-emergency-disconnect"]["at"] == "workshop"


@pytest.mark.parametrize(
    "legs",
    [
        [{"buried": "lawn", "length": "50 ft", "cover": "20 in"}],
        [{"through": "wall"}, {"buried": "lawn", "length": "50 ft", "cover": "20 in"}, {"rise": "2 ft"}],
        [{"buried": "lawn", "length": "50 ft", "cover": "20 in"}, {"through": "foundation"}, {"through": "wall"}],
        [{"through": "wall"}, {"on": "inside wall"}],
    ],
)
def test_no_emergency_disconnect_is_put_where_the_supply_comes_in_another_way(legs: list[dict[str, Any]]) -> None:
    """Below grade, or not known; the wall of the house is not the dwelling's, nor is one inside it."""
    (line,) = lines(reviewed(cottage({"routes": {"yard": {"legs": legs}}})), OUTSIDE, WORKSHOP)
    assert (line.answer.outcome.value, line.answer.proposals) == ("not met", ())


def test_the_wall_behind_an_overhead_span_is_one_too() -> None:
    """And a new box has a name of its own."""
    span = [{"overhead": "yard", "length": "50 ft"}, {"on": "outside wall"}, {"through": "wall"}, {"on": "inside wall"}]
    data = cottage({"routes": {"yard": {"legs": span}}})
    data["boxes"]["workshop-emergency-disconnect"] = {"at": "house", "box": {}}
    data["routes"]["yard-onward"] = data["routes"].pop("bench")
    after = taken(data, OUTSIDE, WORKSHOP, BY_THE_WALL)
    assert after["routes"]["yard"]["to"] == "workshop-emergency-disconnect-2"
    assert after["routes"]["yard"]["legs"] == span[:2]
    assert after["routes"]["yard-onward-2"]["legs"] == span[2:]


def test_a_route_that_carries_more_is_not_cut() -> None:
    """The other circuit would come into the disconnect too."""
    more = {
        "circuits": {"more": {"kind": "low-voltage", "from": "pull-box/pack", "voltage": "12 V"}},
        "boxes": {"pull-box": {"devices": {"pack": {"transformer": "60 VA", "circuit": "spare"}}}},
        "routes": {"garage-run": {"carries": {"spare": {"cable": "NM-B 12/2"}}}},
    }
    data = cottage(more)
    data["circuits"]["spare"] = {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}
    data["routes"]["yard"]["carries"]["spare"] = {"cable": "NM-B 12/2"}
    data["routes"]["yard"]["to"] = "entry"
    data["boxes"]["entry"] = {"at": "workshop", "area": "indoors", "box": {}}
    data["routes"]["in"] = {"from": "entry", "to": "workshop-panel", "legs": [{"on": "inside wall"}],
                            "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}}}  # fmt: skip
    (line,) = lines(reviewed(data), OUTSIDE, WORKSHOP)
    assert (line.answer.outcome.value, line.answer.proposals) == ("not met", ())
    del data["routes"]["yard"]["carries"]["spare"]
    (line,) = lines(reviewed(data), OUTSIDE, WORKSHOP)
    assert [way.words for way in line.answer.proposals] == [BY_THE_WALL]


def test_a_disconnect_goes_where_the_supply_comes_in() -> None:
    """Ahead of the receptacle that is fed ahead of the one planned."""
    moved = {"switch": "20 A", "role": "disconnect", "opens": "all hots", "identified": True, "readily-accessible": True,
             "at-entry": True}  # fmt: skip
    data = example(
        "pottery-studio",
        {
            "boxes": {
                "entry-box": {"devices": {"main-switch": None}},
                "ceiling-box": {"devices": {"main-switch": moved, "lamp": {"switched-by": "ceiling-box/main-switch"}}},
            }
        },
    )
    words = "put a switch that opens every hot into entry-box, ahead of all else, and mark it"
    assert settled(data, "/disconnect-comes-first", STUDIO) == {words: []}


@pytest.mark.parametrize(
    ("height", "expected"), [("40 in", ["a switch", "an enclosed switch"]), ("8 ft", ["an enclosed switch"])]
)
def test_a_snap_switch_is_as_high_as_what_is_in_its_box(height: str, expected: list[str]) -> None:
    """Where that is too high for a switch, an enclosed one beside it is offered alone."""
    devices = {"main-switch": None, "bench-outlet": {"height": height}}
    boxes = {"entry-box": {"devices": devices}, "ceiling-box": {"devices": {"lamp": {"switched-by": None}}}}
    data = example("pottery-studio", {"boxes": boxes, "circuits": {"studio": {"limited-load": None}}})
    (line,) = lines(reviewed(data), NEEDED, STUDIO)
    ways = line.answer.proposals
    assert [way.words.removeprefix("put ").partition(" that")[0] for way in ways] == expected
    assert [way.patch[0]["value"]["height"] for way in ways if "switch" in way.patch[0]["value"]] == [
        height for what in expected if what == "a switch"
    ]


def test_no_disconnect_is_put_where_it_would_not_come_first() -> None:
    """The supply comes in at two places."""
    moved = {"switch": "20 A", "role": "disconnect", "opens": "all hots"}
    data = example("pottery-studio", {"boxes": {"entry-box": {"devices": {"main-switch": moved}}}})
    data["boxes"]["other"] = {"at": "studio", "box": {}, "devices": {"outlet": {"receptacle": "20 A"}}}
    data["routes"]["other"] = over("terrace-box", "other", "studio")
    (line,) = lines(reviewed(data), "/disconnect-comes-first", STUDIO)
    assert (line.answer.outcome.value, line.answer.has, line.answer.proposals) == ("not met", "other", ())
    data["boxes"]["entry-box"]["devices"].pop("main-switch")
    data["boxes"]["ceiling-box"]["devices"] = {"main-switch": moved}
    (line,) = lines(reviewed(data), "/disconnect-comes-first", STUDIO)
    assert (line.answer.outcome.value, line.answer.proposals) == ("not met", ())


def test_an_emergency_disconnect_without_a_panel() -> None:
    """A feeder that ends in an enclosed switch has no main to look at."""
    data = by_way_of_a_box("workshop", "outdoors", {"cut-off": CUT_OFF})
    gone: dict[str, Any] = {
        "panels": {"workshop-panel": None},
        "routes": dict.fromkeys(("inside", "bench", "porch", "lighting", "porch-lighting", "planer-run")),
        "circuits": dict.fromkeys(("bench-outlets", "lights", "planer")),
        "boxes": dict.fromkeys(("bench-box", "yard-box", "switch-box", "porch-light-box", "planer-box")),
    }
    assert outcome(reviewed(merged(data, gone)), OUTSIDE, WORKSHOP) == "met"


def poled(count: int, **breaker: Any) -> Review:
    """The workshop's panel without a main, with so many more 240 V circuits beside the three it has."""
    circuit = {"kind": "branch circuit", "from": "workshop-panel", "voltage": "240 V", "breaker": breaker}
    patch = {
        "panels": {"workshop-panel": {"main": "none"}},
        "circuits": {f"more-{n}": circuit for n in range(count)},
    }
    return reviewed_example("joinery-workshop", patch)


@pytest.mark.parametrize(
    ("count", "breaker", "expected", "handles"),
    [
        (0, {}, "met", 3),
        (1, {"poles": 2, "common-trip": True}, "met", 4),
        (1, {"poles": 2, "common-trip": False}, "met", 5),
        (1, {"poles": 1}, "met", 5),
        (3, {"poles": 2, "common-trip": True}, "met", 6),
        (2, {"poles": 2, "common-trip": False}, "not met", 7),
        (4, {"poles": 2, "common-trip": True}, "not met", 7),
        (4, {}, "not met", 7),
    ],
)
def test_handles_are_counted(count: int, breaker: dict[str, Any], expected: str, handles: int) -> None:
    """One for poles that open together, two for those that do not."""
    (line,) = lines(poled(count, **breaker), HANDLES, WORKSHOP)
    assert (line.answer.outcome.value, line.answer.has) == (expected, handles)


def test_poles_are_asked_about_only_near_the_limit() -> None:
    """Three breakers are six handles at the most, and seven are too many at the least."""
    three = reviewed_example(
        "joinery-workshop",
        {
            "panels": {"workshop-panel": {"main": "none"}},
            "circuits": {"planer": {"breaker": {"poles": None, "common-trip": None}}},
        },
    )
    (line,) = lines(three, HANDLES, WORKSHOP)
    assert (line.answer.outcome.value, line.answer.has) == ("met", 3)
    assert outcome(poled(4), HANDLES, WORKSHOP) == "not met"
    between = poled(3)
    assert outcome(between, HANDLES, WORKSHOP) == "cannot tell"
    assert any(place.startswith("/circuits/more-0/breaker") for place in asked(between))


def test_a_switch_at_the_house_or_on_another_circuit_does_not_disconnect_the_studio() -> None:
    """It has to be at the structure, and on what supplies it."""
    none: dict[str, Any] = {
        "boxes": {"entry-box": {"devices": {"main-switch": None}}, "ceiling-box": {"devices": {"lamp": None}}}
    }
    switch = {"switch": "20 A", "role": "disconnect", "opens": "all hots"}
    at_house = merged(none, {"boxes": {"terrace-box": {"devices": {"cut-off": switch}}}})
    assert outcome(reviewed_example("pottery-studio", at_house), NEEDED, STUDIO) == "not met"
    other = {
        "circuits": {"gate": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}},
        "boxes": {
            "entry-box": {"devices": {"bench-outlet": {"circuit": "studio"}, "cut-off": {**switch, "circuit": "gate"}}}
        },
        "routes": {
            "gate-run": {
                "from": "house-panel",
                "to": "entry-box",
                "carries": {"gate": {"cable": "UF-B 12/2"}},
                "legs": [{"buried": "lawn", "length": "46 ft"}],
            }
        },
    }
    of = reviewed_example("pottery-studio", merged(none, other))
    (line,) = lines(of, NEEDED, STUDIO)
    assert (line.answer.outcome.value, line.answer.of) == ("not met", "disconnect for studio")


@pytest.mark.parametrize("at_entry", [True, False, None])
def test_an_enclosed_switch_is_proposed_where_the_snap_switch_is(at_entry: bool | None) -> None:
    """What the plan says of its place holds for the new one, and nothing else is said of that."""
    data = example(
        "pottery-studio",
        {
            "circuits": {"studio": {"breaker": {"rating": "30 A"}}},
            "boxes": {
                "entry-box": {"devices": {"main-switch": {"at-entry": at_entry}}},
                "ceiling-box": {"devices": {"lamp": {"switched-by": None}}},
            },
        },
    )
    (line,) = lines(reviewed(data), SNAP, STUDIO)
    (way,) = line.answer.proposals
    (edit,) = way.patch
    assert edit["value"].get("at-entry") == (True if at_entry else None)
    assert "circuit" not in edit["value"]


def test_an_enclosed_switch_is_proposed_on_the_circuit_of_the_snap_switch() -> None:
    """Where a box has several, the device says which."""
    data = example(
        "pottery-studio",
        {
            "circuits": {"studio": {"breaker": {"rating": "30 A"}}},
            "boxes": {"entry-box": {"devices": {"main-switch": {"circuit": "studio"}}}},
        },
    )
    (line,) = lines(reviewed(data), SNAP, STUDIO)
    ((edit,),) = [way.patch for way in line.answer.proposals]
    assert edit["value"]["circuit"] == "studio"


@pytest.mark.parametrize(
    ("breaker", "has"),
    [
        ({"poles": 1}, "single poles"),
        ({"poles": 2, "common-trip": False}, "2 poles that open one by one"),
    ],
)
def test_what_is_wrong_with_a_multiwire_breaker(breaker: dict[str, Any], has: str) -> None:
    """Said as it is planned."""
    circuit = {"multiwire": True, "voltage": "120/240 V", "breaker": breaker}
    of = reviewed_example("pottery-studio", {"circuits": {"studio": circuit}})
    (line,) = lines(of, TOGETHER, "/circuits/studio")
    assert (line.answer.outcome, line.answer.has) == (Outcome.NOT_MET, has)


def test_a_feeder_is_no_multiwire_branch_circuit() -> None:
    """Although it has two hots and a neutral."""
    of = reviewed_example("joinery-workshop", {"circuits": {"workshop-feeder": {"multiwire": True}}})
    assert outcome(of, TOGETHER, "/circuits/workshop-feeder") == "does not apply"
    assert not [one for one in of.inspect if one.item.id.endswith("shared-neutral")]


@pytest.mark.parametrize(("use", "expected"), [("post", "does not apply"), ("lighting pole", "does not apply")])
def test_on_a_pole_as_on_a_post(use: str, expected: str) -> None:
    """Rooms to live in, and the nearest point of entry, are nothing to ask of it."""
    of = reviewed_example("orchard-pump", {"structures": {"pump-post": {"use": use}}})
    place = "/structures/pump-post"
    assert outcome(of, ENTRY, place) == expected
    (line,) = lines(of, "/habitable-building-is-planned-as-a-dwelling", place)
    assert line.answer.why == f"planned as a {use}"


def test_breakers_that_open_one_by_one_are_proposed_to_open_together() -> None:
    """Two poles with common trip, which settles it."""
    patch = {
        "panels": {"workshop-panel": {"main": "none"}},
        "circuits": {"planer": {"breaker": {"poles": 1, "common-trip": False}}},
    }
    data = example("joinery-workshop", patch)
    (line,) = lines(reviewed(data), "/opens-every-hot", WORKSHOP)
    (way,) = line.answer.proposals
    after = applied(data, complete(data, way.patch))
    assert (
        after["circuits"]["planer"]["breaker"] | {"poles": 2, "common-trip": True}
        == after["circuits"]["planer"]["breaker"]
    )
    assert outcome(reviewed(after), "/opens-every-hot", WORKSHOP) == "met"


def without_a_disconnect(*patches: dict[str, Any]) -> dict[str, Any]:
    """The pottery studio without its main switch, with changes."""
    data = example(
        "pottery-studio",
        {
            "boxes": {
                "entry-box": {"devices": {"main-switch": None}},
                "ceiling-box": {"devices": {"lamp": {"switched-by": None}}},
            }
        },
    )
    for patch in patches:
        data = merged(data, patch)
    return data


def proposed(data: dict[str, Any], structure: str = STUDIO) -> dict[str, Any]:
    """The device or the main that is proposed where there is no disconnect; it settles the finding."""
    (line,) = lines(reviewed(data), NEEDED, structure)
    (way,) = line.answer.proposals
    after = reviewed(applied(data, complete(data, way.patch)))
    assert outcome(after, NEEDED, structure) == "met"
    (edit,) = way.patch
    value = edit["value"]
    return value if isinstance(value, dict) else {"main": value}


@pytest.mark.parametrize(
    ("circuit", "snap"),
    [
        ({"breaker": {"rating": "20 A"}}, True),
        ({"breaker": {"rating": "21 A"}}, False),
        ({"breaker": {"rating": None}}, False),
        ({"kind": "feeder", "breaker": {"rating": "20 A"}}, False),
    ],
)
def test_a_snap_switch_is_proposed_for_a_small_branch_circuit_only(circuit: dict[str, Any], snap: bool) -> None:
    """Up to 20 A; where the rating is not said, and for a feeder, an enclosed switch."""
    device = proposed(without_a_disconnect({"circuits": {"studio": circuit}}))
    assert device["opens"] == "all hots"
    assert device["at-entry"] is True
    if snap:
        expected = {"switch": "20 A", "role": "disconnect", "identified": True, "readily-accessible": True}
        assert device | expected == device
    else:
        expected = {"disconnect": "60 A", "service-rated": True, "indicating": True, "identified": True}
        assert device | expected | {"readily-accessible": True, "enclosure": "3R"} == device


@pytest.mark.parametrize(("limited", "ways"), [(True, 1), (False, 2), (None, 2)])
def test_an_enclosed_switch_is_proposed_where_the_load_is_not_known_to_be_limited(
    limited: bool | None, ways: int
) -> None:
    """Then a snap switch may be too small for the building, and the other is large enough in any case."""
    data = without_a_disconnect({"circuits": {"studio": {"limited-load": limited}}})
    found = settled(data, NEEDED, STUDIO)
    snap, enclosed = (
        f"put {what} switch that opens every hot into entry-box, ahead of all else, and mark it"
        for what in ("a", "an enclosed")
    )
    assert list(found) == [snap, enclosed][:ways]
    if ways == 2:
        assert found[enclosed] == []
        assert found[snap] == [f"disconnect/rating/rating-for-the-structure at {STUDIO}"]


@pytest.mark.parametrize(("location", "weatherproof"), [("dry", None), ("damp", True), ("wet", True)])
def test_a_switch_is_proposed_as_its_place_asks(location: str, weatherproof: bool | None) -> None:
    """Weatherproof where it is damp or wet."""
    device = proposed(without_a_disconnect({"boxes": {"entry-box": {"location": location}}}))
    assert device.get("weatherproof") is weatherproof
    assert device.get("mounting") == ("surface" if weatherproof else None)


@pytest.mark.parametrize("use", ["post", "lighting pole"])
def test_a_switch_on_a_post_is_at_the_entry_anyway(use: str) -> None:
    """Nothing is said of it."""
    data = example(
        "orchard-pump",
        {"structures": {"pump-post": {"use": use}}, "boxes": {"post-box": {"devices": {"main-switch": None}}}},
    )
    assert "at-entry" not in proposed(data, "/structures/pump-post")


def test_a_switch_says_its_circuit_where_a_box_has_several() -> None:
    """And not where it has one."""
    assert "circuit" not in proposed(without_a_disconnect())
    more = {
        "circuits": {"gate": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}},
        "boxes": {
            "entry-box": {"devices": {"bench-outlet": {"circuit": "studio"}}},
            "terrace-box": {"devices": {"terrace-outlet": {"circuit": "studio"}}},
        },
        "routes": {"yard": {"carries": {"gate": {"cable": "UF-B 12/2"}}}, "garage-wall": {"carries": {"gate": {}}}},
    }
    (line,) = lines(reviewed(without_a_disconnect(more)), f"needed{NEEDED}", STUDIO)
    assert [way.patch[0]["value"]["circuit"] for way in line.answer.proposals] == ["studio"]


@pytest.mark.parametrize(
    ("taken", "name"),
    [
        ((), "disconnect"),
        (("disconnect",), "disconnect-2"),
        (("disconnect", "disconnect-2"), "disconnect-3"),
        (("disconnect", "disconnect-2", "disconnect-3"), "disconnect-4"),
    ],
)
def test_a_proposed_switch_has_a_name_of_its_own(taken: tuple[str, ...], name: str) -> None:
    """Whatever other devices of the box are called."""
    devices = {one: {"receptacle": "15 A"} for one in taken}
    (line,) = lines(reviewed(without_a_disconnect({"boxes": {"entry-box": {"devices": devices}}})), NEEDED, STUDIO)
    assert [way.patch[0]["path"] for way in line.answer.proposals] == [f"/boxes/entry-box/devices/{name}"]


NOTHING_BEHIND: dict[str, Any] = {
    "panels": {"workshop-panel": {"main": "none"}},
    "routes": dict.fromkeys(("bench", "porch", "lighting", "porch-lighting", "planer-run")),
    "circuits": dict.fromkeys(("bench-outlets", "lights", "planer")),
    "boxes": dict.fromkeys(("bench-box", "yard-box", "switch-box", "porch-light-box", "planer-box")),
}


@pytest.mark.parametrize(("rating", "main"), [("60 A", "60 A"), ("61 A", "61 A"), ("50 A", "60 A")])
def test_a_main_is_proposed_where_a_feeder_ends_in_a_panel_without_circuits(rating: str, main: str) -> None:
    """Large enough for any structure but a dwelling, and for the breaker ahead."""
    data = example("joinery-workshop", NOTHING_BEHIND)
    data["circuits"]["workshop-feeder"]["breaker"]["rating"] = rating
    assert proposed(data, WORKSHOP) == {"main": main}


@pytest.mark.parametrize(("gone", "said"), [((), 1), (("planer",), 1), (("planer", "lights"), 0)])
def test_breakers_that_serve_together_are_marked(gone: tuple[str, ...], said: int) -> None:
    """Two or more of them."""
    runs = {"planer": ("planer-run",), "lights": ("lighting", "porch-lighting")}
    boxes = {"planer": ("planer-box",), "lights": ("switch-box", "porch-light-box")}
    patch: dict[str, Any] = {
        "panels": {"workshop-panel": {"main": "none"}},
        "circuits": dict.fromkeys(gone),
        "routes": {run: None for name in gone for run in runs[name]},
        "boxes": {box: None for name in gone for box in boxes[name]},
    }
    of = reviewed_example("joinery-workshop", patch)
    assert len([one for one in of.inspect if one.item.id.endswith("/grouped-and-marked")]) == said


def supplied(*devices: dict[str, Any], kind: str = "branch circuit", voltage: str = "120 V") -> Review:
    """The pottery studio with more circuits to it, one for each group of devices."""
    names = [f"more-{number}" for number in range(len(devices))]
    circuit = {"kind": kind, "from": "house-panel", "voltage": voltage}
    leg = {"buried": "lawn", "length": "46 ft"}
    return reviewed_example(
        "pottery-studio",
        {
            "circuits": dict.fromkeys(names, circuit),
            "boxes": {
                f"box-{name}": {"at": "studio", "box": {}, "devices": found}
                for name, found in zip(names, devices, strict=True)
            },
            "routes": {
                f"run-{name}": {
                    "from": "house-panel",
                    "to": f"box-{name}",
                    "carries": {name: {"cable": "UF-B 12/2"}},
                    "legs": [leg],
                }
                for name in names
            },
        },
    )


LAMP, OUTLET = {"lamp": {"luminaire": "20 W"}}, {"outlet": {"receptacle": "15 A"}}


@pytest.mark.parametrize(
    ("devices", "kind", "voltage", "expected"),
    [
        ((LAMP,), "branch circuit", "120 V", "cannot tell"),
        ((LAMP, LAMP), "branch circuit", "120 V", "cannot tell"),
        ((LAMP, OUTLET), "branch circuit", "120 V", "not met"),
        ((LAMP,), "feeder", "120 V", "not met"),
        ((OUTLET,), "branch circuit", "240 V", "cannot tell"),
        ((OUTLET, OUTLET), "branch circuit", "240 V", "not met"),
        ((LAMP, OUTLET), "branch circuit", "240 V", "not met"),
    ],
)
def test_what_more_than_one_supply_may_be(
    devices: tuple[dict[str, Any], ...], kind: str, voltage: str, expected: str
) -> None:
    """A circuit for lights, or one of another voltage, beside one other; not three, and no second feeder."""
    assert outcome(supplied(*devices, kind=kind, voltage=voltage), "/one-supply", STUDIO) == expected


def test_a_panel_fed_ahead_of_the_disconnect() -> None:
    """An enclosed switch beyond the box from which the panel is fed leaves the panel ahead of it."""
    wires = {"workshop-feeder": {"cable": "NM-B 6/3"}}
    leg = [{"through": "wall", "length": "8 in"}]
    data = example(
        "joinery-workshop",
        {
            "boxes": {
                "entry": {"at": "workshop", "box": {}},
                "beyond": {"at": "workshop", "box": {}, "devices": {"cut-off": CUT_OFF}},
            },
            "routes": {
                "yard": {"to": "entry"},
                "in": {"from": "entry", "to": "workshop-panel", "carries": wires, "legs": leg},
                "on": {"from": "entry", "to": "beyond", "carries": wires, "legs": leg},
            },
        },
    )
    (line,) = lines(reviewed(data), "/disconnect-comes-first", WORKSHOP)
    found = (line.answer.outcome.value, line.answer.has, line.place)
    assert found == ("not met", "workshop-panel", "/panels/workshop-panel")


@pytest.mark.parametrize(
    ("device", "key"),
    [
        ({"switch": "14 A", "role": "disconnect", "opens": "all hots"}, "switch"),
        ({"disconnect": "14 A", "type": "general-use switch", "opens": "all hots"}, "disconnect"),
    ],
)
def test_a_rating_is_marked_where_it_stands_and_enlarged_there(device: dict[str, Any], key: str) -> None:
    """Of a snap switch and of an enclosed one."""
    data = without_a_disconnect({"boxes": {"entry-box": {"devices": {"cut-off": device}}}})
    (line,) = lines(reviewed(data), "/rating-for-the-structure", STUDIO)
    assert (line.answer.outcome.value, line.place) == ("not met", f"/boxes/entry-box/devices/cut-off/{key}")
    (way,) = line.answer.proposals
    after = reviewed(applied(data, complete(data, way.patch)))
    assert outcome(after, "/rating-for-the-structure", STUDIO) == "met"


def back_to_the_house(patch: dict[str, Any] | None = None) -> Review:
    """The joinery workshop with a circuit from its panel back to the house, with a change."""
    data = example(
        "joinery-workshop",
        {
            "circuits": {"back": {"kind": "branch circuit", "from": "workshop-panel", "voltage": "120 V"}},
            "boxes": {"back-box": {"at": "house", "box": {}, "devices": OUTLET}},
            "routes": {"back": over("workshop-panel", "back-box", "back")},
        },
    )
    return reviewed(merged(data, patch or {}))


def over(start: str, end: str, circuit: str) -> dict[str, Any]:
    """A cable in the ground."""
    leg = {"buried": "lawn", "length": "50 ft"}
    return {"from": start, "to": end, "carries": {circuit: {"cable": "UF-B 12/2"}}, "legs": [leg]}


NEIGHBOUR: dict[str, Any] = {
    "structures": {"barn": {"use": "accessory", "detached": True}},
    "panels": {"barn-panel": {"at": "barn", "duty": "service equipment", "main": "100 A"}},
    "circuits": {"over": {"kind": "branch circuit", "from": "barn-panel", "voltage": "120 V"}},
    "boxes": {"over-box": {"at": "house", "box": {}, "devices": OUTLET}},
    "routes": {"over": over("barn-panel", "over-box", "over")},
}


def test_a_house_with_power_from_elsewhere() -> None:
    """From a building that it feeds itself it is one supply; from another's service, even beside that, it is disputed."""
    house = "/structures/house"
    assert outcome(back_to_the_house(), "/one-supply", house) == "met"
    assert outcome(back_to_the_house(NEIGHBOUR), "/one-supply", house) == "cannot tell"


def test_a_plaque_where_there_is_a_service_and_another_supply() -> None:
    """Two supplies, one of them the service."""
    plaque = "/plaque-at-each-disconnect"
    says = [one.says for one in back_to_the_house().inspect if one.item.id.endswith(plaque)]
    assert len(says) == 1 and "each disconnect of house" in says[0]
    assert not [one for one in reviewed_example("joinery-workshop").inspect if one.item.id.endswith(plaque)]


def test_a_proposed_emergency_disconnect_says_all_that_is_asked_of_it() -> None:
    """Outdoors, of the rating of a dwelling, and such that it can be seen to be off."""
    (line,) = lines(reviewed(by_way_of_a_box("workshop", "outdoors", {})), OUTSIDE, WORKSHOP)
    ((edit,),) = [way.patch for way in line.answer.proposals]
    assert edit["value"] == {
        "disconnect": "100 A",
        "type": "breaker",
        "opens": "all hots",
        "enclosure": "3R",
        "service-rated": True,
        "indicating": True,
        "identified": True,
        "readily-accessible": True,
        "at-entry": True,
        "height": "5 ft",
    }


@pytest.mark.parametrize(
    ("feeder", "offered"),
    [("60 A", ["100 A"]), ("100 A", ["100 A"]), ("110 A", ["110 A"]), ("200 A", ["200 A"]), (None, [])],
)
def test_a_proposed_emergency_disconnect_is_not_below_the_breaker_ahead(feeder: str | None, offered: list[str]) -> None:
    """In a box that is there, and by the wall; none where the plan does not tell how large it has to be."""
    breaker = {"circuits": {"workshop-feeder": {"breaker": {"rating": feeder}}}}
    for data in (by_way_of_a_box("workshop", "outdoors", {}), cottage()):
        (line,) = lines(reviewed(merged(data, breaker)), OUTSIDE, WORKSHOP)
        words = [way.words for way in line.answer.proposals]
        assert [f"an enclosed breaker of {rating}," in one for one, rating in zip(words, offered, strict=True)] == [
            True for _ in offered
        ]


def test_no_emergency_disconnect_is_put_into_a_box_inside() -> None:
    """It would not be outdoors: it goes where the supply comes through the wall, or nowhere."""
    data = by_way_of_a_box("workshop", "indoors", {})
    assert offered(data, OUTSIDE, WORKSHOP) == [BY_THE_WALL]
    data["routes"]["yard"]["legs"] = data["routes"]["yard"]["legs"][:-1]
    assert offered(data, OUTSIDE, WORKSHOP) == []


@pytest.mark.parametrize("kind", ["conduit body", "handhole", None])
def test_no_disconnect_is_put_into_a_fitting(kind: str | None) -> None:
    """The box behind it takes it, where the supply goes on by one route alone; a box of no known kind takes none."""
    data = by_way_of_a_box("workshop", "outdoors", {})
    enclosure = {"kind": kind} if kind else {}
    data["boxes"]["fitting"] = {"at": "workshop", "area": "outdoors", "location": "wet", "box": enclosure}
    data["routes"]["yard"] |= {"to": "fitting", "legs": [{"buried": "lawn", "length": "50 ft", "cover": "20 in"}]}
    beyond = {**data["routes"]["inside"], "from": "fitting", "to": "entry", "legs": [{"on": "outside wall"}]}
    one = merged(data, {"routes": {"beyond": beyond}})
    assert [words.removeprefix(BREAKER) for words in offered(one, OUTSIDE, WORKSHOP)] == [" into entry"]
    elsewhere = merged(one, {"boxes": {"entry": {"at": "house"}}})
    assert offered(elsewhere, OUTSIDE, WORKSHOP) == []
    parted = merged(one, {"boxes": {"more": data["boxes"]["entry"]}, "routes": {"more": {**beyond, "to": "more"}}})
    assert offered(parted, OUTSIDE, WORKSHOP) == []
    assert not any("fitting" in words for words in offered(parted, NEEDED, WORKSHOP))


@pytest.mark.parametrize(
    ("edition", "outdoors", "expected"),
    [
        ("us-2023", True, "not met"),
        ("us-2026", True, "cannot tell"),
        ("us-2026", False, "not met"),
    ],
)
def test_an_emergency_disconnect_of_the_service_may_count(edition: str, outdoors: bool, expected: str) -> None:
    """Under an exception of a later edition, whose conditions the authority knows."""
    data = by_way_of_a_box("workshop", "indoors", {})
    data["rules"] = [edition]
    data["panels"]["house-panel"]["emergency-disconnect"] = outdoors
    assert outcome(reviewed(data), OUTSIDE, WORKSHOP) == expected
