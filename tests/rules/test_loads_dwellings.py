"""What a dwelling must have: arc-fault and surge protection, an emergency disconnect, a garage's own circuit."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, outcome, reviewed_example

STUDIO, CIRCUIT, HOUSE = "/structures/studio", "/circuits/studio", "/panels/house-panel"
ARC, GARAGE, COUNT = (
    "/arc-fault-protection-of-rooms",
    "/garage-has-its-receptacle-circuit",
    "/receptacles-within-the-circuit",
)
SURGE, SERVICE = "/surge-protection-of-a-dwelling", "/emergency-disconnect-of-the-service"
WITHOUT_LAMP: dict[str, Any] = {"boxes": {"ceiling-box": None}, "routes": {"ceiling": None}}


def studio(circuit: dict[str, Any] | None = None, **patch: Any) -> Review:
    """The pottery studio with changes."""
    return reviewed_example("pottery-studio", {"circuits": {"studio": circuit or {}}} | patch)


def as_(use: str, **structure: Any) -> dict[str, Any]:
    """The studio as another kind of structure."""
    return {"structures": {"studio": {"use": use} | structure}}


@pytest.mark.parametrize(
    ("use", "arc_fault", "expected"),
    [
        ("dwelling", False, "not met"),
        ("dwelling", True, "met"),
        ("dwelling", None, "cannot tell"),
        ("accessory", False, "does not apply"),
        ("garage", False, "does not apply"),
    ],
)
def test_arc_fault_protection_is_for_dwelling_units(use: str, arc_fault: bool | None, expected: str) -> None:
    """Trade forum, arc-fault protection in an outbuilding: http://forums.mikeholt.com/threads/2573322
    an outbuilding that is no dwelling unit needs none."""
    assert outcome(studio({"breaker": {"arc-fault": arc_fault}}, **as_(use)), ARC, CIRCUIT) == expected


@pytest.mark.parametrize(
    ("area", "expected"), [("garage", "does not apply"), ("kitchen", "not met"), (None, "cannot tell")]
)
def test_arc_fault_protection_is_for_rooms(area: str | None, expected: str) -> None:
    """A dwelling's garage is no room to live in; an area that is not stated is asked for."""
    boxes = {"entry-box": {"area": area}, "ceiling-box": {"area": area}}
    assert outcome(studio(boxes=boxes, **as_("dwelling")), ARC, CIRCUIT) == expected


@pytest.mark.parametrize(("rating", "expected"), [("20 A", "not met"), ("25 A", "does not apply")])
def test_arc_fault_protection_is_for_small_circuits(rating: str, expected: str) -> None:
    """Up to 20 A."""
    assert outcome(studio({"breaker": {"rating": rating}}, **as_("dwelling")), ARC, CIRCUIT) == expected


def test_an_extended_circuit_is_on_the_list() -> None:
    """The house side of an extension is for people to look at; a new circuit is none."""

    def listed(review: Review) -> bool:
        return any(one.item.id.endswith("/extended-circuit") for one in review.inspect)

    assert listed(studio({"existing": True}))
    assert not listed(studio())
    assert not listed(studio({"existing": True, "breaker": {"arc-fault": True}}))


def test_a_habitable_room_is_on_the_list() -> None:
    """Whether it is part of a dwelling unit, the authority says."""
    review = studio(**as_("accessory", habitable=True))
    assert any(one.item.id.endswith("/rooms-of-an-outbuilding") for one in review.inspect)


@pytest.mark.parametrize(
    ("service", "expected"),
    [
        ({}, "does not apply"),
        ({"replaced": True}, "cannot tell"),
        ({"replaced": True, "surge-protection": False, "emergency-disconnect": False}, "not met"),
        ({"replaced": True, "surge-protection": True, "emergency-disconnect": True}, "met"),
    ],
)
def test_a_service_that_is_replaced(service: dict[str, Any], expected: str) -> None:
    """Surge protection and an emergency disconnect; a service that stays brings neither, and asks for neither."""
    review = studio(panels={"house-panel": service})
    assert outcome(review, SURGE, HOUSE) == expected
    assert outcome(review, SERVICE, HOUSE) == expected
    assert (f"{HOUSE}/surge-protection" in asked(review)) is (expected == "cannot tell")


@pytest.mark.parametrize(
    ("premises", "surge", "service"),
    [("multifamily dwelling", "not met", "does not apply"), ("commercial", "does not apply", "does not apply")],
)
def test_services_of_other_premises(premises: str, surge: str, service: str) -> None:
    """The emergency disconnect is for one- and two-family dwellings, surge protection for every dwelling."""
    replaced = {"replaced": True, "surge-protection": False, "emergency-disconnect": False}
    review = studio(panels={"house-panel": replaced}, site={"premises": premises})
    assert (outcome(review, SURGE, HOUSE), outcome(review, SERVICE, HOUSE)) == (surge, service)


@pytest.mark.parametrize(
    ("use", "surge", "expected"),
    [("dwelling", False, "not met"), ("dwelling", True, "met"), ("accessory", False, "does not apply")],
)
def test_surge_protection_of_a_feeder(use: str, surge: bool, expected: str) -> None:
    """License-renewal course page on feeder surge protection,
    https://electricallicenserenewal.com/Electrical-Continuing-Education-Courses/NEC-Content.php?sectionID=1440
    where the feeder supplies dwelling units."""
    patch = {
        "structures": {"workshop": {"use": use}},
        "panels": {"workshop-panel": {"surge-protection": surge}},
    }
    assert outcome(reviewed_example("joinery-workshop", patch), SURGE, "/panels/workshop-panel") == expected


@pytest.mark.parametrize(
    ("bays", "rating", "lamp", "expected"),
    [
        (2, "20 A", False, "met"),
        (2, "15 A", False, "not met"),
        (2, "20 A", True, "not met"),
        (1, "20 A", True, "met"),
        (1, "15 A", True, "not met"),
        (None, "20 A", True, "cannot tell"),
        (None, "20 A", False, "met"),
    ],
)
def test_the_receptacle_circuit_of_a_garage(bays: int | None, rating: str, lamp: bool, expected: str) -> None:
    """License-renewal course page on the 2023 garage circuit,
    https://www.electricallicenserenewal.com/Electrical-Continuing-Education-Courses/NEC-Content.php?sectionID=1428
    20 A, receptacles only (those outdoors too), but in a one-bay garage its other outlets as well."""
    more = {} if lamp else WITHOUT_LAMP
    review = studio({"breaker": {"rating": rating}}, **as_("garage", **{"vehicle-bays": bays}), **more)
    assert outcome(review, GARAGE, STUDIO) == expected


def test_another_building_needs_no_receptacle_circuit_of_its_own() -> None:
    """Only a garage of a dwelling does."""
    assert outcome(studio(), GARAGE, STUDIO) == "does not apply"
    review = studio(**as_("garage", **{"vehicle-bays": 2}), site={"premises": "commercial"})
    assert outcome(review, GARAGE, STUDIO) == "does not apply"


@pytest.mark.parametrize(
    ("rating", "more", "premises", "expected"),
    [
        ("20 A", 11, "commercial", "met"),
        ("20 A", 12, "commercial", "not met"),
        ("15 A", 8, "commercial", "met"),
        ("15 A", 9, "commercial", "not met"),
        ("15 A", 30, "one-family dwelling", "does not apply"),
        ("15 A", 9, None, "cannot tell"),
        ("15 A", 8, None, "met"),
    ],
)
def test_receptacles_on_a_circuit(rating: str, more: int, premises: str | None, expected: str) -> None:
    """180 VA each: 10 at 15 A, 13 at 20 A, with the two that are there; none of it in a dwelling."""
    devices = {f"r{n}": {"receptacle": "15 A", "voltage": "125 V"} for n in range(more)}
    review = studio(
        {"breaker": {"rating": rating}}, boxes={"entry-box": {"devices": devices}}, site={"premises": premises}
    )
    assert outcome(review, COUNT, CIRCUIT) == expected


def test_work_in_the_panels_is_said_once() -> None:
    """One entry each for terminals, breakers and directory, for all panels together."""
    review = reviewed_example("joinery-workshop")
    said = [one for one in review.inspect if one.item.id.startswith("loads/panel-work/")]
    assert len(said) == 3
    assert all(one.says.startswith("house-panel and workshop-panel: ") for one in said)
    assert any("workshop-panel from house-panel" in one.says for one in said)


def test_nothing_is_done_in_a_panel_that_stays_as_it_is() -> None:
    """An existing circuit only."""
    review = studio({"existing": True})
    assert not [one for one in review.inspect if one.item.id.startswith("loads/panel-work/")]
