"""What conductors a circuit has: hots, neutral, and the equipment grounding conductor along its way."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from precover.plan import Bend, Cable, Carried, Circuit, Conductor, Route
from precover.rulebook import Look
from precover.units import ConductorSize, Length
from precover_rules.separate_structures import leaves_its_structure

Path = Literal["yes", "within limits", "no"]


def carried_on(circuit: Circuit, look: Look) -> Iterator[tuple[Route, Carried]]:
    """Each part of a circuit's way with what carries it there, those nearer the origin first."""
    for route in look.trace.tree.routes[circuit.id]:
        yield route, route.carries[circuit.id]


def hots(circuit: Circuit, look: Look) -> Literal[1, 2]:
    """How many ungrounded conductors a single-phase circuit has."""
    voltage = look.stated(circuit.voltage)
    return 2 if voltage.line_to_line > voltage.line_to_ground or is_multiwire(circuit, look) else 1


def one_hot(circuit: Circuit, look: Look) -> str:
    """A condition of rules: only circuits of two hots are looked at."""
    return "one hot" if hots(circuit, look) == 1 else ""


def is_multiwire(circuit: Circuit, look: Look) -> bool:
    """Two hots share a neutral. Wiring with one or two insulated conductors cannot do that."""
    if circuit.multiwire is True or circuit.multiwire is False:
        return circuit.multiwire
    if any(_too_few_for_multiwire(carried) for _, carried in carried_on(circuit, look)):
        return False
    return look.stated(circuit.multiwire)


def uses_neutral(circuit: Circuit, look: Look) -> bool:
    """Something on it needs a neutral: it is written as 120 V, or with both voltages, or shares a neutral."""
    voltage = look.stated(circuit.voltage)
    return "/" in voltage.text or voltage.line_to_line == voltage.line_to_ground or circuit.multiwire is True


def hot_wire(carried: Carried, look: Look) -> tuple[ConductorSize, str, int]:
    """Size and metal of a hot conductor, and how many the part has of it (0 for a cable, which has one a hot)."""
    if carried.wires is None:
        cable = look.stated(carried.cable)
        return cable.size, cable.material, 0
    hot = look.stated(carried.wires.hot)
    return hot.size, hot.material, hot.count


def ground_wire(carried: Carried, look: Look) -> tuple[ConductorSize, str] | None:
    """Size and metal of the equipment grounding wire, or None."""
    if carried.wires is not None:
        ground = carried.wires.ground
        return None if ground is None else (ground.size, ground.material)
    cable = look.stated(carried.cable)
    return None if cable.ground is None else (cable.ground, cable.material)


def grounding_path(way: Sequence[Route], circuit: Circuit, look: Look) -> tuple[Path, Route | None]:
    """Whether an equipment grounding conductor goes with a circuit over a way, and the first part where it does not.

    A wire in every part, or a metal raceway of a kind that counts around all of it ("within limits" is a raceway that
    counts only under conditions that a plan does not show).
    """
    doubtful: Route | None = None
    for route in way:
        if ground_wire(route.carries[circuit.id], look) is not None:
            continue
        path = _raceway_path(route, look)
        if path == "no":
            return "no", route
        if path == "within limits":
            doubtful = doubtful or route
    return ("within limits", doubtful) if doubtful else ("yes", None)


def kept_three_wire(feeder: Circuit, look: Look) -> bool:
    """An existing feeder to another structure without an equipment grounding conductor, whose neutral has to do that duty."""
    if feeder.existing is not True or not leaves_its_structure(feeder, look):
        return False
    return grounding_path(look.trace.tree.routes[feeder.id], feeder, look)[0] == "no"


def _raceway_path(route: Route, look: Look) -> Path:
    found: set[str] = set()
    flexible: list[Length] = []
    for leg in route.legs:
        if not isinstance(leg, Bend):
            kind = look.stated(look.trace.raceway_around(leg)).type
            counts = look.cell("equipment-grounding-raceways", kind).value
            found.add(counts)
            if counts == "within limits" and isinstance(leg.length, Length):
                flexible.append(leg.length)
    if not found or "no" in found or _is_longer(flexible, look):
        return "no"
    return "within limits" if "within limits" in found else "yes"


def _is_longer(flexible: Sequence[Length], look: Look) -> bool:
    """Flexible metal raceway, as far as its length is stated, that is too long to count."""
    if not flexible:
        return False
    longest = look.limit("flexible metal raceway as a ground, longest").like(flexible[0])
    return bool(sum((length.amount for length in flexible), Fraction(0)) > longest.amount)


def _too_few_for_multiwire(carried: Carried) -> bool:
    if carried.wires is not None:
        hot = carried.wires.hot
        return isinstance(hot, Conductor) and hot.count == 1
    return isinstance(carried.cable, Cable) and len(carried.cable.insulated) < 3


def has_neutral(circuit: Circuit, carried: Carried, look: Look) -> bool:
    """A neutral goes with the circuit in this part of its way."""
    if carried.wires is not None:
        return carried.wires.neutral is not None
    return len(look.stated(carried.cable).insulated) > hots(circuit, look)
