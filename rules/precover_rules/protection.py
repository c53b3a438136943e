"""Ground-fault protection of people, worked out from what stands ahead.

A device is protected by itself (a receptacle), by the device in its box whose load side feeds it, by what its circuit
has passed on the way to its box, by the circuit's breaker, or by what the circuit's feeder has passed. The secondary of
a transformer is not protected by anything on the primary side.
"""

from collections.abc import Sequence

from precover.plan import Breaker, Device, GroundFaultDevice, Receptacle
from precover.rulebook import Look, Missing
from precover.tracing import Protector
from precover_rules.circuit_conductors import hots
from precover_rules.circuits import circuit_with
from precover_rules.loads.known import known

CLASS_A = "class A"


def class_a_among(protectors: Sequence[Protector], look: Look, device: Device | None = None) -> Protector | None:
    """The nearest of these that gives class A protection (for people) to what lies behind it, or None.

    `device` is the one to be protected, where it is one: a receptacle protects itself, and what is fed from its load
    side within the box, without feeding anything on. Protectors that the plan describes fully come first, so that an
    unstated one is asked for only where it can matter.
    """
    unsure: list[Protector] = []
    for protector in protectors:
        counts = _counts(protector, look, device)
        if counts:
            return protector
        if counts is None:
            unsure.append(protector)
    for protector in unsure:
        if _asked(protector, look, device):
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
    return _counts(protector, look, device) is True


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


def _counts(protector: Protector, look: Look, device: Device | None) -> bool | None:
    """Whether a protector gives class A protection to what lies behind it; None where the plan leaves that open."""
    if isinstance(protector, Breaker):
        return _is_class_a(known(protector.ground_fault, look))
    if isinstance(protector, GroundFaultDevice):
        return _is_class_a(known(protector.trip, look))
    own = known(protector.ground_fault, look)
    if own is False or _at_hand(protector, device, look):
        return own
    onward = known(protector.protects_downstream, look)
    if onward is False:
        return False
    passes = _one_hot_as_told(protector, look)
    return passes if passes is False or (own and onward) else None


def _asked(protector: Protector, look: Look, device: Device | None) -> bool:
    """The same, asking for what the plan leaves open."""
    if isinstance(protector, Breaker):
        return look.stated(protector.ground_fault) == CLASS_A
    if isinstance(protector, GroundFaultDevice):
        return look.stated(protector.trip) == CLASS_A
    if not look.stated(protector.ground_fault):
        return False
    return _at_hand(protector, device, look) or (
        look.stated(protector.protects_downstream) and _has_one_hot(protector, look)
    )


def _is_class_a(level: str | None) -> bool | None:
    return None if level is None else level == CLASS_A


def _has_one_hot(receptacle: Receptacle, look: Look) -> bool:
    """Its load side carries one hot and its neutral on, never a shared neutral."""
    return hots(look.trace.circuit_of(receptacle), look) == 1


def _one_hot_as_told(receptacle: Receptacle, look: Look) -> bool | None:
    try:
        return _has_one_hot(receptacle, look)
    except Missing:
        return None


def _at_hand(protector: Receptacle, device: Device | None, look: Look) -> bool:
    """It is the device itself, or feeds it from its load side: no other of its box is among its protectors."""
    return device is not None and look.trace.box_of(device) is look.trace.box_of(protector)
