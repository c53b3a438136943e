"""The voltage of lights and small plug-in loads in a dwelling."""

from __future__ import annotations

from precover.plan import Circuit, Device, Equipment, Luminaire
from precover.rulebook import Answer, Look, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Voltage
from precover_rules.conditions import low_voltage
from precover_rules.loads.drawn import voltage_and_hots
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
    small = next((device for device in held if _is_small(device, look)), None)
    if small is None:
        return does_not_apply("larger loads")
    return not_met(f"voltage of {device_named(small, look)}", has, needs, at=at)


def _may_be_held(device: Device, look: Look) -> bool:
    if not isinstance(device, Luminaire) and not (isinstance(device, Equipment) and device.hardwired is False):
        return False
    return look.trace.structure_of(device).use == "dwelling"


def _is_small(device: Device, look: Look) -> bool:
    if not isinstance(device, Equipment):
        return True
    amount = look.stated(device.load).amount
    return bool(amount <= look.limit("plugged-in load held to 120 V").value.amount)
