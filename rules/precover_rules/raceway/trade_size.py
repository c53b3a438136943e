"""The smallest trade size of a raceway."""

from precover.plan import Bend, Equipment, Heater, Leg, Luminaire, Motor, Raceway, Route
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover.units import Length
from precover_rules.raceways import FLEXIBLE, naming_a_raceway, trade_size

SMALL = "3/8"


@rule(looks_at=Route, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("raceway-min-size",))
def smallest_raceway(route: Route, look: Look) -> Answer:
    """A raceway is not smaller than trade size 1/2; only a short flexible end at equipment may be 3/8."""
    named = naming_a_raceway(route)
    if not named:
        return does_not_apply("no raceway")
    least = look.limit("smallest trade size of a raceway").text
    small = next((thing for thing in named if _size(thing) == SMALL), None)
    if small is None:
        return met("trade size", min(_size(thing) for thing in named), f"at least {least}")
    raceway = look.stated(small.raceway)
    other = f"{raceway.type} {least} in"
    amend = Proposal.state(f"use {other}", Effort.WIRE, (small, "raceway", other))
    longest = look.limit("flexible raceway of trade size 3/8, longest")
    at = f"{small.place}/raceway"
    if raceway.type not in FLEXIBLE or not _ends_at_equipment(route, look):
        return not_met("trade size", SMALL, f"at least {least}", at=at, amend=(amend,))
    of = [small] if isinstance(small, Leg) else route.legs
    lengths = [look.stated(leg.length) for leg in of if not isinstance(leg, Bend)]
    whole = Length(sum((length.amount for length in lengths), start=_NOTHING), "its length")
    if whole <= longest.value:
        return met("trade size", SMALL, f"{least}, or {SMALL} up to {longest.text} at equipment", at=at)
    return not_met("trade size", SMALL, f"{SMALL} only up to {longest.text} at equipment", at=at, amend=(amend,))


_NOTHING = Length.of(0, "in").amount


def _size(thing: Route | Leg) -> str:
    return trade_size(thing.raceway) if isinstance(thing.raceway, Raceway) else ""


def _ends_at_equipment(route: Route, look: Look) -> bool:
    box = look.plan.boxes.get(route.to)
    return box is not None and any(
        isinstance(device, Equipment | Motor | Heater | Luminaire) for device in box.devices.values()
    )
