"""Whether the conductors of a circuit carry a current wherever they lie."""

from __future__ import annotations

from precover.plan import Circuit
from precover.rulebook import Answer, Look, not_met
from precover.units import Current
from precover_rules.sizing.ampacity import least_for, only_steps_of, verdicts
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.rewiring import rewired


def too_weak(circuit: Circuit, wanted: Current, what: str, look: Look, *, corrected: bool = True) -> Answer | None:
    """The answer where the ampacity on some route is below a current, or cannot be told; None where it suffices on all.
    With `corrected` false it is the ampacity before correction and adjustment."""
    parts = laid_on(circuit, look)
    laid = [part for part in parts if isinstance(part, Laid)]
    found = verdicts(laid, lambda amps: amps >= wanted, look, corrected=corrected)
    weak = [(part, one.amps) for part, one in zip(laid, found, strict=True) if not one.holds]
    if not weak:
        return next((part for part in parts if isinstance(part, Answer)), None)
    part, amps = min(weak, key=lambda pair: pair[1])
    only_steps_of(part, look)
    grown = [(other, size) for other, _ in weak if (size := least_for(other, wanted, look, larger=True)) is not None]
    ways = rewired([other for other, _ in grown], [size for _, size in grown], look) if len(grown) == len(weak) else ()
    needs = f"at least {wanted} on {part.route.id} for {what}"
    return not_met("ampacity", amps, needs, at=part.place, amend=ways)
