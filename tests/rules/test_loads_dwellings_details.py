"""What a dwelling must have, in detail: rooms, garages, receptacles, services, and the work in panels."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, example, lines, merged, outcome, reviewed, reviewed_example
from support.trenches import after_each_proposal

STUDIO, CIRCUIT, HOUSE = "/structures/studio", "/circuits/studio", "/panels/house-panel"
ARC, GARAGE, COUNT = (
    "/arc-fault-protection-of-rooms",
    "/garage-has-its-receptacle-circuit",
    "/receptacles-within-the-circuit",
)
SURGE, SERVICE = "/surge-protection-of-a-dwelling", "/emergency-disconnect-of-the-service"


def studio(use: str = "accessory", *patches: dict[str, Any], **structure: Any) -> dict[str, Any]:
    """The pottery studio as some kind of structure, with changes."""
    data = example("pottery-studio", {"structures": {"studio": {"use": use, **structure}}})
    for patch in patches:
        data = merged(data, patch)
    return data


def listed(of: Review, name: str) -> list[str]:
    """What the inspection list says under one name."""
    return [one.says for one in of.inspect if one.item.id.endswith(name)]


# Arc-fault protection


@pytest.mark.parametrize(
    ("patch", "expected"),
    [
        ({}, "not met"),
        ({"circuits": {"studio": {"existing": True}}}, "does not apply"),
        ({"circuits": {"studio": {"kind": "feeder"}}}, "does not apply"),
        ({"circuits": {"studio": {"voltage": "240 V"}}}, "not met"),
        ({"circuits": {"studio": {"voltage": "277 V"}}}, "does not apply"),
        ({"site": {"premises": "commercial"}}, "does not apply"),
        ({"site": {"premises": "multifamily dwelling"}}, "not met"),
        ({"boxes": {"entry-box": {"area": "bathroom"}, "ceiling-box": {"area": "bathroom"}}}, "does not apply"),
        ({"boxes": {"entry-box": {"area": "laundry"}, "ceiling-box": {"area": "garage"}}}, "not met"),
        ({"boxes": {"entry-box": {"area": "garage"}, "ceiling-box": {"area": "closet"}}}, "not met"),
    ],
)
def test_which_circuits_need_arc_fault_protection(patch: dict[str, Any], expected: str) -> None:
    """New branch circuits of 120 V to ground, to rooms of a dwelling."""
    assert outcome(reviewed(studio("dwelling", patch)), ARC, CIRCUIT) == expected


def test_what_only_passes_current_is_no_outlet_in_a_room() -> None:
    """A switch in a room, and outlets in the garage."""
    boxes = {"entry-box": {"devices": {"bench-outlet": None}}, "ceiling-box": {"area": "garage"}}
    assert outcome(reviewed(studio("dwelling", {"boxes": boxes})), ARC, CIRCUIT) == "does not apply"


def test_an_area_is_asked_for_only_where_no_other_outlet_tells() -> None:
    """One outlet in a room is enough."""
    none = reviewed(studio("dwelling", {"boxes": {"ceiling-box": {"area": None}}}))
    assert outcome(none, ARC, CIRCUIT) == "not met"
    (line,) = [line for line in lines(none, ARC) if line.subject == CIRCUIT]
    assert line.answer.has == "none, for bench-outlet in entry-box"
    elsewhere = {"boxes": {"entry-box": {"area": "garage"}, "ceiling-box": {"area": None}}}
    unknown = reviewed(studio("dwelling", elsewhere))
    assert outcome(unknown, ARC, CIRCUIT) == "cannot tell"
    assert "/boxes/ceiling-box/area" in asked(unknown)


def test_an_arc_fault_breaker_is_the_way_out() -> None:
    """At the origin of the circuit."""
    assert after_each_proposal(studio("dwelling"), ARC, CIRCUIT) == {"fit an arc-fault breaker": "met"}


@pytest.mark.parametrize(
    ("circuit", "premises", "use", "said"),
    [
        ({"existing": True}, "one-family dwelling", "dwelling", 1),
        ({"existing": True, "breaker": {"arc-fault": True}}, "one-family dwelling", "dwelling", 0),
        ({"existing": True, "kind": "feeder"}, "one-family dwelling", "dwelling", 0),
        ({"existing": True}, "commercial", "dwelling", 0),
        ({"existing": True}, "one-family dwelling", "garage", 0),
        ({}, "one-family dwelling", "dwelling", 0),
    ],
)
def test_when_an_extended_circuit_is_on_the_list(circuit: dict[str, Any], premises: str, use: str, said: int) -> None:
    """A branch circuit of a house that was there before, unless it has arc-fault protection."""
    patch = {
        "circuits": {"studio": circuit},
        "site": {"premises": premises},
        "structures": {"house": {"use": use}},
    }
    says = listed(reviewed(studio("accessory", patch)), "/extended-circuit")
    assert len(says) == said and all(words.startswith("studio was there before") for words in says)


def test_a_circuit_that_begins_at_a_device_is_no_circuit_of_the_house() -> None:
    """What starts at a transformer is not extended from a panel."""
    low = {
        "circuits": {
            "bell": {"kind": "branch circuit", "from": "entry-box/supply", "voltage": "120 V", "existing": True}
        },
        "boxes": {"entry-box": {"devices": {"supply": {"transformer": "20 VA", "circuit": "studio"}}}},
    }
    of = reviewed(studio("accessory", low))
    assert (listed(of, "/extended-circuit"), of.failures) == ([], ())


@pytest.mark.parametrize(
    ("use", "habitable", "premises", "said"),
    [
        ("accessory", True, "one-family dwelling", 1),
        ("garage", True, "one-family dwelling", 1),
        ("dwelling", True, "one-family dwelling", 0),
        ("accessory", False, "one-family dwelling", 0),
        ("accessory", True, "commercial", 0),
    ],
)
def test_when_a_habitable_room_is_on_the_list(use: str, habitable: bool, premises: str, said: int) -> None:
    """Of an outbuilding of a dwelling that has power."""
    of = reviewed(studio(use, {"site": {"premises": premises}}, habitable=habitable))
    assert len(listed(of, "/rooms-of-an-outbuilding")) == said
    shed = {"structures": {"shed": {"use": "accessory", "habitable": True, "detached": True}}}
    dark = reviewed(studio("dwelling", shed))
    assert not [words for words in listed(dark, "/rooms-of-an-outbuilding") if "shed" in words]


# The circuit of a garage


@pytest.mark.parametrize(
    ("patch", "bays", "expected"),
    [
        ({}, 2, "not met"),  # the lamp is on it
        ({"boxes": {"ceiling-box": {"devices": {"lamp": None}}}}, 2, "met"),  # the terrace's is outdoors
        ({"boxes": {"ceiling-box": {"devices": {"lamp": None}}, "terrace-box": {"area": "basement"}}}, 1, "not met"),
        ({}, 1, "met"),
        ({"rules": ["us-2020"]}, 1, "not met"),
        ({"boxes": {"terrace-box": {"devices": {"heat": {"heater": "400 W"}}}}}, 1, "not met"),
        ({"boxes": {"entry-box": {"area": "outdoors"}}}, 2, "does not apply"),
        ({"circuits": {"studio": {"kind": "feeder"}}}, 1, "not met"),
        ({"boxes": {"entry-box": {"devices": {"bench-outlet": {"receptacle": "30 A"}}}}}, 1, "does not apply"),
    ],
)
def test_what_may_be_on_the_circuit_of_a_garage(patch: dict[str, Any], bays: int, expected: str) -> None:
    """Its receptacles, and those outdoors; with one bay its other outlets too, since 2023; nothing of the house."""
    data = studio("garage", patch, **{"vehicle-bays": bays})
    assert outcome(reviewed(data), GARAGE, STUDIO) == expected


@pytest.mark.parametrize(("lamp", "bays", "ways"), [(True, 2, 0), (True, 1, 1), (False, 2, 1)])
def test_20_amperes_are_proposed_where_nothing_else_is_on_the_circuit(lamp: bool, bays: int, ways: int) -> None:
    """With a lamp of a larger garage that alone would not do."""
    devices = {} if lamp else {"boxes": {"ceiling-box": {"devices": {"lamp": None}}}}
    fifteen = {"circuits": {"studio": {"breaker": {"rating": "15 A"}}}}
    offered = after_each_proposal(studio("garage", fifteen, devices, **{"vehicle-bays": bays}), GARAGE, STUDIO)
    assert list(offered.values()) == ["met"] * ways


@pytest.mark.parametrize(
    ("outlet", "expected"),
    [
        ({"height": "5 ft 7 in"}, "not met"),
        ({"height": "5 ft 6 in"}, "met"),
        ({}, "met"),
        ({"serves": "the door opener"}, "not met"),
        ({"serves": "the freezer"}, "met"),
    ],
)
def test_a_circuit_that_no_vehicle_bay_has_does_not_count(outlet: dict[str, Any], expected: str) -> None:
    """The light is on the circuit of the bench; another circuit feeds one receptacle and nothing else."""
    there = {"receptacle": "20 A", "voltage": "125 V", "circuit": "more", **outlet}
    more = {
        "circuits": {"more": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V", "multiwire": False,
                              "breaker": {"rating": "20 A"}}},
        "routes": {"garage-wall": {"carries": {"more": {"cable": "NM-B 12/2"}}},
                   "yard": {"carries": {"more": {"cable": "UF-B 12/2"}}}},
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": {"circuit": "studio"}}},
            "entry-box": {"devices": {"main-switch": {"circuit": "studio"}, "bench-outlet": {"circuit": "studio"}, "there": there}},
        },
    }  # fmt: skip
    data = studio("garage", more, **{"vehicle-bays": 2})
    assert outcome(reviewed(data), GARAGE, STUDIO) == expected
    assert outcome(reviewed(merged(data, {"rules": ["us-2017"]})), GARAGE, STUDIO) == "met"
    alone = merged(data, {"boxes": {"entry-box": {"devices": {"bench-outlet": None}}}})
    assert outcome(reviewed(alone), GARAGE, STUDIO) == ("met" if expected == "met" else "does not apply")


def test_what_else_is_on_the_circuit_is_named() -> None:
    """And where it is."""
    (line,) = lines(reviewed(studio("garage", **{"vehicle-bays": 2})), GARAGE, STUDIO)
    assert line.answer.has == "studio also feeds lamp in ceiling-box"
    assert line.place == "/boxes/ceiling-box/devices/lamp"


# Receptacles on a circuit


@pytest.mark.parametrize(
    ("rating", "more", "why", "offered"),
    [
        ("15 A", 9, "1 too many", ["make studio a 20 A circuit, with wire to match"]),
        ("15 A", 11, "3 too many", ["make studio a 20 A circuit, with wire to match"]),
        ("15 A", 12, "4 too many", []),
        ("20 A", 12, "1 too many", []),
    ],
)
def test_too_many_receptacles_on_a_circuit(rating: str, more: int, why: str, offered: list[str]) -> None:
    """180 VA each; a circuit of 20 A is the largest for all sorts of things, and has 13."""
    devices = {f"r{n}": {"receptacle": "15 A", "voltage": "125 V"} for n in range(more)}
    patch = {
        "circuits": {"studio": {"breaker": {"rating": rating}}},
        "boxes": {"entry-box": {"devices": devices}},
        "site": {"premises": "commercial"},
    }
    data = studio("accessory", patch)
    (line,) = [line for line in lines(reviewed(data), COUNT) if line.subject == CIRCUIT]
    assert (line.answer.outcome.value, line.answer.why) == ("not met", why)
    assert after_each_proposal(data, COUNT, CIRCUIT) == dict.fromkeys(offered, "met")


def test_receptacles_are_counted_on_branch_circuits_only() -> None:
    """Not those of an appliance either; a circuit without any is none to count."""
    site = {"site": {"premises": "commercial"}}
    large = {"boxes": {"entry-box": {"devices": {f"r{n}": {"receptacle": "30 A"} for n in range(20)}}}}
    assert outcome(reviewed(studio("accessory", site, large)), COUNT, CIRCUIT) == "met"
    feeder = {"circuits": {"studio": {"kind": "feeder"}}}
    assert outcome(reviewed(studio("accessory", site, feeder)), COUNT, CIRCUIT) == "does not apply"
    of = reviewed_example("joinery-workshop", site)
    assert outcome(of, COUNT, "/circuits/lights") == "does not apply"


# Services


@pytest.mark.parametrize(
    ("panel", "said"),
    [({"replaced": True}, 1), ({}, 0), ({"replaced": False}, 0)],
)
def test_when_the_marking_of_an_emergency_disconnect_is_on_the_list(panel: dict[str, Any], said: int) -> None:
    """With a service that is replaced."""
    of = reviewed(studio("accessory", {"panels": {"house-panel": panel}}))
    assert len(listed(of, "/emergency-disconnect-is-marked")) == said
    assert len(listed(of, "/surge-device-rating")) == said
    if not said:
        assert outcome(of, SERVICE, HOUSE) == "does not apply"


def test_a_feeder_panel_that_is_replaced_is_no_service() -> None:
    """It has no emergency disconnect ahead of it, and none is marked."""
    patch = {"panels": {"workshop-panel": {"replaced": True, "emergency-disconnect": False}}}
    of = reviewed_example("joinery-workshop", patch)
    assert outcome(of, SERVICE, "/panels/workshop-panel") == "does not apply"
    assert listed(of, "/emergency-disconnect-is-marked") == []


def test_ways_out_for_a_service_that_is_replaced() -> None:
    """What is missing."""
    facts = {"replaced": True, "surge-protection": False, "emergency-disconnect": False}
    data = studio("accessory", {"panels": {"house-panel": facts}})
    assert list(after_each_proposal(data, SURGE, HOUSE).values()) == ["met"]
    assert list(after_each_proposal(data, SERVICE, HOUSE).values()) == ["met"]


@pytest.mark.parametrize(
    ("patch", "said"),
    [
        (
            {},
            [
                "The surge-protective device at workshop-panel is marked type 1 or 2, with a nominal discharge current of 10 kA or more."
            ],
        ),
        ({"rules": ["us-2020"]}, []),
        ({"panels": {"workshop-panel": {"existing": True}}}, []),
        ({"structures": {"workshop": {"use": "accessory"}}}, []),
    ],
)
def test_surge_protection_of_a_panel_in_a_dwelling(patch: dict[str, Any], said: list[str]) -> None:
    """At the end of a new feeder, since 2023."""
    base = {"structures": {"workshop": {"use": "dwelling"}}, "panels": {"workshop-panel": {"surge-protection": True}}}
    of = reviewed(merged(example("joinery-workshop", base), patch))
    assert listed(of, "/surge-device-rating") == said
    assert outcome(of, SURGE, "/panels/workshop-panel") == ("met" if said else "does not apply")


def test_a_surge_device_of_2020_has_no_least_current() -> None:
    """Its rating came in 2023."""
    patch = {"rules": ["us-2020"], "panels": {"house-panel": {"replaced": True, "surge-protection": True}}}
    assert listed(reviewed(studio("accessory", patch)), "/surge-device-rating") == [
        "The surge-protective device at house-panel is marked type 1 or 2."
    ]


def test_surge_protection_is_for_feeders_from_another_structure() -> None:
    """Not for a further panel of the house; and where a branch circuit comes besides, all the same."""
    leg = [{"in": "wall framing", "length": "9 ft", "location": "dry"}]
    further = {
        "panels": {"sub-panel": {"at": "house", "area": "indoors", "duty": "feeder panel", "surge-protection": False}},
        "circuits": {"sub": {"kind": "feeder", "from": "house-panel", "voltage": "120/240 V"}},
        "routes": {
            "sub": {
                "from": "house-panel",
                "to": "sub-panel",
                "raceway": "none",
                "carries": {"sub": {"cable": "NM-B 6/3"}},
                "legs": leg,
            }
        },
    }
    assert outcome(reviewed(studio("accessory", further)), SURGE, "/panels/sub-panel") == "does not apply"
    besides = {
        "structures": {"workshop": {"use": "dwelling"}},
        "panels": {"workshop-panel": {"surge-protection": False}},
        "circuits": {"gate": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}},
        "boxes": {"gate-box": {"at": "workshop", "box": {}, "devices": {"gate": {"receptacle": "20 A"}}}},
        "routes": {
            "gate": {
                "from": "house-panel",
                "to": "gate-box",
                "raceway": "none",
                "carries": {"gate": {"cable": "UF-B 12/2"}},
                "legs": leg,
            }
        },
    }
    assert outcome(reviewed_example("joinery-workshop", besides), SURGE, "/panels/workshop-panel") == "not met"


# Work in panels


@pytest.mark.parametrize(
    ("patch", "panels", "mains", "sources"),
    [
        ({}, "house-panel and workshop-panel", "workshop-panel", "workshop-panel from house-panel"),
        (
            {"panels": {"workshop-panel": {"main": "none"}}},
            "house-panel and workshop-panel",
            None,
            "workshop-panel from house-panel",
        ),
        (
            {"panels": {"workshop-panel": {"main": None}}},
            "house-panel and workshop-panel",
            None,
            "workshop-panel from house-panel",
        ),
        (
            {"panels": {"workshop-panel": {"existing": True}}, "circuits": {"workshop-feeder": {"existing": True}}},
            "workshop-panel",
            None,
            None,
        ),
        (
            {"circuits": {name: {"existing": True} for name in ("bench-outlets", "lights", "planer")}},
            "house-panel and workshop-panel",
            "workshop-panel",
            "workshop-panel from house-panel",
        ),
        (
            {
                "panels": {"workshop-panel": {"existing": True}},
                "circuits": {name: {"existing": True} for name in ("workshop-feeder", "bench-outlets", "lights")},
            },
            "workshop-panel",
            None,
            None,
        ),
    ],
)
def test_work_in_panels_is_listed(patch: dict[str, Any], panels: str, mains: str | None, sources: str | None) -> None:
    """Of new panels, and of those with a new circuit; mains and supplies of new feeder panels."""
    of = reviewed_example("joinery-workshop", patch)
    (torque,), (types,), (books,) = (
        listed(of, name) for name in ("/torque-of-terminals", "/type-of-breakers", "/directory")
    )
    assert torque.startswith(f"{panels}: ") and types.startswith(f"{panels}: ") and books.startswith(f"{panels}: ")
    held = types.partition("upright.")[2]
    assert held == (
        "" if mains is None else f" A main of {mains} that is a back-fed plug-in breaker is held by a fastener."
    )
    marked = books.partition("differently.")[2]
    assert marked == ("" if sources is None else f" Marked with its supply: {sources}.")


def test_poles_of_a_panel_are_those_of_its_breakers() -> None:
    """As stated, else one for each hot; free spaces for what is new, one pole or more."""
    circuits = {"planer": {"breaker": {"poles": None}}, "bench-outlets": {"breaker": {"poles": 2}}}
    rule, place = "/spaces-for-the-breakers", "/panels/workshop-panel"
    for spaces, expected in ((4, "not met"), (5, "met")):
        data = example("joinery-workshop", {"circuits": circuits, "panels": {"workshop-panel": {"spaces": spaces}}})
        assert outcome(reviewed(data), rule, place) == expected
        if expected == "not met":
            assert after_each_proposal(data, rule, place) == {
                "use a panel with 5 spaces or more for workshop-panel": "met"
            }
    (says,) = listed(reviewed_example("pottery-studio"), "/free-spaces")
    assert says.startswith("Free spaces in house-panel for 1 more pole, ")
    assert listed(reviewed(studio("accessory", {"circuits": {"studio": {"existing": True}}})), "/free-spaces") == []
    two = {"circuits": {"studio": {"breaker": {"poles": 2}}}}
    assert "for 2 more poles, " in listed(reviewed(studio("accessory", two)), "/free-spaces")[0]
    stated = {"panels": {"house-panel": {"spaces": 30}}}
    assert listed(reviewed(studio("accessory", stated)), "/free-spaces") == []
