"""Which receptacles and lights count, why they are not asked for, what is offered, and what the inspection list says."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import open_plan
from precover.reviewing.again import review_since
from support.offered import settled, taken
from support.reviews import asked, example, library, merged, reviewed, written
from support.trenches import after_each_proposal, line_at

STUDIO, ENTRY, LAMP_BOX = "/structures/studio", "/boxes/entry-box", "/boxes/ceiling-box"
BENCH = f"{ENTRY}/devices/bench-outlet"
BAYS, ACCESSORY = "/receptacle-in-every-bay", "/receptacle-in-an-accessory-building"
SERVICE, SHUTTERS = "/receptacle-beside-equipment-to-be-serviced", "/shutters-at-a-dwelling"
INSIDE, OUTSIDE, HOT = "/light-inside-a-garage", "/light-outside-a-garage-entrance", "/switch-opens-the-hot"
OUTLET: dict[str, Any] = {"receptacle": "20 A", "voltage": "125 V"}
GARAGE = {"use": "garage", "vehicle-bays": 1, "entrance": True}


def studio(structure: dict[str, Any], *patches: dict[str, Any]) -> dict[str, Any]:
    """The pottery studio with other facts of the building, and patches."""
    data = example("pottery-studio", {"structures": {"studio": structure}})
    for patch in patches:
        data = merged(data, patch)
    return data


def devices(box: str, **more: Any) -> dict[str, Any]:
    """A patch of what is in a box."""
    return {"boxes": {box: {"devices": {name.replace("_", "-"): value for name, value in more.items()}}}}


def told(data: dict[str, Any], rule: str, place: str = STUDIO) -> tuple[str, str]:
    """The answer of a rule, and what there is; the reason where it does not apply."""
    answer = line_at(reviewed(data), rule, place).answer
    outcome = answer.outcome.value
    return outcome, answer.why if outcome == "does not apply" else str(answer.has)


def says(data: dict[str, Any], item: str, subject: str = "") -> str:
    """What the inspection list says under an item; empty where it does not come up."""
    of = reviewed(data)
    found = [one.says for one in of.inspect if one.item.id.endswith(f"/{item}") and one.subject == subject]
    assert len(found) < 2
    assert of.failures == ()
    return "".join(found)


AGRICULTURAL: dict[str, Any] = {"site": {"premises": "agricultural"}}
MULTIFAMILY: dict[str, Any] = {"site": {"premises": "multifamily dwelling"}}
ATTACHED = {"detached": False}
NO_POWER = "no branch circuit or feeder comes here from another structure"
NOT_A_HOME = "not of a one- or two-family dwelling"


@pytest.mark.parametrize(
    ("rule", "structure", "patch", "why"),
    [
        (BAYS, {}, {}, "no garage"),
        (BAYS, GARAGE | ATTACHED, {}, NO_POWER),
        (BAYS, GARAGE, AGRICULTURAL, NOT_A_HOME),
        (BAYS, GARAGE, MULTIFAMILY, NOT_A_HOME),
        (BAYS, GARAGE | {"vehicle-bays": 0}, {}, "no vehicle bay"),
        (ACCESSORY, GARAGE, {}, "no accessory building"),
        (ACCESSORY, ATTACHED, {}, NO_POWER),
        (ACCESSORY, {}, MULTIFAMILY, NOT_A_HOME),
        (INSIDE, {}, {}, "no garage"),
        (INSIDE, GARAGE | ATTACHED, {}, NO_POWER),
        (INSIDE, GARAGE, AGRICULTURAL, "not of a dwelling"),
        (OUTSIDE, {}, {}, "no garage"),
        (OUTSIDE, GARAGE | {"entrance": False}, {}, "no entrance for people, reached from grade"),
    ],
)
def test_where_nothing_is_required(rule: str, structure: dict[str, Any], patch: dict[str, Any], why: str) -> None:
    """Each with its reason."""
    assert told(studio(structure, patch), rule) == ("does not apply", why)


def test_a_multifamily_garage_has_its_lights() -> None:
    """Though no receptacle in each bay."""
    assert told(studio(GARAGE, MULTIFAMILY), INSIDE)[0] == "met"


@pytest.mark.parametrize(
    ("bays", "more", "expected"),
    [
        (1, {}, ("met", "1")),
        (2, {}, ("not met", "1")),
        (2, {"second": OUTLET}, ("met", "2")),
        (2, {"second": OUTLET | {"receptacle": "15 A"}}, ("met", "2")),
        (2, {"second": OUTLET | {"height": "1.7 m"}}, ("met", "2")),
        (2, {"second": OUTLET | {"height": "1.71 m"}}, ("not met", "1")),
        (2, {"second": OUTLET | {"serves": "Security camera"}}, ("not met", "1")),
        (2, {"second": OUTLET | {"serves": "alarm"}}, ("not met", "1")),
        (2, {"second": OUTLET | {"serves": "general use"}}, ("met", "2")),
        (2, {"second": {"switch": "20 A"}}, ("not met", "1")),
    ],
)
def test_receptacles_that_count_for_a_bay(bays: int, more: dict[str, Any], expected: tuple[str, str]) -> None:
    """Of a common rating, within reach, for anything."""
    data = studio(GARAGE | {"vehicle-bays": bays}, devices("entry-box", **more))
    assert told(data, BAYS) == expected
    assert line_at(reviewed(data), BAYS, STUDIO).answer.needs == f"at least {bays}, one in each bay"


@pytest.mark.parametrize(
    ("bays", "area", "expected"),
    [(1, None, "met"), (2, None, "cannot tell"), (2, "garage", "met"), (2, "outdoors", "not met")],
)
def test_where_a_box_is_is_asked_only_where_it_decides(bays: int, area: str | None, expected: str) -> None:
    """One of them is inside for sure; a receptacle of the house does not count."""
    data = studio(
        GARAGE | {"vehicle-bays": bays}, {"boxes": {"ceiling-box": {"area": area}}}, devices("ceiling-box", it=OUTLET)
    )
    assert told(data, BAYS)[0] == expected
    assert (f"{LAMP_BOX}/area" in asked(reviewed(data))) >= (expected == "cannot tell")


# The receptacle that is offered


def offered(data: dict[str, Any], rule: str = ACCESSORY, place: str = STUDIO) -> list[tuple[str, str]]:
    """Words and place of what is offered."""
    answer = line_at(reviewed(data), rule, place).answer
    assert answer.outcome.value == "not met"
    return [(way.words, edit["path"]) for way in answer.proposals for edit in way.patch]


IN_ENTRY = [("put a receptacle into entry-box", f"{ENTRY}/devices/outlet")]
IN_CEILING = [("put a receptacle into ceiling-box", f"{LAMP_BOX}/devices/outlet")]
THIRTY = {"receptacle": "30 A", "voltage": "125 V"}


@pytest.mark.parametrize(
    ("patch", "expected"),
    [
        ({}, IN_ENTRY),
        ({"boxes": {"terrace-box": {"location": "dry", "area": "garage"}}}, IN_ENTRY),  # it is at the house
        ({"boxes": {"entry-box": {"location": "damp"}}}, IN_CEILING),
        ({"boxes": {"entry-box": {"location": None}}}, IN_CEILING),
        ({"boxes": {"entry-box": {"area": "outdoors"}}}, IN_CEILING),
        ({"boxes": {"entry-box": {"box": {"kind": "conduit body"}}}}, IN_CEILING),
        ({"boxes": {"entry-box": {"box": {"kind": "handhole"}}}}, IN_CEILING),
        ({"boxes": {"entry-box": {"box": {"kind": None}}}}, IN_CEILING),
        (devices("entry-box", outlet=THIRTY | {"height": "67 in"}), IN_CEILING),
        (devices("entry-box", outlet=THIRTY | {"height": "66 in"}), [(IN_ENTRY[0][0], f"{ENTRY}/devices/outlet-2")]),
        ({"boxes": {"entry-box": {"location": "damp"}, "ceiling-box": {"location": "damp"}}}, []),
        ({"circuits": {"studio": {"voltage": "240 V"}}}, []),
        ({"circuits": {"studio": {"voltage": "120/240 V"}}}, []),
        ({"circuits": {"studio": {"voltage": None}}}, []),
        (devices("entry-box", outlet=THIRTY), [(IN_ENTRY[0][0], f"{ENTRY}/devices/outlet-2")]),
        (devices("entry-box", outlet=THIRTY, outlet_2=THIRTY, outlet_3=THIRTY), [(IN_ENTRY[0][0], f"{ENTRY}/devices/outlet-4")]),
    ],
)  # fmt: skip
def test_where_a_receptacle_is_offered(patch: dict[str, Any], expected: list[tuple[str, str]]) -> None:
    """In the first dry box inside that one branch circuit of 120 V reaches, under a name that is free."""
    assert offered(studio({}, devices("entry-box", bench_outlet=None), patch)) == expected


def test_none_is_offered_where_two_circuits_come_in_or_a_feeder() -> None:
    """It could not be told which it is on."""
    more = {
        "circuits": {"more": {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}},
        "boxes": {"entry-box": {"devices": {"bench-outlet": None, "main-switch": {"circuit": "studio"}}},
                  "terrace-box": {"devices": {"terrace-outlet": {"circuit": "studio"}}}},
        "routes": {name: {"carries": {"more": {"cable": "UF-B 12/2"}}} for name in ("garage-wall", "yard")},
    }  # fmt: skip
    assert offered(studio({}, more)) == IN_CEILING
    gone = {name: {"devices": {}} for name in ("bench-box", "switch-box", "planer-box", "yard-box", "porch-light-box")}
    data = example("joinery-workshop", {"boxes": gone})
    data["boxes"] = {"pull-box": data["boxes"]["pull-box"] | {"at": "workshop", "area": "indoors", "location": "dry"}}
    data["routes"] = {name: data["routes"][name] for name in ("garage-run", "yard")}
    data["circuits"] = {"workshop-feeder": data["circuits"]["workshop-feeder"]}
    for voltage in ("120/240 V", "120 V"):
        data["circuits"]["workshop-feeder"]["voltage"] = voltage
        assert offered(data, ACCESSORY, "/structures/workshop") == []


def test_only_the_last_one_that_is_missing_is_offered() -> None:
    """With two missing, one more settles nothing."""
    assert offered(studio(GARAGE | {"vehicle-bays": 2}), BAYS) == IN_ENTRY
    assert offered(studio(GARAGE | {"vehicle-bays": 3}), BAYS) == []


def test_the_receptacle_that_is_offered_has_nothing_against_it() -> None:
    """It is protected, tamper-resistant and within reach."""
    data = studio({}, devices("entry-box", bench_outlet=None))
    (way,) = line_at(reviewed(data), ACCESSORY, STUDIO).answer.proposals
    assert way.patch[0]["value"] == {
        "receptacle": "15 A",
        "voltage": "125 V",
        "ground-fault": True,
        "tamper-resistant": True,
        "readily-accessible": True,
    }
    assert after_each_proposal(data, ACCESSORY, STUDIO) == {"put a receptacle into entry-box": "met"}


# Equipment that is serviced

HEAT_PUMP = devices("ceiling-box", it={"equipment": "heat pump", "hvac": True})
IT = f"{LAMP_BOX}/devices/it"


@pytest.mark.parametrize(
    ("patch", "expected"),
    [
        ({}, ("met", "bench-outlet, its distance is for the inspector")),
        (devices("entry-box", bench_outlet={"receptacle": "15 A"}), ("met", "bench-outlet, its distance is for the inspector")),
        (devices("entry-box", bench_outlet={"receptacle": "30 A"}), ("not met", "none at studio")),
        (devices("entry-box", bench_outlet={"voltage": "250 V"}), ("not met", "none at studio")),
        (devices("ceiling-box", it={"hvac": False}), ("does not apply", "no heating, cooling or refrigeration equipment")),
    ],
)  # fmt: skip
def test_a_receptacle_for_service(patch: dict[str, Any], expected: tuple[str, str]) -> None:
    """Of 125 V, 15 or 20 A; that of the house is at another structure."""
    data = studio({}, HEAT_PUMP, patch)
    assert told(data, SERVICE) == expected
    line = line_at(reviewed(data), SERVICE, STUDIO)
    assert line.answer.needs in ("", "a 125 V receptacle within 25 ft")
    assert line.place == (STUDIO if expected[0] == "does not apply" else IT)
    said = says(data, "distance-to-the-receptacle", IT)
    assert said.startswith("A receptacle within 25 ft of it, on the same level") is (expected[0] != "does not apply")
    assert bool(said) is (expected[0] != "does not apply")


def test_a_receptacle_for_service_may_be_outdoors() -> None:
    """For wet places then; inside or out, each is a way out."""
    unit = {"equipment": "heat pump", "hvac": True, "load": "1 kW", "hardwired": True, "listed-for": "wet",
            "continuous": False, "disconnect-in-sight": True}  # fmt: skip
    workshop = "/structures/workshop"
    gone = {"routes": {"bench": None, "porch": None}, "circuits": {"bench-outlets": None},
            "boxes": {"bench-box": None, "yard-box": None}}  # fmt: skip
    data = merged(example("joinery-workshop", gone), devices("planer-box", planer_outlet=None, unit=unit))
    inside, outdoors = "put a receptacle into switch-box", "put a receptacle into porch-light-box"
    assert settled(data, SERVICE, workshop) == {inside: [], outdoors: []}
    outlet = taken(data, SERVICE, workshop, outdoors)["boxes"]["porch-light-box"]["devices"]["outlet"]
    assert outlet == {
        "receptacle": "15 A", "voltage": "125 V", "ground-fault": True, "tamper-resistant": True,
        "readily-accessible": True, "weather-resistant": True, "cover": "in-use", "extra-duty": True,
    }  # fmt: skip
    fitting = merged(data, {"boxes": {"porch-light-box": {"box": {"kind": "conduit body"}}}})
    assert [way.words for way in line_at(reviewed(fitting), SERVICE, workshop).answer.proposals] == [inside]
    other = merged(data, {"circuits": {"lights": {"voltage": "240 V"}}})
    assert line_at(reviewed(other), SERVICE, workshop).answer.proposals == ()


def test_a_receptacle_gone_from_another_box_is_missed_by_the_equipment() -> None:
    """Also where a review is made from the one before, of what an edit touches."""
    pump = devices("planer-box", planer_outlet=None, pump={"equipment": "heat pump", "hvac": True})
    data = merged(example("joinery-workshop", devices("yard-box", porch_outlet=None)), pump)
    edited = merged(data, devices("bench-box", bench_outlet=None))
    before, plan = reviewed(data), open_plan("test.plan.yaml", written(edited))
    assert line_at(before, SERVICE, "/structures/workshop").answer.outcome.value == "met"
    after = review_since(before, plan, library())
    assert line_at(after, SERVICE, "/structures/workshop").answer.outcome.value == "not met"


# Tamper-resistant


@pytest.mark.parametrize(
    ("outlet", "why"),
    [
        ({"receptacle": "30 A"}, "of another rating"),
        ({"voltage": "277 V"}, "of another rating"),
        ({"locking": True}, "it takes a locking plug"),
        ({"height": "6 ft"}, "more than 5.5 ft above the floor"),
    ],
)
def test_receptacles_without_shutters(outlet: dict[str, Any], why: str) -> None:
    """Each with its reason."""
    data = studio({}, devices("entry-box", bench_outlet={"tamper-resistant": False, **outlet}))
    assert told(data, SHUTTERS, BENCH) == ("does not apply", why)


@pytest.mark.parametrize(
    ("use", "premises", "expected"),
    [
        ("commercial", "one-family dwelling", "does not apply"),
        ("agricultural", "one-family dwelling", "does not apply"),
        ("accessory", "commercial", "does not apply"),
        ("accessory", "two-family dwelling", "not met"),
    ],
)
def test_shutters_at_what_belongs_to_a_dwelling(use: str, premises: str, expected: str) -> None:
    """The mark is on the fact."""
    data = studio(
        {"use": use}, {"site": {"premises": premises}}, devices("entry-box", bench_outlet={"tamper-resistant": False})
    )
    line = line_at(reviewed(data), SHUTTERS, BENCH)
    assert line.answer.outcome.value == expected
    if expected == "not met":
        assert line.place == f"{BENCH}/tamper-resistant"
        assert after_each_proposal(data, SHUTTERS, BENCH) == {"use a tamper-resistant receptacle": "met"}
        of_250_volts = merged(data, devices("entry-box", bench_outlet={"voltage": "250 V"}))
        assert told(of_250_volts, SHUTTERS, BENCH)[0] == "not met"
    else:
        assert line.answer.why == "not at a dwelling or what belongs to it"


# Lights

LAMP = {"luminaire": "9 W"}
SWITCHED = LAMP | {"switched-by": "entry-box/main-switch"}


@pytest.mark.parametrize(
    ("rule", "area", "lamps", "expected"),
    [
        (INSIDE, "indoors", {"lamp": LAMP, "second": SWITCHED}, ("met", "second, switched by entry-box/main-switch")),
        (INSIDE, "indoors", {"lamp": None}, ("not met", "none inside")),
        (INSIDE, "outdoors", {}, ("not met", "none inside")),
        (OUTSIDE, "outdoors", {}, ("met", "lamp, switched by entry-box/main-switch")),
        (OUTSIDE, "indoors", {}, ("not met", "none outdoors")),
    ],
)
def test_lights_of_a_garage(rule: str, area: str, lamps: dict[str, Any], expected: tuple[str, str]) -> None:
    """One with a wall switch is enough, on its side of the door."""
    patch = {"boxes": {"ceiling-box": {"area": area, "location": "damp"}}}
    data = studio(GARAGE, patch, devices("ceiling-box", **lamps))
    if "second" in lamps:
        del data["boxes"]["ceiling-box"]["devices"]["lamp"]["switched-by"]
    assert told(data, rule) == expected
    where = "inside" if rule == INSIDE else "outside the entrance"
    assert line_at(reviewed(data), rule, STUDIO).answer.needs == f"a light {where}, switched at the wall"


def test_the_first_light_is_asked_about() -> None:
    """Where none names its switch."""
    data = studio(GARAGE, devices("ceiling-box", second=LAMP))
    del data["boxes"]["ceiling-box"]["devices"]["lamp"]["switched-by"]
    answer = line_at(reviewed(data), INSIDE, STUDIO).answer
    assert answer.asks is not None
    assert answer.asks.place == f"{LAMP_BOX}/devices/lamp/switched-by"


@pytest.mark.parametrize(
    ("structure", "patch", "says_"),
    [
        (GARAGE, {}, "Switch the lights of studio at its usual entrance"),
        ({}, {}, "Ask the office whether studio needs a switched light"),
        ({"use": "agricultural"}, {}, ""),
        (GARAGE | ATTACHED, {}, ""),
        (GARAGE, AGRICULTURAL, ""),
    ],
)
def test_lights_of_an_outbuilding_on_the_inspection_list(
    structure: dict[str, Any], patch: dict[str, Any], says_: str
) -> None:
    """Of a garage or another building of a dwelling, with power of its own."""
    said = says(studio(structure, patch), "lights-of-an-outbuilding", STUDIO)
    assert said.startswith(says_)
    assert bool(said) is bool(says_)


@pytest.mark.parametrize(
    ("area", "device", "comes_up"),
    [
        ("attic", {"motor": "1/2 hp"}, True),
        ("crawl space", {"equipment": "furnace"}, True),
        ("basement", {"heater": "1 kW"}, True),
        ("basement", LAMP, False),
        ("garage", {"motor": "1/2 hp"}, False),
    ],
)
def test_a_light_where_equipment_is_serviced(area: str, device: dict[str, Any], comes_up: bool) -> None:
    """Out of the way."""
    data = studio({}, {"boxes": {"ceiling-box": {"area": area}}}, devices("ceiling-box", it=device))
    said = says(data, "light-where-equipment-is-serviced")
    assert ("A light near the equipment at ceiling-box, with" in said) is comes_up


def test_luminaires_in_a_closet() -> None:
    """The distances where there is one in it; a receptacle there is no luminaire."""
    item, closet = "luminaires-held-and-clear", {"boxes": {"ceiling-box": {"area": "closet"}}}
    assert says(studio({}), item) == "No luminaire over 6 lb or 16 in hangs from a lampholder's screw shell."
    words = "in a clothes closet 12 in from the storage space (6 in if fluorescent or recessed)"
    assert words in says(studio({}, closet, devices("ceiling-box", it=OUTLET)), item)
    assert words in says(studio({}, closet, devices("entry-box", it=LAMP)), item)
    assert words not in says(studio({}, {"boxes": {"entry-box": {"area": "closet"}}}), item)
    assert says(studio({}, devices("ceiling-box", lamp=None)), item) == ""


@pytest.mark.parametrize(("structure", "comes_up"), [(GARAGE, True), ({}, False), (GARAGE | ATTACHED, False)])
def test_receptacles_in_the_bays_on_the_inspection_list(structure: dict[str, Any], comes_up: bool) -> None:
    """Of a garage with power."""
    said = says(studio(structure), "receptacle-in-each-bay", STUDIO)
    assert said == (
        "A receptacle in each vehicle bay, not above 5.5 ft; that of a door opener does not count." if comes_up else ""
    )


@pytest.mark.parametrize(
    ("area", "more", "comes_up"),
    [("bathroom", {}, True), ("bathroom", {"bench_outlet": None}, False), ("kitchen", {}, False)],
)
def test_a_receptacle_in_a_bathroom(area: str, more: dict[str, Any], comes_up: bool) -> None:
    """Beside what else is in the box."""
    data = studio({}, {"boxes": {"entry-box": {"area": area}}}, devices("entry-box", **more))
    assert bool(says(data, "away-from-tub-and-shower")) is comes_up


# Switches


@pytest.mark.parametrize(
    ("facts", "expected", "told_"),
    [
        ({"role": "disconnect", "opens": "neutral"}, "does not apply", "looked at as a disconnect"),
        ({"role": "lighting", "opens": None}, "does not apply", "not stated: it is on the inspection list"),
        ({"role": "lighting", "opens": "all hots"}, "met", "all hots"),
        ({"role": "lighting", "opens": "neutral"}, "not met", "the neutral"),
    ],
)
def test_what_a_switch_opens(facts: dict[str, Any], expected: str, told_: str) -> None:
    """The mark is on what it opens."""
    data = studio({}, devices("entry-box", main_switch=facts))
    place = f"{ENTRY}/devices/main-switch"
    assert told(data, HOT, place) == (expected, told_)
    if expected != "does not apply":
        assert line_at(reviewed(data), HOT, place).place == f"{place}/opens"
    if expected == "not met":
        assert after_each_proposal(data, HOT, place) == {"switch the hot": "met"}


@pytest.mark.parametrize(
    ("structure", "lamp", "said"),
    [
        ({}, {}, "Switches open the hot, not the neutral."),
        ({"habitable": True}, {}, "rooms to live in (entry-box), or a raceway"),
        ({"habitable": None}, {}, "Switches open the hot, not the neutral."),
        ({"use": "dwelling"}, {}, "rooms to live in (entry-box), or a raceway"),
        ({}, {"switched-by": None}, ""),
    ],
)
def test_the_neutral_at_a_light_switch(structure: dict[str, Any], lamp: dict[str, Any], said: str) -> None:
    """Where people live; a switch of no light is none."""
    text = says(studio(structure, devices("ceiling-box", lamp=lamp)), "hot-and-neutral-at-a-switch")
    assert said in text
    assert bool(text) is bool(said)
    assert ("a neutral at" in text) is ("live" in said)
