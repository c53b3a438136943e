"""The ampacity of hot conductors where they lie, and whether it suffices.

What an ampacity hangs on is asked for only where it matters: a test is tried at the worst (as hot as the site gets, in
a wet place, with all company, on 60 °C terminals), then at the best; only between the two the facts are looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import lru_cache, partial
from typing import NamedTuple

from precover.electrical.ampacity import ampacity
from precover.electrical.working import Worked
from precover.rulebook import Cell, Look
from precover.units import ConductorSize, Current
from precover.units.conductor_size import SCALE
from precover_rules.location import location_of_leg
from precover_rules.sizing.company import has_company, heat_each_other, together
from precover_rules.sizing.factors import adjustment_for, correction_for
from precover_rules.sizing.heat import hottest, is_short, warm_legs
from precover_rules.sizing.laid import LARGEST_IN_TABLE, Laid, smallest_made

TEMPERATURES = "conductor-temperatures"
AT_75, AT_60 = "75 °C", "60 °C"
"""Terminals: the better and the worse marking."""
SERVICE_CABLE = ("SE", "SER", "SEU")
HELD = ("NM-B", "UF-B", *SERVICE_CABLE)

Test = Callable[[Current], bool]
"""Whether an ampacity suffices; true of every larger one as well."""


class Around(NamedTuple):
    """What an ampacity hangs on."""

    warm: bool
    crowded: bool
    wet: bool
    terminals: str


class Verdict(NamedTuple):
    """Whether a test holds for conductors where they lie, their ampacity, and the requirement rows that made it so."""

    holds: bool
    amps: Current
    rows: tuple[str, ...]


BEST = Around(False, False, False, AT_75)
NOTHING = Current.of(0, "A")
ONE = Fraction(1)


def verdicts(parts: Sequence[Laid], test: Test, look: Look, *, corrected: bool = True) -> list[Verdict]:
    """Whether the hots of a circuit suffice, route by route; the derivation of each ampacity is noted. With `corrected`
    false the ampacities are those before correction for heat and adjustment for company."""
    if not parts:
        return []
    rating = look.stated(parts[0].circuit.breaker.rating)
    # Terminals of larger circuits are made for 75 °C.
    small = rating <= look.limit("circuit on 60 °C terminals").value
    worst = Around(corrected, corrected, True, AT_60 if small else AT_75)
    found: dict[str, Verdict] = {}
    for part in parts:
        noted = len(look.cells), len(look.steps)
        found[part.route.id] = _try(part, worst, test, look)
        if not found[part.route.id].holds:
            _forget(look, noted)
    weak = {route for route, verdict in found.items() if not verdict.holds}
    for part in parts:
        if part.route.id in weak:
            found[part.route.id] = _as_it_is(part, worst, weak, test, look)
    return [found[part.route.id] for part in parts]


def verdict(laid: Laid, test: Test, look: Look) -> Verdict:
    """The same for the hots on one route alone."""
    return verdicts([laid], test, look)[0]


def least_size(laid: Laid, test: Callable[[Laid, Current], bool], look: Look) -> ConductorSize | None:
    """The smallest size of the same kind of conductors that would do there; None where none does. Nothing of the search
    goes into the derivation."""
    noted = len(look.cells), len(look.steps)
    least, most = smallest_made(laid.metal, look).rank, LARGEST_IN_TABLE.rank
    found = None
    for designation in SCALE[least : most + 1]:
        size = ConductorSize.parse(designation)
        other = laid._replace(size=size)
        if verdicts([other], partial(test, other), look)[0].holds:
            found = size
            break
    _forget(look, noted)
    return found


def least_for(laid: Laid, wanted: Current, look: Look) -> ConductorSize | None:
    """The smallest size whose ampacity there is not below a current; None where none is."""
    return least_size(laid, lambda _, amps: amps >= wanted, look)


def _as_it_is(laid: Laid, worst: Around, weak: set[str], test: Test, look: Look) -> Verdict:
    """Between the worst and the best, each fact that could help is looked at until the test holds: first what the plan
    mostly states anyway."""
    noted = len(look.cells), len(look.steps)
    around, helped = worst, []
    if worst.warm and _is_short_of_it(laid, weak, look):
        around = worst._replace(warm=False)
        helped.append("what lies warmer is short: the ampacity of the rest of the circuit holds")
    found = _try(laid, around, test, look)
    if not found.holds:
        _forget(look, noted)
        found = _try(laid, BEST, test, look)
        if found.holds:
            found = _with_what_helps(laid, around, helped, test, look, noted)
    for how in helped:
        look.because(how, laid.place)
    return found


def _with_what_helps(
    laid: Laid, around: Around, helped: list[str], test: Test, look: Look, noted: tuple[int, int]
) -> Verdict:
    """The verdict with company, wet and terminals as they are."""
    for helps in (_apart, _drier, _terminals):
        better, how = helps(laid, around, look)
        if how:
            around = better
            helped.append(how)
        _forget(look, noted)
        found = _try(laid, around, test, look)
        if found.holds:
            break
    return found


def _is_short_of_it(laid: Laid, weak: set[str], look: Look) -> bool:
    """The warm legs on the routes that are too weak are a short part of the circuit."""
    return bool(warm_legs(laid.route, look)) and is_short(laid.circuit, weak, look)


def _apart(laid: Laid, around: Around, look: Look) -> tuple[Around, str]:
    if not around.crowded or not has_company(laid.route, look) or heat_each_other(laid.route, look):
        return around, ""
    return around._replace(crowded=False), "the circuits lie apart, or together only as far as a nipple is long"


def _drier(laid: Laid, around: Around, look: Look) -> tuple[Around, str]:
    if look.cell(TEMPERATURES, laid.kind, "dry").text == look.cell(TEMPERATURES, laid.kind, "wet").text:
        return around, ""
    if any(location_of_leg(leg, look) == "wet" for leg in laid.route.legs):
        return around, ""
    return around._replace(wet=False), "no leg is in a wet place"


def _terminals(laid: Laid, around: Around, look: Look) -> tuple[Around, str]:
    if around.terminals == AT_75 or look.stated(laid.circuit.terminals) == AT_60:
        return around, ""
    return around._replace(terminals=AT_75), "its terminals are marked 75 °C"


def _try(laid: Laid, around: Around, test: Test, look: Look) -> Verdict:
    amps, rows = _amps(laid, around, look)
    return Verdict(test(amps), amps, rows)


def _forget(look: Look, noted: tuple[int, int]) -> None:
    """Takes attempts that came to nothing out of the derivation."""
    del look.cells[noted[0] :], look.steps[noted[1] :]


def _amps(laid: Laid, around: Around, look: Look) -> tuple[Current, tuple[str, ...]]:
    """The ampacity, and the rows of the requirement map that it comes from."""
    size = laid.size.designation
    column = look.cell(TEMPERATURES, laid.kind, "wet" if around.wet else "dry").text
    table = look.cell("ampacity", laid.metal, size, column)
    correction = adjustment = None
    rows = ["ampacity-table-locator"]
    if around.warm and (legs := warm_legs(laid.route, look)):
        rows.append("ambient-correction")
        correction = correction_for(hottest(legs, laid.kind, look), column, look)
        if correction is None:
            look.because(f"too hot for insulation of {column}", laid.place)
            return NOTHING, tuple(rows)
    if around.crowded and has_company(laid.route, look):
        rows.append("adjustment-more-than-three")
        adjustment = adjustment_for(together(laid.route, look), look)
    limits: list[tuple[str, Cell]] = []
    held = _held(laid, look)
    if held is not None:
        rows.append("se-cable-feeder-inside" if laid.kind in SERVICE_CABLE else "nm-uf-60c")
        if held != column:
            limits.append((f"the kind of cable ({held})", look.cell("ampacity", laid.metal, size, held)))
    if around.terminals not in (held, column):
        if held is None:
            rows.append("terminal-temp-60-75")
        limits.append((f"terminals of {around.terminals}", look.cell("ampacity", laid.metal, size, around.terminals)))
    worked = _worked(table, correction, adjustment, tuple(limits))
    look.because(f"{laid.named}, {laid.kind}: {column} column", laid.place)
    look.steps.extend((step, laid.place) for step in worked.steps)
    return worked.value, tuple(rows)


def _held(laid: Laid, look: Look) -> str | None:
    """The column that a kind of cable is held to: that of NM and UF, and of small SE cable, which may lie in insulation
    (and whose size alone allows no larger breaker anyway)."""
    if laid.kind in SERVICE_CABLE and laid.size > look.limit("SE cable held to 60 °C in insulation").value:
        return None
    return look.cell(TEMPERATURES, laid.kind, "held to").text if laid.kind in HELD else None


@lru_cache(maxsize=1024)
def _worked(
    table: Cell, correction: Cell | None, adjustment: Cell | None, limits: tuple[tuple[str, Cell], ...]
) -> Worked[Current]:
    return ampacity(
        table.value,
        min(ONE, correction.value) if correction is not None else ONE,
        adjustment.value if adjustment is not None else ONE,
        {what: cell.value for what, cell in limits},
    )
