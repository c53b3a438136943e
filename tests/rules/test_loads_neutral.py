"""The neutral of a feeder: below, at and above what the unbalance and the grounding conductor ask for."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, lines, outcome, reviewed_example

FEEDER, RULE = "/circuits/workshop-feeder", "/neutral-of-a-feeder"


def shop(neutral: str, rating: str = "60 A", hot: str = "2 × 6 AWG Cu THWN-2", **circuits: Any) -> Review:
    """The joinery workshop with another neutral, all the way."""
    carries = {"carries": {"workshop-feeder": {"wires": {"hot": hot, "neutral": f"{neutral} THWN-2"}}}}
    return reviewed_example(
        "joinery-workshop",
        {
            "circuits": {"workshop-feeder": {"breaker": {"rating": rating}}} | circuits,
            "routes": {"garage-run": carries, "yard": carries},
        },
    )


@pytest.mark.parametrize(("neutral", "expected"), [("6 AWG Cu", "met"), ("10 AWG Cu", "met"), ("12 AWG Cu", "not met")])
def test_not_smaller_than_the_grounding_conductor(neutral: str, expected: str) -> None:
    """10 AWG behind 60 A; the unbalance of the workshop is a few amperes."""
    assert outcome(shop(neutral), RULE, FEEDER) == expected


@pytest.mark.parametrize(("size", "expected"), [("4 AWG Cu", "met"), ("6 AWG Cu", "not met")])
def test_published_least_neutral(size: str, expected: str) -> None:
    """Feeder sizing article: http://www.officefans.net/blog/html/35/50235-544.html
    50 A of unbalance behind 250 A: 8 AWG would carry it, but the grounding conductor is 4 AWG."""
    review = shop(size, "250 A", "2 × 250 kcmil Cu THWN-2", **{"bench-outlets": {"load": "50 A"}})
    assert outcome(review, RULE, FEEDER) == expected


@pytest.mark.parametrize(
    ("bench", "lights", "expected"),
    [
        ("15 A", "15 A", "met"),  # 30 A, whichever legs they are on
        ("42 A", "5 A", "not met"),  # above 75 °C already, however they are spread
        ("32 A", "1 A", "cannot tell"),  # between the two columns: the marking of the terminals
        ("25 A", "25 A", "cannot tell"),  # 25 A on two legs, 50 A on one
    ],
)
def test_the_unbalance(bench: str, lights: str, expected: str) -> None:
    """10 AWG carries 30 A at 60 °C, 35 A at 75 °C."""
    review = shop("10 AWG Cu", **{"bench-outlets": {"load": bench}, "lights": {"load": lights}})
    assert outcome(review, RULE, FEEDER) == expected


def test_the_leg_is_asked_for_only_where_it_decides() -> None:
    """Two circuits of 25 A: on one leg too much, on two not."""
    loads = {"bench-outlets": {"load": "25 A"}, "lights": {"load": "25 A"}}
    assert [place for place in asked(shop("10 AWG Cu", **loads)) if place.endswith("/leg")]
    assert not [place for place in asked(shop("6 AWG Cu", **loads)) if place.endswith("/leg")]
    spread = {"bench-outlets": {"load": "25 A", "leg": "L1"}, "lights": {"load": "25 A", "leg": "L2"}}
    assert outcome(shop("10 AWG Cu", **spread), RULE, FEEDER) == "met"
    same = {"bench-outlets": {"load": "25 A", "leg": "L1"}, "lights": {"load": "25 A", "leg": "L1"}}
    assert outcome(shop("10 AWG Cu", **same), RULE, FEEDER) == "not met"


def test_the_derivation_names_the_unbalance() -> None:
    """360 VA and 20 VA at 120 V on one leg: 3.167 A."""
    (line,) = lines(shop("8 AWG Cu"), RULE, FEEDER)
    assert "unbalance: up to 3.167 A" in [step for step, _ in line.steps]


def test_a_feeder_that_was_there_is_left_alone() -> None:
    """Only a new one is looked at."""
    assert outcome(shop("14 AWG Cu", **{"workshop-feeder": {"existing": True}}), RULE, FEEDER) == "does not apply"


def test_the_spread_is_on_the_list() -> None:
    """The larger circuit on one leg, the other on the other; nothing to spread with one."""

    def spread(review: Review) -> list[str]:
        return [one.says for one in review.inspect if one.item.id.endswith("/load-is-spread")]

    one = {"lights": None}
    gone = {
        "boxes": {"switch-box": None, "porch-light-box": None},
        "routes": {"lighting": None, "porch-lighting": None},
    }
    assert spread(reviewed_example("joinery-workshop")) == [
        "Spread over both legs of workshop-panel: bench-outlets on one, lights on the other."
    ]
    assert not spread(reviewed_example("joinery-workshop", {"circuits": one} | gone))
    same = {"circuits": {"bench-outlets": {"leg": "L2"}, "lights": {"leg": "L2"}}}
    assert spread(reviewed_example("joinery-workshop", same)) == [
        "Spread over both legs of workshop-panel, not as planned on one: bench-outlets, lights."
    ]
