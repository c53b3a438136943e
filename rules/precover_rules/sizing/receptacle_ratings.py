"""Receptacles against the rating of their circuit, and what is plugged in."""

from __future__ import annotations

from collections.abc import Iterable

from precover.electrical.bands import band
from precover.plan import Circuit, Equipment, Receptacle
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Current, SupplyVoltage, Voltage
from precover_rules.another_circuit import on_another_circuit
from precover_rules.circuit_conductors import uses_neutral
from precover_rules.circuits import devices_on
from precover_rules.conditions import on_no_branch_circuit
from precover_rules.loads.drawn import voltage_and_hots
from precover_rules.sizing.small_wire import breaker_is_too_large
from precover_rules.sizing.standard import is_single

TABLE = "receptacle-ratings"
VOLTAGES = "406.4(F) in 2017, 2020 and 2023 (from memory)"
SIZES = ("15 A", "20 A", "30 A", "50 A", "60 A")
"""Ratings that receptacles are made in (common practice); only proposals use it."""

MADE = ("125 V", "250 V")
"""Voltages that receptacles for single-phase circuits are made for; only proposals use it."""


@rule(
    looks_at=Receptacle,
    unless=on_no_branch_circuit,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("receptacle-rating-vs-circuit",),
)
def receptacle_for_its_circuit(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle has a rating that goes with its circuit's: not below it, save 15 A ones where several are on 20 A."""
    circuit = look.trace.circuit_of(receptacle)
    rating, has = look.stated(circuit.breaker.rating), receptacle.receptacle
    if has == rating:
        return met("receptacle", has, f"the {rating} of its circuit")
    if has < rating and breaker_is_too_large(circuit, rating, look):
        return does_not_apply("its breaker is too large for its wire: a finding of its own")
    if len(_receptacles(circuit, look)) == 1 and is_single(receptacle, look):
        needs = f"at least {rating}: the only receptacle on its circuit"
        if has > rating:
            return met("receptacle", has, needs)
        return not_met("receptacle", has, needs, amend=_ways(receptacle, circuit, rating))
    row = _row(rating, look)
    if row is None:
        return does_not_apply("a circuit larger than receptacles share")
    least, most = (look.cell(TABLE, row, bound) for bound in ("least", "most"))
    allowed = least.text if least.value == most.value else f"{least.text} to {most.text}"
    needs = f"{allowed} on a circuit of {rating}"
    if least.value <= has <= most.value:
        return met("receptacle", has, needs)
    return not_met("receptacle", has, needs, amend=_ways(receptacle, circuit, most.value))


@rule(
    looks_at=Receptacle,
    unless=on_no_branch_circuit,
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    look_up=VOLTAGES,
    hazard="fire",
)
def receptacle_not_below_the_voltage(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle is not made for less than the voltage of its circuit, which would be on whatever is plugged in."""
    circuit = look.trace.circuit_of(receptacle)
    volts = look.stated(circuit.voltage)
    # With a neutral and two hots either voltage can be taken from it.
    least = volts.line_to_ground if uses_neutral(circuit, look) else volts.line_to_line
    return _for_voltage(receptacle, volts, look.stated(receptacle.voltage).in_unit("V") >= least, look)


@rule(
    looks_at=Receptacle,
    unless=on_no_branch_circuit,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    look_up=VOLTAGES,
    hazard="fire",
)
def receptacle_not_above_the_voltage(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle is not made for twice the voltage of its circuit: nothing that fits in it would run."""
    circuit = look.trace.circuit_of(receptacle)
    volts = look.stated(circuit.voltage)
    return _for_voltage(receptacle, volts, look.stated(receptacle.voltage).in_unit("V") < 2 * volts.line_to_line, look)


@rule(
    looks_at=Equipment,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("load-vs-receptacle-rating", "permissible-loads"),
)
def load_plugged_into_a_shared_circuit(equipment: Equipment, look: Look) -> Answer:
    """One load plugged into a circuit with several receptacles takes no more than 80 % of receptacle and circuit."""
    circuit = look.trace.circuit_of(equipment)
    if equipment.hardwired is not False or circuit.kind != "branch circuit":
        return does_not_apply("not plugged into a branch circuit")
    receptacles = _receptacles(circuit, look)
    if len(receptacles) < 2:
        return does_not_apply("one receptacle: a circuit of its own")
    box = look.trace.box_of(equipment)
    beside = [other for other in receptacles if look.trace.box_of(other) is box]
    smallest = min([*(other.receptacle for other in beside), look.stated(circuit.breaker.rating)])
    share = look.limit("one plugged-in load")
    volts, _ = voltage_and_hots(circuit, look)
    has = Current.of(look.stated(equipment.load).amount / volts, "A")
    needs = f"at most {Current.of(smallest.amount * share.value, 'A')}, {share.text} of {smallest}"
    if has.amount <= smallest.amount * share.value:
        return met("load", has, needs)

    def has_none(other: Circuit) -> bool:
        return not _receptacles(other, look)

    ways = on_another_circuit([equipment, beside[0]], look, suits=has_none) if beside else ()
    return not_met("load", has, needs, amend=ways)


def _for_voltage(receptacle: Receptacle, volts: SupplyVoltage, ok: bool, look: Look) -> Answer:
    has, needs, at = look.stated(receptacle.voltage), f"for {volts}", f"{receptacle.place}/voltage"
    if ok:
        return met("receptacle", has, needs, at=at)
    made = [text for text in MADE if volts.line_to_line <= Voltage.parse(text).in_unit("V") < 2 * volts.line_to_line]
    ways = [Proposal.state(f"use a {text} receptacle", Effort.PART, (receptacle, "voltage", text)) for text in made]
    return not_met("receptacle", has, needs, at=at, amend=tuple(ways))


def _receptacles(circuit: Circuit, look: Look) -> list[Receptacle]:
    return [device for device in devices_on(circuit, look) if isinstance(device, Receptacle)]


def _row(rating: Current, look: Look) -> str | None:
    """The row of the smallest circuit in the table that is not smaller."""
    return band(rating, look.arranged(TABLE, _rows))


def _rows(keys: Iterable[tuple[str, ...]]) -> tuple[tuple[Current, str], ...]:
    return tuple((Current.parse(row), row) for row, _ in keys)


def _ways(receptacle: Receptacle, circuit: Circuit, rating: Current) -> tuple[Proposal, ...]:
    ways: list[Proposal] = []
    made = next((text for text in SIZES if Current.parse(text) >= rating), None)
    if made is not None:
        ways.append(Proposal.state(f"use a {made} receptacle", Effort.PART, (receptacle, "receptacle", made)))
    if receptacle.receptacle < rating:
        smaller = receptacle.receptacle
        words = f"use a {smaller} breaker for {circuit.id}"
        ways.append(Proposal.state(words, Effort.PART, (circuit.breaker, "rating", smaller.text)))
    return tuple(ways)
