"""Ampacity, overcurrent devices, motors and loads."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from electrical.lookups import adjustment, amps, breakers, column, correction, small_conductor
from electrical.tables import keys, limit, value
from precover.electrical.ampacity import CircuitWires, ampacity, current_carrying, surroundings
from precover.electrical.loads import Connected, feeder_load, larger_of
from precover.electrical.motors import motor_circuit
from precover.electrical.overcurrent import largest_device, most_continuous, needed, next_rating
from precover.units import Apparent, Current, Temperature, TemperatureDifference

FACTORS = st.integers(25, 130).map(lambda percent: Fraction(percent, 100))
AMPS = st.integers(10, 4000).map(lambda tenths: Current.of(Fraction(tenths, 10), "A"))


@given(AMPS, FACTORS, FACTORS, FACTORS)
def test_ampacity_grows_with_every_factor(table: Current, one: Fraction, other: Fraction, company: Fraction) -> None:
    low, high = sorted((one, other))
    assert ampacity(table, low, company, {}).value <= ampacity(table, high, company, {}).value
    assert ampacity(table, company, low, {}).value <= ampacity(table, company, high, {}).value


@given(AMPS, FACTORS, FACTORS, AMPS)
def test_ampacity_is_never_above_a_limit(table: Current, warm: Fraction, company: Fraction, terminals: Current) -> None:
    free = ampacity(table, warm, company, {}).value
    held = ampacity(table, warm, company, {"terminals": terminals}).value
    assert held == min(free, terminals)
    assert free.amount == table.amount * warm * company


def test_steps_of_an_ampacity() -> None:
    """6 AWG of a 90 °C insulation, four in a raceway at 105 °F, on 75 °C terminals and in a cable held to 60 °C."""
    ambient = Temperature.parse("105 °F")
    limits = {"the terminals (75 °C)": column("Cu", "6", 75), "the cable (60 °C)": column("Cu", "6", 60)}
    worked = ampacity(column("Cu", "6", 90), correction(ambient, 90), adjustment(4), limits)
    assert worked.steps == ("75 A × 0.87 × 0.8 = 52.2 A",)
    worked = ampacity(column("Cu", "6", 90), Fraction(1), Fraction(1), limits)
    assert worked.steps == (
        "table value 75 A",
        "held to 65 A by the terminals (75 °C)",
        "held to 55 A by the cable (60 °C)",
    )


@pytest.mark.parametrize(
    ("ambient", "factor"),
    [
        ("86 °F", "1"),
        ("30 °C", "1"),
        ("87 °F", "0.96"),
        ("104 °F", "0.91"),
        ("104.5 °F", "0.87"),
        ("105 °F", "0.87"),
        ("40 °C", "0.91"),
        ("40.5 °C", "0.87"),
        ("-20 °F", "1.15"),
        ("185 °F", "0.29"),
    ],
)
def test_correction_bands(ambient: str, factor: str) -> None:
    """The bands of the temperature's own scale; between two bands the warmer one."""
    assert correction(Temperature.parse(ambient), 90) == Fraction(factor)


@given(st.integers(-40, 131), st.integers(-40, 131))
def test_warmer_is_never_better(one: int, other: int) -> None:
    low, high = sorted((one, other))
    assert correction(Temperature.parse(f"{high} °F"), 60) <= correction(Temperature.parse(f"{low} °F"), 60)


def test_beyond_the_bands_there_is_no_factor() -> None:
    with pytest.raises(AssertionError):
        correction(Temperature.parse("186 °F"), 90)
    with pytest.raises(LookupError):
        correction(Temperature.parse("140 °F"), 60)


@pytest.mark.parametrize(
    ("count", "percent"),
    [
        (1, 100),
        (3, 100),
        (4, 80),
        (6, 80),
        (7, 70),
        (9, 70),
        (10, 50),
        (20, 50),
        (21, 45),
        (30, 45),
        (31, 40),
        (40, 40),
        (41, 35),
    ],
)
def test_adjustment_bands(count: int, percent: int) -> None:
    assert adjustment(count) == Fraction(percent, 100)


@pytest.mark.parametrize(
    ("wires", "count"),
    [
        (CircuitWires(1, True), 2),
        (CircuitWires(2, False), 2),
        (CircuitWires(2, True), 2),
        (CircuitWires(2, True, wye=True), 3),
        (CircuitWires(3, True, wye=True), 3),
        (CircuitWires(3, True, wye=True, nonlinear=True), 4),
        (CircuitWires(2, True, nonlinear=True), 3),
        (CircuitWires(1, True, nonlinear=True), 2),
    ],
)
def test_which_conductors_count(wires: CircuitWires, count: int) -> None:
    """A neutral of two legs carries only their difference; in a wye of two hots, or under electronic loads, it counts."""
    assert current_carrying([wires]).value == count


def test_conductors_of_several_circuits_add_up() -> None:
    worked = current_carrying([CircuitWires(1, True), CircuitWires(2, True), CircuitWires(2, False)])
    assert worked.value == 6
    assert worked.steps == ("current-carrying conductors: 2 + 2 + 2 = 6",)


def test_heat_of_a_roof() -> None:
    """In the unit of the ambient temperature, so that the bands of that scale hold."""
    adder = limit("heat of sun on a roof")
    assert surroundings(Temperature.parse("95 °F"), adder).value.text == "155 °F"
    warm = surroundings(Temperature.parse("30 °C"), TemperatureDifference.parse("33 °C"))
    assert warm.value == Temperature.parse("63 °C")
    assert warm.value.metric
    assert surroundings(Temperature.parse("95 °F"), None).steps == ()


@given(AMPS, AMPS)
def test_continuous_load(steady: Current, rest: Current) -> None:
    """Most continuous load and needed rating undo each other; all else counts as it is."""
    factor = limit("continuous load factor")
    assert most_continuous(needed(amps(0), steady, factor).value, factor) == steady
    assert needed(rest, amps(0), factor).value == rest
    assert needed(rest, steady, factor).value.amount == rest.amount + steady.amount * Fraction(5, 4)


def test_steps_of_a_continuous_load() -> None:
    factor = limit("continuous load factor")
    assert needed(amps(4), amps(16), factor).steps == ("4 A + 16 A × 1.25 = 24 A",)
    assert needed(amps(0), amps(16), factor).steps == ("16 A × 1.25 = 20 A",)


@given(AMPS)
def test_next_rating(load: Current) -> None:
    """Nothing standard lies between the load and the next rating."""
    found = next_rating(load, breakers())
    assert found is not None
    assert found >= load
    assert not [rating for rating in breakers() if load <= rating < found]
    assert next_rating(found, breakers()) == found


@given(AMPS)
def test_largest_device(of: Current) -> None:
    """Rounding up reaches the next rating, else the device is at most the ampacity."""
    up = largest_device(of, breakers(), round_up=True).value
    down = largest_device(of, breakers(), round_up=False).value
    assert up is not None
    assert up >= of
    assert (down is None and of < amps(10)) or (down is not None and down <= of)
    assert up == down or (down is None) or breakers().index(up) == breakers().index(down) + 1


def test_small_conductors_hold_after_all_else() -> None:
    """14 AWG carries 20 A at 75 °C and is protected at 15 A all the same; aluminum 12 AWG at 15 A."""
    for metal, size, most in (("Cu", "14", 15), ("Cu", "12", 20), ("Cu", "10", 30), ("Al", "12", 15), ("Al", "10", 25)):
        worked = largest_device(
            column(metal, size, 75), breakers(), round_up=True, small_conductor=small_conductor(metal, size)
        )
        assert worked.value == amps(most), (metal, size)
    assert small_conductor("Cu", "8") is None
    assert largest_device(amps(5), breakers(), round_up=False).value is None
    assert largest_device(amps(5), breakers(), round_up=False, small_conductor=amps(15)).value is None
    assert largest_device(amps(6001), breakers(), round_up=True, small_conductor=amps(15)).value is None


def test_motor_circuit_steps() -> None:
    worked = motor_circuit(
        value("motor-current", "1 1/2 hp", "230 V"),
        limit("motor conductor factor"),
        limit("motor breaker factor"),
        breakers(),
    )
    assert worked.steps == (
        "conductors: 10 A × 1.25 = 12.5 A",
        "short-circuit device: 10 A × 2.5 = 25 A, next standard 25 A",
    )


def test_larger_motors_ask_for_more() -> None:
    for volts in ("115 V", "230 V"):
        circuits = [
            motor_circuit(value("motor-current", *key), Fraction(5, 4), Fraction(5, 2), breakers()).value
            for key in keys("motor-current")
            if key[1] == volts
        ]
        assert [circuit.ampacity for circuit in circuits] == sorted(circuit.ampacity for circuit in circuits)
        assert all(circuit.device is not None and circuit.device >= circuit.ampacity for circuit in circuits)


LOADS = st.lists(
    st.builds(
        Connected,
        st.just("load"),
        st.integers(1, 8000).map(lambda va: Apparent.of(va, "VA")),
        st.sampled_from(("L1", "L2", "both")),
        st.booleans(),
        st.booleans(),
    ),
    max_size=8,
)
QUARTER_MORE = Fraction(5, 4)


@given(LOADS)
def test_feeder_load(loads: list[Connected]) -> None:
    """Between the plain sum and 125 % of it; legs add up to the whole; one motor at most is counted higher."""
    found = feeder_load(loads, Fraction(240), QUARTER_MORE, QUARTER_MORE).value
    assert found.connected <= found.calculated
    assert found.calculated.amount <= found.connected.amount * QUARTER_MORE
    assert found.leg_1.amount + found.leg_2.amount == 2 * found.amps.amount
    assert found.heavier_leg >= found.amps
    motors = [load for load in loads if load.motor]
    steady = [load for load in loads if load.continuous and not load.motor]
    extra = sum(load.load.amount for load in steady) / 4 + max((load.load.amount for load in motors), default=0) / 4
    assert found.calculated.amount - found.connected.amount == extra


@given(LOADS)
def test_feeder_load_does_not_depend_on_the_order_or_the_legs_names(loads: list[Connected]) -> None:
    turned = [
        Connected(load.name, load.load, {"L1": "L2", "L2": "L1"}.get(load.legs, "both"), load.continuous, load.motor)
        for load in reversed(loads)
    ]
    one, other = (feeder_load(each, Fraction(240), QUARTER_MORE, QUARTER_MORE).value for each in (loads, turned))
    assert (one.calculated, one.neutral) == (other.calculated, other.neutral)
    if len({load.load.amount for load in loads if load.motor}) == len([load for load in loads if load.motor]):
        assert (one.leg_1, one.leg_2) == (other.leg_2, other.leg_1)


def test_workshop_panel() -> None:
    """A dust collector and a saw, lights that stay on, and benches on either leg."""
    loads = [
        Connected("saw", Apparent.parse("2760 VA"), "both", motor=True),
        Connected("dust collector", Apparent.parse("1920 VA"), "L1", motor=True),
        Connected("lights", Apparent.parse("480 VA"), "L2", continuous=True),
        Connected("benches", Apparent.parse("1440 VA"), "L1"),
    ]
    worked = feeder_load(loads, Fraction(240), QUARTER_MORE, QUARTER_MORE)
    assert worked.value.calculated == Apparent.parse("7410 VA")
    assert worked.value.amps == Current.parse("30.875 A")
    assert worked.value.neutral == Current.parse("28 A")
    assert worked.steps == (
        "connected: 6600 VA",
        "saw counts 3450 VA",
        "lights counts 600 VA",
        "calculated: 7410 VA / 240 V = 30.875 A",
    )


def test_only_the_larger_of_what_cannot_run_together() -> None:
    heat = (Connected("heater", Apparent.parse("3 kVA"), "both"),)
    cool = (Connected("cooler", Apparent.parse("1 kVA"), "both"), Connected("fan", Apparent.parse("200 VA"), "L1"))
    assert larger_of([heat, cool]) == heat
    assert larger_of([]) == ()
