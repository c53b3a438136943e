"""The devices that give ground-fault protection: within reach for their test, and tested."""

from collections.abc import Iterator

from precover.plan import (
    Breaker,
    Circuit,
    Device,
    DisconnectSwitch,
    GroundFaultDevice,
    Luminaire,
    Panel,
    Receptacle,
    Switch,
    Unstated,
)
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.tracing import Protector
from precover_rules.circuits import circuit_with, circuits_behind, devices_on
from precover_rules.ground_fault.ways import at_the_breaker
from precover_rules.protection import class_a_as_stated, device_named, named, protects_as_stated

CARRIES_ON = Switch | DisconnectSwitch | GroundFaultDevice
"""What a test of protection is not made at: nothing is used there."""

NEEDS = "within reach without a ladder and without moving things"


def _no_class_a_breaker(circuit: Circuit, _look: Look) -> str:
    return "" if class_a_as_stated(circuit.breaker) else "not said to be a class A breaker"


def _no_class_a_device(device: Receptacle | GroundFaultDevice, _look: Look) -> str:
    return "" if class_a_as_stated(device) else "not said to be a class A device"


@rule(
    looks_at=Receptacle | GroundFaultDevice,
    unless=_no_class_a_device,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("gfci-readily-accessible",),
)
def a_device_within_reach(device: Receptacle | GroundFaultDevice, look: Look) -> Answer:
    """A class A device can be reached for its test and reset."""
    if _another_within_reach(device, look):
        return does_not_apply("a class A device ahead, within reach, protects the same")
    if look.stated(device.readily_accessible):
        return met("place of the device", "within reach", NEEDS)
    move = Proposal.state(
        f"move {device.id} to where it can be reached", Effort.PART, (device, "readily-accessible", True)
    )
    return not_met("place of the device", "out of reach", NEEDS, amend=(*at_the_breaker(device, look), move))


@rule(
    looks_at=Circuit,
    unless=_no_class_a_breaker,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("gfci-readily-accessible",),
)
def a_breaker_within_reach(circuit: Circuit, look: Look) -> Answer:
    """A class A breaker can be reached for its test and reset."""
    panel = look.plan.panels.get(circuit.from_)
    if panel is not None and panel.readily_accessible is False:
        move = Proposal.state(
            f"move the panel {panel.id} to where it can be reached", Effort.WIRE, (panel, "readily-accessible", True)
        )
        return not_met("place of the breaker", "in a panel out of reach", NEEDS, amend=(move,))
    if _breaker_within_reach(circuit, panel, look):
        return met("place of the breaker", "within reach", NEEDS)
    move = Proposal.state(
        "move the breaker to a panel that can be reached", Effort.WIRE, (circuit.breaker, "readily-accessible", True)
    )
    return not_met("place of the breaker", "out of reach", NEEDS, amend=(move,))


@inspection(
    looks_at=Circuit,
    stage=Stage.FINAL,
    rows=("gfci-listed-class-a", "gfci-upstream-position", "gfci-readily-accessible"),
)
def test_of_a_breaker(circuit: Circuit, look: Look) -> str | None:
    """A class A breaker, with what must go dead."""
    return _test(circuit.breaker, look) if class_a_as_stated(circuit.breaker) else None


@inspection(
    looks_at=Device,
    stage=Stage.FINAL,
    rows=("gfci-listed-class-a", "gfci-upstream-position", "gfci-readily-accessible"),
)
def test_of_a_device(device: Device, look: Look) -> str | None:
    """A class A device in a box, with what must go dead."""
    if not isinstance(device, Receptacle | GroundFaultDevice) or not class_a_as_stated(device):
        return None
    return _test(device, look)


def _breaker_within_reach(circuit: Circuit, panel: Panel | None, look: Look) -> bool:
    """What the panel says holds for its breakers, unless the breaker says otherwise."""
    own = circuit.breaker.readily_accessible
    if isinstance(own, Unstated) and panel is not None and panel.readily_accessible is True:
        return True
    return look.stated(own)


def _another_within_reach(device: Device, look: Look) -> bool:
    return any(
        other is not device and other.readily_accessible is True and protects_as_stated(other, device, look)
        for other in look.trace.protectors_of(device)
    )


def _test(protector: Protector, look: Look) -> str:
    behind = list(_behind(protector, look))
    dead = [device_named(device, look) for device in behind if not isinstance(device, CARRIES_ON | Luminaire)]
    lights = [device_named(device, look) for device in behind if isinstance(device, Luminaire)]
    says = f"Class A at {named(protector, look)}: press its test button and see that it trips and resets."
    if dead:
        says += f" While it is tripped, these are dead: {', '.join(dead)}."
    if lights:
        says += f" These lights go out with it: {', '.join(lights)}."
    return says


def _behind(protector: Protector, look: Look) -> Iterator[Device]:
    """What a protector protects, by all that the plan says; itself left out."""
    if isinstance(protector, Breaker):
        circuits = circuits_behind(circuit_with(protector, look), look)
    else:
        circuits = iter((look.trace.circuit_of(protector),))
    for circuit in circuits:
        for device in devices_on(circuit, look):
            if device.place != protector.place and any(
                other.place == protector.place and protects_as_stated(other, device, look)
                for other in look.trace.protectors_of(device)
            ):
                yield device
