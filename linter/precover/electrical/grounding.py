"""Equipment grounding conductors: their size, and the fault current that they let flow."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from precover.electrical.bands import smallest
from precover.electrical.working import Worked
from precover.units import ConductorArea, ConductorSize, plain


def held_to_circuit(table: ConductorSize, circuit: ConductorSize) -> ConductorSize:
    """The size by table, but never larger than the circuit's own conductors."""
    return min(table, circuit)


def upsized(
    table: ConductorArea,
    needed: ConductorArea,
    installed: ConductorArea,
    sizes: Iterable[tuple[ConductorSize, ConductorArea]],
) -> Worked[ConductorSize | None]:
    """The grounding conductor of a circuit whose hots are larger than they need be: grown in the same ratio.

    `table` is the area of the size by table, `needed` that of the smallest hot that has the ampacity where it lies,
    `installed` that of the hot chosen. `sizes` ascend. The ratio is not rounded, because published sizes lie within a
    few circular mils of it. Where the hots are not larger, the table size stands. None where no size is large enough.
    """
    wanted: Fraction = table.amount
    steps: tuple[str, ...] = ()
    if installed > needed:
        wanted = table.amount * installed.amount / needed.amount
        ratio = f"{installed} / {needed} = {plain(installed.amount / needed.amount)}"
        steps = (f"hots larger by {ratio}", f"grounding conductor: {table} × that = {plain(wanted)} cmil")
    found = smallest(sizes, lambda size: size[1].amount >= wanted)
    return Worked(None if found is None else found[0], (*steps, f"size: {found[0] if found else 'none made'}"))


def fault_current(volts: float, *impedances: complex) -> float:
    """The current of a bolted fault, in amperes: source, hot and grounding conductors in series, each in ohms.

    An estimate: arcs and joints lower it. A fault trips a breaker at once only well above its rating.
    """
    return volts / abs(sum(impedances))
