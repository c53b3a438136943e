"""Standard ratings of breakers."""

from __future__ import annotations

from collections.abc import Iterable

from precover.electrical.bands import smallest
from precover.plan import Circuit, Receptacle
from precover.rulebook import Look
from precover.units import Current
from precover_rules.circuits import devices_on

TABLE = "standard-overcurrent"


def ratings(look: Look) -> tuple[Current, ...]:
    """The standard ratings of breakers, ascending."""
    return look.arranged(TABLE, _ratings)


def largest_up_to(amps: Current, look: Look) -> Current | None:
    """The largest standard rating that is not above a current; None where even the smallest is."""
    return smallest(reversed(ratings(look)), lambda rating: rating <= amps)


def may_round_up(circuit: Circuit, look: Look) -> bool:
    """Whether the breaker may be the next standard rating above the ampacity: not for a branch circuit with more than
    one receptacle for plug-in loads. A duplex is two."""
    if circuit.kind == "feeder":
        return True
    receptacles = [device for device in devices_on(circuit, look) if isinstance(device, Receptacle)]
    return len(receptacles) < 2 and all(is_single(receptacle, look) for receptacle in receptacles)


def is_single(receptacle: Receptacle, look: Look) -> bool:
    """One receptacle on its strap; those above 20 A are made no other way (common practice)."""
    return receptacle.receptacle > look.limit("common receptacle current").value or look.stated(receptacle.single)


def _ratings(keys: Iterable[tuple[str, ...]]) -> tuple[Current, ...]:
    return tuple(Current.parse(f"{rating} A") for device, rating in keys if device == "fuse or breaker")
