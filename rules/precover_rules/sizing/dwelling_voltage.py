"""The voltage of lights and small plug-in loads in a dwelling."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precover.plan import Circuit, Device, Equipment, Luminaire, Receptacle, Unstated
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Voltage
from precover_rules.another_circuit import on_another_circuit, to_one_hot
from precover_rules.circuit_conductors import carried_on
from precover_rules.conditions import low_voltage
from precover_rules.loads.drawn import amperes, voltage_and_hots
from precover_rules.loads.known import known
from precover_rules.protection import device_named
from precover_rules.sizing.own_circuit import outlets_on


@rule(
    looks_at=Circuit,
    unless=low_voltage,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("lighting-voltage-limit",),
)
def small_loads_in_a_dwelling(circuit: Circuit, look: Look) -> Answer:
    """Lights in a dwelling, and loads of up to 1440 VA that are plugged in there, are on 120 V."""
    held = [device for device in outlets_on(circuit, look) if _may_be_held(device, look)]
    if not held:
        return does_not_apply("no lights or plug-in loads in a dwelling")
    if "/" in look.stated(circuit.voltage).text:
        return does_not_apply("a circuit of two voltages: what is on 120 V of it is not on the plan")
    volts, _ = voltage_and_hots(circuit, look)
    most = look.limit("voltage of lights in a dwelling")
    has, needs, at = Voltage.of(volts, "V"), f"at most {most.text} in a dwelling", f"{circuit.place}/voltage"
    if has <= most.value:
        return met("voltage", has, needs, at=at)
    small = [device for device in held if _is_told_to_be_small(device, look)]
    small = small or [device for device in held if _is_small(device, look)]
    if not small:
        return does_not_apply("larger loads")
    of = f"voltage of {device_named(small[0], look)}"
    ways = (*_all_of_it(circuit, small, most.text, look), *on_another_circuit(small, look, volts=most.text))
    return not_met(of, has, needs, at=at, amend=ways)


def _may_be_held(device: Device, look: Look) -> bool:
    if not isinstance(device, Luminaire) and not (isinstance(device, Equipment) and device.hardwired is False):
        return False
    return look.trace.structure_of(device).use == "dwelling"


def _all_of_it(circuit: Circuit, small: list[Device], volts: str, look: Look) -> Iterator[Proposal]:
    """The whole circuit on the lower voltage, between one hot and a neutral, where nothing on it is made for the higher one,
    as far as the plan tells: lights, small loads that are plugged in, and receptacles for the lower one."""
    highest = look.limit("ground-fault receptacle on the market, voltage").value
    for outlet in outlets_on(circuit, look):
        if isinstance(outlet, Receptacle):
            if isinstance(outlet.voltage, Voltage) and outlet.voltage > highest:
                return
        elif outlet not in small:
            return
    patch: list[dict[str, Any]] = []
    for _, carried in carried_on(circuit, look):
        written = to_one_hot(carried)
        if written is None:
            return
        if carried.wires is not None:
            patch.append({"op": "add", "path": f"{carried.wires.place}", "value": written["wires"]})
    breaker = circuit.breaker
    if breaker.common_trip is True or breaker.common_trip is False:
        patch.append({"op": "remove", "path": f"{breaker.place}/common-trip"})
    if not isinstance(circuit.load, Unstated):
        # The same load draws as much more as the voltage is less.
        across, _ = voltage_and_hots(circuit, look)
        then = amperes(circuit.load.amount * across / Voltage.parse(volts).amount)
        patch.append({"op": "add", "path": f"{circuit.place}/load", "value": then.text})
    words = f"make {circuit.id} a {volts} circuit, with one hot and a neutral, behind a 1-pole breaker"
    changes = Proposal.state(
        words, Effort.WIRE, (circuit, "voltage", volts), (circuit, "multiwire", False), (breaker, "poles", 1)
    )
    yield changes._replace(patch=(*changes.patch, *patch))


def _is_told_to_be_small(device: Device, look: Look) -> bool:
    return not (isinstance(device, Equipment) and known(device.load, look) is None) and _is_small(device, look)


def _is_small(device: Device, look: Look) -> bool:
    if not isinstance(device, Equipment):
        return True
    amount = look.stated(device.load).amount
    return bool(amount <= look.limit("plugged-in load held to 120 V").value.amount)
