"""The network solution against OpenDSS, an independent power-flow engine of the electric power industry.

Each wire becomes a series reactor of its own, each leg of the supply an almost ideal source, each load OpenDSS's own
model of constant power, impedance or current.
"""

from __future__ import annotations

import math

import opendssdirect as dss
import pytest
from hypothesis import given, settings

from electrical.strategies import supplies
from precover.electrical.network import SPLIT_PHASE, Load, Stretch, solve

NODE = {"L1": 1, "L2": 2, "N": 3}
MODEL = {"power": 1, "impedance": 2, "current": 5}
STIFF = "R1=1e-7 X1=1e-7 R0=1e-7 X0=1e-7"


def by_opendss(stretches: list[Stretch], loads: list[Load]) -> dict[str, dict[str, complex]]:
    """Voltages to ground of every wire at every node, computed by OpenDSS."""
    run = dss.Text.Command
    run("Clear")
    run(f"New Circuit.supply phases=1 bus1=source.1.0 basekv=0.12 pu=1 angle=0 {STIFF}")
    run(f"New Vsource.second phases=1 bus1=source.2.0 basekv=0.12 pu=1 angle=180 {STIFF}")
    for n, stretch in enumerate(stretches):
        for wire, ohms in stretch.wires.items():
            start = "source.0" if (stretch.start, wire) == ("source", "N") else f"{stretch.start}.{NODE[wire]}"
            run(
                f"New Reactor.r{n}{wire} phases=1 bus1={start} bus2={stretch.end}.{NODE[wire]} "
                f"R={ohms.real:.12g} X={ohms.imag:.12g}"
            )
    for n, load in enumerate(loads):
        first, second = load.between
        volts = 240 if second == "L2" else 120
        apparent = {
            "power": load.amount,
            "current": load.amount * volts,
            "impedance": volts**2 / load.amount,
        }[load.draws]
        sign = 1 if load.lagging else -1
        run(
            f"New Load.d{n} phases=1 bus1={load.at}.{NODE[first]}.{NODE[second]} kV={volts / 1000} "
            f"kVA={apparent / 1000:.12g} pf={sign * load.power_factor:.12g} model={MODEL[load.draws]} "
            "vminpu=0.05 vlowpu=0.01 vmaxpu=2"
        )
    run("Set voltagebases=[0.208]")
    run("Set tolerance=1e-11 maxiterations=5000 maxcontroliter=100")
    run("Solve")
    assert dss.Solution.Converged()
    found: dict[str, dict[str, complex]] = {}
    wires = {number: wire for wire, number in NODE.items()}
    for name in dss.Circuit.AllBusNames():
        dss.Circuit.SetActiveBus(name)
        parts = dss.Bus.Voltages()
        found[name] = {
            wires[node]: complex(*parts[2 * n : 2 * n + 2]) for n, node in enumerate(dss.Bus.Nodes()) if node in wires
        }
    return found


def compare(stretches: list[Stretch], loads: list[Load]) -> None:
    """Every voltage of the two solutions within a millivolt."""
    ours = solve("source", SPLIT_PHASE, stretches, loads)
    theirs = by_opendss(stretches, loads)
    for stretch in stretches:
        for wire in stretch.wires:
            difference = ours.voltages[stretch.end][wire] - theirs[stretch.end][wire]
            assert abs(difference) < 1e-3, (stretch.end, wire, ours.voltages[stretch.end], theirs[stretch.end])


@settings(max_examples=100, deadline=None)
@given(supplies())
def test_random_supplies(supply: tuple[list[Stretch], list[Load]]) -> None:
    """Trees of two- and three-wire stretches with loads of all three kinds on either leg and across both."""
    compare(*supply)


def test_feeder_with_branches() -> None:
    """120 ft of 6 AWG in PVC to a panel, 20 A branches on either leg and a 240 V motor."""
    feeder = dict.fromkeys(("L1", "N", "L2"), complex(0.49, 0.051) * 0.12)
    branch = complex(2.0, 0.054) * 0.05
    stretches = [
        Stretch("source", "panel", feeder),
        Stretch("panel", "bench", {"L1": branch, "N": branch}),
        Stretch("bench", "far", {"L1": branch, "N": branch}),
        Stretch("panel", "saw", {"L1": branch, "L2": branch}),
        Stretch("panel", "lights", {"L2": branch, "N": branch}),
    ]
    loads = [
        Load("bench", ("L1", "N"), 8, "current"),
        Load("far", ("L1", "N"), 960, "power", 0.9),
        Load("saw", ("L1", "L2"), 2880, "power", 0.8),
        Load("lights", ("L2", "N"), 60, "impedance"),
    ]
    compare(stretches, loads)
    ours = solve("source", SPLIT_PHASE, stretches, loads)
    assert ours.amps("panel", "N") > 10
    assert ours.drop("far", ("L1", "N")) > 0.03


def test_neutral_carries_the_difference_only() -> None:
    """Equal loads on both legs leave the neutral without current, in both solutions."""
    ohms = dict.fromkeys(("L1", "N", "L2"), 0.1 + 0j)
    stretches = [Stretch("source", "panel", ohms)]
    loads = [Load("panel", ("L1", "N"), 10, "current"), Load("panel", ("L2", "N"), 10, "current")]
    assert math.isclose(solve("source", SPLIT_PHASE, stretches, loads).amps("panel", "N"), 0, abs_tol=1e-9)
    assert abs(by_opendss(stretches, loads)["panel"]["N"]) == pytest.approx(0, abs=1e-4)
