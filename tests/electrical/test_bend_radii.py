"""The least radii of raceway bends against published charts."""

from __future__ import annotations

from fractions import Fraction

import pytest

from electrical.tables import keys, value
from precover.units import Length

CHART = {
    "1/2": 4.016,
    "3/4": 4.489,
    "1": 5.748,
    "1-1/4": 7.244,
    "1-1/2": 8.268,
    "2": 9.488,
    "2-1/2": 10.512,
    "3": 12.992,
    "4": 15.984,
}
"""Inches, converted from millimetres and back: a conduit bending chart, https://yjwx.econsor-shops.de/electrical-conduit-bending-chart.
Its 3-1/2, 14.606 in, is out of step with its neighbours (371 mm for 381 mm): the table has 15 in, from memory."""

ARTICLE = {"1/2": "4 in", "3/4": "4 1/2 in", "1": "5 3/4 in", "1-1/4": "7 1/4 in"}
"""An article on conduit elbows, https://homesteady.com/list-7565317-electrical-conduit-elbow-specifications.html."""

THINWALL = {"1/2": "4 in", "3/4": "5 in", "1": "6 in", "1-1/4": "8 in", "1-1/2": "10 in"}
"""The radii that a maker's thinwall benders are made for, https://lidseen.com/reference.html: those that bends of any kind have."""


def radius(size: str, bender: str) -> Length:
    """Of the base pack's table."""
    found: Length = value("bend-radius", size, bender)
    return found


@pytest.mark.parametrize("size", CHART)
def test_bends_of_a_shoe(size: str) -> None:
    """As charted, to a sixteenth of an inch for the rounding to millimetres."""
    assert abs(radius(size, "one-shot or full-shoe").in_unit("in") - Fraction(CHART[size])) < Fraction(1, 16)


@pytest.mark.parametrize("size", ARTICLE)
def test_bends_of_a_shoe_in_an_article(size: str) -> None:
    """The same, exactly."""
    assert radius(size, "one-shot or full-shoe") == Length.parse(ARTICLE[size])


@pytest.mark.parametrize("size", THINWALL)
def test_other_bends(size: str) -> None:
    """No tighter than the benders."""
    assert radius(size, "other") == Length.parse(THINWALL[size])


@pytest.mark.parametrize("size", ["2", "2-1/2", "3", "3-1/2", "4"])
def test_other_bends_of_large_raceway(size: str) -> None:
    """Six times the trade size (from memory)."""
    whole, _, half = size.partition("-")
    assert radius(size, "other").in_unit("in") == 6 * (int(whole) + Fraction(half or 0))


def test_what_has_no_chart() -> None:
    """Flexible raceway of 3/8, as that of 1/2; 3-1/2 between its neighbours (both from memory)."""
    assert radius("3/8", "other") == radius("1/2", "other")
    assert radius("3-1/2", "one-shot or full-shoe") == Length.parse("15 in")


def test_a_shoe_bends_no_wider_than_other_bends() -> None:
    """And larger raceway no tighter than smaller one."""
    for bender in ("one-shot or full-shoe", "other"):
        column = [value(*("bend-radius", *key)) for key in keys("bend-radius") if key[1] == bender]
        assert column == sorted(column)
    for size, bender in keys("bend-radius"):
        if bender != "other":
            assert radius(size, bender) <= radius(size, "other")
