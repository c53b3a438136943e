"""The minimum-cover table: which of its cells a buried leg and its circuit stand in.

The row is what lies over the wiring, the column how it is wired. A circuit that qualifies for one of the two shallow
columns may use that instead of the column of its wiring method.
"""

from precover.plan import BuriedLeg, Circuit, Raceway, Transformer
from precover.rulebook import Cell, Look
from precover.units import Length
from precover_rules.premises import is_dwelling, is_small_dwelling
from precover_rules.protection import class_a_among, named
from precover_rules.raceways import NONMETALLIC, RIGID_METAL, is_raceway

TABLE = "minimum-cover"
OPEN_GROUND = "open ground"
CONCRETE_IN_TRENCH = "concrete in trench"
SMALL = "small ground-fault protected branch circuit"
LOW_VOLTAGE = "low-voltage control or lighting"


def column_of(raceway: Raceway) -> str:
    """The column of a wiring method. Plumbing pipe is no raceway, so what is in it counts as laid without one."""
    if not is_raceway(raceway):
        return "direct burial"
    return "rigid metal conduit" if raceway.type in RIGID_METAL else "nonmetallic raceway"


def laid(raceway: Raceway) -> str:
    """How wiring is laid, as the table's third key: in the two shallow columns some depths differ by it."""
    return "raceway" if is_raceway(raceway) else "direct"


def row_of_ground(leg: BuriedLeg, look: Look) -> str:
    """The row of the ground itself, without regard to concrete over the wiring: a place where vehicles go, or open
    ground."""
    if leg.buried in ("street", "alley"):
        return "street, road or parking"
    if leg.buried in ("driveway", "parking") or (_under_slab(leg) and look.stated(leg.slab.vehicles)):
        at_home = is_small_dwelling(look) and look.stated(leg.dwelling_use_only)
        return "dwelling driveway" if at_home else "street, road or parking"
    return "airport" if leg.buried == "airport" else OPEN_GROUND


def rows_of_concrete(leg: BuriedLeg, look: Look) -> list[str]:
    """The rows of concrete over the wiring in ground where no vehicles go."""
    rows: list[str] = []
    if _under_slab(leg) and _counts_as_slab(leg, look):
        rows.append("exterior slab")
    cap = leg.concrete_cap
    if cap is not None and cap >= look.limit("concrete over wiring in a trench").like(cap):
        rows.append(CONCRETE_IN_TRENCH)
    return rows


def deepest(rows: list[str], column: str, laid: str, look: Look) -> Cell:
    """The cell with the greatest depth: where several rows describe a leg, the table does not say which wins."""
    return max((look.cell(TABLE, row, column, laid) for row in rows), key=lambda cell: cell.value)


def qualifies_as_low_voltage(circuit: Circuit, leg: BuriedLeg, look: Look) -> bool:
    """Irrigation control or landscape lighting of 30 V or less; or such pool lights of a listed system in nonmetallic
    raceway."""
    if look.stated(circuit.voltage).line_to_line > look.limit("low-voltage circuit voltage").value.amount:
        return False
    use = look.stated(circuit.use)
    if use == "pool lighting":
        in_plastic = look.stated(look.trace.raceway_around(leg)).type in NONMETALLIC
        return in_plastic and _of_listed_system(circuit, look)
    return use in ("irrigation control", "landscape lighting")


def is_listed_lighting(circuit: Circuit, look: Look) -> bool:
    """Landscape lighting of 30 V or less, for which the depth of a listed system's instructions can stand."""
    if look.stated(circuit.voltage).line_to_line > look.limit("low-voltage circuit voltage").value.amount:
        return False
    return look.stated(circuit.use) == "landscape lighting"


def qualifies_as_small(circuit: Circuit, leg: BuriedLeg, look: Look) -> bool:
    """A small branch circuit of a dwelling with ground-fault protection ahead of the leg."""
    closed = why_not_small(circuit, look)
    if closed is not None:
        look.because(*closed)
        return False
    protector = class_a_among(look.trace.protectors_ahead_of_leg(circuit, leg), look)
    if protector is None:
        look.because("no ground-fault protection stands ahead of this leg", circuit.place)
        return False
    look.because(f"ground-fault protection ahead of this leg: {named(protector, look)}", protector.place)
    return True


def why_not_small(circuit: Circuit, look: Look) -> tuple[str, str] | None:
    """What of the circuit itself keeps it from the small column, with its place; None where only protection is left
    to ask for."""
    if circuit.kind != "branch circuit":
        return f"a {circuit.kind} cannot use the shallow column", circuit.place
    if not is_dwelling(look):
        return "the shallow column is for dwellings", "/site/premises"
    voltage = look.stated(circuit.voltage)
    if voltage.line_to_line > look.limit("small branch circuit voltage").value.amount:
        return f"at {voltage} the shallow column is closed", f"{circuit.place}/voltage"
    rating = look.stated(circuit.breaker.rating)
    if rating > look.limit("small branch circuit overcurrent device").value:
        return f"behind {rating} the shallow column is closed", f"{circuit.breaker.place}/rating"
    return None


def _under_slab(leg: BuriedLeg) -> bool:
    """A slab, or a walk or patio for which the plan claims one."""
    return leg.buried == "slab" or (leg.buried in ("patio", "walk") and isinstance(leg.slab.thickness, Length))


def _counts_as_slab(leg: BuriedLeg, look: Look) -> bool:
    """Thick enough, and reaching far enough past the wiring, where no vehicles go."""
    thickness = look.stated(leg.slab.thickness)
    if thickness < look.limit("exterior slab thickness").like(thickness):
        return False
    past = look.stated(leg.slab.reaches_past)
    return bool(past >= look.limit("exterior slab reach past the wiring").like(past))


def _of_listed_system(circuit: Circuit, look: Look) -> bool:
    """Its transformer belongs to a listed system."""
    box, _, device = circuit.from_.partition("/")
    start = look.plan.boxes[box].devices[device] if device else None
    return isinstance(start, Transformer) and look.stated(start.listed_system)
