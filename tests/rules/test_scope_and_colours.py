"""What these rules do not reach, papers, and colours of conductors."""

from __future__ import annotations

from typing import Any

import pytest

from precover.rulebook import Severity
from support.reviews import example, lines, outcome, reviewed, reviewed_example
from support.trenches import answer_at

RULES = {
    "no-pool-or-hot-tub": ("hot tub", "Hot-tub", "pool house", "spa", "swimming pond"),
    "no-vehicle-charger": ("EV charger", "ev", "car charging", "electric vehicle", "wall-box charger"),
    "no-generator": ("generator inlet", "power_inlet", "transfer switch", "interlock kit"),
    "no-solar-power-or-battery": ("solar panels", "PV array", "home battery", "wind turbine"),
    "no-place-where-air-can-burn": ("paint booth", "fuel store", "grain dryer", "silo"),
    "no-temporary-power": ("temporary pole", "construction power"),
}
HARMLESS = ("pool table", "carpool shelter", "eve lights", "battery shelf", "spare outlet", "evening lamp", "painting")


def says(data: dict[str, Any], item: str) -> list[str]:
    """What an entry of the inspection list says."""
    return [found.says for found in reviewed(data).inspect if found.item.id.endswith(f"/{item}")]


@pytest.mark.parametrize(("rule", "words"), [(rule, word) for rule, words in RULES.items() for word in words])
def test_words_that_name_another_installation(rule: str, words: str) -> None:
    """In the title they are found, once, as a question."""
    of = reviewed_example("pottery-studio", {"title": f"Circuit for a {words}"})
    flagged = [finding for finding in of.findings if finding.line.rule.topic == "scope/other-installations"]
    assert [finding.line.rule.id.rpartition("/")[2] for finding in flagged] == [rule]
    assert flagged[0].severity is Severity.QUERY


@pytest.mark.parametrize("words", HARMLESS)
def test_words_that_only_look_alike(words: str) -> None:
    """Part of another word, or another thing."""
    of = reviewed_example("pottery-studio", {"title": f"Circuit for a {words}"})
    assert not [finding for finding in of.findings if finding.line.rule.topic == "scope/other-installations"]


@pytest.mark.parametrize(
    ("patch", "place"),
    [
        ({"circuits": {"studio": {"serves": "hot tub"}}}, "/circuits/studio"),
        ({"boxes": {"entry-box": {"devices": {"bench-outlet": {"serves": "hot tub"}}}}}, "bench-outlet"),
        ({"boxes": {"ceiling-box": {"devices": {"heat": {"equipment": "hot tub"}}}}}, "/devices/heat"),
        ({"boxes": {"ceiling-box": {"devices": {"hot-tub": {"equipment": "pump set"}}}}}, "/devices/hot-tub"),
        ({"structures": {"pool-house": {"use": "accessory"}}}, "/structures/pool-house"),
    ],
)
def test_where_a_word_is_found(patch: dict[str, Any], place: str) -> None:
    """The thing that is called so is marked."""
    (line,) = lines(reviewed_example("pottery-studio", patch), "/no-pool-or-hot-tub")
    assert line.answer.outcome.value == "not met"
    assert line.place.endswith(place)


@pytest.mark.parametrize(
    ("name", "use", "farm", "expected"),
    [
        ("shed", "accessory", True, "does not apply"),
        ("shed", "agricultural", True, "not met"),
        ("shed", "agricultural", False, "met"),
        ("shed", "agricultural", None, "cannot tell"),
        ("horse-stable", "accessory", None, "cannot tell"),
        ("horse-stable", "accessory", True, "not met"),
        ("shelter-for-horses", "accessory", True, "not met"),
        ("old-barn", "accessory", False, "met"),
        ("barnacle-hut", "accessory", None, "does not apply"),
    ],
)
def test_farm_buildings(name: str, use: str, farm: bool | None, expected: str) -> None:
    """By use, or by name; what is in it decides."""
    facts = {"use": use, "farm-conditions": farm} if farm is not None else {"use": use}
    data = example("pottery-studio", {"structures": {name: facts}})
    assert answer_at(data, "/no-farm-conditions", f"/structures/{name}") == expected


@pytest.mark.parametrize(
    ("name", "use", "premises", "expected"),
    [
        ("garage", "garage", "commercial", "not met"),
        ("garage", "garage", "one-family dwelling", "met"),
        ("garage", "garage", None, "cannot tell"),
        ("hall", "commercial", "commercial", "met"),
        ("repair-hall", "commercial", "commercial", "not met"),
        ("body-shop", "commercial", "commercial", "not met"),
        ("repair-hut", "accessory", "commercial", "does not apply"),
    ],
)
def test_repair_garages(name: str, use: str, premises: str | None, expected: str) -> None:
    """A garage of a business, or one that is called so."""
    data = example("pottery-studio", {"site": {"premises": premises}, "structures": {name: {"use": use}}})
    assert answer_at(data, "/no-repair-garage", f"/structures/{name}") == expected


@pytest.mark.parametrize(
    ("system", "expected"),
    [
        ("120/240 V", "met"),
        ("120/208 V", "not met"),
        ("277/480 V", "not met"),
        ("100/189 V", "not met"),
        ("100/190 V", "met"),
        ("240 V", "met"),
        ("120 V", "does not apply"),
        (None, "does not apply"),
    ],
)
def test_three_phase_systems(system: str | None, expected: str) -> None:
    """Known by the two voltages."""
    of = reviewed_example("pottery-studio", {"panels": {"house-panel": {"system": system}}})
    assert outcome(of, "/single-phase", "/panels/house-panel") == expected


def test_notes_on_the_inspection_list() -> None:
    """Pumps, woodworking, and rooms to sleep in, where they come up."""
    assert len(says(example("orchard-pump"), "pumps")) == 1
    assert says(example("pottery-studio"), "pumps") == []
    assert len(says(example("joinery-workshop"), "wood-dust")) == 1
    cabinets = {"title": "60 A feeder to a cabinet shop"}
    assert len(says(example("joinery-workshop", cabinets), "wood-dust")) == 1
    assert says(example("pottery-studio"), "wood-dust") == []
    assert says(example("pottery-studio"), "smoke-alarms") == []
    lived_in = example("pottery-studio", {"structures": {"studio": {"habitable": True}}})
    assert "studio" in says(lived_in, "smoke-alarms")[0]


def test_any_motor_may_drive_a_pump() -> None:
    """Whatever it is called, and whatever else is on the plan; what is called a pump need not be planned as a motor."""
    motor = {"boxes": {"planer-box": {"devices": {"set": {"motor": "1 hp"}}}}}
    assert len(says(example("joinery-workshop", motor), "pumps")) == 1
    assert says(example("joinery-workshop"), "pumps") == []
    assert len(says(example("joinery-workshop", {"title": "Feed of a sump pump"}), "pumps")) == 1


def test_papers_come_up_once() -> None:
    """For any plan."""
    for name in ("orchard-pump", "joinery-workshop"):
        assert len(says(example(name), "permit-and-drawing")) == len(says(example(name), "listed-and-neat")) == 1


def test_colours() -> None:
    """Large wires may be marked at their ends: the circuits that have some are named."""
    (small,) = says(example("joinery-workshop"), "colours-of-conductors")
    assert "4 AWG" not in small
    wires = {"hot": "2 × 4 AWG Cu THWN-2", "neutral": "4 AWG Cu THWN-2", "ground": "8 AWG Cu THWN-2"}
    patch = {"routes": {"yard": {"carries": {"workshop-feeder": {"wires": wires}}}}}
    (large,) = says(example("joinery-workshop", patch), "colours-of-conductors")
    assert "4 AWG and larger (workshop-feeder)" in large


@pytest.mark.parametrize(
    ("voltage", "cable", "expected"),
    [("240 V", "UF-B 12/2", 1), ("240 V", "UF-B 12/3", 0), ("120 V", "UF-B 12/2", 0), (None, "UF-B 12/2", 0)],
)
def test_white_wires_that_are_hot(voltage: str | None, cable: str, expected: int) -> None:
    """Two hots in a two-wire cable."""
    patch = {"circuits": {"pump": {"voltage": voltage}}, "routes": {"to-pump": {"carries": {"pump": {"cable": cable}}}}}
    found = says(example("orchard-pump", patch), "white-wires-that-are-hot")
    assert len(found) == expected
    assert all(f"pump ({cable})" in text for text in found)


def test_a_white_wire_is_looked_for_on_every_route_of_a_circuit() -> None:
    """The planer's cable is named, not what feeds it; wires of their own have their colours, and an unknown cable is none."""
    item, run = "white-wires-that-are-hot", {"raceway": "none", "carries": {"planer": {"wires": None}}}
    assert says(example("joinery-workshop"), item) == []
    assert says(example("joinery-workshop", {"routes": {"planer-run": run}}), item) == []
    run["carries"] = {"planer": {"wires": None, "cable": "NM-B 10/2"}}
    (text,) = says(example("joinery-workshop", {"routes": {"planer-run": run}}), item)
    assert text.endswith(": planer (NM-B 10/2).")


def test_low_voltage_wiring_follows_colours_of_its_own() -> None:
    """Cable and wires behind a transformer are in neither sentence."""

    def behind_a_transformer(carried: dict[str, str | dict[str, str]], voltage: str) -> dict[str, Any]:
        return example(
            "joinery-workshop",
            {
                "boxes": {
                    "yard-box": {"devices": {"pack": {"transformer": "300 VA", "secondary": "12 V"}}},
                    "lamp-box": {"at": "workshop", "area": "outdoors", "location": "wet"},
                },
                "circuits": {"path": {"kind": "low-voltage", "from": "yard-box/pack", "voltage": voltage}},
                "routes": {
                    "path": {
                        "from": "yard-box",
                        "to": "lamp-box",
                        "carries": {"path": carried},
                        "legs": [{"buried": "lawn"}],
                    }
                },
            },
        )

    cable = behind_a_transformer({"cable": "low-voltage 12/2"}, "12/24 V")
    assert says(cable, "white-wires-that-are-hot") == []
    wires = behind_a_transformer({"wires": {"hot": "4 AWG Cu THWN-2", "neutral": "4 AWG Cu THWN-2"}}, "12 V")
    (text,) = says(wires, "colours-of-conductors")
    assert text.endswith("each over its whole length.")
