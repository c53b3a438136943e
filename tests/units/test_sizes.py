"""Conductor sizes, trade sizes and supply voltages: designations, in the order of what they stand for."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from precover.units import ConductorSize, QuantityError, SupplyVoltage, TradeSize
from precover.units.conductor_size import AWG, KCMIL, SCALE
from precover.units.trade_size import METRIC_DESIGNATORS


@pytest.mark.parametrize("designation", SCALE)
def test_a_conductor_size_is_read_in_every_way_it_is_written(designation: str) -> None:
    """With its scale, without, with a number sign."""
    size = ConductorSize.parse(designation)
    units = ("AWG",) if designation in AWG else ("kcmil", "MCM")
    for unit in units:
        assert ConductorSize.parse(f"{designation} {unit}") == size
        assert ConductorSize.parse(f" {designation}  {unit} ") == size
        assert ConductorSize.parse(f"#{designation} {unit}") == size
    assert ConductorSize.parse(size.text) == size
    assert (str(size), repr(size)) == (size.text, f"ConductorSize({designation!r})")
    assert hash(ConductorSize(designation)) == hash(size)


def test_conductor_sizes_are_ordered_by_area() -> None:
    """An AWG size has area 5 mils squared times 92 to the (36 - n)/19.5 (ASTM B258), a kcmil size the area it names."""

    def circular_mils(designation: str) -> float:
        if designation in KCMIL:
            return int(designation) * 1000
        gauge = 1 - int(designation[0]) if "/" in designation else int(designation)
        return float((5 * 92 ** ((36 - gauge) / 39)) ** 2)

    for small, large in pairwise(SCALE):
        assert circular_mils(small) < circular_mils(large)
        assert ConductorSize.parse(small) < ConductorSize.parse(large)
        assert ConductorSize.parse(large) >= ConductorSize.parse(small)
        assert ConductorSize.parse(small) != ConductorSize.parse(large)


@given(st.sampled_from(SCALE), st.sampled_from(SCALE))
def test_sizes_compare_as_their_places_on_the_scale(one: str, other: str) -> None:
    """In each of the four ways."""
    size, beside = ConductorSize.parse(one), ConductorSize.parse(other)
    place, at = SCALE.index(one), SCALE.index(other)
    assert (size < beside, size <= beside, size > beside, size >= beside) == (
        place < at,
        place <= at,
        place > at,
        place >= at,
    )


@pytest.mark.parametrize("text", ["", "AWG", "13 AWG", "12 kcmil", "250 AWG", "5/0", "12AWG x", "twelve", "1 / 0 AWG"])
def test_a_size_that_is_not_made(text: str) -> None:
    """Refused, with the way to write one."""
    with pytest.raises(QuantityError, match="is not a conductor size"):
        ConductorSize.parse(text)


@pytest.mark.parametrize(("designation", "metric"), METRIC_DESIGNATORS.items())
def test_a_trade_size_is_read_in_every_way_it_is_written(designation: str, metric: int) -> None:
    """In inches, with a space for the hyphen, as a metric designator."""
    size = TradeSize.parse(designation)
    for text in (f"{designation} in", f'{designation}"', f"MD {metric}", f"md {metric}", designation.replace("-", " ")):
        assert TradeSize.parse(text) == size
        assert hash(TradeSize.parse(text)) == hash(size)
    assert (str(size), repr(size)) == (f"{designation} in", f"TradeSize({designation!r})")


def test_trade_sizes_are_ordered_as_their_metric_designators_are() -> None:
    """Both grow together."""
    by_size = sorted(METRIC_DESIGNATORS, key=lambda designation: TradeSize.parse(designation).order)
    assert [METRIC_DESIGNATORS[designation] for designation in by_size] == sorted(METRIC_DESIGNATORS.values())
    assert TradeSize.parse("1-1/4") > TradeSize.parse("1")
    assert TradeSize.parse("3/8") < TradeSize.parse("1/2") <= TradeSize.parse("MD 16")


@pytest.mark.parametrize("text", ["", "5/8 in", "MD", "MD 20", "MD 99999999", "MD x", "3/4 mm", "21 mm", "1-1-4"])
def test_a_trade_size_that_is_not_made(text: str) -> None:
    """Refused, with the sizes that are."""
    with pytest.raises(QuantityError, match="is not a trade size") as refused:
        TradeSize.parse(text)
    assert "1-1/4" in refused.value.hint


@pytest.mark.parametrize(
    ("text", "to_ground", "between"),
    [
        ("120 V", 120, 120),
        ("240 V", 120, 240),
        ("208 V", 120, 208),
        ("12 V", 12, 12),
        ("120/240 V", 120, 240),
        ("120/208V", 120, 208),
        (" 120 / 240  V ", 120, 240),
        ("277 V", 277, 277),
    ],
)
def test_a_supply_voltage(text: str, to_ground: int, between: int) -> None:
    """A plain 240 V comes from a 120/240 V system."""
    voltage = SupplyVoltage.parse(text)
    assert (voltage.line_to_ground, voltage.line_to_line) == (to_ground, between)
    assert voltage == SupplyVoltage.parse(str(voltage))
    assert hash(voltage) == hash(SupplyVoltage.parse(str(voltage)))


def test_voltages_are_the_same_by_what_they_are() -> None:
    """Not by how they are written."""
    assert SupplyVoltage.parse("240 V") == SupplyVoltage.parse("120/240 V")
    assert SupplyVoltage.parse("240 V") != SupplyVoltage.parse("120 V")
    assert SupplyVoltage.parse("120 V") != 120


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is not a circuit voltage"),
        ("120", "is not a circuit voltage"),
        ("120 v", "is not a circuit voltage"),
        ("120V AC", "is not a circuit voltage"),
        ("١٢ V", "is not a circuit voltage"),
        ("12345 V", "is not a circuit voltage"),
        ("240/120 V", "higher voltage first"),
        ("0 V", "no voltage at all"),
        ("0/240 V", "no voltage at all"),
    ],
)
def test_what_is_no_supply_voltage(text: str, says: str) -> None:
    """Refused, with the way to write one."""
    with pytest.raises(QuantityError, match=says) as refused:
        SupplyVoltage.parse(text)
    assert "120/240 V" in refused.value.hint


@given(st.text(max_size=60), st.sampled_from([ConductorSize, TradeSize, SupplyVoltage]))
def test_no_text_does_anything_but_be_read_or_refused(text: str, kind: type) -> None:
    """Any text at all."""
    try:
        kind.parse(text)  # type: ignore[attr-defined]
    except QuantityError as refused:
        assert refused.message and refused.hint
        assert len(refused.message) < 120
