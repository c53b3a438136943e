"""Voltage drop: properties of the network solution, and the searches on top of it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from electrical.strategies import supplies
from electrical.tables import value
from precover.electrical.network import SPLIT_PHASE, Load, Solution, Stretch, VoltageCollapse, solve
from precover.electrical.voltage_drop import drops, impedance, longest_length, smallest_wire, worst_drop
from precover.units import Length

UNHURRIED = settings(deadline=None)
"""Networks near their limit take many rounds."""

L1, L2, BOTH = ("L1", "N"), ("L2", "N"), ("L1", "L2")
Supply = tuple[list[Stretch], list[Load]]


def two_wire(ohms: complex, load: Load) -> Solution:
    """One load behind one two-wire stretch."""
    return solve("source", SPLIT_PHASE, [Stretch("source", "end", {"L1": ohms, "N": ohms})], [load])


@UNHURRIED
@given(supplies())
def test_currents_balance_at_every_node(supply: Supply) -> None:
    """What comes in over the wires of a stretch goes out again over its other wires: nothing runs through the earth."""
    stretches, loads = supply
    solution = solve("source", SPLIT_PHASE, stretches, loads)
    for stretch in stretches:
        assert abs(sum(solution.currents[stretch.end].values())) < 1e-6


@UNHURRIED
@given(supplies())
def test_power_balances(supply: Supply) -> None:
    """The source gives what the loads take and the wires lose."""
    stretches, loads = supply
    solution = solve("source", SPLIT_PHASE, stretches, loads)
    given_power = lost = taken = 0j
    for stretch in stretches:
        for wire, ohms in stretch.wires.items():
            amps = solution.currents[stretch.end][wire]
            lost += ohms * abs(amps) ** 2
            if stretch.start == "source":
                given_power += SPLIT_PHASE[wire] * amps.conjugate()
    for load in loads:
        volts = solution.voltages[load.at][load.between[0]] - solution.voltages[load.at][load.between[1]]
        taken += volts * load.current(volts).conjugate()
    assert abs(given_power - lost - taken) < 1e-4


@UNHURRIED
@given(supplies())
def test_legs_are_alike(supply: Supply) -> None:
    """Exchanging the legs exchanges the voltages."""
    stretches, loads = supply
    swap = {"L1": "L2", "L2": "L1", "N": "N"}
    turned = [Stretch(s.start, s.end, {swap[wire]: ohms for wire, ohms in s.wires.items()}) for s in stretches]
    loads_turned = [
        Load(
            load.at,
            (swap[load.between[0]], swap[load.between[1]]),
            load.amount,
            load.draws,
            load.power_factor,
            load.lagging,
        )
        for load in loads
    ]
    first = solve("source", SPLIT_PHASE, stretches, loads)
    second = solve("source", SPLIT_PHASE, turned, loads_turned)
    for load, other in zip(loads, loads_turned, strict=True):
        assert first.volts(load.at, load.between) == pytest.approx(second.volts(other.at, other.between), abs=1e-6)


@UNHURRIED
@given(supplies(), st.floats(1.1, 3))
def test_scale(supply: Supply, factor: float) -> None:
    """Constant currents through resistances: wires with a part of the resistance lose that part of the voltage."""
    stretches, loads = supply
    steady = [Load(load.at, load.between, 5.0, "current") for load in loads]
    plain = [Stretch(s.start, s.end, {wire: complex(ohms.real) for wire, ohms in s.wires.items()}) for s in stretches]
    lighter = [Stretch(s.start, s.end, {wire: ohms / factor for wire, ohms in s.wires.items()}) for s in plain]
    before = solve("source", SPLIT_PHASE, plain, steady)
    after = solve("source", SPLIT_PHASE, lighter, steady)
    for load in steady:
        lost, less = before.drop(load.at, load.between), after.drop(load.at, load.between)
        assert less == pytest.approx(lost / factor, abs=1e-9)


@UNHURRIED
@given(st.floats(0.01, 0.5), st.floats(0.0, 0.1), st.floats(1, 30), st.floats(0.5, 1))
def test_one_load_in_closed_form(ohms: float, reactance: float, amps: float, factor: float) -> None:
    """One constant current behind one line: source² = (load + I·(R·cos φ + X·sin φ))² + (I·(X·cos φ − R·sin φ))²."""
    left = two_wire(complex(ohms, reactance), Load("end", L1, amps, "current", factor)).volts("end", L1)
    sine = math.sqrt(1 - factor**2)
    along = left + 2 * amps * (ohms * factor + reactance * sine)
    across = 2 * amps * (reactance * factor - ohms * sine)
    assert math.hypot(along, across) == pytest.approx(120, abs=1e-6)


@UNHURRIED
@given(st.floats(0.01, 0.4), st.floats(100, 1500))
def test_constant_power_in_closed_form(ohms: float, watts: float) -> None:
    """A resistive line and a resistive constant power: V² − 120·V + 2·R·P = 0, its larger root."""
    left = two_wire(complex(ohms), Load("end", L1, watts, "power")).volts("end", L1)
    assert left == pytest.approx(60 + math.sqrt(3600 - 2 * ohms * watts), abs=1e-6)


@UNHURRIED
@given(st.floats(0.01, 0.4), st.floats(0.5, 20), st.floats(0.5, 20))
def test_a_load_on_the_other_leg_helps_through_the_neutral(ohms: float, here: float, there: float) -> None:
    """The neutral carries the difference, so a load on the other leg lowers the loss here; one on this leg raises it."""
    wires = dict.fromkeys(SPLIT_PHASE, complex(ohms))
    stretch = [Stretch("source", "panel", wires)]

    def lost(*loads: Load) -> float:
        return solve("source", SPLIT_PHASE, stretch, loads).drop("panel", L1)

    own = Load("panel", L1, here, "current")
    alone = lost(own)
    assert lost(own, Load("panel", L2, there, "current")) < alone < lost(own, Load("panel", L1, there, "current"))


@UNHURRIED
@given(st.floats(1, 40), st.floats(1, 40))
def test_more_current_loses_more(less: float, more: float) -> None:
    low, high = sorted((less, more))
    stretch = [Stretch("source", "end", {"L1": 0.1 + 0.01j, "N": 0.1 + 0.01j})]
    at_low, at_high = (
        solve("source", SPLIT_PHASE, stretch, [Load("end", L1, amps, "current")]).drop("end", L1)
        for amps in (low, high)
    )
    assert at_low <= at_high + 1e-12


def test_deep_drop_is_still_solved() -> None:
    """More than half of the voltage lost in a reactive line: no use to anybody, but no collapse either."""
    ohms, amps = 1.2 + 0.1j, 28
    left = two_wire(ohms, Load("end", L1, amps, "current")).volts("end", L1)
    assert left == pytest.approx(math.sqrt(120**2 - (2 * amps * 0.1) ** 2) - 2 * amps * 1.2, abs=1e-6)


def test_collapse_is_said() -> None:
    """A constant power that the line cannot deliver, and a current that leaves no voltage."""
    with pytest.raises(VoltageCollapse):
        two_wire(1 + 0j, Load("end", L1, 3000, "power"))
    with pytest.raises(VoltageCollapse):
        two_wire(5 + 0j, Load("end", L1, 12.5, "current"))


@pytest.mark.parametrize(
    "stretches",
    [
        [Stretch("nowhere", "end", {"L1": 1j})],
        [Stretch("source", "end", {"L1": 1j}), Stretch("source", "end", {"N": 1j})],
        [Stretch("source", "middle", {"L1": 1j, "N": 1j}), Stretch("middle", "end", {"L2": 1j})],
        [Stretch("source", "source", {"L1": 1j})],
    ],
)
def test_what_is_no_tree(stretches: list[Stretch]) -> None:
    with pytest.raises(ValueError, match=r"not reached|fed twice|does not get"):
        solve("source", SPLIT_PHASE, stretches, [])


def test_load_without_its_wire() -> None:
    with pytest.raises(ValueError, match="do not both get there"):
        solve("source", SPLIT_PHASE, [Stretch("source", "end", {"L1": 1j, "N": 1j})], [Load("end", BOTH, 1, "current")])


def test_loads_at_the_source_lose_nothing() -> None:
    assert solve("source", SPLIT_PHASE, [], [Load("source", BOTH, 50, "current")]).drop("source", BOTH) == 0


def test_impedance_at_conductor_temperature() -> None:
    """100 ft of 12 AWG stranded copper: 0.198 ohm at 75 °C; colder wire has less, by 0.00323 per °C."""
    resistance = value("conductor-properties", "12", "stranded", "resistance Cu")
    reactance = value("ac-impedance", "12", "PVC", "reactance")
    hundred = Length.parse("100 ft")
    hot = impedance(resistance, reactance, hundred, "Cu")
    assert hot == pytest.approx(complex(0.198, 0.0054), abs=1e-12)
    cold = impedance(resistance, reactance, hundred, "Cu", 25)
    assert cold.real == pytest.approx(0.198 * (1 - 50 * 0.00323), rel=1e-3)
    assert cold.imag == hot.imag


def test_steel_raceway_adds_reactance() -> None:
    for size in ("12", "2", "4/0"):
        steel, plastic = (value("ac-impedance", size, raceway, "reactance") for raceway in ("steel", "PVC"))
        assert steel > plastic


def test_worst_drop_shows_its_way() -> None:
    wires = {"L1": 0.1 + 0j, "N": 0.1 + 0j}
    stretches = [Stretch("source", "panel", wires), Stretch("panel", "far", wires)]
    loads = [Load("panel", L1, 5, "current"), Load("far", L1, 5, "current")]
    worked = worst_drop("source", SPLIT_PHASE, stretches, loads)
    assert worked.value is not None
    assert worked.value.at == "far"
    assert worked.value.volts == pytest.approx(117)
    assert worked.steps == (
        "to panel: 10.00 A in L1, 10.00 A in N; 118.00 V L1-N",
        "to far: 5.00 A in L1, 5.00 A in N; 117.00 V L1-N",
        "117.00 V left at far, 2.50 % lost",
    )
    assert worst_drop("source", SPLIT_PHASE, stretches, []).value is None


def test_drops_at_every_outlet_worst_first() -> None:
    wires = {"L1": 0.1 + 0j, "N": 0.1 + 0j}
    stretches = [Stretch("source", "a", wires), Stretch("a", "b", wires), Stretch("b", "c", wires)]
    loads = [Load(at, L1, 4, "current") for at in "abc"]
    found = drops(solve("source", SPLIT_PHASE, stretches, loads), loads)
    assert [drop.at for drop in found] == ["c", "b", "a"]
    assert [120 - drop.volts for drop in found] == pytest.approx([4.8, 4.0, 2.4])


@UNHURRIED
@given(st.floats(1, 40), st.floats(0.005, 0.1), st.floats(0.1, 3), st.floats(0, 0.06), st.floats(0.6, 1))
def test_longest_length(amps: float, share: float, resistance: float, reactance: float, factor: float) -> None:
    """At the longest length the drop is the limit; a little more is over it."""

    def lost(feet: float) -> float:
        ohms = complex(resistance, reactance) * feet / 1000
        return two_wire(ohms, Load("end", L1, amps, "current", factor)).drop("end", L1)

    feet = longest_length(lost, share, 5000)
    if feet < 5000:
        assert lost(feet) == pytest.approx(share, abs=1e-6)
        assert lost(feet * 1.001) > share
    else:
        assert lost(5000) <= share


def test_longest_length_where_power_collapses() -> None:
    """Too long for any solution is too long for the limit."""

    def lost(feet: float) -> float:
        return two_wire(complex(2.0 * feet / 1000), Load("end", L1, 1200, "power")).drop("end", L1)

    assert 0 < longest_length(lost, 0.03, 1e5) < 100


@UNHURRIED
@given(st.floats(5, 40), st.floats(10, 400))
def test_smallest_wire(amps: float, feet: float) -> None:
    """The smallest wire within 3 percent holds it, and the next smaller one does not."""
    made = ("14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0")

    def lost(size: str) -> float:
        ohms = impedance(
            value("ac-impedance", size, "PVC", "resistance Cu"),
            value("ac-impedance", size, "PVC", "reactance"),
            Length.of(round(feet), "ft"),
            "Cu",
        )
        return two_wire(ohms, Load("end", L1, amps, "current")).drop("end", L1)

    size = smallest_wire(made, lost, 0.03)
    if size is None:
        assert lost(made[-1]) > 0.03
    else:
        assert lost(size) <= 0.03
        assert size == made[0] or lost(made[made.index(size) - 1]) > 0.03


def test_collapse_is_too_small_a_wire() -> None:
    """A wire with which there is no solution is passed over."""

    def lost(ohms: float) -> float:
        return two_wire(complex(ohms), Load("end", L1, 3000, "power")).drop("end", L1)

    assert smallest_wire((1.0, 0.5, 0.01), lost, 0.03) == 0.01
    assert smallest_wire((1.0,), lost, 0.03) is None
