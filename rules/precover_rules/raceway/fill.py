"""How full a raceway is."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from precover.electrical.raceway_fill import Case
from precover.plan import Bend, Carried, Raceway, Route, Unstated
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
    rule,
)
from precover.units import Area, Length
from precover.units.trade_size import METRIC_DESIGNATORS
from precover_rules.raceway.contents import Taken, square_inches, taken_by
from precover_rules.raceways import holds_nothing, whole_raceways

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


@rule(looks_at=Route, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("raceway-fill",))
def fill_of_a_raceway(route: Route, look: Look) -> Answer:
    """Conductors and cables take no more of a raceway than the fill table allows."""
    if not route.carries:
        return does_not_apply("nothing is pulled in yet")
    if holds_nothing(route):
        return does_not_apply("no raceway")
    raceways = whole_raceways(route, look)
    if not raceways:
        return does_not_apply("no raceway from end to end: a sleeve that guards cable is not held to the fill table")
    takes = [taken_by(carried, look) for carried in route.carries.values()]
    known = [taken for some in takes if some is not None for taken in some]
    case = _case(sum(taken.count for taken in known), route, look)
    tight = [(raceway, _allowed(raceway, case, look)) for raceway in raceways]
    least, most = _together(known, lowest=True), _together(known, lowest=False)
    raceway, allowed = min(tight, key=_room)
    if None in takes or allowed is None:
        what = "conductors over 500 kcmil" if None in takes else f"{raceway}"
        return authority_decides("fill", "not known", why=f"dimensions of {what} are for the maker to give")
    room = allowed.value.in_unit("in²")
    if least <= room < most:
        return _undecided(route, raceway, most, allowed, look)
    area = most if most <= room else least
    for taken in known:
        look.because(f"{taken.count} × {taken.name}: {square_inches(taken.count * (taken.most if most <= room else taken.least))}")
    look.because(f"{raceway} may be filled to {COLUMN[case]}: {case}", route.place)
    larger = _larger(route, raceway, case, most, look) if area > room else ()
    return at_most("fill", _area(area), allowed, at=_raceway_at(route, raceway), amend=larger)


def _case(count: int, route: Route, look: Look) -> Case:
    lengths = [leg.length for leg in route.legs if not isinstance(leg, Bend)]
    if lengths and all(isinstance(length, Length) for length in lengths):
        whole = sum(length.amount for length in lengths if isinstance(length, Length))
        longest = look.limit("nipple length")
        first = lengths[0]
        if isinstance(first, Length) and whole <= longest.like(first).amount:
            return "nipple"
    return "one conductor or cable" if count == 1 else "two conductors or cables" if count == 2 else "more than two"


def _allowed(raceway: Raceway, case: Case, look: Look) -> Cell | None:
    """The area that may be filled; None for a type or size of which no dimensions are published."""
    size = raceway.size.designation if raceway.size is not None else ""
    kinds = AS_LISTED.get(raceway.type, (raceway.type,))
    found = [look.find(DIMENSIONS, kind, size, COLUMN[case]) for kind in kinds]
    return min((cell for cell in found if cell is not None), key=lambda cell: cell.value.amount, default=None)


def _room(pair: tuple[Raceway, Cell | None]) -> Fraction:
    return Fraction(-1) if pair[1] is None else pair[1].value.amount


def _together(known: Iterable[Taken], *, lowest: bool) -> Fraction:
    return sum((taken.count * (taken.least if lowest else taken.most) for taken in known), Fraction(0))


def _area(area: Fraction) -> Area:
    return Area(area * Area.factors["in²"], square_inches(area))


def _undecided(route: Route, raceway: Raceway, most: Fraction, allowed: Cell, look: Look) -> Answer:
    """It hangs on what a maker decides: ask for the width of the cable, if there is one."""
    for carried in route.carries.values():
        if carried.wires is None and isinstance(carried.width, Unstated):
            look.stated(carried.width)
    ways = _larger(route, raceway, _case_of(allowed), most, look)
    why = "it hangs on the diameter over the insulation that this maker gives"
    return authority_decides("fill", f"up to {square_inches(most)}", f"at most {allowed.text}", why=why, amend=ways)


def _case_of(allowed: Cell) -> Case:
    return next(case for case, column in COLUMN.items() if column == allowed.key[2])


def _larger(route: Route, raceway: Raceway, case: Case, most: Fraction, look: Look) -> tuple[Proposal, ...]:
    """The next trade size of the same type that holds it all, wherever this raceway is named."""
    for size in METRIC_DESIGNATORS:
        other = Raceway.parse(f"{raceway.type} {size} in")
        room = _allowed(other, case, look)
        if room is not None and room.value.in_unit("in²") >= most:
            named = [thing for thing in (route, *route.legs) if thing.raceway == raceway]
            changes = tuple((thing, "raceway", other.text) for thing in named)
            return (Proposal.state(f"use {other}", Effort.WIRE, *changes),)
    return ()


def _raceway_at(route: Route, raceway: Raceway) -> str:
    return next(f"{thing.place}/raceway" for thing in (route, *route.legs) if thing.raceway == raceway)
