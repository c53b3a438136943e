"""The smallest trade size of a raceway."""

from precover.plan import Equipment, Heater, Luminaire, Motor, Route
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    met,
    not_met,
    rule,
)
from precover.units import Length
from precover.units.trade_size import METRIC_DESIGNATORS
from precover_rules.raceways import FLEXIBLE, naming_a_raceway, raceways_along, trade_size

SMALL = "3/8"


def _none_named(route: Route, _look: Look) -> str:
    return "" if naming_a_raceway(route) else "no raceway"


@rule(looks_at=Route, unless=_none_named, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("raceway-min-size",))
def smallest_raceway(route: Route, look: Look) -> Answer:
    """A raceway is not smaller than trade size 1/2; only a short flexible end at equipment may be 3/8."""
    named = naming_a_raceway(route)
    least = look.limit("smallest trade size of a raceway").text
    sizes = {thing.place: trade_size(look.stated(thing.raceway)) for thing in named}
    small = [thing for thing in named if sizes[thing.place] == SMALL]
    if not small:
        return met("trade size", min(sizes.values(), key=list(METRIC_DESIGNATORS).index), f"at least {least}")
    kinds = {thing.place: look.stated(thing.raceway).type for thing in small}
    changes = [(thing, "raceway", f"{kinds[thing.place]} {least} in") for thing in small]
    amend = Proposal.state(f"use {' and '.join(dict.fromkeys(text for *_, text in changes))}", Effort.WIRE, *changes)
    longest = look.limit("flexible raceway of trade size 3/8, longest")
    stiff = next((thing for thing in small if kinds[thing.place] not in FLEXIBLE), None)
    at = f"{(stiff or small[0]).place}/raceway"
    if stiff is not None or not _ends_at_equipment(route, look):
        return not_met("trade size", SMALL, f"at least {least}", at=at, amend=(amend,))
    narrow = [leg for leg, raceway in raceways_along(route, look) if trade_size(raceway) == SMALL]
    whole = Length(sum((look.stated(leg.length).amount for leg in narrow), start=_NOTHING), "its length")
    if whole <= longest.value:
        return met("trade size", SMALL, f"{least}, or {SMALL} up to {longest.text} at equipment", at=at)
    return not_met("trade size", SMALL, f"{SMALL} only up to {longest.text} at equipment", at=at, amend=(amend,))


_NOTHING = Length.of(0, "in").amount


def _ends_at_equipment(route: Route, look: Look) -> bool:
    box = look.plan.boxes.get(route.to)
    return box is not None and any(
        isinstance(device, Equipment | Motor | Heater | Luminaire) for device in box.devices.values()
    )
