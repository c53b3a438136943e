"""The ampacity of hot conductors in given surroundings."""

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from precover.electrical.ampacity import ampacity
from precover.electrical.working import Worked
from precover.rulebook import Cell, Look, once
from precover.units import Current
from precover_rules.sizing.company import has_company, together
from precover_rules.sizing.factors import adjustment_for, correction_for
from precover_rules.sizing.heat import hottest, warm_legs
from precover_rules.sizing.laid import Laid

TEMPERATURES = "conductor-temperatures"
AT_75, AT_60 = "75 °C", "60 °C"
"""Terminals: the better and the worse marking."""
SERVICE_CABLE = ("SE", "SER", "SEU")
HELD = ("NM-B", "UF-B", *SERVICE_CABLE)
NOTHING = Current.of(0, "A")
ONE = Fraction(1)


class Around(NamedTuple):
    """What an ampacity hangs on."""

    warm: bool
    crowded: bool
    wet: bool
    terminals: str


@once
def amps_in(laid: Laid, around: Around, look: Look) -> tuple[Current, tuple[str, ...]]:
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
    elif around.terminals < column:  # else the insulation gives no more than they are made for
        rows.append("terminal-temp-60-75")
        limits.append((f"terminals of {around.terminals}", look.cell("ampacity", laid.metal, size, around.terminals)))
    worked = _worked(table, correction, adjustment, tuple(limits))
    place = laid.place
    look.because(f"{laid.named}, {laid.kind}: {column} column", place)
    for step in worked.steps:
        look.because(step, place)
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
