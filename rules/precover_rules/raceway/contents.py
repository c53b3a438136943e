"""How much of a raceway's cross-section its conductors and cables take.

Where a maker decides a dimension (compact aluminum, the covering of RHW, the jacket of a cable) it is known only within
bounds: a raceway that is large enough for the upper one, or too small for the lower one, is decided without asking.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from precover.electrical.raceway_fill import circle
from precover.plan import Cable, Carried, Conductor, Unstated
from precover.rulebook import Cell, Look
from precover.units import Area, ConductorSize, Length, total

DIMENSIONS, CABLES = "conductor-dimensions", "cable-dimensions"

FAMILIES = {
    **dict.fromkeys(("THHN", "THWN", "THWN-2", "THHN/THWN-2"), ("THHN/THWN-2", "THHN/THWN-2")),
    **dict.fromkeys(("TW", "THW", "THW-2", "THHW"), ("TW/THW-2", "TW/THW-2")),
    **dict.fromkeys(("XHHW", "XHHW-2", "XHH"), ("XHHW-2", "XHHW-2")),
    **dict.fromkeys(("RHH", "RHW", "RHW-2", "RHH/RHW-2"), ("RHH/RHW-2", "RHH/RHW-2 with covering")),
}
"""Insulation -> the thinnest and the thickest row of the dimension table that it can be. A type of which no dimensions
are published lies between a bare conductor and the thickest row."""

UNPUBLISHED = ("bare stranded", "RHH/RHW-2 with covering")
COMPACT = Fraction(4, 5)
"""Compact aluminum takes at least this part of what the table has for the same size (its table: 0.85 and more)."""
LARGEST = ConductorSize.parse("500 kcmil")
"""The last size of the dimension table."""


class Taken:
    """What one wire or cable takes, `number` of them: the least and the most square inches each. Alike by identity, which
    is quick to look up: what is made from equal things is made once."""

    __slots__ = ("least", "most", "name", "number")

    def __init__(self, name: str, number: int, least: Fraction, most: Fraction) -> None:
        self.name = name
        self.number = number
        self.least = least
        self.most = most


def taken_by(carried: Carried, look: Look, *, asking: bool = False) -> list[Taken] | None:
    """What a carried circuit takes; None where a conductor is larger than the dimension table goes. With `asking`, the
    width of a cable is asked for where the plan leaves it out."""
    if carried.wires is None:
        cable = look.stated(carried.cable)
        return (
            None
            if cable.size > LARGEST
            else [_cable(cable, look.stated(carried.width) if asking else carried.width, look)]
        )
    wires = [look.stated(carried.wires.hot), carried.wires.neutral, carried.wires.ground]
    there = [wire for wire in wires if wire is not None]
    return None if any(wire.size > LARGEST for wire in there) else [taken_by_wire(wire, look) for wire in there]


def taken_by_wire(wire: Conductor, look: Look) -> Taken:
    """What a wire takes, as often as it is there; of a size in the dimension table."""
    size = wire.size.designation
    if wire.insulation == "bare":
        solid = "bare solid" if wire.size <= _LARGEST_SOLID else "bare stranded"
        thin, thick = solid, "bare stranded"
    else:
        thin, thick = FAMILIES.get(wire.insulation, UNPUBLISHED)
        if wire.size < _SMALLEST_INSULATED:
            thin, thick, size = "bare stranded", thick, _SMALLEST_INSULATED.designation
    high = look.cell(DIMENSIONS, thick, size, "area")
    low = high if thin == thick else look.cell(DIMENSIONS, thin, wire.size.designation, "area")
    return _between(wire.size.text, wire.material, wire.insulation, wire.count, low, high)


_LARGEST_SOLID = ConductorSize.parse("8 AWG")
_SMALLEST_INSULATED = ConductorSize.parse("14 AWG")


@lru_cache(maxsize=1024)
def _between(size: str, material: str, insulation: str, count: int, low: Cell, high: Cell) -> Taken:
    least = low.value.in_unit("in²")
    name = f"{size} {material} {insulation}"
    return Taken(name, count, least * COMPACT if material == "Al" else least, high.value.in_unit("in²"))


def taken_by_cable(cable: Cable, look: Look) -> Taken:
    """What a cable takes whose width no plan states: the least and the most that it can be, whoever makes it."""
    spread = look.limit("spread of cable widths")
    known = look.find(CABLES, cable.type, cable.text.split()[1], "width")
    if known is not None:
        return _spread(cable.text, known, spread)
    thin = cable.type in ("NM-B", "UF-B")
    sizes = [_table_size(size) for size in cable.insulated]
    bare = cable.ground and look.cell(DIMENSIONS, "bare stranded", cable.ground.designation, "diameter")
    insulated = _diameters("THHN/THWN-2", sizes, look)
    row = insulated if thin else _diameters("RHH/RHW-2", sizes, look)
    return _in_a_row(cable.text, insulated, row, bare, look.limit("jacket and webs of a cable"), spread, thin)


def _cable(cable: Cable, width: Length | Unstated, look: Look) -> Taken:
    """A cable counts as one conductor; a flat one as the circle over its width."""
    return _measured(cable.text, width) if isinstance(width, Length) else taken_by_cable(cable, look)


@lru_cache(maxsize=1024)
def _measured(name: str, width: Length) -> Taken:
    return _round(name, width, width)


def _round(name: str, least: Length, most: Length) -> Taken:
    return Taken(name, 1, circle(least).in_unit("in²"), circle(most).in_unit("in²"))


def _diameters(family: str, sizes: list[str], look: Look) -> tuple[Cell, ...]:
    found = {size: look.cell(DIMENSIONS, family, size, "diameter") for size in dict.fromkeys(sizes)}
    return tuple(found[size] for size in sizes)


@lru_cache(maxsize=1024)
def together(known: tuple[Taken, ...]) -> tuple[int, Area, Area]:
    """How many wires and cables there are, and the least and the most that they take together."""
    least = total(taken.number * taken.least for taken in known)
    most = total(taken.number * taken.most for taken in known)
    return sum(taken.number for taken in known), _area(least), _area(most)


def _area(inches: Fraction) -> Area:
    return Area(inches * Area.factors["in²"], square_inches(inches))


@lru_cache(maxsize=256)
def _spread(name: str, known: Cell, spread: Cell) -> Taken:
    inches = known.value.in_unit("in")
    return _round(name, Length.of(inches * (1 - spread.value), "in"), Length.of(inches * (1 + spread.value), "in"))


@lru_cache(maxsize=256)
def _in_a_row(
    name: str,
    insulated: tuple[Cell, ...],
    row: tuple[Cell, ...],
    bare: Cell | None,
    web: Cell,
    spread: Cell,
    thin: bool,
) -> Taken:
    """At most all conductors side by side, with jacket and webs (a whole quarter inch of covering where the cable is
    not of the thin kind); at least its two thickest conductors side by side, of the thinnest insulation."""
    two = sum(sorted((cell.value.in_unit("in") for cell in insulated), reverse=True)[:2])
    wires = [cell.value.in_unit("in") for cell in (*row, *(() if bare is None else (bare,)))]
    covering = web.value.in_unit("in") * (len(wires) + 1) + (0 if thin else Fraction(1, 4))
    widest = (sum(wires) + covering) * (1 + spread.value)
    return _round(name, Length.of(two * COMPACT, "in"), Length.of(widest, "in"))


def _table_size(size: ConductorSize) -> str:
    return max(size, _SMALLEST_INSULATED).designation


def square_inches(area: Fraction) -> str:
    """An area as it is shown."""
    return f"{float(area):.3f} in²"
