"""The neutral of a feeder."""

from fractions import Fraction

from precover.plan import Carried, Circuit
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import ConductorSize, Current, plain
from precover_rules.circuit_conductors import carried_on, has_neutral, hot_wire
from precover_rules.grounding.bringing_a_ground import least_ground
from precover_rules.loads.calculated import drawn_from, placed
from precover_rules.loads.drawn import Drawn, amperes
from precover_rules.loads.known import known
from precover_rules.worst import worst

AMPACITY = "ampacity"
COLUMNS = ("60 °C", "75 °C")
"""Columns for terminals that are not marked, and for such as are marked 75 °C."""


def _no_new_feeder(circuit: Circuit, _look: Look) -> str:
    return "" if circuit.kind == "feeder" and circuit.existing is not True else "no new feeder"


@rule(
    looks_at=Circuit,
    unless=_no_new_feeder,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("feeder-neutral-size",),
)
def neutral_of_a_feeder(feeder: Circuit, look: Look) -> Answer:
    """The neutral of a feeder carries the largest unbalance of its load, and is not smaller than its grounding conductor."""
    parts = [
        (carried, *wire)
        for _, carried in carried_on(feeder, look)
        if has_neutral(feeder, carried, look) and (wire := neutral_wire(carried, look)) is not None
    ]
    if not parts:
        return does_not_apply("no neutral goes with it")
    return worst([_large_enough(feeder, carried, size, metal, look) for carried, size, metal in parts])


@inspection(looks_at=Circuit, stage=Stage.ENERGIZE, rows=("load-balance-advice",))
def load_is_spread(feeder: Circuit, look: Look) -> str | None:
    """Line-to-neutral circuits of a panel are spread over its legs."""
    panel = look.trace.panel_fed_by(feeder) if feeder.kind == "feeder" else None
    if panel is None:
        return None
    drawn = [one for one in drawn_from(panel, look, most=True) if one.hots == 1]
    if len(drawn) < 2:
        return None
    legs: dict[str, list[str]] = {"L1": [], "L2": []}
    for one, leg in placed(drawn, look):
        legs[leg].append(one.circuit.id)
    if not legs["L1"] or not legs["L2"]:
        return f"Spread over both legs of {panel.id}, not as planned on one: {', '.join((*legs['L1'], *legs['L2']))}."
    return f"Spread over both legs of {panel.id}: {', '.join(legs['L1'])} on one, {', '.join(legs['L2'])} on the other."


def neutral_wire(carried: Carried, look: Look) -> tuple[ConductorSize, str] | None:
    """Size and metal of a neutral: of its own wire, or the last insulated conductor of a cable."""
    if carried.wires is not None:
        neutral = carried.wires.neutral
        return None if neutral is None else (neutral.size, neutral.material)
    cable = look.stated(carried.cable)
    return cable.insulated[-1], cable.material


def _large_enough(feeder: Circuit, carried: Carried, size: ConductorSize, metal: str, look: Look) -> Answer:
    of, has = "neutral of the feeder", f"{size} {metal}"
    at = f"{carried.place}/{'cable' if carried.wires is None else 'wires/neutral'}"
    hot, hot_metal, _ = hot_wire(carried, look)
    if (size, metal) == (hot, hot_metal):
        return met(of, has, "as large as the hots, or as the unbalance asks for", at=at)
    rating = look.stated(feeder.breaker.rating)
    ground = least_ground(rating, metal, look)
    amend = _as_the_hot(carried, look)
    if ground is not None and size < ground.value:
        return not_met(of, has, f"at least {ground.value} {metal}, as the grounding conductor", at=at, amend=amend)
    return _for_the_unbalance(feeder, rating, size, metal, look, at, amend)


def _for_the_unbalance(
    feeder: Circuit, rating: Current, size: ConductorSize, metal: str, look: Look, at: str, amend: tuple[Proposal, ...]
) -> Answer:
    panel = look.trace.panel_fed_by(feeder)
    if panel is None:
        return does_not_apply("it ends in no panel")
    low, high = (look.cell(AMPACITY, metal, size.designation, column).value for column in COLUMNS)
    of, has = "neutral of the feeder", f"{size} {metal}, {low}"
    least, most, unplaced = _unbalance(drawn_from(panel, look, most=True), look)
    if min(most, rating.amount) > low.amount:
        drawn = drawn_from(panel, look, most=False)
        least, most, unplaced = _unbalance(drawn, look)
        for one in unplaced:
            if least <= low.amount < most or least <= high.amount < most:
                look.stated(one.circuit.leg)
    unbalance = min(most if least <= high.amount else least, rating.amount)
    look.because(f"unbalance: up to {plain(unbalance)} A", panel.place)
    needs = f"at least {amperes(unbalance)}, the unbalance"
    if unbalance <= low.amount:
        return met(of, has, needs, at=at)
    if unbalance > high.amount:
        return not_met(of, has, needs, at=at, amend=amend)
    why = f"between terminals marked 75 °C it carries {high}; the authority looks at their marking"
    return authority_decides(of, has, needs, why=why, at=at, amend=amend)


def _unbalance(drawn: list[Drawn], look: Look) -> tuple[Fraction, Fraction, list[Drawn]]:
    """The least and the most that the neutral may carry, in amperes, and the circuits whose leg makes the difference.

    A circuit with both voltages or a shared neutral is counted whole on either leg.
    """
    legs = {"L1": Fraction(0), "L2": Fraction(0)}
    both = Fraction(0)
    unplaced: list[Drawn] = []
    for one in drawn:
        leg = known(one.circuit.leg, look)
        if one.hots == 1 and leg is not None:
            legs[leg] += one.va / one.volts
        elif one.hots == 1:
            unplaced.append(one)
        elif _has_neutral(one.circuit, look):
            both += one.va / one.volts
    rest = [one.va / one.volts for one in unplaced]
    most = max(legs.values()) + sum(rest, Fraction(0)) + both
    for amps in sorted(rest, reverse=True):
        legs[min(legs, key=lambda leg: legs[leg])] += amps
    return max(legs.values()) + both, most, unplaced


def _has_neutral(circuit: Circuit, look: Look) -> bool:
    return any(has_neutral(circuit, carried, look) for _, carried in carried_on(circuit, look))


def _as_the_hot(carried: Carried, look: Look) -> tuple[Proposal, ...]:
    if carried.wires is None:
        cable = look.stated(carried.cable)
        sizes = [cable.size] * len(cable.insulated) + ([cable.ground] if cable.ground is not None else [])
        text = f"{cable.type} {'-'.join(size.designation for size in sizes)} {cable.material}"
        return (
            Proposal.state(f"use {text}, with a neutral as large as the hots", Effort.WIRE, (carried, "cable", text)),
        )
    if carried.wires.neutral is None:
        return ()
    hot = look.stated(carried.wires.hot)
    text = f"{hot.size} {hot.material} {carried.wires.neutral.insulation}"
    return (Proposal.state(f"pull a neutral of {hot.size}", Effort.WIRE, (carried.wires, "neutral", text)),)
