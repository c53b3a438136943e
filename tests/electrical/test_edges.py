"""Exactly at a limit, nothing at all, and the words of steps that no worked decision comes by."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from electrical.lookups import amps, area, breakers, ground_upsized
from electrical.tables import value
from precover.electrical import wire
from precover.electrical.ampacity import CircuitWires, ampacity, current_carrying, surroundings
from precover.electrical.box_fill import FOUR_THEN_QUARTERS, box_fill
from precover.electrical.motors import motor_circuit
from precover.electrical.network import SPLIT_PHASE, Load, Stretch, VoltageCollapse, solve
from precover.electrical.overcurrent import largest_device
from precover.electrical.pulling import Bundle, pull, weight_correction
from precover.electrical.raceway_fill import Filling, case_of, conduit_body_holds, jam_ratio, occupied
from precover.electrical.raceway_run import least_supports, swing
from precover.electrical.voltage_drop import smallest_wire, worst_drop
from precover.units import Area, ConductorSize, Length, Temperature, TemperatureDifference

L1 = ("L1", "N")
ONE = Fraction(1)


def test_a_limit_that_is_just_reached_holds_nothing_down() -> None:
    """So nothing is said of it."""
    assert ampacity(amps(65), ONE, ONE, {"the terminals": amps(65)}).steps == ("table value 65 A",)
    assert largest_device(amps(25), breakers(), round_up=True, small_conductor=amps(25)).steps == (
        "next standard rating for 25 A: 25 A",
    )


def test_an_ampacity_that_is_a_standard_rating_is_protected_at_it() -> None:
    """Rounded up or not."""
    assert largest_device(amps(20), breakers(), round_up=False).value == amps(20)
    assert largest_device(amps(20), breakers(), round_up=True).value == amps(20)


@pytest.mark.parametrize(
    ("ampacity_of", "round_up", "step"),
    [
        ("27.5", True, "next standard rating for 27.5 A: 30 A"),
        ("27.5", False, "largest standard rating for 27.5 A: 25 A"),
        ("5", False, "largest standard rating for 5 A: none"),
    ],
)
def test_the_step_of_a_device(ampacity_of: str, round_up: bool, step: str) -> None:
    """Which way it was looked for, and what was found."""
    assert largest_device(amps(ampacity_of), breakers(), round_up=round_up).steps == (step,)


def test_a_motor_beyond_all_ratings() -> None:
    """No device serves, which is said."""
    worked = motor_circuit(amps(4000), Fraction(5, 4), Fraction(5, 2), breakers())
    assert worked.value.device is None
    assert worked.steps[1] == "short-circuit device: 4000 A × 2.5 = 10000 A, next standard none"


def test_conductors_without_a_neutral_and_none_at_all() -> None:
    """A neutral that is not there does not count, whatever the system."""
    assert CircuitWires(1, False).current_carrying == 1
    assert CircuitWires(2, False, wye=True).current_carrying == 2
    assert CircuitWires(3, False, nonlinear=True).current_carrying == 3
    assert current_carrying([]).steps == ("current-carrying conductors: 0 = 0",)


def test_a_metric_ambient_is_said_in_its_unit() -> None:
    """So that the step names the band that is looked up."""
    warm = surroundings(Temperature.parse("30 °C"), TemperatureDifference.parse("33 °C"))
    assert warm.steps == ("30 °C and 33 °C more: 63 °C",)


def test_fittings_in_a_box_are_named() -> None:
    """A stud takes the largest conductor's allowance."""
    twelve = value("box-allowance", "12")
    worked = box_fill([twelve] * 2, [], [], internal_clamps=False, fittings=1, rule=FOUR_THEN_QUARTERS)
    assert worked.steps == ("2 conductors: 4.5 in³", "fittings: 2.25 in³", "together 6.75 in³")


def test_hots_of_just_the_size_needed_are_not_larger() -> None:
    """The ground by table stands, without a ratio."""
    worked = ground_upsized(amps(20), "Cu", area("12"), area("12"))
    assert worked.steps == ("size: 12 AWG",)


def test_the_least_voltage_that_a_load_is_solved_at() -> None:
    """Below one volt there is none left; a current at one volt is still one."""
    load = Load("end", L1, 2.0, "current")
    assert load.current(1 + 0j) == 2
    assert load.current(1.5j) == 2j
    with pytest.raises(VoltageCollapse, match="no voltage is left at end"):
        load.current(0.999 + 0j)


def test_the_drop_from_a_node_on_the_way() -> None:
    """Of the voltage there, not of the source's."""
    wires = {"L1": 0.1 + 0j, "N": 0.1 + 0j}
    stretches = [Stretch("source", "panel", wires), Stretch("panel", "far", wires)]
    solution = solve("source", SPLIT_PHASE, stretches, [Load("far", L1, 10, "current")])
    assert solution.drop("far", L1) == pytest.approx(4 / 120)
    assert solution.drop("far", L1, "panel") == pytest.approx(2 / 118)


def test_three_wires_on_the_way_are_all_said() -> None:
    """Each wire's current, and the voltage between each wire and the next."""
    stretches = [Stretch("source", "panel", dict.fromkeys(SPLIT_PHASE, 0.1 + 0j))]
    worked = worst_drop("source", SPLIT_PHASE, stretches, [Load("panel", L1, 10, "current")])
    assert worked.steps[0] == "to panel: 10.00 A in L1, 10.00 A in N, 0.00 A in L2; 118.00 V L1-N, 121.00 V N-L2"


def test_a_drop_of_just_the_share_is_within_it() -> None:
    """No more than three percent includes three percent."""
    assert smallest_wire((1, 2), lambda _: 0.03, 0.03) == 1


def test_pulling_nothing_and_in_other_units() -> None:
    """Without a stretch there is no tension; diameters may be in any unit, as long as it is one."""
    assert pull(Bundle(0.6, 0.4), []).end == 0
    for cradled in (True, False):
        inches, millimetres = (weight_correction(2.067 * unit, 0.642 * unit, cradled=cradled) for unit in (1, 25.4))
        assert inches == pytest.approx(millimetres)
    assert weight_correction(1.0, 0.5, cradled=False) == math.inf
    assert weight_correction(1.1, 0.5, cradled=False) < math.inf


def test_jam_ratio_allows_for_five_percent_of_ovality() -> None:
    """Unless another is given."""
    inside, across = Length.parse("2 in"), Length.parse("0.7 in")
    assert jam_ratio(inside, across) == 3
    assert jam_ratio(inside, across, ONE) == Fraction(20, 7)


def test_a_conduit_body_is_held_to_its_largest_raceway() -> None:
    """Not to the smaller one."""
    body, small, large = (Area.parse(f"{text} in²") for text in ("1.8", "0.5", "1"))
    assert not conduit_body_holds(body, [small, large], 2)
    assert not conduit_body_holds(body, [large, small], 2)


@pytest.mark.parametrize(
    ("counts", "case"),
    [
        ((1,), "one conductor or cable"),
        ((2,), "two conductors or cables"),
        ((1, 1), "two conductors or cables"),
        ((3,), "more than two"),
        ((1, 2), "more than two"),
    ],
)
def test_the_row_of_the_fill_table(counts: tuple[int, ...], case: str) -> None:
    """By how many there are together, of whatever kind."""
    inside = [Filling("wire", count, Area.parse("0.01 in²")) for count in counts]
    assert case_of(inside, nipple=False) == case
    assert case_of(inside, nipple=True) == "nipple"


def test_whole_square_inches_are_said_whole() -> None:
    """Others to four places, as tables print them."""
    worked = occupied([Filling("cable", 2, Area.parse("0.5 in²")), Filling("wire", 1, Area.parse("0.5 in²"))])
    assert worked.steps == ("2 × cable: 1 in²", "1 × wire: 0.5000 in²", "together 1.5000 in²")


def test_a_raceway_of_no_length_needs_no_support() -> None:
    """One of any length needs one."""
    spacing, end = Length.parse("3 ft"), Length.parse("36 in")
    assert least_supports(Length.parse("0 ft"), spacing, end) == 0
    assert least_supports(Length.parse("1 in"), spacing, end) == 1


@pytest.mark.parametrize("pair", [("0 °C", "212 °F"), ("32 °F", "100 °C")])
def test_temperatures_in_two_scales_differ_in_fahrenheit(pair: tuple[str, str]) -> None:
    """Degrees Celsius only where both are."""
    coldest, hottest = map(Temperature.parse, pair)
    assert swing(coldest, hottest).text == "180 °F"


@pytest.mark.parametrize(("metal", "siemens"), [("Cu", 58), ("Al", 58 * 0.61)])
def test_resistance_of_a_kilometre(metal: wire.Metal, siemens: float) -> None:
    """A kilometre of one square millimetre, at 20 °C."""
    twelve = ConductorSize.parse("12")
    ohms = wire.resistance(twelve, metal, 20, stranded=False) * wire.square_millimetres(twelve)
    assert ohms == pytest.approx(1000 / siemens, rel=1e-9)
