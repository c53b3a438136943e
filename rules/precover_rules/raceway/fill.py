"""How full a raceway is."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from precover.electrical.raceway_fill import Case, equal_conductors
from precover.plan import Bend, Leg, Raceway, Route
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_most,
    authority_decides,
    does_not_apply,
    met,
    rule,
)
from precover.units import Area, Length
from precover.units.trade_size import METRIC_DESIGNATORS
from precover_rules.raceway.contents import Taken, square_inches, taken_by, together
from precover_rules.raceways import naming_a_raceway, no_raceway_along, trade_size, whole_raceways

DIMENSIONS = "raceway-dimensions"
COLUMN: dict[Case, str] = {
    "one conductor or cable": "53 %",
    "two conductors or cables": "31 %",
    "more than two": "40 %",
    "nipple": "60 %",
}
"""Row of the fill table -> the column of the dimension table that has it worked out."""

AS_LISTED = {"LFNC": ("LFNC-A", "LFNC-B")}
"""Types that are listed in more than one wall thickness."""


def _nothing_pulled(route: Route, _look: Look) -> str:
    return "" if route.carries else "nothing is pulled in yet"


@rule(
    looks_at=Route,
    unless=(_nothing_pulled, no_raceway_along),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("raceway-fill",),
)
def fill_of_a_raceway(route: Route, look: Look) -> Answer:
    """Conductors and cables take no more of a raceway than the fill table allows."""
    raceways = whole_raceways(route, look)
    if not raceways:
        return does_not_apply("no raceway from end to end: a sleeve that guards cable is not held to the fill table")
    takes = [taken_by(carried, look) for carried in route.carries.values()]
    known = tuple(taken for some in takes if some is not None for taken in some)
    number, least, most = together(known)
    case = _case(number, route, look)
    tight = [(raceway, _allowed(raceway, case, look)) for raceway in raceways]
    raceway, allowed = min(tight, key=_room)
    if None in takes or allowed is None:
        what = "conductors over 500 kcmil" if None in takes else f"{raceway}"
        return authority_decides("fill", "not known", why=f"dimensions of {what} are for the maker to give")
    room = allowed.value
    if least <= room < most:
        takes = [taken_by(carried, look, asking=True) for carried in route.carries.values()]
        known = tuple(taken for some in takes if some is not None for taken in some)
        number, least, most = together(known)
    if least <= room < most:
        return _for_the_maker(allowed, most, _larger(route, raceway, case, most, look))
    fits = most <= room
    if not fits and case != "one conductor or cable" and _rounded_up(known, number, allowed, look):
        if known[0].least < known[0].most:
            return _for_the_maker(allowed, most, _larger(route, raceway, case, most, look))
        return met("fill", f"{number} equal conductors", f"{number} by rounding up", at=_raceway_at(route, raceway))
    area = most if fits else least
    for taken in known:
        look.because(_told(taken, fits=fits))
    look.because(f"{raceway} may be filled to {COLUMN[case]}: {case}", route.place)
    larger = () if fits else _larger(route, raceway, case, most, look)
    return at_most("fill", area, allowed, at=_raceway_at(route, raceway), amend=larger)


def _for_the_maker(allowed: Cell, most: Area, ways: tuple[Proposal, ...]) -> Answer:
    why = "it hangs on the diameter over the insulation that the maker gives"
    return authority_decides("fill", f"up to {most}", f"at most {allowed.text}", why=why, amend=ways)


def _rounded_up(known: tuple[Taken, ...], number: int, allowed: Cell, look: Look) -> bool:
    """Equal conductors alone: one more is taken where most of it would fit, of the thinnest that they can be."""
    if any((taken.least, taken.most) != (known[0].least, known[0].most) for taken in known):
        return False
    each = Area.of(known[0].least, "in²")
    up = look.limit("fraction of a conductor that rounds up")
    if number > equal_conductors(allowed.value, each, up.value):
        return False
    look.because(f"{number} × {square_inches(known[0].least)} equal conductors, the last by {up.text} of it or more")
    return True


def _case(number: int, route: Route, look: Look) -> Case:
    if _is_nipple(route, look):
        return "nipple"
    return "one conductor or cable" if number == 1 else "two conductors or cables" if number == 2 else "more than two"


def _is_nipple(route: Route, look: Look) -> bool:
    """All of it is stated, and together no longer than a nipple may be."""
    whole, limit = Fraction(0), look.limit("nipple length")
    for leg in route.legs:
        if not isinstance(leg, Bend):
            length = leg.length
            if not isinstance(length, Length):
                return False
            most = limit.like(length)
            if length > most:
                return False  # as most are, before anything is added
            whole += length.amount
            if whole > most.amount:
                return False
    return whole > 0


def _allowed(raceway: Raceway, case: Case, look: Look) -> Cell | None:
    """The area that may be filled; None for a type or size of which no dimensions are published."""
    size, column = trade_size(raceway), COLUMN[case]
    if raceway.type not in AS_LISTED:
        return look.find(DIMENSIONS, raceway.type, size, column)
    found = [look.find(DIMENSIONS, kind, size, column) for kind in AS_LISTED[raceway.type]]
    return min((cell for cell in found if cell is not None), key=lambda cell: cell.value.amount, default=None)


def _room(pair: tuple[Raceway, Cell | None]) -> Fraction:
    return Fraction(-1) if pair[1] is None else pair[1].value.amount


@lru_cache(maxsize=1024)
def _told(taken: Taken, *, fits: bool) -> str:
    bound = "" if taken.least == taken.most else "at most " if fits else "at least "
    area = taken.number * (taken.most if fits else taken.least)
    return f"{taken.number} × {taken.name}: {bound}{square_inches(area)}"


def _larger(route: Route, raceway: Raceway, case: Case, most: Area, look: Look) -> tuple[Proposal, ...]:
    """The next trade size of the same type that holds it all, wherever this raceway is named."""
    for size in METRIC_DESIGNATORS:
        other = Raceway.parse(f"{raceway.type} {size} in")
        room = _allowed(other, case, look)
        if room is not None and room.value >= most:
            named = [thing for thing in naming_a_raceway(route) if thing.raceway == raceway]
            changes = tuple((thing, "raceway", other.text) for thing in named)
            return (Proposal.state(f"use {other}", Effort.WIRE, *changes),)
    return ()


def _raceway_at(route: Route, raceway: Raceway) -> str:
    things: tuple[Route | Leg, ...] = (route, *route.legs)
    return next((f"{thing.place}/raceway" for thing in things if thing.raceway == raceway), route.place)
