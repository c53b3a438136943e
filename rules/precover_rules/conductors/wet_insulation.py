"""Insulation of individual wires where it is damp or wet."""

from precover.plan import BuriedLeg
from precover.rulebook import Answer, Look, Severity, Stage, does_not_apply, met, not_met, rule
from precover.tracing import Lying
from precover_rules.conductors.wires import in_words, rewired, unsuited
from precover_rules.location import location_of_leg


@rule(
    looks_at=Lying,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("wet-insulation-letters", "wet-inside-underground", "wet-inside-outdoor-above-grade"),
)
def wires_where_it_is_damp_or_wet(lying: Lying, look: Look) -> Answer:
    """Individual wires in a damp or wet place, the inside of a raceway there included, have insulation made for it."""
    wires = lying.carried.wires
    if wires is None:
        return does_not_apply("no individual wires")
    location = location_of_leg(lying.leg, look)
    if location is None:
        return does_not_apply("a passage takes after the legs on either side")
    if location == "dry":
        return does_not_apply("a dry place")
    if isinstance(lying.leg, BuriedLeg):
        if look.stated(look.trace.raceway_around(lying.leg)).absent:
            return does_not_apply("in the earth itself: looked at as a buried wiring method")
        look.because("the inside of an underground raceway is a wet place", lying.leg.place)
    else:
        look.because(f"this leg, and the inside of a raceway in it, is a {location} place", lying.leg.place)
    wrong = unsuited(lying, wires, location, look)
    needs = f"insulation for {location} places"
    if wrong:
        return not_met("insulation", in_words(wrong), needs, amend=(rewired(wires, wrong),))
    return met("insulation", f"for {location} places", needs)
