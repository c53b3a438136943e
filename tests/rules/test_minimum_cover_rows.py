"""The location rows of the minimum-cover table: which of them describes a leg, and rock."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import reviewed
from support.trenches import (
    LEG,
    answer_at,
    lawn,
    line_at,
    protected,
    trench,
)

RULE = "cover-over-a-buried-leg"
PVC = {"raceway": "PVC-40 3/4 in"}
SLAB = {"thickness": "4 in", "reaches-past": "6 in", "vehicles": False}


@pytest.mark.parametrize(
    ("slab", "needs"),
    [
        ({"thickness": "3 7/8 in"}, "18 in"),
        ({"thickness": "99 mm"}, "18 in"),
        ({"reaches-past": "5 7/8 in"}, "18 in"),
        ({"vehicles": True}, "24 in"),
        ({"thickness": "100 mm", "reaches-past": "150 mm"}, "4 in"),
        ({"thickness": "4 1/8 in", "reaches-past": "6 1/8 in"}, "4 in"),
    ],
)
@pytest.mark.parametrize("place", ["slab", "patio", "walk"])
def test_a_slab_counts_if_thick_and_wide_and_not_driven_on(place: str, slab: dict[str, Any], needs: str) -> None:
    """Just short of 4 in or of 6 in past the wiring it is open ground; driven on it is a parking place."""
    leg = {"buried": place, "cover": "3 in", "slab": {**SLAB, **slab}, "dwelling-use-only": False, **PVC}
    assert str(line_at(reviewed(trench(leg)), RULE).answer.needs) == needs


def test_a_patio_without_a_stated_slab_is_open_ground() -> None:
    """A slab over the wiring is something that a plan has to claim."""
    assert answer_at(trench({"buried": "patio", "cover": "17 in", **PVC}), RULE) == "not met"
    assert answer_at(trench({"buried": "patio", "cover": "18 in", **PVC}), RULE) == "met"


def test_of_a_slab_the_plan_is_asked_what_it_leaves_out() -> None:
    """At 4 in every condition of the slab row matters; at 18 in only whether vehicles drive on it does."""
    shallow = reviewed(trench({"buried": "slab", "cover": "4 in", **PVC}))
    assert line_at(shallow, RULE).answer.asks is not None
    deep = trench({"buried": "slab", "cover": "18 in", "dwelling-use-only": True, **PVC})
    assert answer_at(deep, RULE) == "met"


@pytest.mark.parametrize(("place", "needs"), [("driveway", "24 in"), ("parking", "24 in"), ("alley", "24 in")])
def test_a_driveway_that_others_use_is_a_street(place: str, needs: str) -> None:
    """Only what serves a one- or two-family dwelling and nothing else has the driveway row."""
    leg = {"buried": place, "cover": "18 in", "dwelling-use-only": False}
    assert str(line_at(reviewed(trench(leg)), RULE).answer.needs) == needs


@pytest.mark.parametrize("premises", ["multifamily dwelling", "commercial", "agricultural"])
def test_the_driveway_row_is_for_small_dwellings(premises: str) -> None:
    """On other premises a driveway is in the street row, whoever uses it."""
    leg = {"buried": "driveway", "cover": "18 in", "dwelling-use-only": True}
    assert answer_at(trench(leg, site={"premises": premises}), RULE) == "not met"
    assert answer_at(trench(leg, site={"premises": "two-family dwelling"}), RULE) == "met"


def test_a_driveway_asks_who_uses_it_only_where_that_matters() -> None:
    """Between 18 and 24 in it matters, above and below it does not."""
    for cover, answer in (("17 in", "not met"), ("18 in", "cannot tell"), ("24 in", "met")):
        assert answer_at(trench({"buried": "driveway", "cover": cover}), RULE) == answer
    at = line_at(reviewed(trench({"buried": "driveway", "cover": "18 in"})), RULE).answer.asks
    assert at is not None
    assert at.place == f"{LEG}/dwelling-use-only"


@pytest.mark.parametrize(
    ("cap", "answer"), [("1 7/8 in", "not met"), ("2 in", "met"), ("49 mm", "not met"), ("50 mm", "met")]
)
def test_concrete_in_the_trench_has_to_be_thick_enough(cap: str, answer: str) -> None:
    """2 in, or 50 mm in a metric plan."""
    assert answer_at(trench(lawn("18 in", **{"concrete-cap": cap})), RULE) == answer


def test_where_two_rows_describe_a_leg_the_deeper_one_is_taken() -> None:
    """Concrete over the wiring does not lessen what a driveway asks for, and of slab and cap the deeper row holds."""
    driveway = {"buried": "driveway", "dwelling-use-only": True, "concrete-cap": "2 in"}
    assert answer_at(protected({**driveway, "cover": "11 7/8 in"}), RULE) == "not met"
    assert answer_at(protected({**driveway, "cover": "12 in"}), RULE) == "met"
    both = {"buried": "slab", "slab": SLAB, "concrete-cap": "2 in", **PVC}
    assert answer_at(trench({**both, "cover": "11 7/8 in"}), RULE) == "not met"
    assert answer_at(trench({**both, "cover": "12 in"}), RULE) == "met"


@pytest.mark.parametrize(
    ("leg", "answer"),
    [
        ({"concrete-cap": "2 in", "cap-to-rock": True, **PVC}, "met"),
        ({"concrete-cap": "1 7/8 in", "cap-to-rock": True, **PVC}, "not met"),
        ({"concrete-cap": "2 in", "cap-to-rock": False, **PVC}, "not met"),
        ({"concrete-cap": "2 in", **PVC}, "not met"),
        ({"cap-to-rock": True, **PVC}, "not met"),
        ({"concrete-cap": "2 in", "cap-to-rock": True}, "not met"),
        ({"concrete-cap": "2 in", "cap-to-rock": True, "raceway": "plumbing pipe 3/4 in"}, "not met"),
        ({"concrete-cap": "2 in", "cap-to-rock": True, "raceway": "RMC 3/4 in"}, "met"),
    ],
)
def test_over_solid_rock_a_raceway_under_concrete_may_lie_shallower(leg: dict[str, Any], answer: str) -> None:
    """A raceway, 2 in of concrete, down to the rock: all three."""
    assert answer_at(trench(lawn("3 in", rock=True, **leg)), RULE) == answer
    assert answer_at(trench(lawn("3 in", rock=False, **leg)), RULE) == "not met"
