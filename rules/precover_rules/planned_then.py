"""What circuits are planned for when devices have gone from one to another."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from precover.plan import Circuit, Device, Unstated
from precover.rulebook import Look
from precover.rulebook.look import Missing
from precover.units import Current
from precover_rules.loads.drawn import Part, amperes, device_load
from precover_rules.sizing.own_circuit import PASSES_CURRENT


def planned_with(circuit: Circuit, devices: Iterable[Device], look: Look) -> Current | None:
    """What a circuit that has a planned load is planned for with devices more; None where the plan does not tell."""
    more, all_known = _drawn(devices, circuit, look)
    if isinstance(circuit.load, Unstated) or not all_known:
        return None
    return amperes(circuit.load.amount + more)


def planned_without(
    circuit: Circuit, gone: Iterable[Device], left: Iterable[Device], look: Look
) -> list[dict[str, Any]]:
    """The edit of what a circuit is planned for, where it states that, when devices have gone: less by what they draw, or no
    longer stated where that is not known, or leaves less than what is left draws."""
    if isinstance(circuit.load, Unstated):
        return []
    path = f"{circuit.place}/load"
    less, all_known = _drawn(gone, circuit, look)
    still, _ = _drawn(left, circuit, look)
    rest = circuit.load.amount - less
    if not all_known or rest <= 0 or rest < still:
        return [{"op": "remove", "path": path}]
    return [{"op": "add", "path": path, "value": amperes(rest).text}]


def _drawn(devices: Iterable[Device], circuit: Circuit, look: Look) -> tuple[Fraction, bool]:
    """The amperes that devices are known to draw in each hot of a circuit of one voltage, and whether that is all."""
    voltage = circuit.voltage
    if isinstance(voltage, Unstated) or "/" in voltage.text or circuit.multiwire is True:
        return Fraction(0), False
    amps, all_known = Fraction(0), True
    for device in devices:
        if isinstance(device, PASSES_CURRENT):
            continue
        try:
            part = device_load(device, voltage.line_to_line, look, most=True)
        except Missing:
            part = None
        if isinstance(part, Part):
            amps += part.va / voltage.line_to_line
        else:
            all_known = False
    return amps, all_known
