"""The conductors and the breaker of motor circuits."""

from __future__ import annotations

from fractions import Fraction

from precover.electrical.motors import motor_circuit
from precover.electrical.overcurrent import next_rating
from precover.plan import Circuit, Motor, Receptacle
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import Current
from precover_rules.another_circuit import on_another_circuit
from precover_rules.loads.drawn import Part, device_load, voltage_and_hots
from precover_rules.loads.known import known
from precover_rules.loads.motors import full_load
from precover_rules.sizing.carrying import too_weak
from precover_rules.sizing.own_circuit import only_motor, outlets_on
from precover_rules.sizing.standard import ratings


def _no_motor(circuit: Circuit, look: Look) -> str:
    return "" if _motors(circuit, look) else "no branch circuit with a motor"


def _no_lone_motor(circuit: Circuit, look: Look) -> str:
    return "" if only_motor(circuit, look) is not None else "no branch circuit of one motor alone"


@rule(looks_at=Circuit, unless=_no_motor, severity=Severity.DANGER, stage=Stage.PLAN, rows=("motor-conductor-125",))
def wire_for_the_motors(circuit: Circuit, look: Look) -> Answer:
    """The conductors to motors carry 125 % of the largest motor's current, and all else that is on them."""
    motors = _motors(circuit, look)
    wanted = _with_its_start(_running(circuit, motors, look), circuit, motors, look)
    look.because(f"{', '.join(motor.id for motor in motors)}: {wanted} with 25 % more for the largest", circuit.place)
    weak = too_weak(circuit, wanted, "its motors", look)
    if weak is not None:
        return weak
    return met("ampacity", "enough on every route", f"at least {wanted} for its motors")


@rule(
    looks_at=Circuit,
    unless=(_no_motor, _no_lone_motor),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("motor-ocpd-max",),
)
def breaker_for_a_motor(circuit: Circuit, look: Look) -> Answer:
    """The breaker of a motor's own circuit is not above 250 % of the motor's current, or the next standard rating."""
    motor = only_motor(circuit, look)
    assert motor is not None  # noqa: S101 - its condition
    rating = look.stated(circuit.breaker.rating)
    volts, _ = voltage_and_hots(circuit, look)
    current = full_load(motor, volts, look)
    at = f"{circuit.breaker.place}/rating"
    if _is_small(current, rating, volts, look):
        return met("breaker", rating, f"a small motor of {current} on a general circuit", at=at)
    worked = motor_circuit(
        current, look.limit("motor conductor factor").value, look.limit("motor breaker factor").value, ratings(look)
    )
    look.because(worked.steps[-1], motor.place)
    most = worked.value.device
    if most is None or rating <= most:
        return met("breaker", rating, f"at most {most}", at=at)
    words = f"use a {most} breaker for {circuit.id}"
    way = Proposal.state(words, Effort.PART, (circuit.breaker, "rating", most.text))
    return not_met("breaker", rating, f"at most {most} for a motor of {current}", at=at, amend=(way,))


@rule(looks_at=Circuit, unless=_no_motor, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("motor-ocpd-max",))
def breaker_that_carries_the_motors(circuit: Circuit, look: Look) -> Answer:
    """The breaker of a circuit with motors is not below their current by table and that of all else wired on it."""
    motors = _motors(circuit, look)
    rating = look.stated(circuit.breaker.rating)
    running = _running(circuit, motors, look)
    at, needs = f"{circuit.breaker.place}/rating", f"at least {running}, and more for the start of a motor"
    if running <= rating:
        return met("breaker", rating, f"at least {running} for what runs on it", at=at)
    larger = next_rating(_with_its_start(running, circuit, motors, look), ratings(look))
    ways: list[Proposal] = []
    if larger is not None and only_motor(circuit, look) is not None:
        words = f"use a {larger} breaker for {circuit.id}"
        ways.append(Proposal.state(words, Effort.PART, (circuit.breaker, "rating", larger.text)))
    ways += _apart(circuit, motors, running, rating, look)
    return not_met("breaker", rating, needs, at=at, amend=tuple(ways))


@inspection(looks_at=Motor, stage=Stage.FINAL, rows=("motor-ocpd-max",))
def overload_protection(motor: Motor, _look: Look) -> str | None:
    """A motor's breaker does not protect it against overload."""
    if motor.hardwired is False:
        return None
    return f"{motor.id}: overload protection in the motor or its controller, set for the current on the nameplate."


def _motors(circuit: Circuit, look: Look) -> list[Motor]:
    if circuit.kind != "branch circuit":
        return []
    return [outlet for outlet in outlets_on(circuit, look) if isinstance(outlet, Motor)]


def _apart(
    circuit: Circuit, motors: list[Motor], running: Current, rating: Current, look: Look
) -> tuple[Proposal, ...]:
    """The largest motor on another circuit, where that leaves no more than the breaker carries, and it is no more by itself."""
    volts, _ = voltage_and_hots(circuit, look)
    motor = max(motors, key=lambda one: full_load(one, volts, look).amount)
    alone = full_load(motor, volts, look)
    return (
        on_another_circuit([motor], look) if alone <= rating and running.amount - alone.amount <= rating.amount else ()
    )


def _with_its_start(running: Current, circuit: Circuit, motors: list[Motor], look: Look) -> Current:
    """What runs on the circuit, and a quarter more for its largest motor."""
    volts, _ = voltage_and_hots(circuit, look)
    largest = max(full_load(motor, volts, look).amount for motor in motors)
    more = look.limit("motor conductor factor").value - 1
    return Current.of(running.amount + largest * more, "A")


def _running(circuit: Circuit, motors: list[Motor], look: Look) -> Current:
    """What the motors draw by table, and all else that is wired on their circuit or planned for it, its long-running part
    at 125 %."""
    volts, _ = voltage_and_hots(circuit, look)
    currents = sum((full_load(motor, volts, look).amount for motor in motors), Fraction(0))
    others = [outlet for outlet in outlets_on(circuit, look) if not isinstance(outlet, Motor | Receptacle)]
    parts = [part for outlet in others if isinstance(part := device_load(outlet, volts, look, most=False), Part)]
    steady = look.limit("continuous load factor").value
    more = sum((part.va * (steady - 1) for part in parts if part.continuous), Fraction(0)) / volts
    drawn = currents + sum((part.va for part in parts), Fraction(0)) / volts
    planned = known(circuit.load, look)
    if planned is not None and planned.amount > drawn:
        look.because(f"planned for {planned}", f"{circuit.place}/load")
        drawn = planned.amount
    return Current.of(drawn + more, "A")


def _is_small(current: Current, rating: Current, volts: int, look: Look) -> bool:
    """Small motors may be on a general circuit, whatever 250 % of their current is (from memory)."""
    low = volts <= look.limit("voltage of lights in a dwelling").value.amount
    circuit = look.limit(f"circuit of small motors {'at' if low else 'above'} 120 V")
    return bool(current <= look.limit("motor on a general circuit").value and rating <= circuit.value)
