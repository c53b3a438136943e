"""The review after an edit is the review of the edited plan, whatever was taken over from the one before."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import precover
from precover.reading import PlanUnreadable
from precover.reviewing import OpenPlan, Review, open_plan, review
from precover.reviewing.again import review_since
from support.edits import copied
from support.plans import Data, plans
from support.reviews import data_of, library, written
from support.tried import tried

EXAMPLES = sorted((Path(precover.__file__).parent / "examples").glob("*.plan.yaml"))


def said(of: Review) -> list[tuple[str, str, str, object]]:
    """Every line of a review, whichever way it came about."""
    return sorted(
        ((line.rule.id, line.subject, line.place, line.answer[:7]) for line in of.ran), key=lambda line: repr(line)
    )


def opened(data: Data) -> OpenPlan | None:
    """The plan, or None where an edit left none that can be read."""
    try:
        return open_plan("plan.yaml", written(data))
    except PlanUnreadable:
        return None


def leaves(data: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The way to everything in plain data that can be taken out or changed."""
    entries = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [place for key, value in entries for place in ((*way, key), *leaves(value, (*way, key)))]


def without(data: Data, way: tuple[Any, ...]) -> Data:
    """The same, less what is there."""
    edited = copied(data)
    at: Any = edited
    for key in way[:-1]:
        at = at[key]
    del at[way[-1]]
    return edited


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.name.partition(".")[0])
def test_after_something_is_taken_out_and_put_back(path: Path) -> None:
    """Of every bundled plan, in both directions."""
    data = data_of(path.read_text(encoding="utf-8"))
    whole = opened(data)
    assert whole is not None
    before = review(whole, library())
    for way in leaves(data)[::4]:  # every fourth, for the time it takes
        edited = opened(without(data, way))
        if edited is not None:
            after = review(edited, library())
            assert said(review_since(before, edited, library())) == said(after), way
            assert said(review_since(after, whole, library())) == said(before), way


@tried(8)
@given(plans() | plans(whole=True), st.data())
def test_after_edits_of_plans_of_every_shape(data: Data, draw: st.DataObject) -> None:
    """A value taken over from elsewhere in the plan, or something taken out; several edits in a row."""
    now = opened(data)
    assert now is not None
    of = review(now, library())
    for way in draw.draw(st.lists(st.sampled_from(leaves(data)), min_size=1, max_size=4)):
        try:
            data = without(data, way)
        except LookupError:
            continue
        edited = opened(data)
        if edited is None:
            return
        of = review_since(of, edited, library())
        assert said(of) == said(review(edited, library()))
