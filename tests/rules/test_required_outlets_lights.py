"""Which lights are offered to a garage that has none, and that nothing else comes of them."""

from __future__ import annotations

from typing import Any

import pytest

from support.offered import offered, settled, taken
from support.reviews import example, merged

INSIDE, OUTSIDE = "/light-inside-a-garage", "/light-outside-a-garage-entrance"
WORKSHOP, STUDIO = "/structures/workshop", "/structures/studio"
CEILING = "put a light onto the ceiling, by 12 ft of cable in the framing from"
BY_SWITCH = f"{CEILING} switch-box, switched by switch-box/light-switch"
BY_BENCH = f"{CEILING} bench-box, with a switch in bench-box"
AT_PORCH = "put a light at porch-light-box, switched by switch-box/light-switch"
BENCH_WALL = "put a light onto the outside wall, by a cable from bench-box, with a switch in bench-box"
WALL = "put a light onto the outside wall, by a cable from switch-box, switched by switch-box/light-switch"
STUDIO_WALL = "put a light onto the outside wall, by a cable from entry-box, with a switch in entry-box"


def garage(name: str, structure: str, *patches: dict[str, Any], bays: int = 1) -> dict[str, Any]:
    """An example whose outbuilding is a garage with an entrance."""
    use = {"use": "garage", "vehicle-bays": bays, "entrance": True}
    data = example(name, {"structures": {structure: use}})
    for patch in patches:
        data = merged(data, patch)
    return data


def workshop(*patches: dict[str, Any], bays: int = 1) -> dict[str, Any]:
    """The joinery workshop as a garage, without its light."""
    unlit = {"boxes": {"porch-light-box": {"devices": {"porch-lamp": None}}}}
    return garage("joinery-workshop", "workshop", unlit, *patches, bays=bays)


def studio(*patches: dict[str, Any]) -> dict[str, Any]:
    """The pottery studio as a garage."""
    return garage("pottery-studio", "studio", *patches)


NO_PORCH = {"boxes": {"porch-light-box": None}, "routes": {"porch-lighting": None}}
"""No box outdoors on the circuit of the lights."""


def test_a_light_inside_has_the_switch_that_is_there() -> None:
    """Or a new one, on a circuit that has none; in a larger garage not on that of its receptacles."""
    assert settled(workshop(), INSIDE, WORKSHOP) == {BY_SWITCH: [], BY_BENCH: []}
    found = settled(workshop(bays=2), INSIDE, WORKSHOP)
    assert found == {BY_SWITCH: [], BY_BENCH: [f"loads/garage-circuit/garage-has-its-receptacle-circuit at {WORKSHOP}"]}


def test_a_light_inside_is_in_a_box_of_its_own() -> None:
    """On the ceiling, by cable of the size that is there: no box of a switch or a receptacle has room for it."""
    after = taken(workshop(), INSIDE, WORKSHOP, BY_BENCH)
    assert after["boxes"]["bench-box"]["devices"]["light-switch"] == {
        "switch": "15 A", "role": "lighting", "opens": "all hots", "height": "48 in",
    }  # fmt: skip
    new, route = after["boxes"]["workshop-light"], after["routes"]["to-workshop-light"]
    assert (new["area"], new["location"], new["box"]["listed-for"]) == ("indoors", "dry", "dry")
    light = {"luminaire": "10 W", "listed-for": "dry", "switched-by": "bench-box/light-switch"}
    assert new["devices"] == {"light": light}
    assert (route["from"], route["to"]) == ("bench-box", "workshop-light")
    assert route["carries"] == {"bench-outlets": {"cable": "NM-B 12/2"}}
    assert route["legs"] == [
        {"in": "wall framing", "length": "12 ft", "location": "dry", "edge-distance": "1 1/2 in"},
    ]  # fmt: skip


def test_a_light_outdoors_is_at_a_box_that_is_there() -> None:
    """Without a device, or through the wall; listed for wet places, its switch is inside."""
    assert settled(workshop(), OUTSIDE, WORKSHOP) == {AT_PORCH: [], BENCH_WALL: []}
    after = taken(workshop(), OUTSIDE, WORKSHOP, AT_PORCH)["boxes"]
    assert after["porch-light-box"]["devices"]["light"]["listed-for"] == "wet"


@pytest.mark.parametrize("patch", [
    {"devices": {"bench-outlet": {"height": "8 ft"}}},
    {"devices": {"bench-outlet": {"height": "35 in"}}},
    {"box": {"kind": "conduit body"}},
    {"box": {"kind": "handhole"}},
    {"box": {"kind": None}},
])  # fmt: skip
def test_no_switch_is_put_where_none_can_be(patch: dict[str, Any]) -> None:
    """Beside a receptacle at the ceiling or near the floor, or into a fitting."""
    data = workshop({"boxes": {"bench-box": patch}})
    assert offered(data, INSIDE, WORKSHOP) == [BY_SWITCH]
    assert offered(data, OUTSIDE, WORKSHOP) == [AT_PORCH]


def test_without_a_box_outdoors_the_light_is_through_the_wall() -> None:
    """By cable for wet places of the size that is there."""
    data = workshop(NO_PORCH)
    assert settled(data, OUTSIDE, WORKSHOP) == {WALL: [], BENCH_WALL: []}
    after = taken(data, OUTSIDE, WORKSHOP, WALL)
    route = after["routes"]["to-workshop-entrance-light"]
    assert route["carries"] == {"lights": {"cable": "UF-B 14/2"}}
    assert route["legs"] == [{"through": "wall", "length": "8 in", "sealed": True}]
    assert after["boxes"]["workshop-entrance-light"]["area"] == "outdoors"
    assert settled(studio(), OUTSIDE, STUDIO) == {STUDIO_WALL: []}


def test_where_wires_come_in_the_cable_is_of_their_size() -> None:
    """12 AWG in the conduit to the bench."""
    data = workshop({"boxes": {"yard-box": None}, "routes": {"porch": None}})
    assert BENCH_WALL in offered(data, OUTSIDE, WORKSHOP)
    after = taken(data, OUTSIDE, WORKSHOP, BENCH_WALL)
    assert after["routes"]["to-workshop-entrance-light"]["carries"] == {"bench-outlets": {"cable": "UF-B 12/2"}}


@pytest.mark.parametrize("cable", ["UF-B 8/2", "SER 10-10-10-10 Al", None])
def test_no_cable_is_made_up(cable: str | None) -> None:
    """Of another metal, of a size that is not run to a light, or from one that is not named."""
    data = studio({"routes": {"yard": {"carries": {"studio": {"cable": cable}}}}})
    data["boxes"]["ceiling-box"]["location"] = "damp"
    assert offered(data, OUTSIDE, STUDIO) == []


def test_a_new_box_has_a_name_of_its_own() -> None:
    """Neither that of a box nor that of a panel."""
    data = workshop(NO_PORCH)
    data["boxes"]["workshop-entrance-light"] = data["boxes"].pop("yard-box")
    data["routes"]["porch"]["to"] = "workshop-entrance-light"
    data["routes"]["to-workshop-entrance-light-2"] = data["routes"].pop("porch")
    after = taken(data, OUTSIDE, WORKSHOP, WALL)
    assert after["routes"]["to-workshop-entrance-light-2-2"]["to"] == "workshop-entrance-light-2"


@pytest.mark.parametrize(
    ("patch", "rule"),
    [
        ({"circuits": {"studio": {"voltage": "240 V"}}}, OUTSIDE),
        ({"circuits": {"studio": {"voltage": None}}}, OUTSIDE),
        ({"boxes": {"entry-box": {"location": "damp"}, "ceiling-box": {"location": "damp"}}}, OUTSIDE),
        ({"boxes": {"entry-box": {"area": None}, "ceiling-box": {"location": "damp"}}}, OUTSIDE),
        ({"boxes": {"entry-box": {"area": "outdoors"}, "ceiling-box": {"location": "damp"}}}, OUTSIDE),
    ],
)
def test_where_no_light_is_offered(patch: dict[str, Any], rule: str) -> None:
    """On another voltage, and where no dry box inside is known to take a switch."""
    assert offered(studio(patch), rule, STUDIO) == []


def test_a_light_is_at_a_box_without_a_device() -> None:
    """And a switch for it in the first that is dry; a new box where that one is damp."""
    data = studio({"boxes": {"ceiling-box": {"devices": {"lamp": None}}}})
    assert offered(data, INSIDE, STUDIO) == ["put a light at ceiling-box, with a switch in entry-box"]
    damp = merged(data, {"boxes": {"ceiling-box": {"location": "damp"}}})
    assert offered(damp, INSIDE, STUDIO) == [f"{CEILING} entry-box, with a switch in entry-box"]


def test_no_switch_is_put_where_a_light_hangs() -> None:
    """That box is up at the ceiling, whatever the plan says of its height."""
    lamp = {"lamp": {"luminaire": "20 W", "listed-for": "dry"}}
    outdoors = {"boxes": {"porch-light-box": None, "bench-box": {"devices": {"bench-outlet": None, **lamp}}}}
    data = workshop(outdoors, {"routes": {"porch-lighting": None}})
    assert offered(data, OUTSIDE, WORKSHOP) == [WALL]
    beside = {"boxes": {"bench-box": {"devices": {"bench-outlet": {"receptacle": "20 A", "voltage": "125 V"}}}}}
    assert offered(merged(data, beside), OUTSIDE, WORKSHOP) == [WALL]


def test_the_switch_that_disconnects_a_building_is_not_taken_for_its_light() -> None:
    """A light that goes out only with everything else is none to find the way by."""
    after = taken(studio(), OUTSIDE, STUDIO, STUDIO_WALL)["boxes"]
    assert after["studio-entrance-light"]["devices"]["light"]["switched-by"] == "entry-box/light-switch"
