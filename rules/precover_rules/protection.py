"""Ground-fault protection of people, worked out from what stands ahead.

A device is protected by itself (a receptacle), by the device in its box whose load side feeds it, by what its circuit
has passed on the way to its box, by the circuit's breaker, or by what the circuit's feeder has passed. The secondary of
a transformer is not protected by anything on the primary side.
"""

from collections.abc import Callable, Iterator, Sequence

from precover.plan import Breaker, Device, GroundFaultDevice, Receptacle
from precover.rulebook import Look, Missing
from precover.tracing import Protector
from precover_rules.circuit_conductors import hots
from precover_rules.circuits import circuit_with

CLASS_A = "class A"

_Condition = Callable[[], bool]
"""One thing that must hold for a protector to count; raises Missing where the plan does not say."""


def class_a_among(protectors: Sequence[Protector], look: Look, device: Device | None = None) -> Protector | None:
    """The nearest of these that gives class A protection (for people) to what lies behind it, or None.

    `device` is the one to be protected, where it is one: a receptacle protects itself, and what is fed from its load
    side within the box, without feeding anything on. Protectors that the plan describes fully come first, so that an
    unstated one is asked for only where it can matter.
    """
    unsure: list[Protector] = []
    for protector in protectors:
        counts = _told_of_all(_conditions(protector, look, device))
        if counts:
            return protector
        if counts is None:
            unsure.append(protector)
    for protector in unsure:
        if all(condition() for condition in _conditions(protector, look, device)):
            return protector
    return None


def class_a_of(device: Device, look: Look) -> Protector | None:
    """What gives a device class A protection, or None."""
    return class_a_among(look.trace.protectors_of(device), look, device)


def class_a_as_stated(protector: Protector) -> bool:
    """The plan says that it is a class A device; what it leaves out is not taken for a yes."""
    if isinstance(protector, Breaker):
        return protector.ground_fault == CLASS_A
    if isinstance(protector, GroundFaultDevice):
        return protector.trip == CLASS_A
    return protector.ground_fault is True


def protects_as_stated(protector: Protector, device: Device, look: Look) -> bool:
    """The plan says all that it takes for one of `protectors_of(device)` to protect it."""
    return all(_told(condition) for condition in _conditions(protector, look, device))


def feeds_one_hot_of_two(protector: Protector, look: Look) -> bool:
    """A class A receptacle ahead on a circuit with two hots: its load side carries one of them, and trips if their
    neutral, which the other shares, is fed from it."""
    return (
        isinstance(protector, Receptacle)
        and class_a_as_stated(protector)
        and look.stated(protector.protects_downstream)
        and hots(look.trace.circuit_of(protector), look) == 2
    )


def named(protector: Protector, look: Look) -> str:
    """A protector as a person would point at it."""
    if isinstance(protector, Breaker):
        return f"the breaker of circuit {circuit_with(protector, look).id}"
    return device_named(protector, look)


def device_named(device: Device, look: Look) -> str:
    """A device with its box: `outlet in post-box`."""
    return f"{device.id} in {look.trace.box_of(device).id}"


def _conditions(protector: Protector, look: Look, device: Device | None) -> Iterator[_Condition]:
    if isinstance(protector, Breaker):
        yield lambda: look.stated(protector.ground_fault) == CLASS_A
    elif isinstance(protector, GroundFaultDevice):
        yield lambda: look.stated(protector.trip) == CLASS_A
    else:
        yield lambda: look.stated(protector.ground_fault)
        if not _at_hand(protector, device, look):
            yield lambda: look.stated(protector.protects_downstream)
            # A receptacle's load side carries one hot and its neutral on, never a shared neutral.
            yield lambda: hots(look.trace.circuit_of(protector), look) == 1


def _at_hand(protector: Receptacle, device: Device | None, look: Look) -> bool:
    """It is the device itself, or feeds it from its load side: no other of its box is among its protectors."""
    return device is not None and look.trace.box_of(device) is look.trace.box_of(protector)


def _told_of_all(conditions: Iterator[_Condition]) -> bool | None:
    """False where one of the conditions does not hold, else None where the plan leaves one of them open."""
    all_told: bool | None = True
    for condition in conditions:
        told = _told(condition)
        if told is False:
            return False
        if told is None:
            all_told = None
    return all_told


def _told(condition: _Condition) -> bool | None:
    """What the plan says of a condition; None where it leaves that open."""
    try:
        return condition()
    except Missing:
        return None
