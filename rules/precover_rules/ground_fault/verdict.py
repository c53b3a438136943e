"""The answer for an outlet that needs class A protection."""

from collections.abc import Callable

from precover.plan import Breaker, Device, GroundFaultDevice
from precover.rulebook import Answer, Look, authority_decides, met, not_met
from precover.tracing import Protector
from precover_rules.ground_fault.ways import ways_to_protect
from precover_rules.protection import class_a_as_stated, class_a_of, feeds_one_hot_of_two, named

OF = "ground-fault protection"
NEEDS = "class A protection, of its own or from ahead"


def class_a_or_not(device: Device, look: Look, doubt: Callable[[], str] = str) -> Answer:
    """Met where a class A device protects the outlet. Where none does: not met, or cannot tell if there is a doubt.

    `doubt` says why it is not sure that protection is needed (empty where it is); it is asked only of an outlet without.
    """
    protector = class_a_of(device, look)
    if protector is not None:
        look.because("class A protection", protector.place)
        return met(OF, "class A of its own" if protector is device else f"class A at {named(protector, look)}", NEEDS)
    ahead = look.trace.protectors_of(device)
    has, short = _what_there_is(ahead, look)
    shared = any(feeds_one_hot_of_two(protector, look) for protector in ahead)
    if shared:
        short = (
            "a receptacle's load side cannot feed on a circuit with two hots: a shared neutral trips it; use a 2-pole class A"
            " breaker, or a receptacle of its own"
        )
    unsure = doubt()
    ways = ways_to_protect(device, look)
    if unsure:
        # That a load side cannot do what is planned holds whether protection is needed or not.
        return authority_decides(OF, has, NEEDS, why=f"{short}; {unsure}" if shared else unsure, amend=ways)
    return not_met(OF, has, NEEDS, why=short, amend=ways)


def _what_there_is(ahead: list[Protector], look: Look) -> tuple[str, str]:
    """What comes nearest to protection where none counts, and why it does not."""
    for protector in ahead:
        if class_a_as_stated(protector):
            return f"class A at {named(protector, look)}", "that device does not feed this from its load side"
    for protector in ahead:
        if _level(protector, look) == "equipment":
            return (
                f"equipment protection at {named(protector, look)}",
                "it trips at a current too high to protect people",
            )
    return "none", ""


def _level(protector: Protector, look: Look) -> str:
    if isinstance(protector, Breaker):
        return look.stated(protector.ground_fault)
    return look.stated(protector.trip) if isinstance(protector, GroundFaultDevice) else ""
