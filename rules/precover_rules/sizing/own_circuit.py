"""What takes current on a circuit, and circuits that one piece of equipment has to itself."""

from __future__ import annotations

from fractions import Fraction

from precover.plan import (
    Circuit,
    Device,
    DisconnectSwitch,
    Equipment,
    GroundFaultDevice,
    Heater,
    Motor,
    Receptacle,
    Switch,
    Unstated,
)
from precover.rulebook import Look, once
from precover.units import Current
from precover_rules.circuits import devices_on

PASSES_CURRENT = (Switch, DisconnectSwitch, GroundFaultDevice)


@once
def outlets_on(circuit: Circuit, look: Look) -> list[Device]:
    """The devices that take current, or from which it is taken."""
    return [device for device in devices_on(circuit, look) if not isinstance(device, PASSES_CURRENT)]


def only_motor(circuit: Circuit, look: Look) -> Motor | None:
    """The motor that has a circuit to itself."""
    outlets = outlets_on(circuit, look)
    return outlets[0] if len(outlets) == 1 and isinstance(outlets[0], Motor) else None


def only_conditioner(circuit: Circuit, look: Look) -> Equipment | None:
    """The listed air-conditioning equipment that has a circuit to itself."""
    outlets = outlets_on(circuit, look)
    only = outlets[0] if len(outlets) == 1 else None
    return only if isinstance(only, Equipment) and only.hvac else None


@once
def goes_by_its_equipment(circuit: Circuit, look: Look) -> bool:
    """Motor and air-conditioning circuits: their breaker guards against short circuits only, and may be larger than the
    conductors' ampacity, because the equipment is protected against overload by itself."""
    return only_motor(circuit, look) is not None or only_conditioner(circuit, look) is not None


def by_its_equipment(circuit: Circuit, look: Look) -> str:
    """A condition of rules: circuits that go by their equipment are not looked at."""
    return "a motor's or air conditioner's own circuit" if goes_by_its_equipment(circuit, look) else ""


def asks_for_more(circuit: Circuit, amps: Current, look: Look) -> bool:
    """What the plan has on a circuit is known to draw more than a current, or a receptacle for one appliance is rated above
    it: a breaker of that would not do."""
    common = look.limit("common receptacle current").value
    load, outlets = circuit.load, outlets_on(circuit, look)
    if isinstance(load, Current) and load > amps:
        return True
    if any(isinstance(outlet, Receptacle) and outlet.receptacle > max(amps, common) for outlet in outlets):
        return True
    heat = sum((outlet.heater.amount for outlet in outlets if isinstance(outlet, Heater)), Fraction(0))
    if not heat or isinstance(circuit.voltage, Unstated):
        return False
    across = circuit.voltage.line_to_line
    return bool(heat * look.limit("continuous load factor").value > amps.amount * across)
