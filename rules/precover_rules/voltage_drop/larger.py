"""Larger wire for a circuit, as a way out of a drop."""

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Any

from precover.electrical.voltage_drop import smallest_wire
from precover.electrical.wire import circular_mils
from precover.plan import Cable, Circuit, Conductor, Thing, Unstated
from precover.rulebook import Effort, Look, Proposal
from precover.units import ConductorSize
from precover.units.conductor_size import SCALE
from precover_rules.voltage_drop.way import Piece, Wire, piece

MADE = tuple(ConductorSize(name) for name in SCALE[SCALE.index("12") : SCALE.index("4/0") + 1])
"""Sizes that are proposed."""

LARGEST_CABLE = {"NM-B": ConductorSize("2"), "UF-B": ConductorSize("4")}
"""Largest size that these cables are sold in (common practice); only proposals use it."""


def larger_wire(
    circuit: Circuit, pieces: list[Piece], lost: Callable[[list[Piece]], float], share: float, look: Look
) -> tuple[Proposal, ...]:
    """The smallest wire for the whole way of a circuit with which no more than `share` is lost."""
    size = smallest_wire(MADE, lambda size: lost([_with(one, size, look) for one in pieces]), share)
    changing = [one for one in pieces if size is not None and one.hot.size < size]
    if size is None or not changing:
        return ()
    changes: list[tuple[Thing | Unstated, str, Any]] = []
    for one in changing:
        carried = one.carried
        if carried.wires is None:
            assert isinstance(carried.cable, Cable)  # noqa: S101 - a piece has a stated wire
            if size > LARGEST_CABLE.get(carried.cable.type, size):
                return ()
            changes.append((carried, "cable", _cable(carried.cable, size)))
        else:
            for key, wire in (("hot", carried.wires.hot), ("neutral", carried.wires.neutral)):
                if isinstance(wire, Conductor):
                    changes.append((carried.wires, key, _conductor(wire, max(wire.size, size))))
            ground = carried.wires.ground
            if ground is not None:
                changes.append((carried.wires, "ground", _conductor(ground, _grown(ground.size, one.hot.size, size))))
    return (Proposal.state(f"run {circuit.id} in {size}, all the way", Effort.WIRE, *changes),)


def _with(old: Piece, size: ConductorSize, look: Look) -> Piece:
    neutral = None if old.neutral is None else _at_least(old.neutral, size)
    return piece(old.route, old.carried, old.metres, old.steel, _at_least(old.hot, size), neutral, look)


def _at_least(wire: Wire, size: ConductorSize) -> Wire:
    return wire._replace(size=max(wire.size, size))


def _cable(cable: Cable, size: ConductorSize) -> str:
    ground = None if cable.ground is None else _grown(cable.ground, cable.size, size)
    insulated = [max(one, size) for one in cable.insulated]
    if "-" in cable.text.split()[1]:
        sizes = "-".join(one.designation for one in _some((*insulated, ground)))
    else:
        sizes = f"{size.designation}/{cable.text.split()[1].rpartition('/')[2]}"
    return " ".join([cable.type, sizes, *cable.text.split()[2:]])


def _some(sizes: Iterable[ConductorSize | None]) -> list[ConductorSize]:
    return [size for size in sizes if size is not None]


def _conductor(wire: Conductor, size: ConductorSize) -> str:
    return f"{f'{wire.count} × ' if wire.count > 1 else ''}{size} {wire.material} {wire.insulation}"


def _grown(ground: ConductorSize, hot: ConductorSize, size: ConductorSize) -> ConductorSize:
    """A grounding conductor grown with its hots, in the ratio of their areas."""
    wanted = Fraction(circular_mils(ground)) * Fraction(circular_mils(size)) / Fraction(circular_mils(hot))
    near = Fraction(99, 100)  # published areas lie within that of the formula
    return next((one for one in map(ConductorSize, SCALE) if circular_mils(one) >= wanted * near), size)
