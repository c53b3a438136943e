"""Receptacles, lights and switches that must be there, and low-voltage lighting."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, example, merged, outcome, reviewed
from support.trenches import after_each_proposal, answer_at, steps_at

STUDIO = "/structures/studio"
BAYS = "/receptacle-in-every-bay"
ACCESSORY = "/receptacle-in-an-accessory-building"
SERVICE = "/receptacle-beside-equipment-to-be-serviced"
SHUTTERS = "/shutters-at-a-dwelling"
INSIDE, OUTSIDE = "/light-inside-a-garage", "/light-outside-a-garage-entrance"
BENCH = "/boxes/entry-box/devices/bench-outlet"
OUTLET: dict[str, Any] = {"receptacle": "20 A", "voltage": "125 V", "ground-fault": False, "tamper-resistant": True}


def studio(structure: dict[str, Any] | None = None, *patches: dict[str, Any]) -> dict[str, Any]:
    """The pottery studio with other facts of the building, and patches."""
    data = example("pottery-studio", {"structures": {"studio": structure or {}}})
    for patch in patches:
        data = merged(data, patch)
    return data


def garage(bays: int | None = 1, *patches: dict[str, Any], **structure: Any) -> dict[str, Any]:
    """The pottery studio as a garage."""
    return studio({"use": "garage", "vehicle-bays": bays, "entrance": False, **structure}, *patches)


def entry(**devices: Any) -> dict[str, Any]:
    """A patch of what is in the studio's entry box."""
    return {"boxes": {"entry-box": {"devices": {key.replace("_", "-"): value for key, value in devices.items()}}}}


def says(data: dict[str, Any], item: str) -> list[str]:
    """What an entry of the inspection list says."""
    return [found.says for found in reviewed(data).inspect if found.item.id.endswith(f"/{item}")]


# Receptacles


@pytest.mark.parametrize(
    ("bays", "more", "expected"),
    [
        (0, {}, "does not apply"),
        (1, {}, "met"),
        (2, {}, "not met"),
        (2, {"second": OUTLET}, "met"),
        (2, {"second": OUTLET | {"height": "5 ft 6 in"}}, "met"),
        (2, {"second": OUTLET | {"height": "5 ft 7 in"}}, "not met"),
        (2, {"second": OUTLET | {"serves": "door opener"}}, "not met"),
        (2, {"second": OUTLET | {"receptacle": "30 A"}}, "not met"),
        (2, {"second": OUTLET | {"voltage": "250 V"}}, "not met"),
        (2, {"second": {"receptacle": "20 A"}}, "cannot tell"),
        (None, {}, "cannot tell"),
    ],
)
def test_one_in_each_bay(bays: int | None, more: dict[str, Any], expected: str) -> None:
    """Counted inside, of a common rating, low enough and not for a door opener."""
    assert answer_at(garage(bays, entry(**more)), BAYS, STUDIO) == expected


def test_bays_of_what_is_no_garage_with_power() -> None:
    """Nor of one that no dwelling has."""
    assert answer_at(studio(), BAYS, STUDIO) == "does not apply"
    assert answer_at(garage(5, {"site": {"premises": "commercial"}}), BAYS, STUDIO) == "does not apply"
    assert answer_at(garage(5, detached=False), BAYS, STUDIO) == "does not apply"


def test_an_outdoor_receptacle_is_in_no_bay() -> None:
    """The joinery has one on its porch."""
    data = example("joinery-workshop", {"structures": {"workshop": {"use": "garage", "vehicle-bays": 2}}})
    assert answer_at(data, BAYS, "/structures/workshop") == "not met"


@pytest.mark.parametrize(
    ("patch", "expected"),
    [
        ({}, "met"),
        (entry(bench_outlet=None), "not met"),
        (entry(bench_outlet={"receptacle": "30 A"}), "not met"),
        (entry(bench_outlet={"voltage": None}), "cannot tell"),
        ({"boxes": {"entry-box": {"area": "outdoors", "location": "damp"}}}, "not met"),
        ({"boxes": {"entry-box": {"area": None}}}, "cannot tell"),
        ({"site": {"premises": "agricultural"}}, "does not apply"),
        ({"site": {"premises": None}}, "met"),
        ({"structures": {"studio": {"use": "agricultural"}}}, "does not apply"),
    ],
)
def test_one_in_an_accessory_building(patch: dict[str, Any], expected: str) -> None:
    """With power there is one inside. Premises that make no difference are not asked for."""
    assert answer_at(studio({}, patch), ACCESSORY, STUDIO) == expected


def test_a_post_needs_no_receptacle() -> None:
    """It is no building."""
    assert answer_at(example("orchard-pump"), ACCESSORY, "/structures/pump-post") == "does not apply"


@pytest.mark.parametrize(
    ("rule", "data"), [(ACCESSORY, studio({}, entry(bench_outlet=None))), (BAYS, garage(1, entry(bench_outlet=None)))]
)
def test_a_receptacle_is_proposed(rule: str, data: dict[str, Any]) -> None:
    """In a dry box of the building, and it settles the finding."""
    assert set(after_each_proposal(data, rule, STUDIO).values()) == {"met"}


def test_equipment_that_is_serviced() -> None:
    """Any receptacle of the structure counts; how far it is, the inspector sees."""
    pump = {"boxes": {"ceiling-box": {"devices": {"heat-pump": {"equipment": "heat pump", "hvac": True}}}}}
    assert answer_at(studio({}, pump), SERVICE, STUDIO) == "met"
    without = studio({}, pump, entry(bench_outlet=None))
    assert answer_at(without, SERVICE, STUDIO) == "not met"
    assert set(after_each_proposal(without, SERVICE, STUDIO).values()) == {"met"}
    kiln = merged(pump, {"boxes": {"ceiling-box": {"devices": {"heat-pump": {"hvac": None}}}}})
    assert answer_at(studio({}, kiln), SERVICE, STUDIO) == "does not apply"
    assert "25 ft" in says(studio({}, pump), "distance-to-the-receptacle")[0]
    assert says(studio({}, kiln), "distance-to-the-receptacle") == []


# EC&M on tamper-resistant receptacles, 15 and 20 A in garages and outbuildings, not above 5.5 ft -
# https://www.ecmweb.com/qampa/stumped-code-tamper-resistant-receptacles-gfcis-more
@pytest.mark.parametrize(
    ("outlet", "expected"),
    [
        ({"tamper-resistant": True}, "met"),
        ({"tamper-resistant": False}, "not met"),
        ({"tamper-resistant": None}, "cannot tell"),
        ({"tamper-resistant": False, "voltage": "250 V"}, "not met"),
        ({"tamper-resistant": False, "receptacle": "30 A"}, "does not apply"),
        ({"tamper-resistant": False, "height": "5 ft 6 in"}, "not met"),
        ({"tamper-resistant": False, "height": "5 ft 7 in"}, "does not apply"),
        ({"tamper-resistant": False, "height": "1.7 m"}, "not met"),
        ({"tamper-resistant": False, "height": "1.71 m"}, "does not apply"),
        ({"tamper-resistant": False, "locking": True}, "does not apply"),
    ],
)
def test_tamper_resistant(outlet: dict[str, Any], expected: str) -> None:
    """By rating and height."""
    data = studio({}, entry(bench_outlet=outlet))
    assert answer_at(data, SHUTTERS, BENCH) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, SHUTTERS, BENCH).values()) == {"met"}


@pytest.mark.parametrize(
    ("premises", "use", "expected"),
    [
        ("one-family dwelling", "garage", "not met"),
        ("multifamily dwelling", "accessory", "not met"),
        ("one-family dwelling", "post", "not met"),
        ("one-family dwelling", "agricultural", "does not apply"),
        ("commercial", "accessory", "does not apply"),
        (None, "accessory", "cannot tell"),
    ],
)
def test_tamper_resistant_at_dwellings(premises: str | None, use: str, expected: str) -> None:
    """And what belongs to them."""
    data = studio({"use": use}, {"site": {"premises": premises}}, entry(bench_outlet={"tamper-resistant": False}))
    assert answer_at(data, SHUTTERS, BENCH) == expected


def test_bathrooms() -> None:
    """A receptacle in a bathroom is kept from the tub."""
    assert says(studio(), "away-from-tub-and-shower") == []
    assert len(says(studio({}, {"boxes": {"entry-box": {"area": "bathroom"}}}), "away-from-tub-and-shower")) == 1


# Lights and switches


@pytest.mark.parametrize(
    ("lamp", "inside"),
    [
        ({}, "met"),
        (None, "not met"),
        ({"switched-by": None}, "cannot tell"),
    ],
)
def test_a_light_inside_a_garage(lamp: dict[str, Any] | None, inside: str) -> None:
    """With a wall switch; a light that names none is asked about."""
    data = garage(1, {"boxes": {"ceiling-box": {"devices": {"lamp": lamp}}}})
    assert answer_at(data, INSIDE, STUDIO) == inside
    if lamp == {"switched-by": None}:
        assert "/boxes/ceiling-box/devices/lamp/switched-by" in asked(reviewed(data))


@pytest.mark.parametrize(
    ("entrance", "outdoors", "expected"),
    [
        (True, False, "not met"),
        (False, False, "does not apply"),
        (None, False, "cannot tell"),
        (True, True, "met"),
        (None, True, "met"),
    ],
)
def test_a_light_outside_the_entrance(entrance: bool | None, outdoors: bool, expected: str) -> None:
    """Whether there is an entrance is asked only where no light is outside."""
    box = {"area": "outdoors", "location": "damp"} if outdoors else {}
    assert answer_at(garage(1, {"boxes": {"ceiling-box": box}}, entrance=entrance), OUTSIDE, STUDIO) == expected


def test_lights_of_what_is_no_garage() -> None:
    """A question for the office."""
    for rule in (INSIDE, OUTSIDE):
        assert answer_at(studio(), rule, STUDIO) == "does not apply"
        assert answer_at(garage(1, {"site": {"premises": "commercial"}}), rule, STUDIO) == "does not apply"
    assert "Ask the office" in says(studio(), "lights-of-an-outbuilding")[0]
    assert "usual entrance" in says(garage(), "lights-of-an-outbuilding")[0]
    assert says(example("orchard-pump"), "lights-of-an-outbuilding") == []


def test_lights_elsewhere() -> None:
    """Where equipment is serviced, in closets, and how they hang."""
    assert says(studio(), "light-where-equipment-is-serviced") == []
    attic = {"boxes": {"ceiling-box": {"area": "attic", "devices": {"fan": {"motor": "1/2 hp"}}}}}
    assert "ceiling-box" in says(studio({}, attic), "light-where-equipment-is-serviced")[0]
    assert "6 lb or 16 in" in says(studio(), "luminaires-held-and-clear")[0]
    assert "closet" not in says(studio(), "luminaires-held-and-clear")[0]
    closet = {"boxes": {"ceiling-box": {"area": "closet"}}}
    assert "12 in from the storage space" in says(studio({}, closet), "luminaires-held-and-clear")[0]
    assert says(example("orchard-pump"), "luminaires-held-and-clear") == []


@pytest.mark.parametrize(
    ("opens", "role", "expected"),
    [
        ("all hots", "lighting", "met"),
        ("one hot", "lighting", "met"),
        ("neutral", "lighting", "not met"),
        (None, "lighting", "does not apply"),
        ("neutral", "disconnect", "does not apply"),
    ],
)
def test_what_a_switch_opens(opens: str | None, role: str, expected: str) -> None:
    """A disconnect is looked at as such."""
    place = "/boxes/switch-box/devices/light-switch"
    patch = {"boxes": {"switch-box": {"devices": {"light-switch": {"opens": opens, "role": role}}}}}
    data = example("joinery-workshop", patch)
    assert answer_at(data, "/switch-opens-the-hot", place) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, "/switch-opens-the-hot", place).values()) == {"met"}


def test_neutral_at_the_switches_of_rooms_to_live_in() -> None:
    """Not in a shed."""
    assert says(studio(), "hot-and-neutral-at-a-switch") == ["Switches open the hot, not the neutral."]
    assert "a neutral at" in says(studio({"habitable": True}), "hot-and-neutral-at-a-switch")[0]
    assert says(example("orchard-pump"), "hot-and-neutral-at-a-switch") == []


# Low-voltage lighting

PACK = "/boxes/post-box/devices/power-pack"


def garden(use: str | None = "landscape lighting", rating: str | None = "20 A", **pack: Any) -> dict[str, Any]:
    """The orchard pump with a low-voltage circuit from a transformer on its post."""
    patch = {
        "circuits": {
            "pump": {"breaker": {"rating": rating}},
            "garden": {"kind": "low-voltage", "from": "post-box/power-pack", "voltage": "12 V", "use": use},
        },
        "boxes": {"post-box": {"devices": {"power-pack": {"transformer": "300 VA", **pack}}}},
    }
    return example("orchard-pump", patch)


@pytest.mark.parametrize(
    ("use", "rating", "expected"),
    [
        ("landscape lighting", "15 A", "met"),
        ("landscape lighting", "20 A", "met"),
        ("landscape lighting", "25 A", "not met"),
        ("landscape lighting", None, "cannot tell"),
        ("irrigation control", "25 A", "does not apply"),
        (None, "25 A", "cannot tell"),
        (None, "20 A", "met"),
    ],
)
def test_circuit_of_low_voltage_lighting(use: str | None, rating: str | None, expected: str) -> None:
    """Up to 20 A."""
    data = garden(use, rating)
    assert answer_at(data, "/circuit-that-feeds-it", PACK) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, "/circuit-that-feeds-it", PACK).values()) == {"met"}


@pytest.mark.parametrize(
    ("listed", "isolating", "expected"),
    [
        (True, None, "met"),
        (False, True, "met"),
        (False, False, "not met"),
        (False, None, "cannot tell"),
        (None, True, "met"),
        (None, False, "cannot tell"),
    ],
)
def test_isolating(listed: bool | None, isolating: bool | None, expected: str) -> None:
    """A listed system has such a transformer; else the plan says it."""
    pack = {key: value for key, value in (("listed-system", listed), ("isolating", isolating)) if value is not None}
    data = garden(**pack)
    assert answer_at(data, "/isolating-transformer", PACK) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, "/isolating-transformer", PACK).values()) == {"met"}
    assert answer_at(garden("irrigation control", **pack), "/isolating-transformer", PACK) == "does not apply"


@pytest.mark.parametrize(("rated", "expected"), [("79 VA", "not met"), ("80 VA", "met"), ("300 VA", "met")])
def test_a_transformer_for_its_lights(rated: str, expected: str) -> None:
    """50 W and 30 W behind it; with no lights there is nothing to add up."""
    rule = "/transformer-for-its-lights"
    lamps = {"near": {"luminaire": "50 W"}, "far": {"luminaire": "30 W"}}
    patch = {
        "boxes": {"lamp-box": {"at": "pump-post", "area": "outdoors", "location": "wet", "devices": lamps}},
        "routes": {
            "path": {
                "from": "post-box",
                "to": "lamp-box",
                "raceway": "none",
                "carries": {"garden": {"cable": "low-voltage 12/2"}},
                "legs": [{"buried": "garden bed"}],
            }
        },
    }
    data = merged(garden(transformer=rated), patch)
    assert answer_at(data, rule, PACK) == expected
    assert steps_at(data, rule, PACK) == ["near, far: 80 VA together"]
    if expected == "not met":
        assert after_each_proposal(data, rule, PACK) == {"use a transformer of 80 VA or more": "met"}
    assert answer_at(garden(), rule, PACK) == "does not apply"


def test_listing_is_on_the_inspection_list() -> None:
    """Of lighting only."""
    assert len(says(garden(), "listed-and-not-grounded")) == 1
    assert says(garden("irrigation control"), "listed-and-not-grounded") == []


def test_the_other_requirements_stay_silent_on_the_examples() -> None:
    """Every rule of the subject has an answer, and none is a finding."""
    of = reviewed(example("joinery-workshop"))
    here = [line for line in of.ran if line.rule.topic.startswith("required-outlets/")]
    assert {line.answer.outcome.value for line in here} == {"met", "does not apply"}
    assert outcome(of, ACCESSORY, "/structures/workshop") == "met"
    assert steps_at(example("joinery-workshop"), ACCESSORY, "/structures/workshop") == []
