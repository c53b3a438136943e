"""What an object of the plan gives for facts that its author left out."""

import pytest

from precover.plan import Box, Unstated
from precover.plan.thing import blank


def test_each_object_gives_its_own_place_for_a_fact_left_out() -> None:
    here, there = blank(Box, "/boxes/here"), blank(Box, "/boxes/there")
    assert isinstance(here, Box)
    assert isinstance(there, Box)
    for box in (here, there):
        left_out = box.location
        assert isinstance(left_out, Unstated)
        assert (left_out.place, left_out.field) == (f"{box.place}/location", "location")
        assert box.location is left_out  # made once


def test_a_fact_left_out_is_no_truth_value_and_cannot_be_filled_in() -> None:
    box = blank(Box, "/boxes/here")
    assert isinstance(box, Box)
    with pytest.raises(TypeError, match="/boxes/here/accessible is not stated"):
        bool(box.accessible)
    with pytest.raises(AttributeError, match="not changed once read"):
        box.accessible = True
    with pytest.raises(AttributeError, match="no attribute 'colour'"):
        box.colour  # noqa: B018
    assert isinstance(box.accessible, Unstated)
