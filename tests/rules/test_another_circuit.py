"""Ways out that put devices on another circuit: which are offered, what goes with them, and that nothing else comes of it."""

from __future__ import annotations

from typing import Any

import pytest

from support.offered import offered, settled, taken
from support.reviews import example, merged, reviewed
from support.trenches import line_at

HALF, BENCH = "/fixed-equipment-beside-other-outlets", "/circuits/bench-outlets"
WARMER: dict[str, Any] = {"heater": "1500 W", "hardwired": True}
DRYER: dict[str, Any] = {"equipment": "kiln", "load": "2200 VA", "hardwired": False, "continuous": False}
PLUGGED, VOLTAGE = "/load-plugged-into-a-shared-circuit", "/small-loads-in-a-dwelling"
GARAGE = "/garage-has-its-receptacle-circuit"


def joinery(*patches: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop with patches."""
    data = example("joinery-workshop")
    for patch in patches:
        data = merged(data, patch)
    return data


def devices(box: str, **more: Any) -> dict[str, Any]:
    """A patch of what is in a box."""
    return {"boxes": {box: {"devices": {name.replace("_", "-"): value for name, value in more.items()}}}}


# Fixed equipment


def test_fixed_equipment_gets_a_circuit_like_its_own() -> None:
    """In the same raceway, from the same panel; the receptacle stays, and says so."""
    data = joinery(devices("bench-box", warmer=WARMER))
    words = "give warmer a circuit like bench-outlets of its own"
    assert settled(data, HALF, BENCH) == {words: []}
    after = taken(data, HALF, BENCH, words)
    assert after["circuits"]["bench-box-warmer"] == data["circuits"]["bench-outlets"]
    assert (
        after["routes"]["bench"]["carries"]["bench-box-warmer"] == data["routes"]["bench"]["carries"]["bench-outlets"]
    )
    inside = after["boxes"]["bench-box"]["devices"]
    assert {name: device["circuit"] for name, device in inside.items()} == {
        "bench-outlet": "bench-outlets",
        "warmer": "bench-box-warmer",
    }


def test_what_is_true_of_the_old_circuit_alone_is_not_said_of_the_new_one() -> None:
    """Its load, its leg, what it serves, and that it was there before."""
    facts = {"load": "15 A", "leg": "L1", "serves": "the bench", "existing": True, "not-with": "planer"}
    data = joinery(devices("bench-box", warmer=WARMER), {"circuits": {"bench-outlets": facts}})
    after = taken(data, HALF, BENCH, "give warmer a circuit like bench-outlets of its own")
    assert not set(facts) & set(after["circuits"]["bench-box-warmer"])


def test_a_circuit_goes_by_way_of_all_boxes_to_where_it_is_wanted() -> None:
    """Farther on, on a free name; the devices that it passes say which circuit they are on."""
    data = joinery(devices("yard-box", planer=WARMER))
    data["circuits"]["yard-box-planer"] = {"kind": "branch circuit", "from": "house-panel"}
    words = "give planer a circuit like bench-outlets of its own"
    assert settled(data, HALF, BENCH) == {words: []}
    after = taken(data, HALF, BENCH, words)
    assert [name for name, route in after["routes"].items() if "yard-box-planer-2" in route["carries"]] == [
        "bench",
        "porch",
    ]
    assert after["boxes"]["bench-box"]["devices"]["bench-outlet"]["circuit"] == "bench-outlets"
    assert after["boxes"]["yard-box"]["devices"]["porch-outlet"]["circuit"] == "bench-outlets"


@pytest.mark.parametrize(
    ("more", "goes"),
    [
        ({"a": {"heater": "700 W", "hardwired": True}, "b": {"heater": "600 W", "hardwired": True}}, "a"),
        ({"a": {"heater": "600 W", "hardwired": True}, "b": {"heater": "1300 W", "hardwired": True}}, "b"),
        ({"a": {"heater": "1300 W", "hardwired": True}, "b": {"heater": "1250 W", "hardwired": True}}, "a and b"),
    ],
)
def test_only_what_is_too_much_goes(more: dict[str, Any], goes: str) -> None:
    """The largest first, until the rest takes no more than 1200 W of 20 A at 120 V."""
    own = "their" if "and" in goes else "its"
    assert offered(joinery(devices("bench-box", **more)), HALF, BENCH) == [
        f"give {goes} a circuit like bench-outlets of {own} own"
    ]


def test_a_circuit_that_is_there_already_is_offered_first() -> None:
    """One of the same voltage that comes to the box, and no other."""
    spare = {"kind": "branch circuit", "from": "workshop-panel", "voltage": "120 V", "multiwire": False,
             "breaker": {"rating": "20 A", "poles": 1, "ground-fault": "class A", "readily-accessible": True}}  # fmt: skip
    other = {"kind": "branch circuit", "from": "workshop-panel", "voltage": "240 V", "multiwire": False,
             "breaker": {"rating": "20 A", "poles": 2, "common-trip": True, "ground-fault": "none"}}  # fmt: skip
    wires = {"wires": {"hot": "12 AWG Cu THHN", "neutral": "12 AWG Cu THHN", "ground": "12 AWG Cu THHN"}}
    two = {"wires": {"hot": "2 × 12 AWG Cu THHN", "ground": "12 AWG Cu THHN"}}
    data = joinery(
        {
            "circuits": {"spare": spare, "other": other},
            "routes": {"bench": {"carries": {"spare": wires, "other": two}}},
        },
        devices("bench-box", bench_outlet={"circuit": "bench-outlets"}, warmer=WARMER | {"circuit": "bench-outlets"}),
    )
    there, own = "put warmer on spare", "give warmer a circuit like bench-outlets of its own"
    assert offered(data, HALF, BENCH) == [there, own]
    found = settled(data, HALF, BENCH)
    assert set(found) == {there, own}
    assert found[there] == []
    assert taken(data, HALF, BENCH, there)["boxes"]["bench-box"]["devices"]["warmer"]["circuit"] == "spare"


def test_a_larger_breaker_leaves_more_of_a_small_circuit() -> None:
    """Half of 20 A, where half of 15 A is too little; not where half of 20 A is as well."""
    fan = {"heater": "1000 W", "hardwired": True}
    small = {"circuits": {"bench-outlets": {"breaker": {"rating": "15 A"}}}}
    data = joinery(small, devices("bench-box", bench_outlet={"receptacle": "15 A"}, fan=fan))
    larger = "use a 20 A breaker for bench-outlets"
    assert offered(data, HALF, BENCH) == [larger, "give fan a circuit like bench-outlets of its own"]
    assert larger in settled(data, HALF, BENCH)
    assert larger not in offered(merged(data, devices("bench-box", fan={"heater": "1201 W"})), HALF, BENCH)


def test_nothing_goes_where_it_would_be_one_supply_more() -> None:
    """The studio's one circuit comes from the house."""
    data = example("pottery-studio", devices("entry-box", warmer=WARMER))
    assert offered(data, HALF, "/circuits/studio") == []


def test_nothing_goes_that_another_device_feeds_or_that_feeds_one() -> None:
    """What is on whose load side would have to change too."""
    fed = joinery(devices("bench-box", warmer=WARMER | {"after": "bench-outlet"}))
    assert line_at(reviewed(fed), HALF, BENCH).answer.outcome.value == "not met"
    assert offered(fed, HALF, BENCH) == []
    feeding = joinery(devices("bench-box", dryer=DRYER, second={"receptacle": "20 A", "after": "bench-outlet"}))
    place = "/boxes/bench-box/devices/dryer"
    assert line_at(reviewed(feeding), PLUGGED, place).answer.outcome.value == "not met"
    assert offered(feeding, PLUGGED, place) == []


# Motors


SAW = {"motor": "1 hp", "hardwired": True, "listed-for": "dry"}
CUT_OFF: dict[str, Any] = {"disconnect": "30 A", "type": "general-use switch", "opens": "all hots"}
IN_SIGHT = {"disconnect-in-sight": True}
CARRIES = "/breaker-that-carries-the-motors"


def test_the_largest_motor_leaves_a_circuit_that_is_too_small_for_all() -> None:
    """16 A of 1 hp at 120 V, where 20 A have 9.8 A of 1/2 hp to carry as well."""
    data = joinery(devices("bench-box", bench_outlet=None, fan=SAW | {"motor": "1/2 hp"}, saw=SAW))
    words = "give saw a circuit like bench-outlets of its own"
    assert offered(data, CARRIES, BENCH) == [words]
    assert list(settled(data, CARRIES, BENCH)) == [words]


@pytest.mark.parametrize(
    ("more", "goes"),
    [
        ({"fan": SAW | {"motor": "1 1/2 hp"}}, ["give fan a circuit like bench-outlets of its own"]),  # 20 A, by itself
        ({"fan": SAW | {"motor": "2 hp"}}, []),  # 24 A are too many by themselves
        ({"fan": SAW, "other": SAW}, []),  # and 32 A what is left
    ],
)
def test_a_motor_leaves_where_that_does(more: dict[str, Any], goes: list[str]) -> None:
    """Beside 16 A on a circuit of 20 A."""
    data = joinery(devices("bench-box", bench_outlet=None, saw=SAW, **more))
    assert line_at(reviewed(data), CARRIES, BENCH).answer.outcome.value == "not met"
    assert offered(data, CARRIES, BENCH) == goes


# A load that is plugged in


def test_a_plugged_in_load_goes_with_its_receptacle() -> None:
    """They have a circuit to themselves then."""
    data, place = joinery(devices("bench-box", dryer=DRYER)), "/boxes/bench-box/devices/dryer"
    words = "give dryer and bench-outlet a circuit like bench-outlets of their own"
    assert settled(data, PLUGGED, place) == {words: []}
    more = merged(data, devices("bench-box", second={"receptacle": "20 A", "voltage": "125 V"}))
    assert offered(more, PLUGGED, place) == [words]
    assert offered(merged(data, devices("bench-box", bench_outlet=None)), PLUGGED, place) == []


def test_a_circuit_with_receptacles_is_none_of_its_own() -> None:
    """Another that comes to the box, with nothing on it or with a receptacle."""
    wires = {"wires": {"hot": "12 AWG Cu THHN", "neutral": "12 AWG Cu THHN", "ground": "12 AWG Cu THHN"}}
    data = joinery(devices("bench-box", dryer=DRYER | {"circuit": "bench-outlets"}))
    data["circuits"]["spare"] = data["circuits"]["bench-outlets"]
    data["routes"]["bench"]["carries"]["spare"] = wires
    data = merged(data, devices("bench-box", bench_outlet={"circuit": "bench-outlets"}))
    place = "/boxes/bench-box/devices/dryer"
    own = "give dryer and bench-outlet a circuit like bench-outlets of their own"
    third = merged(data, devices("yard-box", third={"receptacle": "20 A", "voltage": "125 V"}))
    assert offered(third, PLUGGED, place) == ["put dryer and bench-outlet on spare", own]
    used = devices("bench-box", second={"receptacle": "20 A", "voltage": "125 V", "circuit": "spare"})
    assert offered(merged(third, used), PLUGGED, place) == [own]


# The receptacle circuit of a garage


def test_the_light_of_a_garage_leaves_its_receptacle_circuit() -> None:
    """With its switch, which is for nothing else."""
    data = joinery(
        {"structures": {"workshop": {"use": "garage", "vehicle-bays": 1, "entrance": True}}},
        {"circuits": {"lights": None}, "routes": {"lighting": {"carries": {"lights": None}}}},
        {"routes": {"lighting": {"from": "bench-box", "carries": {"bench-outlets": {"cable": "NM-B 12/2"}}}}},
        {"routes": {"porch-lighting": {"carries": {"lights": None, "bench-outlets": {"cable": "NM-B 12/2"}}}}},
        devices("switch-box", light_switch={"switch": "20 A"}),
        {"structures": {"workshop": {"vehicle-bays": 2}}},
        devices("bench-box", second={"receptacle": "20 A", "voltage": "125 V", "tamper-resistant": True}),
    )
    words = (
        "give porch-lamp a circuit like bench-outlets of its own, with light-switch, and take bench-outlets off lighting and "
        "porch-lighting"
    )
    place = "/structures/workshop"
    assert offered(data, GARAGE, place) == [words]
    after = taken(data, GARAGE, place, words)
    assert line_at(reviewed(after), GARAGE, place).answer.outcome.value == "met"
    assert after["boxes"]["switch-box"]["devices"]["light-switch"]["circuit"] == "porch-light-box-porch-lamp"
    assert after["boxes"]["porch-light-box"]["devices"]["porch-lamp"]["circuit"] == "porch-light-box-porch-lamp"
    assert [name for name, route in after["routes"].items() if "porch-light-box-porch-lamp" in route["carries"]] == [
        "bench",
        "lighting",
        "porch-lighting",
    ]
    assert [name for name, route in after["routes"].items() if "bench-outlets" in route["carries"]] == [
        "bench",
        "porch",
    ]


# The voltage in a dwelling


COTTAGE = {"structures": {"workshop": {"use": "dwelling"}}}
LIGHTS = "/circuits/lights"
AT_240 = {"circuits": {"lights": {"voltage": "240 V", "breaker": {"poles": 2, "common-trip": True}}}}
ALL = "make lights a 120 V circuit, with one hot and a neutral, behind a 1-pole breaker"
OWN = "give porch-lamp a 120 V circuit of its own, with light-switch"
HEAT = devices("porch-light-box", heat={"heater": "500 W", "hardwired": True})
OUTLET = devices("porch-light-box", more={"receptacle": "15 A", "voltage": "125 V"})


def test_a_circuit_of_lights_is_one_of_120_volts() -> None:
    """All of it, where nothing on it is made for 240 V; or a new one for the lights, beside it."""
    assert settled(joinery(COTTAGE, AT_240), VOLTAGE, LIGHTS) == {ALL: []}
    data = joinery(COTTAGE, AT_240, OUTLET)
    assert offered(data, VOLTAGE, LIGHTS) == [ALL, OWN]
    assert set(settled(data, VOLTAGE, LIGHTS)) == {ALL, OWN}
    after = taken(data, VOLTAGE, LIGHTS, ALL)["circuits"]["lights"]
    assert after["voltage"] == "120 V"
    assert after["breaker"] == {"rating": "15 A", "poles": 1, "ground-fault": "none", "readily-accessible": True}
    beside = taken(data, VOLTAGE, LIGHTS, OWN)
    assert beside["circuits"]["porch-light-box-porch-lamp"] == after
    assert beside["boxes"]["switch-box"]["devices"]["light-switch"]["circuit"] == "porch-light-box-porch-lamp"


@pytest.mark.parametrize(
    "more",
    [
        {"heater": "500 W", "hardwired": True},
        {"receptacle": "15 A", "voltage": "250 V"},
        {"equipment": "kiln", "load": "1441 VA", "hardwired": False},
    ],
)
def test_what_may_be_made_for_240_volts_stays(more: dict[str, Any]) -> None:
    """Only the light leaves."""
    data = joinery(COTTAGE, AT_240, devices("porch-light-box", more=more))
    assert offered(data, VOLTAGE, LIGHTS) == [OWN]
    assert list(settled(data, VOLTAGE, LIGHTS)) == [OWN]


@pytest.mark.parametrize("more", [{"receptacle": "15 A", "voltage": "125 V"}, {"receptacle": "15 A"}])
def test_a_receptacle_for_120_volts_holds_nothing_up(more: dict[str, Any]) -> None:
    """Nor one that does not say."""
    assert offered(joinery(COTTAGE, AT_240, devices("porch-light-box", more=more)), VOLTAGE, LIGHTS) == [ALL, OWN]


def test_of_two_hot_wires_one_becomes_the_neutral() -> None:
    """In every part of the way that has wires; cable stays as it is."""
    two = {"wires": {"hot": "2 × 14 AWG Cu THHN", "ground": "14 AWG Cu THHN"}, "cable": None}
    lighting = {"raceway": "EMT 1/2 in", "complete-before-pull": True, "carries": {"lights": two},
                "legs": [{"on": "inside wall", "length": "8 ft", "location": "dry", "physical-damage": False}]}  # fmt: skip
    data = joinery(COTTAGE, AT_240, OUTLET, {"routes": {"lighting": lighting}})
    one = {"hot": "14 AWG Cu THHN", "neutral": "14 AWG Cu THHN", "ground": "14 AWG Cu THHN"}
    after = taken(data, VOLTAGE, LIGHTS, ALL)["routes"]
    assert after["lighting"]["carries"]["lights"]["wires"] == one
    assert after["porch-lighting"] == data["routes"]["porch-lighting"]
    assert taken(data, VOLTAGE, LIGHTS, OWN)["routes"]["lighting"]["carries"]["porch-light-box-porch-lamp"] == {
        "wires": one
    }
    assert ALL in settled(data, VOLTAGE, LIGHTS)
    unnamed = merged(data, {"routes": {"lighting": {"carries": {"lights": {"wires": {"hot": None}}}}}})
    assert offered(unnamed, VOLTAGE, LIGHTS) == []
    neutral = merged(data, {"routes": {"lighting": {"carries": {"lights": {"wires": {"neutral": "12 AWG Cu THHN"}}}}}})
    after = taken(neutral, VOLTAGE, LIGHTS, ALL)["routes"]
    assert after["lighting"]["carries"]["lights"]["wires"]["neutral"] == "12 AWG Cu THHN"


def test_a_light_does_not_leave_a_disconnect() -> None:
    """That is for more than the light."""
    data = joinery(COTTAGE, AT_240, HEAT, devices("switch-box", light_switch={"role": "disconnect"}))
    assert line_at(reviewed(data), VOLTAGE, LIGHTS).answer.outcome.value == "not met"
    assert offered(data, VOLTAGE, LIGHTS) == []
    cut_off = {"disconnect": "30 A", "type": "general-use switch", "opens": "all hots"}
    data["boxes"]["switch-box"]["devices"]["light-switch"] = cut_off
    assert offered(data, VOLTAGE, LIGHTS) == []


def test_a_circuit_that_comes_to_the_light_comes_to_its_switch_too() -> None:
    """Or the light is not put on it."""
    data = joinery(COTTAGE, AT_240, HEAT, spare("120 V"))
    assert "put porch-lamp on spare, with light-switch" in offered(
        merged(data, devices("porch-light-box", heat={"circuit": "lights"})), VOLTAGE, LIGHTS
    )
    del data["routes"]["lighting"]["carries"]["spare"], data["routes"]["porch-lighting"]["carries"]["spare"]
    straight = {"from": "workshop-panel", "to": "porch-light-box", "legs": [{"on": "inside wall"}],
                "carries": {"spare": {"cable": "NM-B 12/2"}}}  # fmt: skip
    data = merged(data, {"routes": {"straight": straight}})
    data = merged(merged(data, devices("porch-light-box", heat={"circuit": "spare"})), ON_LIGHTS)
    assert offered(data, VOLTAGE, LIGHTS) == [ALL, OWN]
    after = taken(data, VOLTAGE, LIGHTS, OWN)["boxes"]["porch-light-box"]["devices"]
    assert after["heat"]["circuit"] == "spare"


ON_LIGHTS = merged(OUTLET, devices("porch-light-box", more={"circuit": "lights"}))


def spare(voltage: str | None) -> dict[str, Any]:
    """One circuit more in the boxes of the lights."""
    circuit = {"kind": "branch circuit", "from": "workshop-panel", "voltage": voltage, "breaker": {"rating": "20 A"}}
    carried = {"carries": {"spare": {"cable": "NM-B 12/3"}}}
    return merged(
        {"circuits": {"spare": circuit}, "routes": {"lighting": carried, "porch-lighting": carried}},
        merged(
            devices("switch-box", light_switch={"circuit": "lights"}),
            devices("porch-light-box", porch_lamp={"circuit": "lights"}),
        ),
    )


def test_a_light_goes_to_a_circuit_of_120_volts_in_its_box() -> None:
    """Not to one of two voltages; and not without a light of another building that has the same switch."""
    data = joinery(COTTAGE, AT_240, spare("120 V"), ON_LIGHTS)
    assert offered(data, VOLTAGE, LIGHTS) == [ALL, "put porch-lamp on spare, with light-switch", OWN]
    for other in (spare("120/240 V"), spare(None), merged(spare("120 V"), {"circuits": {"spare": {"kind": "feeder"}}})):
        assert offered(joinery(COTTAGE, AT_240, other, ON_LIGHTS), VOLTAGE, LIGHTS) == [ALL, OWN]
    shed = {
        "structures": {"shed": {"use": "accessory"}},
        "boxes": {"shed-box": {"at": "shed", "devices": {"lamp": {"luminaire": "9 W"}}}},
        "routes": {
            "on": {
                "from": "porch-light-box",
                "to": "shed-box",
                "legs": [{"through": "wall"}],
                "carries": {"lights": {"cable": "NM-B 14/2"}},
            }
        },
    }
    data = joinery(COTTAGE, AT_240, spare("120 V"), shed)
    assert offered(data, VOLTAGE, LIGHTS) == ["put porch-lamp on spare, with light-switch"]
    same = devices("shed-box", lamp={"switched-by": "switch-box/light-switch"})
    assert offered(merged(data, same), VOLTAGE, LIGHTS) == []


def test_all_lights_of_a_switch_leave_together() -> None:
    """It goes once with them; a switch on another circuit stays."""
    lamp = {"luminaire": "20 W", "listed-for": "damp", "switched-by": "switch-box/light-switch"}
    data = joinery(
        COTTAGE, AT_240, devices("porch-light-box", second=lamp, heat={"heater": "500 W", "hardwired": True})
    )
    words = "give porch-lamp and second a 120 V circuit of their own, with light-switch"
    assert list(settled(data, VOLTAGE, LIGHTS)) == [words]
    (way,) = line_at(reviewed(data), VOLTAGE, LIGHTS).answer.proposals
    paths = [edit["path"] for edit in way.patch]
    assert len(paths) == len(set(paths))
    elsewhere = merged(data, devices("bench-box", it={"switch": "20 A", "role": "lighting"}))
    moved = merged(elsewhere, devices("porch-light-box", **{name: {"switched-by": "bench-box/it"} for name in ("porch_lamp", "second")}))  # fmt: skip
    after = taken(moved, VOLTAGE, LIGHTS, words.removesuffix(", with light-switch"))
    assert "circuit" not in after["boxes"]["bench-box"]["devices"]["it"]


# What goes along


def test_a_disconnect_goes_with_what_it_cuts_off() -> None:
    """It is beside it, and would leave it live otherwise."""
    data = joinery(devices("bench-box", warmer=WARMER, cut_off=CUT_OFF))
    words = "give warmer a circuit like bench-outlets of its own, with cut-off"
    assert offered(data, HALF, BENCH) == [words]
    after = taken(data, HALF, BENCH, words)["boxes"]["bench-box"]["devices"]
    assert {name: device["circuit"] for name, device in after.items()} == {
        "bench-outlet": "bench-outlets",
        "warmer": "bench-box-warmer",
        "cut-off": "bench-box-warmer",
    }


SWITCH: dict[str, Any] = {"switch": "20 A", "opens": "all hots"}
LAMP: dict[str, Any] = {"luminaire": "20 W", "listed-for": "dry", "switched-by": "bench-box/control"}


@pytest.mark.parametrize(
    ("more", "along"),
    [
        ({"control": SWITCH | {"role": "equipment"}}, ", with control"),
        ({"control": SWITCH | {"role": "disconnect"}}, ", with control"),
        ({"control": SWITCH}, ", with control"),
        ({"control": SWITCH | {"role": "lighting"}}, ""),
        ({"control": SWITCH | {"role": "lighting"}, "lamp": LAMP}, ""),
        ({"control": SWITCH, "lamp": LAMP}, ""),
        ({"control": SWITCH | {"role": "disconnect"}, "lamp": LAMP}, None),
        ({"control": SWITCH | {"role": "equipment"}, "lamp": LAMP}, None),
        ({"control": CUT_OFF, "other": {"heater": "10 W", "hardwired": True}}, None),
        ({"control": CUT_OFF, "other": {"equipment": "fan", "load": "10 W"}}, None),
        ({"control": CUT_OFF, "other": {"equipment": "fan", "load": "10 W", "hardwired": False}}, ", with control"),
        ({"control": CUT_OFF, "other": SAW | {"motor": "1/4 hp"}}, None),
    ],
)
def test_a_switch_goes_along_only_where_it_is_for_nothing_else(more: dict[str, Any], along: str | None) -> None:
    """Of lights, where it says so or they do; else of the equipment in its box."""
    hot = WARMER | {"heater": "3000 W"}
    words = f"give warmer a circuit like bench-outlets of its own{along}"
    assert offered(joinery(devices("bench-box", warmer=hot, **more)), HALF, BENCH) == ([] if along is None else [words])


def test_a_disconnect_in_another_box_may_be_for_all_on_the_circuit() -> None:
    """Where nothing is beside it that it could cut off: the receptacles are on it as well."""
    data = joinery(devices("yard-box", warmer=WARMER), devices("bench-box", cut_off=CUT_OFF))
    assert line_at(reviewed(data), HALF, BENCH).answer.outcome.value == "not met"
    assert offered(data, HALF, BENCH) == []
    elsewhere = merged(data, devices("bench-box", other={"heater": "10 W", "hardwired": True}))
    assert offered(elsewhere, HALF, BENCH) == ["give warmer a circuit like bench-outlets of its own"]


def test_a_light_that_names_no_switch_may_have_any_that_none_names() -> None:
    """It goes with it only if it is the one."""
    unnamed = devices("porch-light-box", porch_lamp={"switched-by": None}, heat={"heater": "500 W", "hardwired": True})
    data = joinery(COTTAGE, AT_240, unnamed)
    assert offered(data, VOLTAGE, LIGHTS) == [OWN]
    data["boxes"]["switch-box"]["devices"]["light-switch"]["role"] = "lighting"
    assert offered(data, VOLTAGE, LIGHTS) == [OWN]


def test_all_that_serves_a_device_goes_along() -> None:
    """And is named."""
    data = joinery(devices("bench-box", warmer=WARMER, cut_off=CUT_OFF, control=SWITCH | {"role": "equipment"}))
    assert offered(data, HALF, BENCH) == [
        "give warmer a circuit like bench-outlets of its own, with cut-off and control"
    ]


@pytest.mark.parametrize(
    ("more", "goes"), [({}, True), ({"cut_off": CUT_OFF}, False), ({"cut_off": SWITCH | {"role": "disconnect"}}, False)]
)
def test_the_disconnect_of_a_building_stays(more: dict[str, Any], goes: bool) -> None:
    """What cuts a heater off in a studio that its circuit supplies may be that."""
    here = {"circuit": "studio"}
    data = merged(
        example(
            "pottery-studio",
            {"boxes": {"ceiling-box": {"devices": None}, "entry-box": {"devices": {"main-switch": None}}}},
        ),
        devices("entry-box", warmer=WARMER | here, **{name: device | here for name, device in more.items()}),
    )
    for box in data["boxes"].values():
        for device in box.get("devices", {}).values():
            device["circuit"] = "studio"
    data["circuits"]["other"] = {key: fact for key, fact in data["circuits"]["studio"].items() if key != "load"}
    for route in data["routes"].values():
        if "studio" in route["carries"]:
            route["carries"]["other"] = route["carries"]["studio"]
    assert offered(data, HALF, "/circuits/studio") == (["put warmer on other"] if goes else [])


def test_a_motor_does_not_leave_the_disconnect_in_its_sight() -> None:
    """One in its box goes along; of another it is not known which it is, nor whose."""
    data = joinery(devices("bench-box", bench_outlet=None, fan=SAW | {"motor": "1/2 hp"}), devices("yard-box", saw=SAW))
    words = "give saw a circuit like bench-outlets of its own"
    assert offered(data, CARRIES, BENCH) == [words]
    claims = merged(data, devices("yard-box", saw=IN_SIGHT))
    assert offered(claims, CARRIES, BENCH) == []
    beside = merged(claims, devices("yard-box", cut_off=CUT_OFF))
    assert settled(beside, CARRIES, BENCH) == {f"{words}, with cut-off": []}
    after = taken(beside, CARRIES, BENCH, f"{words}, with cut-off")["boxes"]["yard-box"]["devices"]
    assert after["cut-off"]["circuit"] == after["saw"]["circuit"] == "yard-box-saw"
    by_plug = merged(claims, devices("yard-box", saw={"hardwired": False}))
    assert offered(by_plug, CARRIES, BENCH) == [words]


# What both circuits are planned for

WIRES = {"wires": {"hot": "12 AWG Cu THHN", "neutral": "12 AWG Cu THHN", "ground": "12 AWG Cu THHN"}}


def beside(load: str | None, *patches: dict[str, Any], **more: Any) -> dict[str, Any]:
    """The workshop with a heater of 10.84 A on the receptacle circuit, and another circuit in its box, planned for a load."""
    breaker = {"rating": "20 A", "poles": 1, "ground-fault": "class A", "readily-accessible": True}
    other = {"kind": "branch circuit", "from": "workshop-panel", "voltage": "120 V", "multiwire": False, "load": load}
    here = {"circuit": "bench-outlets"}
    heater = WARMER | here | {"heater": "1300 W"}
    return joinery(
        {"circuits": {"other": other | {"breaker": breaker}}, "routes": {"bench": {"carries": {"other": WIRES}}}},
        devices("bench-box", bench_outlet=here, warmer=heater | more),
        *patches,
    )


@pytest.mark.parametrize(
    ("load", "words"),
    [
        (None, "put warmer on other"),
        ("5 A", "put warmer on other, planned for 15.9 A then"),
        ("9 A", "put warmer on other, planned for 19.9 A then"),
        ("9.1 A", "put warmer on other, planned for 20 A then"),
        ("9.2 A", None),
        ("25 A", None),
    ],
)
def test_a_circuit_is_planned_for_what_is_put_on_it(load: str | None, words: str | None) -> None:
    """In the same edit, up to what its breaker carries."""
    data = beside(load)
    own = "give warmer a circuit like bench-outlets of its own"
    assert offered(data, HALF, BENCH) == [*([words] if words else []), own]
    if words and load:
        after = taken(data, HALF, BENCH, words)["circuits"]["other"]
        assert words == f"put warmer on other, planned for {after['load']} then"


def test_a_breaker_of_unknown_rating_holds_nothing_up() -> None:
    """It is asked for anyway."""
    data = merged(beside("15 A"), {"circuits": {"other": {"breaker": {"rating": None}}}})
    assert "put warmer on other, planned for 25.9 A then" in offered(data, HALF, BENCH)


def test_nothing_is_put_on_a_planned_circuit_that_draws_nobody_knows_what() -> None:
    """A receptacle, for one."""
    data = joinery(devices("bench-box", dryer=DRYER | {"circuit": "bench-outlets"}))
    data["circuits"]["spare"] = data["circuits"]["bench-outlets"] | {"load": "1 A"}
    data["routes"]["bench"]["carries"]["spare"] = WIRES
    data = merged(data, devices("bench-box", bench_outlet={"circuit": "bench-outlets"}))
    own = "give dryer and bench-outlet a circuit like bench-outlets of their own"
    assert offered(data, PLUGGED, "/boxes/bench-box/devices/dryer") == [own]


@pytest.mark.parametrize(
    ("load", "then"),
    [
        (None, None),
        ("18 A", "7.2 A"),  # 10.84 A less
        ("11 A", "0.2 A"),
        ("10.8 A", None),  # less than what leaves draws
        ("3 A", None),
    ],
)
def test_a_circuit_is_planned_for_less_when_devices_have_left_it(load: str | None, then: str | None) -> None:
    """Or it no longer says, where that cannot be so."""
    data = joinery(
        devices("bench-box", warmer=WARMER | {"heater": "1300 W"}), {"circuits": {"bench-outlets": {"load": load}}}
    )
    words = "give warmer a circuit like bench-outlets of its own"
    after = taken(data, HALF, BENCH, words)["circuits"]
    assert after["bench-outlets"].get("load") == then
    assert "load" not in after["bench-box-warmer"]
    assert words in settled(data, HALF, BENCH)


def test_a_circuit_no_longer_says_what_it_is_planned_for_where_that_is_not_known() -> None:
    """A receptacle has left it; or what is left draws more than would be planned."""
    data = joinery(devices("bench-box", dryer=DRYER), {"circuits": {"bench-outlets": {"load": "19 A"}}})
    words = "give dryer and bench-outlet a circuit like bench-outlets of their own"
    after = taken(data, PLUGGED, "/boxes/bench-box/devices/dryer", words)["circuits"]
    assert "load" not in after["bench-outlets"]
    fan = {"heater": "480 W", "hardwired": True}  # 4 A
    for load, more, then in (("14.9 A", {"fan": fan}, None), ("15 A", {"fan": fan}, "4 A"), ("11 A", {}, None)):
        facts = {"circuits": {"bench-outlets": {"load": load}}}
        data = joinery(devices("bench-box", warmer=WARMER | {"heater": "1320 W"}, **more), facts)
        after = taken(data, HALF, BENCH, "give warmer a circuit like bench-outlets of its own")["circuits"]
        assert after["bench-outlets"].get("load") == then


@pytest.mark.parametrize(
    "two", [{"voltage": "120/240 V"}, {"multiwire": True}, {"voltage": "120/240 V", "multiwire": True}]
)
def test_what_is_between_which_conductors_of_two_voltages_is_not_known(two: dict[str, Any]) -> None:
    """So neither is what is left of a planned load."""
    facts = {"circuits": {"bench-outlets": two | {"load": "19 A"}}}
    data = joinery(devices("bench-box", warmer=WARMER | {"heater": "3000 W"}), facts)
    after = taken(data, HALF, BENCH, "give warmer a circuit like bench-outlets of its own")["circuits"]
    assert "load" not in after["bench-outlets"]


@pytest.mark.parametrize(("voltage", "load", "then"), [("240 V", "5 A", "10 A"), ("208 V", "6 A", "10.4 A")])
def test_at_120_volts_the_same_load_draws_more(voltage: str, load: str, then: str) -> None:
    """Twice as much as at 240 V."""
    data = joinery(COTTAGE, AT_240, {"circuits": {"lights": {"voltage": voltage, "load": load}}})
    assert taken(data, VOLTAGE, LIGHTS, ALL)["circuits"]["lights"]["load"] == then
    assert "load" not in taken(joinery(COTTAGE, AT_240), VOLTAGE, LIGHTS, ALL)["circuits"]["lights"]


def test_a_planned_load_that_would_be_too_much_at_120_volts_is_found() -> None:
    """The breaker does not carry twice as much: the way out brings that."""
    data = joinery(COTTAGE, AT_240, {"circuits": {"lights": {"load": "8 A"}}})
    assert "sizing/load/breaker-for-the-load at /circuits/lights" in settled(data, VOLTAGE, LIGHTS)[ALL]


# Where nothing of the old circuit is left


def test_a_circuit_does_not_stay_live_where_nothing_is_left_on_it() -> None:
    """Beyond the last of its own boxes, and not on what else hangs there."""
    farther = {
        "from": "yard-box",
        "to": "end-box",
        "legs": [{"on": "inside wall"}],
        "carries": {"bench-outlets": {"cable": "UF-B 12/2"}},
    }
    end = {"boxes": {"end-box": {"at": "workshop"}}, "routes": {"farther": farther}}
    data = joinery(devices("yard-box", porch_outlet=None, planer=WARMER), end)
    words = "give planer a circuit like bench-outlets of its own, and take bench-outlets off porch and farther"
    assert offered(data, HALF, BENCH) == [words]
    after = taken(data, HALF, BENCH, words)["routes"]
    assert list(after["farther"]["carries"]) == []
    assert list(after["porch"]["carries"]) == ["yard-box-planer"]
    assert set(after["bench"]["carries"]) >= {"bench-outlets", "yard-box-planer"}
    more = merged(data, devices("end-box", last={"receptacle": "20 A", "voltage": "125 V"}))
    assert offered(more, HALF, BENCH) == ["give planer a circuit like bench-outlets of its own"]


@pytest.mark.parametrize("more", [SWITCH | {"role": "lighting"}, {"ground-fault-device": "20 A", "trip": "class A"}])
def test_a_circuit_is_not_left_with_nothing_on_it(more: dict[str, Any]) -> None:
    """What only passes current on is nothing."""
    data = joinery(COTTAGE, AT_240, devices("porch-light-box", more=more))
    assert offered(data, VOLTAGE, LIGHTS) == [ALL]
