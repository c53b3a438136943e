"""A branch circuit's breaker and conductors against the load that is on it."""

from __future__ import annotations

from bisect import bisect_left
from fractions import Fraction

from precover.electrical.overcurrent import needed
from precover.plan import Circuit, Heater, Luminaire, Motor, Receptacle, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    met,
    not_met,
    once,
    rule,
)
from precover.units import Current
from precover_rules.loads.drawn import Part, device_load, voltage_and_hots
from precover_rules.loads.known import known
from precover_rules.sizing.ampacity import least_for
from precover_rules.sizing.carrying import too_weak
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.larger_ground import ground_with
from precover_rules.sizing.overcurrent import protects
from precover_rules.sizing.own_circuit import by_its_equipment, goes_by_its_equipment, outlets_on
from precover_rules.sizing.rewiring import rewired
from precover_rules.sizing.standard import ratings

NO_LOAD = "no load of its own is planned on it"


def no_load_of_its_own(circuit: Circuit, look: Look) -> str:
    """Only branch circuits are looked at that are planned for a load, or to which something is wired; those of motors and air
    conditioners go by their current, but an air conditioner's is still held to what it is planned for."""
    if circuit.kind != "branch circuit":
        return "no branch circuit"
    outlets = [outlet for outlet in outlets_on(circuit, look) if not isinstance(outlet, Receptacle)]
    planned = not isinstance(circuit.load, Unstated)
    if not outlets and not planned:
        return NO_LOAD
    own = goes_by_its_equipment(circuit, look) and not planned
    by_current = own or any(isinstance(outlet, Motor) for outlet in outlets)
    return "a motor or air conditioner is on it: looked at by its current" if by_current else ""


@rule(
    looks_at=Circuit,
    unless=no_load_of_its_own,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("continuous-load-125", "heater-continuous", "permissible-loads"),
)
def breaker_for_the_load(circuit: Circuit, look: Look) -> Answer:
    """The breaker of a branch circuit carries its lights, heaters and equipment, those that run for hours at 125 %, and all
    that it is planned for."""
    wanted = _wanted(circuit, look)
    if isinstance(wanted, Answer):
        return wanted
    rating = look.stated(circuit.breaker.rating)
    plain, full = wanted
    needs, at = f"at least {full} for its load", f"{circuit.breaker.place}/rating"
    if full <= rating:
        return met("breaker", rating, needs, at=at)
    rows = _rows(circuit, look) if full > plain or plain != known(circuit.load, look) else ()
    planned = ("permissible-loads",) if plain == known(circuit.load, look) else ()
    return not_met("breaker", rating, needs, at=at, amend=_ways(circuit, full, look)).citing(*planned, *rows)


@rule(
    looks_at=Circuit,
    unless=(no_load_of_its_own, by_its_equipment),
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    rows=("continuous-load-125", "heater-continuous"),
)
def wire_for_the_load(circuit: Circuit, look: Look) -> Answer:
    """The conductors of a branch circuit carry its load where they lie, and before any correction with its long-running
    part at 125 %."""
    wanted = _wanted(circuit, look)
    if isinstance(wanted, Answer):
        return wanted
    plain, full = wanted
    rating = look.stated(circuit.breaker.rating)
    if full > rating:
        return does_not_apply("its breaker is too small already")
    made = ratings(look)
    smaller = bisect_left(made, rating)
    if smaller == 0 or full <= made[smaller - 1]:
        return does_not_apply("its load is below the next smaller breaker: conductors sized for the breaker carry it")
    weak = too_weak(circuit, plain, "its load", look) or too_weak(circuit, full, "its load", look, corrected=False)
    if weak is not None:
        over = isinstance(weak.has, Current) and not protects(rating, weak.has, circuit, look)
        too_large = "its breaker is too large for its conductors already"
        return does_not_apply(too_large) if over else weak.citing(*_rows(circuit, look))
    return met("ampacity", "enough on every route", f"at least {full} for its load")


@once
def _wanted(circuit: Circuit, look: Look) -> tuple[Current, Current] | Answer:
    """The load, and the load with its continuous part at 125 %; an answer where there is none to speak of. What is planned
    counts where it is more than what is wired: of the rest of it nothing is known to be continuous."""
    wired = [] if goes_by_its_equipment(circuit, look) else outlets_on(circuit, look)
    outlets = [outlet for outlet in wired if not isinstance(outlet, Receptacle)]
    volts, _ = voltage_and_hots(circuit, look)
    parts = [part for outlet in outlets if isinstance(part := device_load(outlet, volts, look, most=False), Part)]
    planned = known(circuit.load, look)
    if not parts:
        if planned is None or not planned.amount:
            return does_not_apply(NO_LOAD)
        look.because(f"planned for {planned}", f"{circuit.place}/load")
        return planned, planned
    steady = Current.of(_sum(parts, continuous=True) / volts, "A")
    rest = Current.of(_sum(parts, continuous=False) / volts, "A")
    if planned is not None and planned.amount > steady.amount + rest.amount:
        look.because(f"planned for {planned}", f"{circuit.place}/load")
        rest = Current.of(planned.amount - steady.amount, "A")
        if not steady.amount:
            return planned, planned
    worked = needed(rest, steady, look.limit("continuous load factor").value)
    for step in worked.steps:
        look.because(step, circuit.place)
    return Current.of(steady.amount + rest.amount, "A"), worked.value


def _rows(circuit: Circuit, look: Look) -> tuple[str, ...]:
    """Continuous loads, and heating among them."""
    heats = any(isinstance(outlet, Heater) for outlet in outlets_on(circuit, look))
    return ("continuous-load-125", "heater-continuous") if heats else ("continuous-load-125",)


def _sum(parts: list[Part], *, continuous: bool) -> Fraction:
    return sum((part.va for part in parts if part.continuous is continuous), Fraction(0))


def _most(circuit: Circuit, look: Look) -> Current:
    """The largest rating that suits what is on a circuit: lights, and receptacles for whatever comes, are on small ones."""
    lights, common = look.limit("lights on a branch circuit").value, look.limit("common receptacle current").value
    outlets = outlets_on(circuit, look)
    held = [lights for outlet in outlets if isinstance(outlet, Luminaire)]
    held += [common for outlet in outlets if isinstance(outlet, Receptacle) and outlet.receptacle <= common]
    largest: Current = min((*held, ratings(look)[-1]))
    return largest


def _ways(circuit: Circuit, full: Current, look: Look) -> tuple[Proposal, ...]:
    larger = next((rating for rating in ratings(look) if rating >= full), None)
    if larger is None or larger > _most(circuit, look):
        return ()
    breaker = (circuit.breaker, "rating", larger.text)
    small = [part for part in laid_on(circuit, look) if isinstance(part, Laid)]
    sizes = [least_for(part, larger, look) for part in small]
    grown = [(part, size) for part, size in zip(small, sizes, strict=True) if size is not None and size > part.size]
    ways = [Proposal.state(f"use a {larger} breaker for {circuit.id}", Effort.PART, breaker)]
    grounds = [ground_with(part, size, larger, look) for part, size in grown]
    for wires in rewired([part for part, _ in grown], [size for _, size in grown], look, grounds):
        words = f"use a {larger} breaker for {circuit.id}, and {wires.words.removeprefix('use ')}"
        both = Proposal.state(words, Effort.WIRE, breaker)
        ways.append(both._replace(patch=(*both.patch, *wires.patch)))
    return tuple(ways)
