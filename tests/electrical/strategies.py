"""Random supplies for the properties of the network solution."""

from __future__ import annotations

from hypothesis import strategies as st

from precover.electrical.network import Load, Stretch

PAIRS = (("L1", "N"), ("L2", "N"), ("L1", "L2"))


@st.composite
def supplies(draw: st.DrawFn, *, reactive: bool = True) -> tuple[list[Stretch], list[Load]]:
    """A 120/240 V tree with two to six stretches, each of them complete or short of a wire, and one to six loads that
    are small enough to be served."""
    stretches: list[Stretch] = []
    reached = {"source": {"L1", "N", "L2"}}
    for n in range(draw(st.integers(1, 6))):
        start = draw(st.sampled_from(sorted(reached)))
        wires = reached[start]
        if len(wires) == 3 and draw(st.booleans()):
            wires = set(draw(st.sampled_from(PAIRS)))
        ohms = {
            wire: complex(draw(st.floats(0.001, 0.15)), draw(st.floats(0.0001, 0.02)) if reactive else 0.0)
            for wire in sorted(wires)
        }
        reached[f"node{n}"] = wires
        stretches.append(Stretch(start, f"node{n}", ohms))
    loads = []
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.sampled_from([stretch.end for stretch in stretches]))
        pairs = [pair for pair in PAIRS if set(pair) <= reached[at]]
        between = draw(st.sampled_from(pairs))
        draws = draw(st.sampled_from(("current", "power", "impedance")))
        amps = draw(st.floats(0.5, 12))
        volts = 240 if between == ("L1", "L2") else 120
        amount = {"current": amps, "power": amps * volts, "impedance": volts / amps}[draws]
        factor = draw(st.floats(0.6, 1)) if reactive else 1.0
        loads.append(Load(at, between, amount, draws, factor, lagging=draw(st.booleans())))
    return stretches, loads
