"""How many supplies a structure has, multiwire circuits, and outbuildings that people live in."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from precover.rulebook import Severity
from support.reviews import lines, outcome, reviewed_example

STUDIO, WORKSHOP, HOUSE = "/structures/studio", "/structures/workshop", "/structures/house"
ONE, TOGETHER = "/one-supply", "/hots-open-together"
HABITABLE, OUTSIDE = "/habitable-building-is-planned-as-a-dwelling", "/emergency-disconnect-outside"
OUTLET, LAMP, SWITCH = {"receptacle": "15 A"}, {"luminaire": "20 W"}, {"switch": "15 A", "role": "lighting"}


def second(devices: dict[str, Any], start: str = "house-panel", **circuit: Any) -> Review:
    """The pottery studio with another branch circuit to it."""
    return reviewed_example(
        "pottery-studio",
        {
            "circuits": {"more": {"kind": "branch circuit", "from": start, "voltage": "120 V", **circuit}},
            "boxes": {"more-box": {"at": "studio", "box": {}, "devices": devices}},
            "routes": {
                "more-run": {
                    "from": start,
                    "to": "more-box",
                    "carries": {"more": {"cable": "UF-B 12/2"}},
                    "legs": [{"buried": "lawn", "length": "46 ft"}],
                }
            },
        },
    )


def test_one_is_right_and_two_are_not() -> None:
    """Two circuits of the same voltage, each with a receptacle."""
    assert outcome(reviewed_example("pottery-studio"), ONE, STUDIO) == "met"
    of = second({"outlet": OUTLET})
    (line,) = lines(of, ONE, STUDIO)
    assert (line.answer.outcome.value, line.answer.has) == ("not met", "studio and more")
    assert any(entry.item.id.endswith("plaque-at-each-disconnect") for entry in of.inspect)
    assert not any(
        entry.item.id.endswith("plaque-at-each-disconnect") for entry in reviewed_example("pottery-studio").inspect
    )


@pytest.mark.parametrize(
    ("devices", "circuit", "expected"),
    [
        ({"lamp": LAMP}, {}, "cannot tell"),
        ({"lamp": LAMP, "switch": SWITCH}, {}, "cannot tell"),
        ({"switch": SWITCH}, {}, "not met"),
        ({"lamp": LAMP, "outlet": OUTLET}, {}, "not met"),
        ({"outlet": OUTLET}, {"voltage": "240 V"}, "cannot tell"),
        ({"outlet": OUTLET}, {"voltage": None}, "cannot tell"),
    ],
)
def test_other_uses_and_voltages_are_for_the_authority(
    devices: dict[str, Any], circuit: dict[str, Any], expected: str
) -> None:
    """A light controlled from both buildings, and a circuit of another voltage."""
    assert outcome(second(devices, **circuit), ONE, STUDIO) == expected


def test_a_question_for_the_authority_is_no_question_for_the_plan() -> None:
    """A query without a fact to state."""
    (finding,) = [one for one in second({"lamp": LAMP}).findings if one.line.rule.id.endswith(ONE)]
    assert (finding.severity, finding.line.answer.asks) == (Severity.QUERY, None)
    assert "another use" in finding.line.answer.why


def test_a_multiwire_circuit_is_one_supply() -> None:
    """However many hots it has."""
    of = reviewed_example("pottery-studio", {"circuits": {"studio": {"multiwire": True, "voltage": "120/240 V"}}})
    assert outcome(of, ONE, STUDIO) == "met"


def back(count: int) -> Review:
    """The joinery workshop with circuits from its panel back to the house."""
    return reviewed_example(
        "joinery-workshop",
        {
            "circuits": {
                f"back-{n}": {"kind": "branch circuit", "from": "workshop-panel", "voltage": "120 V"}
                for n in range(count)
            },
            "boxes": {f"back-box-{n}": {"at": "house", "box": {}, "devices": {"outlet": OUTLET}} for n in range(count)},
            "routes": {
                f"back-{n}": {
                    "from": "workshop-panel",
                    "to": f"back-box-{n}",
                    "carries": {f"back-{n}": {}},
                    "legs": [{"buried": "lawn", "length": "50 ft"}],
                }
                for n in range(count)
            },
        },
    )


@pytest.mark.parametrize(("count", "expected"), [(0, "does not apply"), (1, "met"), (2, "not met")])
def test_back_to_the_house(count: int, expected: str) -> None:
    """One as well."""
    assert outcome(back(count), ONE, HOUSE) == expected


def shared(**breaker: Any) -> Review:
    """The studio on a multiwire circuit."""
    circuit = {"multiwire": True, "voltage": "120/240 V", "breaker": breaker}
    return reviewed_example("pottery-studio", {"circuits": {"studio": circuit}})


@pytest.mark.parametrize(
    ("poles", "tied", "expected"),
    [
        (2, True, "met"),
        (2, False, "not met"),
        (1, True, "not met"),
        (1, None, "not met"),
        (2, None, "cannot tell"),
        (None, True, "cannot tell"),
    ],
)
def test_hots_of_a_multiwire_circuit(poles: int | None, tied: bool | None, expected: str) -> None:
    """Two poles, opened together."""
    assert outcome(shared(**{"poles": poles, "common-trip": tied}), TOGETHER, "/circuits/studio") == expected


@pytest.mark.parametrize(
    ("cable", "multiwire", "poles", "expected"),
    [
        ("UF-B 12/2", None, 1, "does not apply"),
        ("UF-B 12/3", None, 1, "cannot tell"),
        ("UF-B 12/3", False, 1, "does not apply"),
        ("UF-B 12/3", None, 2, "cannot tell"),
    ],
)
def test_whether_it_is_multiwire_is_asked_only_where_the_cable_allows_it(
    cable: str, multiwire: bool | None, poles: int, expected: str
) -> None:
    """A cable with two insulated conductors cannot have two hots and a neutral."""
    of = reviewed_example(
        "pottery-studio",
        {
            "circuits": {"studio": {"multiwire": multiwire, "breaker": {"poles": poles}}},
            "routes": {name: {"carries": {"studio": {"cable": cable}}} for name in ("garage-wall", "yard", "ceiling")},
        },
    )
    assert outcome(of, TOGETHER, "/circuits/studio") == expected


def test_what_a_plan_cannot_show_of_a_multiwire_circuit_is_inspected() -> None:
    """Poles, grouping and the neutral."""
    says = [entry.says for entry in shared(poles=2).inspect if entry.item.id.endswith("shared-neutral")]
    assert says and "no device is part of the neutral's way" in says[0]
    assert not [one for one in reviewed_example("pottery-studio").inspect if one.item.id.endswith("shared-neutral")]


@pytest.mark.parametrize(
    ("use", "habitable", "expected"),
    [
        ("accessory", False, "met"),
        ("accessory", True, "not met"),
        ("garage", True, "not met"),
        ("accessory", None, "cannot tell"),
        ("dwelling", True, "does not apply"),
    ],
)
def test_rooms_to_live_in(use: str, habitable: bool | None, expected: str) -> None:
    """Whether it is a dwelling the authority says, so the finding is a query."""
    of = reviewed_example("pottery-studio", {"structures": {"studio": {"use": use, "habitable": habitable}}})
    (line,) = lines(of, HABITABLE, STUDIO)
    assert (line.answer.outcome.value, line.rule.severity) == (expected, Severity.QUERY)
    assert outcome(reviewed_example("orchard-pump"), HABITABLE, "/structures/pump-post") == "does not apply"


@pytest.mark.parametrize(
    ("area", "main", "premises", "expected"),
    [
        ("indoors", "100 A", "one-family dwelling", "not met"),
        ("outdoors", "100 A", "one-family dwelling", "met"),
        ("outdoors", "100 A", "two-family dwelling", "met"),
        ("outdoors", "none", "one-family dwelling", "not met"),
        (None, "100 A", "one-family dwelling", "cannot tell"),
        ("indoors", "100 A", "multifamily dwelling", "does not apply"),
    ],
)
def test_emergency_disconnect(area: str | None, main: str, premises: str, expected: str) -> None:
    """Outdoors, at a dwelling of one or two families with a feeder."""
    of = reviewed_example(
        "joinery-workshop",
        {
            "site": {"premises": premises},
            "structures": {"workshop": {"use": "dwelling"}},
            "panels": {"workshop-panel": {"area": area, "main": main}},
        },
    )
    assert outcome(of, OUTSIDE, WORKSHOP) == expected


def test_no_emergency_disconnect_at_a_shed() -> None:
    """Nor at a dwelling with one branch circuit."""
    assert outcome(reviewed_example("joinery-workshop"), OUTSIDE, WORKSHOP) == "does not apply"
    cabin = reviewed_example("pottery-studio", {"structures": {"studio": {"use": "dwelling"}}})
    assert outcome(cabin, OUTSIDE, STUDIO) == "does not apply"
