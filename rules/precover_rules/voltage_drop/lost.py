"""What a circuit loses on its way: an upper bound that is quick to tell, and the exact solution."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from precover.electrical.network import Load, Stretch, VoltageCollapse
from precover.electrical.voltage_drop import worst_drop
from precover_rules.voltage_drop.way import Piece

Legs = Mapping[tuple[str, str], float]
"""Wires that a load is between -> its current."""

ALL = 1.0
"""The share that is lost where the loads ask for more than the wires can deliver."""


class Lost(NamedTuple):
    """The greatest drop: as a share of the voltage there, and where."""

    share: float
    at: str


def bound(pieces: Sequence[Piece], volts: Mapping[tuple[str, str], float], loads: Mapping[str, Legs]) -> Lost:
    """No less than the greatest drop: currents times impedances, summed as if all were in step."""
    flow: dict[str, dict[str, float]] = {piece.route.to: {} for piece in pieces}
    for node, legs in loads.items():
        for (first, second), amps in legs.items():
            here = flow.setdefault(node, {})
            signed = -amps if first == "L2" else amps  # the legs are opposite, and their currents cancel in the neutral
            here[first] = here.get(first, 0.0) + signed
            here[second] = here.get(second, 0.0) - signed
    for piece in reversed(pieces):
        ahead = flow.get(piece.route.from_)
        if ahead is not None:
            for wire, amps in flow[piece.route.to].items():
                ahead[wire] = ahead.get(wire, 0.0) + amps
    drops: dict[str, dict[str, float]] = {}
    worst = Lost(0.0, "")
    for piece in pieces:
        before = drops.get(piece.route.from_, {})
        hot, neutral = abs(piece.hot_ohms), abs(piece.neutral_ohms)
        drops[piece.route.to] = {
            wire: before.get(wire, 0.0) + abs(amps) * (neutral if wire == "N" else hot)
            for wire, amps in flow[piece.route.to].items()
        }
        for pair in loads.get(piece.route.to, {}):
            share = sum(drops[piece.route.to][wire] for wire in pair) / volts[pair]
            if share >= worst.share:
                worst = Lost(share, piece.route.to)
    return worst


def exact(
    pieces: Sequence[Piece], supply: Mapping[str, complex], loads: Mapping[str, Legs]
) -> tuple[Lost, tuple[str, ...]]:
    """The greatest drop by the exact solution, and its steps. Loads draw their current at unity power factor."""
    source = pieces[0].route.from_
    stretches = []
    for piece in pieces:
        wires = {wire: piece.neutral_ohms if wire == "N" else piece.hot_ohms for wire in supply}
        stretches.append(Stretch(piece.route.from_, piece.route.to, wires))
    at = [Load(node, pair, amps, "current") for node, legs in loads.items() for pair, amps in legs.items() if amps]
    try:
        worked = worst_drop(source, supply, stretches, at)
    except VoltageCollapse:
        farthest = pieces[-1].route.to
        return Lost(ALL, farthest), ("the loads ask for more than the wires can deliver",)
    if worked.value is None:
        return Lost(0.0, source), worked.steps
    return Lost(worked.value.share, worked.value.at), worked.steps
