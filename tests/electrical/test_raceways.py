"""Raceway fill, bends, supports, expansion and pulling."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from electrical.computing_raceways import PERCENTS
from electrical.lookups import fillings, smallest_raceway, wire_area
from electrical.tables import keys, limit, value
from precover.electrical.pulling import (
    Bundle,
    Straight,
    Turn,
    backwards,
    most_tension,
    pull,
    sidewall_pressure,
    weight_correction,
)
from precover.electrical.raceway_fill import (
    Filling,
    case_of,
    circle,
    conduit_body_holds,
    equal_conductors,
    jam_ratio,
    may_jam,
    most_conductors,
    occupied,
    pull_box_length,
    share,
)
from precover.electrical.raceway_run import (
    bends_between_pull_points,
    fittings_needed,
    least_supports,
    length_change,
    longest_without_fitting,
    piston_setting,
    support_gaps,
    swing,
)
from precover.units import Angle, Area, Length, Temperature, TemperatureDifference

SIZES = st.sampled_from(("14", "12", "10", "8", "6", "4", "3", "2", "1"))
WIRES = st.dictionaries(SIZES.map(lambda size: f"THHN/THWN-2 {size}"), st.integers(1, 6), min_size=1, max_size=4)
RACEWAYS = ("EMT", "IMC", "RMC", "PVC-40", "PVC-80")
FEET = st.integers(1, 400)
EIGHT_TENTHS = Fraction(4, 5)


def area(square_inches: str) -> Area:
    """An area from its text in square inches."""
    return Area.of(Fraction(square_inches), "in²")


@given(WIRES)
def test_fill_adds_up(wires: dict[str, int]) -> None:
    inside = fillings(wires)
    together = occupied(inside).value
    assert together.amount == sum(filling.number * filling.each.amount for filling in inside)
    assert occupied(inside[::-1]).value == together
    assert share(together, together) == 1


@given(WIRES, st.sampled_from(RACEWAYS))
def test_one_more_wire_never_needs_a_smaller_raceway(wires: dict[str, int], raceway: str) -> None:
    """From three wires on; from one to two and from two to three the allowed share itself changes."""
    assume(sum(wires.values()) > 2)
    order = [key[1] for key in value_keys(raceway)]
    name = next(iter(wires))
    _, before = smallest_raceway(raceway, wires)
    _, after = smallest_raceway(raceway, {**wires, name: wires[name] + 1})
    assume(before is not None and after is not None)
    assert before in order
    assert order.index(before) <= order.index(str(after))
    assert order.index(str(smallest_raceway(raceway, wires, nipple=True)[1])) <= order.index(before)


def value_keys(raceway: str) -> list[tuple[str, ...]]:
    """The sizes of a raceway, ascending."""
    return [key for key in keys("raceway-dimensions", raceway) if key[2] == "40 %"]


def test_steps_of_a_fill() -> None:
    """A mix with a bare ground, which counts as every other wire."""
    inside = [*fillings({"THHN/THWN-2 6": 3}), Filling("bare 10", 1, wire_area("bare stranded", "10"))]
    worked = occupied(inside)
    assert worked.steps == ("3 × THHN/THWN-2 6: 0.1521 in²", "1 × bare 10: 0.0110 in²", "together 0.1631 in²")
    assert case_of(inside, nipple=False) == "more than two"


def test_flat_cable_counts_by_its_width() -> None:
    """A 12/2 cable counts as one round conductor over its major width: 0.140 in² at 53 % fills 1/2 EMT no more."""
    cable = circle(value("cable-dimensions", "NM-B", "12/2", "width"))
    assert float(cable.in_unit("in²")) == pytest.approx(math.pi / 4 * 0.422**2)
    assert case_of([Filling("NM-B 12/2", 1, cable)], nipple=False) == "one conductor or cable"
    assert cable <= value("raceway-dimensions", "EMT", "1/2", "53 %")
    assert 2 * cable.amount > value("raceway-dimensions", "EMT", "3/4", "31 %").amount


@pytest.mark.parametrize(
    ("allowed", "count"),
    [
        ("0.0979", 9),
        ("0.0999", 10),
        ("0.1", 10),
        ("0.1079", 10),
        ("0.108", 11),
        ("0.1081", 11),
        ("0.0079", 0),
        ("0.008", 1),
    ],
)
def test_eight_tenths_round_up(allowed: str, count: int) -> None:
    assert equal_conductors(area(allowed), area("0.01"), EIGHT_TENTHS) == count


@given(st.sampled_from(RACEWAYS), SIZES, SIZES)
def test_smaller_wires_fit_in_greater_number(raceway: str, one: str, other: str) -> None:
    one_percent, two_percent, more_percent = PERCENTS
    inside = value("raceway-dimensions", raceway, "1", "internal diameter")
    small, large = sorted((wire_area("THHN/THWN-2", one), wire_area("THHN/THWN-2", other)))
    counts = [
        most_conductors(inside, each, (one_percent, two_percent, more_percent), EIGHT_TENTHS) for each in (small, large)
    ]
    assert counts[0] >= counts[1]


def test_jam_ratio() -> None:
    """Three 4/0 in 2 in EMT: 2.067 × 1.05 / 0.642 = 3.38; three 250 kcmil: 3.05, where they can wedge."""
    inside = value("raceway-dimensions", "EMT", "2", "internal diameter")
    low, high = limit("jam ratio from"), limit("jam ratio to")
    wide = jam_ratio(inside, value("conductor-dimensions", "THHN/THWN-2", "4/0", "diameter"))
    tight = jam_ratio(inside, value("conductor-dimensions", "THHN/THWN-2", "250", "diameter"))
    assert not may_jam(wide, low, high, 3)
    assert may_jam(tight, low, high, 3)
    assert not may_jam(tight, low, high, 4)
    assert may_jam(low, low, high, 3)
    assert may_jam(high, low, high, 3)


def test_conduit_bodies_and_pull_boxes() -> None:
    """Twice the raceway's cross-section; 8 × 2 in straight; 6 × 3 in and the others of the row round a corner."""
    raceway = value("raceway-dimensions", "EMT", "1", "area")
    factor = limit("conduit body over its raceway")
    assert conduit_body_holds(area("1.728"), [raceway], factor)
    assert not conduit_body_holds(area("1.727"), [raceway], factor)
    straight, angle = limit("pull box length, straight"), limit("pull box length, angle")
    assert pull_box_length(Fraction(2), [], straight=straight, angle=angle, turns=False) == Length.parse("16 in")
    others = [Fraction(2), Fraction(2)]
    assert pull_box_length(Fraction(3), others, straight=straight, angle=angle, turns=True) == Length.parse("22 in")


@given(st.lists(st.none() | st.integers(1, 90), max_size=20))
def test_bends(along: list[int | None]) -> None:
    """Every bend is in one stretch, and pull points only divide."""
    stretches = bends_between_pull_points([None if bend is None else Angle.of(bend, "°") for bend in along])
    assert len(stretches) == 1 + along.count(None)
    assert sum(total.amount for total in stretches) == sum(bend for bend in along if bend is not None)


@given(st.integers(0, 300), st.integers(2, 20), st.integers(1, 4))
def test_least_supports(run: int, spacing: int, from_end: int) -> None:
    """Spread evenly, that many hold the run, and one fewer cannot."""
    assume(from_end <= spacing)
    length, apart, end = (Length.of(feet, "ft") for feet in (run, spacing, from_end))
    count = least_supports(length, apart, end)
    assert not support_gaps(length, spread(run, count, from_end), apart, end)
    if count > 1:
        assert support_gaps(length, spread(run, count - 1, from_end), apart, end)


def spread(run: int, count: int, from_end: int) -> list[Length]:
    """So many supports, the outer ones as far from the ends as they may be, the others evenly between."""
    if count < 2:
        return [Length.of(Fraction(run, 2), "ft")] * count
    step = Fraction(run - 2 * from_end, count - 1)
    return [Length.of(from_end + n * step, "ft") for n in range(count)]


def test_support_gaps_are_named() -> None:
    run, apart, end = Length.parse("20 ft"), Length.parse("3 ft"), Length.parse("36 in")
    supports = [Length.parse(text) for text in ("4 ft", "7 ft", "12 ft", "15 ft")]
    assert support_gaps(run, supports, apart, end) == (
        "first support 4 ft from the start, 36 in allowed",
        "5 ft between supports, 3 ft allowed",
        "last support 5 ft from the end, 36 in allowed",
    )
    assert support_gaps(run, [], apart, end) == ("no support",)


@given(FEET, st.integers(1, 200), st.integers(2, 5))
def test_expansion_is_linear(feet: int, degrees: int, factor: int) -> None:
    coefficient = value("thermal-expansion", "PVC")
    once = length_change(Length.of(feet, "ft"), TemperatureDifference.of(degrees, "°F"), coefficient).value
    longer = length_change(Length.of(feet * factor, "ft"), TemperatureDifference.of(degrees, "°F"), coefficient).value
    warmer = length_change(Length.of(feet, "ft"), TemperatureDifference.of(degrees * factor, "°F"), coefficient).value
    assert longer.amount == warmer.amount == factor * once.amount


@given(st.integers(1, 200))
def test_longest_run_without_a_fitting(degrees: int) -> None:
    """At that length the change just reaches the limit."""
    coefficient, least = value("thermal-expansion", "PVC"), limit("length change that needs an expansion fitting")
    change = TemperatureDifference.of(degrees, "°F")
    assert length_change(longest_without_fitting(change, coefficient, least), change, coefficient).value == least


def test_swing_in_either_scale() -> None:
    assert swing(Temperature.parse("-10 °F"), Temperature.parse("110 °F")).text == "120 °F"
    assert swing(Temperature.parse("-20 °C"), Temperature.parse("40 °C")).text == "60 °C"
    mixed = swing(Temperature.parse("0 °C"), Temperature.parse("212 °F"))
    assert mixed.in_unit("°C") == 100


def test_fittings_and_their_setting() -> None:
    travel = Length.parse("4 in")
    assert fittings_needed(Length.parse("4 in"), travel) == 1
    assert fittings_needed(Length.parse("4.1 in"), travel) == 2
    assert fittings_needed(Length.parse("0 in"), travel) == 0
    cold, hot = Temperature.parse("0 °F"), Temperature.parse("100 °F")
    assert piston_setting(cold, hot, hot, travel).amount == 0
    assert piston_setting(cold, hot, cold, travel) == travel


STRETCHES = st.lists(
    st.one_of(
        st.builds(Straight, st.floats(1, 300), st.just(0.0)),
        st.builds(Turn, st.floats(0.1, math.pi / 2), st.floats(0.5, 4)),
    ),
    min_size=1,
    max_size=8,
)
WIRE = Bundle(0.6, 0.4)


@given(STRETCHES, st.floats(0, 50), st.floats(0, 50))
def test_pull_grows(stretches: list[Straight | Turn], one: float, other: float) -> None:
    """Tension never falls on the level, and more back tension means more everywhere."""
    low, high = (pull(WIRE, stretches, back) for back in sorted((one, other)))
    assert list(low.tension) == sorted(low.tension)
    assert all(a <= b for a, b in zip(low.tension, high.tension, strict=True))


@given(STRETCHES, st.floats(1.1, 4))
def test_pull_scales_with_weight(stretches: list[Straight | Turn], factor: float) -> None:
    heavier = Bundle(WIRE.weight * factor, WIRE.friction)
    assert pull(heavier, stretches).end == pytest.approx(factor * pull(WIRE, stretches).end)


@given(STRETCHES)
def test_bends_multiply(stretches: list[Straight | Turn]) -> None:
    """Without weight only the capstan formula is left: all bends act as one of their total."""
    total = sum(stretch.radians for stretch in stretches if isinstance(stretch, Turn))
    assert pull(Bundle(0, 0.4), stretches, 10).end == pytest.approx(10 * math.exp(0.4 * total))


def test_a_pull_through_absurdly_many_turns_stays_a_number() -> None:
    """A plan may write any angle: far more than any wire stands is told, not a fault of the arithmetic."""
    pulled = pull(Bundle(1.0, 0.5), [Straight(10.0, 0.0), *[Turn(10_000.0, 1.0)] * 40])
    assert 1e9 < pulled.end < math.inf
    assert all(1e9 < one < math.inf for one in pulled.pressure[1:])


def test_pull_from_the_end_with_the_bend() -> None:
    """A bend near the reel multiplies little, a bend near the puller much."""
    way = [Straight(10), Turn(math.pi / 2, 1.0), Straight(200)]
    assert pull(WIRE, way).end == pytest.approx(0.24 * 10 * math.exp(0.2 * math.pi) + 0.24 * 200)
    assert pull(WIRE, backwards(way)).end > 1.7 * pull(WIRE, way).end


def test_slopes() -> None:
    """Straight up the whole weight hangs on the rope; straight down it pays itself out and the tension is none."""
    assert pull(WIRE, [Straight(100, math.pi / 2)]).end == pytest.approx(60)
    assert pull(WIRE, [Straight(100, -math.pi / 2)]).end == 0
    assert backwards([Straight(100, 0.3)]) == (Straight(100, -0.3),)


def test_sidewall_pressure_and_tension() -> None:
    """By the published formulas; the limits are those of a cable maker's guide."""
    assert pull(WIRE, [Straight(100), Turn(1.0, 2.0)]).pressure == pytest.approx((0, 24 * math.exp(0.4) / 2))
    cradled = Bundle(0.6, 0.4, correction=1.5, cradled=True)
    assert sidewall_pressure(cradled, 300, 2.0) == pytest.approx((3 * 1.5 - 2) * 300 / 6)
    assert most_tension(10380, 3, float(limit("pulling tension for each circular mil of copper"))) == pytest.approx(
        249.12
    )
    assert limit("sidewall pressure") * 2 == 600


@given(st.floats(2.2, 10))
def test_weight_correction(ratio: float) -> None:
    """Never below one, falling towards it where the raceway is wide; lashed wires press less than cradled ones."""
    cradled, triangular = weight_correction(ratio, 1, cradled=True), weight_correction(ratio, 1, cradled=False)
    assert cradled > 1
    assert triangular > 1
    assert weight_correction(ratio + 1, 1, cradled=True) < cradled
    assert weight_correction(ratio + 1, 1, cradled=False) < triangular
    assert weight_correction(2, 1, cradled=False) == math.inf
    assert weight_correction(3, 1, cradled=True) == pytest.approx(4 / 3)
    assert weight_correction(3, 1, cradled=False) == pytest.approx(1 / math.sqrt(3 / 4))
