"""Ground-fault protection, worked out from what stands ahead."""

from collections.abc import Sequence

from precover.plan import Breaker, GroundFaultDevice
from precover.rulebook import Look
from precover.tracing import Protector


def class_a_among(protectors: Sequence[Protector], look: Look, *, itself: object = None) -> Protector | None:
    """The nearest of these that gives class A protection (for people) to what lies behind it, or None.

    `itself` is the receptacle being asked about, if it is among them: it protects itself without feeding anything on.
    Those that the plan describes fully are asked first, so that an unstated one is asked for only if it can matter.
    """
    for protector in protectors:
        if _protects(protector, look, protector is itself):
            return protector
    return None


def _protects(protector: Protector, look: Look, itself: bool) -> bool:
    if isinstance(protector, Breaker):
        return look.stated(protector.ground_fault) == "class A"
    if isinstance(protector, GroundFaultDevice):
        return look.stated(protector.trip) == "class A"
    return look.stated(protector.ground_fault) and (itself or look.stated(protector.protects_downstream))
