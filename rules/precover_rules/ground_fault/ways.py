"""Ways to give an outlet class A protection, each an edit of the plan."""

from collections.abc import Iterator
from typing import Any

from precover.plan import Circuit, Device, GroundFaultDevice, Receptacle, Unstated
from precover.plan.thing import Thing
from precover.rulebook import Effort, Look, Missing, Proposal
from precover_rules.circuit_conductors import hots
from precover_rules.protection import class_a_as_stated, device_named

_Change = tuple[Thing | Unstated, str, Any]


def ways_to_protect(device: Device, look: Look) -> tuple[Proposal, ...]:
    """From the load side of a class A device that is there, by a class A receptacle here, or by a class A breaker."""
    return (*_from_load_side(device, look), *_here(device, look), *at_the_breaker(device, look))


def at_the_breaker(device: Device, look: Look) -> Iterator[Proposal]:
    """A class A breaker for the device's circuit, if that has one that can be reached."""
    circuit = look.trace.circuit_of(device)
    panel = look.plan.panels.get(circuit.from_)
    if panel is None or circuit.breaker.readily_accessible is False or panel.readily_accessible is False:
        return
    two = _two_hots(circuit, look)
    yield Proposal.state(
        f"a {'2-pole ' if two else ''}class A ground-fault breaker for circuit {circuit.id}, where it can be reached",
        Effort.PART,
        (circuit.breaker, "ground-fault", "class A"),
        *(((circuit.breaker, "poles", 2), (circuit.breaker, "common-trip", True)) if two else ()),
        *_in_reach(circuit.breaker, circuit.breaker.readily_accessible),
    )


def _from_load_side(device: Device, look: Look) -> Iterator[Proposal]:
    box, circuit = look.trace.box_of(device), look.trace.circuit_of(device)
    if _two_hots(circuit, look):
        return  # a receptacle's load side carries one hot and its own neutral on
    for other in box.devices.values():
        if other.after == device.id or look.trace.circuit_of(other) is not circuit:
            continue
        if isinstance(other, Receptacle | GroundFaultDevice) and class_a_as_stated(other):
            yield Proposal.state(
                f"feed {device.id} from the load side of {other.id} in its box",
                Effort.PAPER,
                (device, "after", other.id),
            )
    for ahead in look.trace.protectors_of(device):
        if isinstance(ahead, Receptacle) and ahead.ground_fault is True:
            yield Proposal.state(
                f"feed what leaves the box from the load side of {device_named(ahead, look)}",
                Effort.PAPER,
                (ahead, "protects-downstream", True),
            )


def _two_hots(circuit: Circuit, look: Look) -> bool:
    """The plan says that it has two hots."""
    try:
        return hots(circuit, look) == 2
    except Missing:
        return False


def _here(device: Device, look: Look) -> Iterator[Proposal]:
    """A class A receptacle in place of a plain one, of a rating that is sold."""
    if not isinstance(device, Receptacle) or device.readily_accessible is False:
        return
    if device.receptacle > look.limit("ground-fault receptacle on the market, current").value:
        return
    if isinstance(device.voltage, Unstated):
        return
    if device.voltage > look.limit("ground-fault receptacle on the market, voltage").value:
        return
    yield Proposal.state(
        f"a class A ground-fault receptacle for {device.id}, where it can be reached",
        Effort.PART,
        (device, "ground-fault", True),
        *_in_reach(device, device.readily_accessible),
    )


def _in_reach(thing: Thing, stated: bool | Unstated) -> tuple[_Change, ...]:
    """The change that says it can be reached, unless the plan says so already."""
    return ((thing, "readily-accessible", True),) if isinstance(stated, Unstated) else ()
