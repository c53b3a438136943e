"""Ground-fault protection of lights in crawl spaces."""

from __future__ import annotations

import pytest

from precover.reviewing import Review
from support.reviews import lines, outcome, reviewed_example

RULE = "/protection-of-a-crawl-space-light"
LAMP = "/boxes/porch-light-box/devices/porch-lamp"


def crawl(
    area: str | None = "crawl space", level: str | None = "none", volts: str = "120 V", kind: str = "branch circuit"
) -> Review:
    """The joinery workshop with its porch light elsewhere."""
    patch = {
        "circuits": {"lights": {"kind": kind, "voltage": volts, "breaker": {"ground-fault": level}}},
        "boxes": {"porch-light-box": {"area": area}},
    }
    return reviewed_example("joinery-workshop", patch)


@pytest.mark.parametrize(
    ("level", "expected"), [("none", "not met"), ("equipment", "not met"), ("class A", "met"), (None, "cannot tell")]
)
def test_protection(level: str | None, expected: str) -> None:
    """Class A or nothing; where only the breaker could tell, it is asked for."""
    assert outcome(crawl(level=level), RULE, LAMP) == expected


@pytest.mark.parametrize("area", ["outdoors", "indoors", "basement", "attic"])
def test_other_places(area: str) -> None:
    """Only crawl spaces."""
    assert outcome(crawl(area), RULE, LAMP) == "does not apply"


def test_an_unstated_place_matters_only_without_protection() -> None:
    """Behind a class A breaker nobody asks where the light is."""
    (found,) = lines(crawl(None), RULE, LAMP) or lines(crawl(None), RULE, "/boxes/porch-light-box")
    assert (found.answer.outcome.value, found.place) == ("cannot tell", "/boxes/porch-light-box/area")
    assert outcome(crawl(None, "class A"), RULE, LAMP) == "met"


@pytest.mark.parametrize(
    ("volts", "expected"), [("119 V", "not met"), ("120 V", "not met"), ("121 V", "does not apply")]
)
def test_voltage(volts: str, expected: str) -> None:
    """Up to 120 V."""
    assert outcome(crawl(volts=volts), RULE, LAMP) == expected


def test_a_low_voltage_circuit() -> None:
    """Low-voltage lights are not covered."""
    assert outcome(crawl(volts="12 V", kind="low-voltage"), RULE, LAMP) == "does not apply"


def test_any_premises() -> None:
    """Not one of the requirements for dwellings only."""
    patch = {"site": {"premises": "commercial"}, "boxes": {"porch-light-box": {"area": "crawl space"}}}
    assert outcome(reviewed_example("joinery-workshop", patch), RULE, LAMP) == "not met"


def test_a_post_has_no_crawl_space() -> None:
    """Nobody asks where on a post a light is."""
    patch = {"structures": {"workshop": {"use": "post"}}, "boxes": {"porch-light-box": {"area": None}}}
    assert outcome(reviewed_example("joinery-workshop", patch), RULE, LAMP) == "does not apply"
