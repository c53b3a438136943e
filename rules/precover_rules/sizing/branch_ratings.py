"""What may be on a branch circuit of a rating."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from precover.plan import Circuit, Device, Equipment, Heater, Luminaire, Motor, Receptacle
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Current, plain
from precover_rules.another_circuit import on_another_circuit
from precover_rules.conditions import no_branch_circuit
from precover_rules.loads.drawn import voltage_and_hots
from precover_rules.loads.motors import full_load
from precover_rules.sizing.own_circuit import outlets_on
from precover_rules.sizing.small_wire import breaker_is_too_large

TABLE = "branch-circuit-ratings"
TOO_LARGE = "its breaker is too large for its wire: a finding of its own"


def _no_outlets(circuit: Circuit, look: Look) -> str:
    return "" if outlets_on(circuit, look) else "no outlets on it"


def _no_lights(circuit: Circuit, look: Look) -> str:
    return "" if any(isinstance(outlet, Luminaire) for outlet in outlets_on(circuit, look)) else "no lights on it"


def _none_fixed_beside(circuit: Circuit, look: Look) -> str:
    others = any(isinstance(outlet, Luminaire | Receptacle) for outlet in outlets_on(circuit, look))
    return "" if _fixed(circuit, look) and others else "no fixed equipment beside lights or receptacles"


def _fixed(circuit: Circuit, look: Look) -> list[Equipment | Heater | Motor]:
    return [
        outlet
        for outlet in outlets_on(circuit, look)
        if isinstance(outlet, Equipment | Heater | Motor) and outlet.hardwired is not False
    ]


@rule(
    looks_at=Circuit,
    unless=(no_branch_circuit, _no_outlets),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("branch-rating-kinds",),
)
def rating_of_a_branch_circuit(circuit: Circuit, look: Look) -> Answer:
    """A branch circuit with several outlets has one of the ratings made for that, a 10 A one no receptacles."""
    outlets = outlets_on(circuit, look)
    rating = look.stated(circuit.breaker.rating)
    if breaker_is_too_large(circuit, rating, look):
        return does_not_apply(TOO_LARGE)
    at = f"{circuit.breaker.place}/rating"
    key = f"{plain(rating.amount)} A"
    receptacles = any(isinstance(outlet, Receptacle) for outlet in outlets)
    if look.has(TABLE, key):
        if _may_be_for(key, receptacles, look):
            return met("rating", rating, "one for several outlets", at=at)
        known = [other for (other,) in look.keys(TABLE)]
        needs = "no receptacles on a circuit of this rating"
        return not_met("rating", rating, needs, at=at, amend=_breaker(circuit, known[known.index(key) + 1]))
    if len(outlets) == 1:
        return does_not_apply("one outlet: any rating that its load is made for")
    known = [other for (other,) in look.keys(TABLE)]
    fit = [other for other in known if _may_be_for(other, receptacles, look)]
    lower = [other for other in fit if Current.parse(other) < rating]
    higher = [other for other in fit if Current.parse(other) > rating]
    ways = [way for other in (*lower[-1:], *higher[:1]) for way in _breaker(circuit, other)]
    return not_met("rating", rating, f"one of {', '.join(known)}", at=at, amend=tuple(ways))


@rule(
    looks_at=Circuit,
    unless=(no_branch_circuit, _no_lights),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("permissible-loads",),
)
def lights_on_a_small_circuit(circuit: Circuit, look: Look) -> Answer:
    """Lights are on branch circuits of no more than 20 A."""
    rating, most = look.stated(circuit.breaker.rating), look.limit("lights on a branch circuit")
    if rating > most.value and breaker_is_too_large(circuit, rating, look):
        return does_not_apply(TOO_LARGE)
    needs, at = f"at most {most.text} where lights are on it", f"{circuit.breaker.place}/rating"
    if rating <= most.value:
        return met("rating", rating, needs, at=at)
    return not_met("rating", rating, needs, at=at, amend=_breaker(circuit, most.text))


@rule(
    looks_at=Circuit,
    unless=(no_branch_circuit, _none_fixed_beside),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("permissible-loads",),
)
def fixed_equipment_beside_other_outlets(circuit: Circuit, look: Look) -> Answer:
    """Equipment fastened in place takes no more than half of a circuit that feeds lights or receptacles as well."""
    fixed = _fixed(circuit, look)
    rating = look.stated(circuit.breaker.rating)
    if rating > look.limit("lights on a branch circuit").value:
        return does_not_apply("a larger circuit")
    volts, _ = voltage_and_hots(circuit, look)
    share = look.limit("fixed equipment beside other outlets")
    amps = [_amps(device, volts, look).amount for device in fixed]
    has, most = Current.of(sum(amps), "A"), Current.of(rating.amount * share.value, "A")
    look.because(f"{', '.join(device.id for device in fixed)} at {volts} V", circuit.place)
    needs = f"at most {most}, {share.text} of {rating}, beside lights or receptacles"
    if has <= most:
        return met("fixed equipment", has, needs, at=fixed[0].place)
    largest = look.limit("lights on a branch circuit")
    larger = rating < largest.value and has.amount <= largest.value.amount * share.value
    ways = (
        *(_breaker(circuit, largest.text) if larger else ()),
        *on_another_circuit(_too_much(fixed, amps, most.amount), look),
    )
    return not_met("fixed equipment", has, needs, at=fixed[0].place, amend=ways)


def _too_much(fixed: Sequence[Device], amps: Sequence[Fraction], most: Fraction) -> list[Device]:
    """The largest of them that have to go for the others to take no more than `most`, in amperes."""
    left, gone = sum(amps), []
    for device, drawn in sorted(zip(fixed, amps, strict=True), key=lambda pair: pair[1], reverse=True):
        if left > most:
            gone.append(device)
            left -= drawn
    return gone


def _may_be_for(rating: str, receptacles: bool, look: Look) -> bool:
    return not receptacles or bool(look.cell(TABLE, rating).value == "any outlets")


def _amps(device: Equipment | Heater | Motor, volts: int, look: Look) -> Current:
    if isinstance(device, Motor):
        return full_load(device, volts, look)
    power = device.heater if isinstance(device, Heater) else look.stated(device.load)
    return Current.of(power.amount / volts, "A")


def _breaker(circuit: Circuit, rating: str) -> tuple[Proposal, ...]:
    words = f"use a {rating} breaker for {circuit.id}"
    return (Proposal.state(words, Effort.PART, (circuit.breaker, "rating", rating)),)
