"""The drop of a branch circuit and of a feeder, each alone."""

from fractions import Fraction

from precover.plan import Circuit
from precover.record import Record
from precover.rulebook import Look, once
from precover.units import plain
from precover_rules.circuit_conductors import hots
from precover_rules.loads.known import known
from precover_rules.voltage_drop.lost import Legs, Lost, bound, exact
from precover_rules.voltage_drop.running import ASSUMED, running_on
from precover_rules.voltage_drop.way import Piece, pieces

FIRST, SECOND, BOTH = ("L1", "N"), ("L2", "N"), ("L1", "L2")


class Drop(Record):
    """The drop of one circuit, with what it was worked out from. `assumed`: the load in amperes where the plan does not
    say what is planned for a branch circuit."""

    lost: Lost
    pieces: list[Piece]
    volts: dict[tuple[str, str], float]
    loads: dict[str, Legs]
    how: str
    assumed: float | None = None

    def exactly(self, look: Look) -> "Drop":
        """The same by the exact solution, with its steps noted."""
        phase = self.volts[FIRST] if FIRST in self.volts else self.volts[BOTH] / 2
        wires = {wire for legs in self.loads.values() for pair in legs for wire in pair}
        supply = {name: value for name, value in (("L1", phase), ("N", 0.0), ("L2", -phase)) if name in wires}
        lost, steps = exact(self.pieces, {name: complex(value) for name, value in supply.items()}, self.loads)
        for step in steps:
            look.because(step)
        return self._replace(lost=lost)

    def with_pieces(self, other: list[Piece]) -> float:
        """An upper bound of the share that is lost with other wires."""
        return bound(other, self.volts, self.loads).share


@once
def drop_of_branch(circuit: Circuit, look: Look) -> Drop | str:
    """An upper bound of the drop of a branch circuit; in words why there is none."""
    running = running_on(circuit, look)
    if running is None:
        return "nothing on it draws current"
    way = pieces(circuit, look)
    if isinstance(way, str):
        return way
    if not way:
        return "it goes nowhere"
    pair = BOTH if running.across_hots else FIRST
    if pair is FIRST and any(piece.neutral is None for piece in way):
        return "no neutral goes with it"
    volts = {pair: float(running.volts)}
    loads: dict[str, Legs] = {node: {pair: amps} for node, amps in running.at.items()}
    assumed = running.amps if running.assumed else None
    return Drop(bound(way, volts, loads), way, volts, loads, running.how, assumed)


@once
def drop_of_feeder(feeder: Circuit, look: Look) -> Drop | str:
    """An upper bound of the drop of a feeder: on its heavier leg, or between its legs; in words why there is none."""
    panel = look.trace.panel_fed_by(feeder)
    if panel is None or not look.trace.circuits_from(panel):
        return "nothing is planned behind it"
    way = pieces(feeder, look)
    if isinstance(way, str):
        return way
    two = hots(feeder, look) == 2
    one, other, across, how = _legs(feeder, look)
    voltage = look.stated(feeder.voltage)
    loads: dict[tuple[str, str], float] = {BOTH: across} if two and across else {}
    neutral = all(piece.neutral is not None for piece in way)
    if neutral:
        loads |= {FIRST: one, SECOND: other} if two else {FIRST: one + other + across}
    loads = {pair: amps for pair, amps in loads.items() if amps}
    if not loads:
        return "nothing behind it draws current"
    volts = {
        FIRST: float(voltage.line_to_ground),
        SECOND: float(voltage.line_to_ground),
        BOTH: float(voltage.line_to_line),
    }
    at: dict[str, Legs] = {panel.id: loads}
    return Drop(bound(way, volts, at), way, volts, at, how)


def _legs(feeder: Circuit, look: Look) -> tuple[float, float, float, str]:
    """The current from either leg to the neutral and across both legs of a feeder, and in words where it comes from.

    What runs on the circuits behind it, the largest first on the leg that carries less, but no more on the heavier leg
    than the assumed part of the breaker; or what is planned for the feeder, across both.
    """
    planned = known(feeder.load, look)
    if planned is not None:
        return 0.0, 0.0, float(planned.amount), f"planned for {planned}"
    legs, across = {"L1": 0.0, "L2": 0.0}, 0.0
    single: list[tuple[float, Circuit]] = []
    panel = look.trace.panel_fed_by(feeder)
    for circuit in look.trace.circuits_from(panel) if panel is not None else ():
        if circuit.kind == "feeder":
            one, other, both, _ = _legs(circuit, look)
            legs["L1"], legs["L2"], across = legs["L1"] + one, legs["L2"] + other, across + both
        elif circuit.kind == "branch circuit" and (running := running_on(circuit, look)) is not None:
            if running.across_hots:
                across += running.amps
            else:
                single.append((running.amps, circuit))
    for amps, circuit in sorted(single, key=lambda one: -one[0]):
        legs[known(circuit.leg, look) or min(legs, key=lambda leg: legs[leg])] += amps
    heavier = max(legs.values()) + across
    share, rating = look.limit(ASSUMED).value, look.stated(feeder.breaker.rating)
    most = float(rating.amount * share)
    if heavier <= most:
        return legs["L1"], legs["L2"], across, f"{heavier:.1f} A on its heavier leg, from the circuits behind it"
    part = most / heavier
    how = f"{plain(Fraction(rating.amount * share))} A assumed on its heavier leg, {plain(share * 100)} % of its {rating} breaker"
    return legs["L1"] * part, legs["L2"] * part, across * part, how
