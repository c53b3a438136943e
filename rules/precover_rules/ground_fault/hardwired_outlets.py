"""Ground-fault protection of fixed equipment outdoors."""

from precover.plan import Device, Equipment, Heater, Motor
from precover.rulebook import Answer, Look, Severity, Stage, does_not_apply, rule
from precover_rules.conditions import on_no_branch_circuit
from precover_rules.ground_fault.places import doubt_about, is_outdoors
from precover_rules.ground_fault.verdict import class_a_or_not

FIXED = Equipment | Motor | Heater


@rule(
    looks_at=FIXED,
    unless=on_no_branch_circuit,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("gfci-outdoor-outlet-hardwired",),
)
def protection_of_hardwired_equipment_outdoors(device: Equipment | Motor | Heater, look: Look) -> Answer:
    """Hard-wired equipment outdoors at a dwelling has class A ground-fault protection."""
    circuit = look.trace.circuit_of(device)
    if isinstance(device, Heater) and device.deicing:
        return does_not_apply("de-icing and pipe heating equipment has ground-fault rules of its own")
    if not is_outdoors(look.trace.box_of(device), look):
        return does_not_apply("indoors")
    if not look.stated(device.hardwired):
        return does_not_apply("it plugs in: its receptacle is what is looked at")
    if look.stated(circuit.breaker.rating) > look.limit("hardwired outdoor outlet circuit").value:
        return does_not_apply("on a larger circuit than the requirement covers")
    to_ground = look.limit("ground-fault protected circuit voltage to ground").value
    if look.stated(circuit.voltage).line_to_ground > to_ground.amount:
        return does_not_apply("above the voltage to ground that the requirement covers")
    excepted = look.limit("exception for listed HVAC equipment").value if _hvac(device) else "no"
    if excepted == "yes":
        return does_not_apply("listed heating, ventilating or air-conditioning equipment")
    look.because("hard-wired outdoors", look.trace.box_of(device).place)
    return class_a_or_not(device, look, lambda: _doubt(device, excepted, look))


def _hvac(device: Device) -> bool:
    return isinstance(device, Equipment) and bool(device.hvac)


def _doubt(device: Device, excepted: str, look: Look) -> str:
    """A review must not hang on the day it is made, so whether an exception has ended by then is left to people."""
    if excepted != "no":
        return f"the exception for listed HVAC equipment was written to hold {excepted}; ask whether it still does"
    return doubt_about(look.trace.structure_of(device), look)
