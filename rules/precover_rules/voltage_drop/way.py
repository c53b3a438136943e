"""The wires of a circuit's way as impedances."""

from functools import lru_cache
from typing import NamedTuple

from precover.electrical.voltage_drop import impedance
from precover.electrical.wire import Metal
from precover.plan import Carried, Circuit, Route, Unstated
from precover.rulebook import Cell, Look
from precover.units import ConductorSize, Length, ResistancePerLength
from precover_rules.circuit_conductors import has_neutral, hot_wire, hots
from precover_rules.lengths import metres_of
from precover_rules.loads.known import known
from precover_rules.loads.neutral import neutral_wire
from precover_rules.raceways import METALLIC
from precover_rules.separate_structures import leaves_its_structure

ALTERNATING = "ac-impedance"
DIRECT = "conductor-properties"
IN_TABLE = {"Cu": ConductorSize("14"), "Al": ConductorSize("12")}
LARGEST_IN_TABLE = ConductorSize("500")
"""Metal -> the smallest size in the table for alternating current, and the largest of either."""

NO_REACTANCE = ResistancePerLength.of(0, "ohm/km")
METRE = Length.of(1, "m")


class Wire(NamedTuple):
    """A conductor: its size, its metal, and how many lie in parallel."""

    size: ConductorSize
    metal: Metal
    parallel: int = 1


class Piece(NamedTuple):
    """A circuit's wires over one route: each hot, and the neutral where it has one; impedances in ohms."""

    route: Route
    carried: Carried
    metres: float
    steel: bool
    hot: Wire
    neutral: Wire | None
    hot_ohms: complex
    neutral_ohms: complex


def pieces(circuit: Circuit, look: Look) -> list[Piece] | str:
    """A circuit's way, nearest its origin first; in words why the drop is not worked out, where it cannot be."""
    routes = look.trace.tree.routes[circuit.id]
    parts = [route.carries[circuit.id] for route in routes]
    if any(map(_is_open, parts)):
        return "its wire is not stated"
    outdoors = leaves_its_structure(circuit, look)
    count = hots(circuit, look)
    found: list[Piece] = []
    for route, carried in zip(routes, parts, strict=True):
        metres = metres_of(route, outdoors, look)
        if metres is None:
            return "it stays in one building, and a length in there is not stated"
        size, metal, wires = hot_wire(carried, look)
        hot = Wire(size, _metal(metal), max(1, wires // count))
        bare = neutral_wire(carried, look) if has_neutral(circuit, carried, look) else None
        neutral = None if bare is None else Wire(bare[0], _metal(bare[1]))
        if hot.size > LARGEST_IN_TABLE or (neutral is not None and neutral.size > LARGEST_IN_TABLE):
            return f"no resistance is known here for wire above {LARGEST_IN_TABLE}"
        found.append(piece(route, carried, metres, _in_steel(route, look), hot, neutral, look))
    return found


def piece(
    route: Route, carried: Carried, metres: float, steel: bool, hot: Wire, neutral: Wire | None, look: Look
) -> Piece:
    """A piece with its impedances."""
    of_hot = metres * _per_metre(hot, steel, look)
    of_neutral = of_hot if neutral == hot else 0j if neutral is None else metres * _per_metre(neutral, steel, look)
    return Piece(route, carried, metres, steel, hot, neutral, of_hot, of_neutral)


def _per_metre(wire: Wire, steel: bool, look: Look) -> complex:
    """The impedance of a metre of wire, from the table for alternating current; of the largest and smallest sizes, which
    are not in it, the resistance to direct current."""
    key = wire.size.designation
    reactance = None
    if IN_TABLE[wire.metal] <= wire.size <= LARGEST_IN_TABLE:
        around = "steel" if steel else "PVC"
        resistance = look.cell(ALTERNATING, key, around, f"resistance {wire.metal}")
        reactance = look.cell(ALTERNATING, key, around, "reactance")
    else:
        resistance = look.cell(DIRECT, key, "stranded", f"resistance {wire.metal}")
    return _ohms(resistance, reactance, wire.metal) / wire.parallel


@lru_cache(maxsize=256)
def _ohms(resistance: Cell, reactance: Cell | None, metal: Metal) -> complex:
    return impedance(resistance.value, NO_REACTANCE if reactance is None else reactance.value, METRE, metal)


def _metal(name: str) -> Metal:
    return "Al" if name == "Al" else "Cu"


def _is_open(carried: Carried) -> bool:
    return isinstance(carried.cable if carried.wires is None else carried.wires.hot, Unstated)


def _in_steel(route: Route, look: Look) -> bool:
    """Some of it is in metal raceway, or may be: steel gives the higher impedance."""
    around = known(route.raceway, look)
    for leg in route.legs:
        kind = around if isinstance(leg.raceway, Unstated) else leg.raceway
        if kind is None or kind.type in METALLIC:
            return True
    return False
