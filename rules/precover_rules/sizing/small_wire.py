"""The limits of overcurrent devices that small wire has by its size alone."""

from __future__ import annotations

from precover.plan import Circuit
from precover.rulebook import Look
from precover.units import Current
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.own_circuit import goes_by_its_equipment

TABLE = "small-conductor-overcurrent"


def cap(part: Laid, look: Look) -> Current | None:
    """The largest overcurrent device for wire of this size; None for the larger ones."""
    cell = look.find(TABLE, part.metal, part.size.designation)
    if cell is None:
        return None
    most: Current = cell.value
    return most


def is_capped(part: Laid, rating: Current, look: Look) -> bool:
    """The size alone forbids the breaker."""
    most = cap(part, look)
    return most is not None and rating > most


def breaker_is_too_large(circuit: Circuit, rating: Current, look: Look) -> bool:
    """The breaker is larger than the size of some wire allows: one mistake, which is told once and for all."""
    return not goes_by_its_equipment(circuit, look) and any(
        isinstance(part, Laid) and is_capped(part, rating, look) for part in laid_on(circuit, look)
    )
