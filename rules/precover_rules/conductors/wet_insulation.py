"""Insulation of individual wires where it is damp or wet."""

from precover.plan import BuriedLeg, Carried, Conductor
from precover.rulebook import Answer, Look, Severity, Stage, does_not_apply, met, not_met, rule
from precover.tracing import Lying
from precover_rules.along import in_legs
from precover_rules.conditions import no_individual_wires
from precover_rules.conductors.wires import in_words, rewired, unsuited
from precover_rules.location import RANK, location_of_leg


@rule(
    looks_at=Carried,
    unless=no_individual_wires,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("wet-insulation-letters", "wet-inside-underground", "wet-inside-outdoor-above-grade"),
)
def wires_where_it_is_damp_or_wet(carried: Carried, look: Look) -> Answer:
    """Individual wires in a damp or wet place, the inside of a raceway there included, have insulation made for it."""
    wires = carried.wires
    assert wires is not None  # noqa: S101 - its condition
    wettest, wrong, legs, rows = "dry", dict[str, Conductor](), list[int](), {"wet-insulation-letters": None}
    for lying in look.trace.lying(carried):
        location = _location(lying, look)
        if location == "dry":
            continue
        wettest = max(wettest, location, key=RANK.__getitem__)
        found = unsuited(lying, wires, location, look)
        if found:
            wrong |= found
            legs.append(lying.leg.number)
            rows[_row(lying)] = None
    if wettest == "dry":
        return does_not_apply("only in dry places, or in the earth itself: looked at as a buried wiring method")
    needs = f"insulation for {wettest} places"
    if not wrong:
        return met("insulation", f"for {wettest} places", needs)
    answer = not_met("insulation", in_words(wrong), needs, why=in_legs(legs), amend=(rewired(wires, wrong),))
    return answer.citing(*rows)


def _location(lying: Lying, look: Look) -> str:
    """How wet it is in a leg; dry too where another rule looks: a passage takes after the legs on either side."""
    location = location_of_leg(lying.leg, look)
    if location is None or location == "dry":
        return "dry"
    if not isinstance(lying.leg, BuriedLeg):
        look.because(f"this leg, and the inside of a raceway in it, is a {location} place", lying.leg.place)
    elif look.stated(look.trace.raceway_around(lying.leg)).absent:
        return "dry"
    else:
        look.because("the inside of an underground raceway is a wet place", lying.leg.place)
    return location


def _row(lying: Lying) -> str:
    return "wet-inside-underground" if isinstance(lying.leg, BuriedLeg) else "wet-inside-outdoor-above-grade"
