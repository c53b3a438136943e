"""Whether a fault at the end of a long circuit drives enough current to trip its breaker at once."""

from __future__ import annotations

from functools import lru_cache

from precover.electrical.grounding import fault_current
from precover.plan import Circuit
from precover.rulebook import Answer, Cell, Look, Missing, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import ConductorSize, Current
from precover_rules.circuit_conductors import ground_wire
from precover_rules.conditions import low_voltage
from precover_rules.lengths import metres_of
from precover_rules.separate_structures import leaves_its_structure
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.larger_ground import ground_with
from precover_rules.voltage_drop.larger import MADE, all_the_way

TABLE = "conductor-properties"
UNKNOWN = (
    "no grounding wire all the way, or one of unknown resistance, or it stays in a building and a length is not stated"
)


@rule(
    looks_at=Circuit,
    unless=low_voltage,
    severity=Severity.ADVICE,
    stage=Stage.PLAN,
    look_up="250.4(A)(5) in 2017, 2020 and 2023 (from memory): a fault path of low impedance",
    hazard="shock",
)
def fault_trips_at_once(circuit: Circuit, look: Look) -> Answer:
    """A fault at the far end of a circuit drives several times the rating of its breaker, which then trips at once."""
    loop = _loop(circuit, look)
    if loop is None:
        return does_not_apply(UNKNOWN)
    if not loop:
        return does_not_apply("it goes nowhere")
    volts = look.stated(circuit.voltage).line_to_ground
    amps = round(fault_current(volts, complex(loop)))
    times = look.limit("current that trips a breaker at once").value
    rating = look.stated(circuit.breaker.rating)
    most = Current.of(rating.amount * times, "A")
    look.because(f"hot and grounding wire to the far end: {loop:.2f} ohm, without the source", circuit.place)
    has, needs = f"about {amps} A at most", f"at least {most}, {times} times {rating}"
    if amps >= most.amount:
        return met("fault current", has, needs)
    why = "A larger hot and grounding wire, or a smaller breaker, clears a fault sooner."
    return not_met(
        "fault current", has, needs, why=why, amend=tuple(_larger(circuit, float(volts / most.amount), look))
    )


def _larger(circuit: Circuit, ohms: float, look: Look) -> tuple[Proposal, ...]:
    """For the circuit, and for each feeder ahead of it: the smallest wire for the whole way of that one with which the loop
    has no more than so many ohms; the derivation is not about it."""
    noted = len(look.cells), len(look.steps)
    ways = [*_larger_in(circuit, circuit, ohms, look)]
    ahead = look.trace.tree.ahead_of(circuit, look.plan)
    while ahead is not None:
        try:
            ways += _larger_in(ahead, circuit, ohms, look)
        except Missing:
            break  # nothing is asked about a feeder for the sake of what is offered
        ahead = look.trace.tree.ahead_of(ahead, look.plan)
    del look.cells[noted[0] :], look.steps[noted[1] :]
    return tuple(ways)


def _larger_in(part_of: Circuit, circuit: Circuit, ohms: float, look: Look) -> tuple[Proposal, ...]:
    """Larger wire in one circuit of the loop of another."""
    parts = [part for part in laid_on(part_of, look) if isinstance(part, Laid)]
    size = next((size for size in MADE if _is_within(ohms, _loop(circuit, look, (part_of, size)))), None)
    smaller = [(part.route, part.carried) for part in parts if size is not None and part.size < size]
    return () if size is None or not smaller else all_the_way(part_of, size, smaller, look)


def _is_within(ohms: float, loop: float | None) -> bool:
    return loop is not None and loop <= ohms


def _loop(circuit: Circuit, look: Look, grown: tuple[Circuit, ConductorSize] | None = None) -> float | None:
    """Resistance of hot and grounding wire, from the service to the farthest point of a circuit, in ohms; None where the
    plan does not tell. The source, and what joints add, are left out: more current than this cannot flow. With `grown` that
    circuit has wire of the size where it has smaller, and the ground that goes with it."""
    ahead = look.trace.tree.ahead_of(circuit, look.plan)
    upstream = 0.0 if ahead is None else _loop(ahead, look, grown)
    if upstream is None:
        return None
    least = grown[1] if grown is not None and grown[0] is circuit else None
    along: dict[str, float] = {}
    for part in laid_on(circuit, look):
        if isinstance(part, Answer) or (ohms := _of_route(part, look, least)) is None:
            return None
        along[part.route.to] = along.get(part.route.from_, 0.0) + ohms
    return max(along.values(), default=0.0) + (upstream if along else 0.0)


def _of_route(part: Laid, look: Look, least: ConductorSize | None) -> float | None:
    ground = ground_wire(part.carried, look)
    if ground is None:
        return None
    size, (back_size, back_metal) = part.size, ground
    if least is not None and least > size:
        size, rating = least, look.stated(part.circuit.breaker.rating)
        back_size = ground_with(part, size, rating, look) or back_size
    hot, back = _per_km(size, part.metal, look), _per_km(back_size, back_metal, look)
    metres = metres_of(part.route, leaves_its_structure(part.circuit, look), look)
    return None if hot is None or back is None or metres is None else metres / 1000 * (hot + back)


def _per_km(size: ConductorSize, metal: str, look: Look) -> float | None:
    cell = look.find(TABLE, size.designation, "stranded", f"resistance {metal}")
    return None if cell is None else _ohms(cell)


@lru_cache(maxsize=256)
def _ohms(cell: Cell) -> float:
    return float(cell.value.amount)
