"""Standard ratings, and when the next one may be taken."""

from __future__ import annotations

from typing import Any

import pytest

from precover.rulebook import Look
from precover.units import Current
from precover_rules.sizing.small_wire import breaker_is_too_large
from precover_rules.sizing.standard import largest_up_to, may_round_up, ratings
from support.reviews import reviewed_example


def look(name: str = "pottery-studio", patch: dict[str, Any] | None = None) -> Look:
    """At an example, or a variation of it."""
    of = reviewed_example(name, patch or {})
    return Look(of.trace, of.book.tables)


def test_breakers_are_not_made_in_the_ratings_of_fuses_alone() -> None:
    """1, 3, 6 and 601 A are fuses."""
    made = [str(rating) for rating in ratings(look())]
    assert made[:3] == ["10 A", "15 A", "20 A"]
    assert not {"1 A", "3 A", "6 A", "601 A"} & set(made)


@pytest.mark.parametrize(
    ("amps", "expected"), [("20 A", "20 A"), ("24.9 A", "20 A"), ("25 A", "25 A"), ("0.5 A", None)]
)
def test_the_largest_up_to_a_current(amps: str, expected: str | None) -> None:
    """That rating itself counts."""
    found = largest_up_to(Current.parse(amps), look())
    assert (None if found is None else str(found)) == expected


SINGLE, DUPLEX, LARGE = (
    {"receptacle": "20 A", "voltage": "125 V", "single": True},
    {"receptacle": "20 A", "voltage": "125 V", "single": False},
    {"receptacle": "30 A", "voltage": "250 V"},
)


@pytest.mark.parametrize(
    ("outlet", "terrace", "expected"),
    [
        (SINGLE, None, True),
        (DUPLEX, None, False),
        (LARGE, None, True),
        (SINGLE, SINGLE, False),
        (LARGE, LARGE, False),
        (None, None, True),
    ],
)
def test_which_branch_circuit_may_take_the_next_rating(
    outlet: dict[str, Any] | None, terrace: dict[str, Any] | None, expected: bool
) -> None:
    """One with no more than one receptacle; a duplex is two, and one above 20 A is made for one plug."""
    boxes = {"terrace-box": {"devices": {"terrace-outlet": None}}, "entry-box": {"devices": {"bench-outlet": None}}}
    boxes["terrace-box"]["devices"] |= {} if terrace is None else {"garden": terrace}
    boxes["entry-box"]["devices"] |= {} if outlet is None else {"bench": outlet}
    seen = look(patch={"boxes": boxes})
    assert may_round_up(seen.plan.circuits["studio"], seen) is expected


def test_feeders_may_take_the_next_rating() -> None:
    """Whatever stands behind them."""
    seen = look("joinery-workshop")
    assert may_round_up(seen.plan.circuits["workshop-feeder"], seen)


def test_small_wire_is_told_of_only_where_its_size_decides() -> None:
    """Not for a circuit that goes by its equipment."""
    seen = look()
    circuit = seen.plan.circuits["studio"]
    assert breaker_is_too_large(circuit, Current.parse("100 A"), seen)
    assert not breaker_is_too_large(circuit, Current.parse("15 A"), seen)
