"""How much current a conductor may carry where it lies."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from precover.electrical.working import Worked
from precover.record import Record
from precover.units import Current, Temperature, TemperatureDifference, plain


class CircuitWires(Record):
    """The wires of one circuit that share a raceway, cable or bundle; grounding conductors never count.

    `wye`: from a 208Y/120 V system, where the neutral of two hots carries about as much as they do; `nonlinear`: the
    load is mostly electronic, so that harmonics add up in the neutral.
    """

    hots: int
    neutral: bool
    wye: bool = False
    nonlinear: bool = False

    @property
    def current_carrying(self) -> int:
        """How many of them count: a neutral that carries only the unbalance of several hots does not."""
        return self.hots + (self.neutral and self._neutral_counts)

    @property
    def _neutral_counts(self) -> bool:
        return self.hots == 1 or self.nonlinear or (self.wye and self.hots == 2)


def current_carrying(circuits: Iterable[CircuitWires]) -> Worked[int]:
    """The current-carrying conductors of circuits that lie together, to be looked up for the adjustment.

    Source: 310.15(E) and (F) of the 2023 edition, from memory.
    """
    counts = [circuit.current_carrying for circuit in circuits]
    return Worked(sum(counts), (f"current-carrying conductors: {' + '.join(map(str, counts)) or '0'} = {sum(counts)}",))


def surroundings(ambient: Temperature, adder: TemperatureDifference | None) -> Worked[Temperature]:
    """The temperature around a conductor: the ambient one, and what sun or a roof adds to it.

    The result stays in the unit of `ambient`, because correction tables have their own bands in each.
    """
    if adder is None:
        return Worked(ambient, ())
    total = ambient.amount + adder.amount
    unit, shown = ("°C", total) if ambient.metric else ("°F", total * Fraction(9, 5) + 32)
    raised = Temperature(total, f"{plain(shown)} {unit}", ambient.metric)
    return Worked(raised, (f"{ambient} and {adder} more: {raised}",))


def ampacity(
    table: Current, correction: Fraction, adjustment: Fraction, limits: Mapping[str, Current]
) -> Worked[Current]:
    """Ampacity of a conductor: the table value, corrected for temperature and adjusted for its company, but not more
    than any limit.

    `table` is in the column of the insulation's temperature; `correction` and `adjustment` are factors (1 for none);
    `limits` says by what the result is held down, and to how much: the terminals' column, the 60 °C column of NM and
    UF cable.
    """
    here = table.amount * correction * adjustment
    factors = "".join(f" × {plain(factor)}" for factor in (correction, adjustment) if factor != 1)
    steps = [f"{table}{factors} = {plain(here)} A" if factors else f"table value {table}"]
    for what, limit in limits.items():
        if limit.amount < here:
            here = limit.amount
            steps.append(f"held to {limit} by {what}")
    return Worked(Current.of(here, "A"), tuple(steps))
