"""Box fill, equipment grounding conductors, wire by formula, and lookups in bands."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from electrical.lookups import amps, area, electrode_conductor, ground_by_table, ground_upsized, grounds_rule, sizes
from electrical.tables import keys, value
from precover.electrical import wire
from precover.electrical.bands import band, longest, smallest
from precover.electrical.box_fill import ALL_AS_ONE, FOUR_THEN_QUARTERS, Yoke, box_fill, room_for
from precover.electrical.grounding import fault_current, held_to_circuit
from precover.units import ConductorArea, ConductorSize, Volume

ALLOWANCES = [value("box-allowance", size) for (size,) in keys("box-allowance")]
ALLOWANCE = st.sampled_from(ALLOWANCES)
CONDUCTORS = st.lists(ALLOWANCE, max_size=12)
GROUNDS = st.lists(ALLOWANCE, max_size=9)
YOKES = st.lists(st.builds(Yoke, ALLOWANCE, st.integers(1, 2)), max_size=4)
SIZES = st.sampled_from([size for size in sizes() if ConductorSize.parse(size) <= ConductorSize.parse("250")])
DEVICES = st.sampled_from((15, 20, 30, 60, 100, 200))


def volume(
    of: list[Volume], grounds: list[Volume], yokes: list[Yoke], clamps: bool = False, fittings: int = 0
) -> Volume:
    """The volume under the rule of 2020 and later."""
    return box_fill(of, grounds, yokes, internal_clamps=clamps, fittings=fittings, rule=FOUR_THEN_QUARTERS).value


@given(CONDUCTORS, GROUNDS, YOKES, ALLOWANCE)
def test_everything_in_a_box_takes_room(
    of: list[Volume], grounds: list[Volume], yokes: list[Yoke], more: Volume
) -> None:
    """One more conductor, yoke, clamp or fitting never needs less, and a box that is full holds no more."""
    before = volume(of, grounds, yokes)
    assert volume([*of, more], grounds, yokes).amount == before.amount + more.amount
    assert volume(of, grounds, [*yokes, Yoke(more)]).amount == before.amount + 2 * more.amount
    largest = max([*of, *grounds], default=None)
    if largest is not None:
        assert volume(of, grounds, yokes, clamps=True).amount == before.amount + largest.amount
        assert volume(of, grounds, yokes, fittings=2).amount == before.amount + 2 * largest.amount
    assert volume(of[::-1], grounds[::-1], yokes[::-1]) == before


@given(GROUNDS)
def test_grounds(grounds: list[Volume]) -> None:
    """Up to four as one of the largest; from the fifth on a quarter more each from 2020, nothing before."""
    largest = max(grounds, default=Volume.parse("0 in³")).amount
    new = volume([], grounds, []).amount
    old = box_fill([], grounds, [], internal_clamps=False, fittings=0, rule=ALL_AS_ONE).value.amount
    assert old == (largest if grounds else 0)
    assert new == old + largest / 4 * max(0, len(grounds) - 4)


def test_rules_of_editions() -> None:
    assert grounds_rule(2017) == ALL_AS_ONE
    assert grounds_rule(2020) == grounds_rule(2023) == FOUR_THEN_QUARTERS


def test_steps_of_a_box() -> None:
    """Two 12/2 cables and a receptacle in a box with clamps."""
    twelve = value("box-allowance", "12")
    worked = box_fill(
        [twelve] * 4, [twelve] * 2, [Yoke(twelve)], internal_clamps=True, fittings=0, rule=FOUR_THEN_QUARTERS
    )
    assert worked.steps == (
        "4 conductors: 9 in³",
        "1 yoke: 4.5 in³",
        "2 grounds: 2.25 in³",
        "clamps: 2.25 in³",
        "together 18 in³",
    )


@given(ALLOWANCE, st.integers(0, 30))
def test_room_for_whole_conductors(each: Volume, count: int) -> None:
    assert room_for(Volume(each.amount * count, ""), each) == count
    assert room_for(Volume(each.amount * (count + 1) - 1, ""), each) == count


@given(DEVICES, SIZES, SIZES, st.integers(2, 9))
def test_upsized_ground(device: int, needed: str, installed: str, factor: int) -> None:
    """Never smaller than by table, the table size where the hots are not larger, and the ratio alone decides."""
    table = ground_by_table(amps(device), "Cu")
    grown = ground_upsized(amps(device), "Cu", area(needed), area(installed)).value
    if grown is not None:
        assert grown >= table
        if area(installed) <= area(needed):
            assert grown == table
    scaled = [ConductorArea.of(area(size).amount * factor, "cmil") for size in (needed, installed)]
    assert ground_upsized(amps(device), "Cu", scaled[0], scaled[1]).value == grown


def test_upsized_ground_shows_its_ratio() -> None:
    worked = ground_upsized(amps(50), "Cu", area("8"), area("2"))
    assert worked.steps == (
        "hots larger by 66360 cmil / 16510 cmil = 4.019",
        "grounding conductor: 10380 cmil × that = 41721.187 cmil",
        "size: 4 AWG",
    )
    assert ground_upsized(amps(200), "Cu", area("14"), area("500")).value is None


def test_ground_is_no_larger_than_the_circuit() -> None:
    six, ten = ConductorSize.parse("6"), ConductorSize.parse("10")
    assert held_to_circuit(six, ten) == ten
    assert held_to_circuit(ten, six) == ten


@pytest.mark.parametrize(
    ("device", "size"), [(15, "14"), (16, "12"), (20, "12"), (21, "10"), (60, "10"), (61, "8"), (200, "6")]
)
def test_ground_by_device(device: int, size: str) -> None:
    assert ground_by_table(amps(device), "Cu").designation == size


@pytest.mark.parametrize(
    ("supply", "sets", "size"),
    [("2", 1, "8"), ("1", 1, "6"), ("350", 1, "2"), ("400", 1, "1/0"), ("500", 2, "2/0"), ("600", 2, "3/0")],
)
def test_electrode_conductor_rows(supply: str, sets: int, size: str) -> None:
    """At and above the end of a row; two sets of 500 kcmil (1000) are in the row to 1100, two of 600 above it."""
    together = ConductorArea.of(area(supply).amount * sets, "cmil")
    assert electrode_conductor(together, "Cu", "Cu").designation == size


def test_fault_current() -> None:
    """120 V over a loop of 0.5 ohm; reactance adds at a right angle."""
    assert fault_current(120, 0.05, 0.2, 0.25) == pytest.approx(240)
    assert fault_current(120, 0.3 + 0j, 0.4j) == pytest.approx(240)


@given(st.sampled_from(("Cu", "Al")), st.floats(-20, 120), st.floats(-20, 120))
def test_wire_by_formula(metal: wire.Metal, one: float, other: float) -> None:
    """Warmer wire resists more; going there and back changes nothing."""
    low, high = sorted((one, other))
    twelve = ConductorSize.parse("12")
    cold, warm = (wire.resistance(twelve, metal, celsius, stranded=False) for celsius in (low, high))
    assert cold <= warm
    assert wire.temperature_factor(metal, low, high) * wire.temperature_factor(metal, high, low) == pytest.approx(1)


def test_awg_scale() -> None:
    """Three sizes halve or double the area, six the diameter; aluminum resists 1.64 times as much as copper."""
    twelve, six = ConductorSize.parse("12"), ConductorSize.parse("6")
    assert wire.diameter(six) / wire.diameter(twelve) == pytest.approx(2, rel=0.01)
    assert wire.circular_mils(ConductorSize.parse("10")) == pytest.approx(10380, rel=0.001)
    assert wire.square_millimetres(twelve) == pytest.approx(3.31, abs=0.005)
    assert wire.circular_mils(ConductorSize.parse("250")) == pytest.approx(250000)
    assert wire.diameter(ConductorSize.parse("18")) == pytest.approx(0.0403, abs=0.00005)
    ratio = wire.resistance(twelve, "Al", 20, stranded=False) / wire.resistance(twelve, "Cu", 20, stranded=False)
    assert ratio == pytest.approx(1 / 0.61)
    designations = [ConductorSize.parse(size) for size in sizes()]
    assert [wire.diameter(size) for size in designations] == sorted(wire.diameter(size) for size in designations)


@given(st.lists(st.integers(0, 100), unique=True).map(sorted), st.integers(-5, 105))
def test_band(ends: list[int], at: int) -> None:
    """The first end that is not below the value."""
    found = band(at, ((end, end) for end in ends))
    assert found == min((end for end in ends if end >= at), default=None)
    assert band(101, ((end, end) for end in ends), -1) == -1


def test_band_takes_no_more_than_it_needs() -> None:
    """A rule's derivation names the cells that it read, so a lookup must not read on."""
    read: list[int] = []
    assert band(3, ((end, read.append(end) or end) for end in (2, 4, 6))) == 4
    assert read == [2, 4]
    assert smallest((1, 2, 3), lambda n: n > 1) == 2
    assert smallest((1, 2, 3), lambda n: n > 3) is None


@given(st.floats(0.001, 1000), st.floats(0.001, 1000))
def test_longest(edge: float, upto: float) -> None:
    found = longest(lambda length: length <= edge, upto)
    assert found <= edge
    assert found == pytest.approx(min(edge, upto), abs=upto * 2e-9)


def test_fractions_are_exact() -> None:
    """A continuous 16 A is exactly 20 A: no float stands between a plan and its answer."""
    assert 16 * value("limits", "continuous load factor") == Fraction(20)
