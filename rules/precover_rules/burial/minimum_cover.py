"""Depth of cover over buried wiring."""

from collections.abc import Callable
from fractions import Fraction

from precover.plan import BuriedLeg, Circuit
from precover.rulebook import (
    Answer,
    Look,
    Missing,
    Outcome,
    Severity,
    Stage,
    at_least,
    does_not_apply,
    met,
    rule,
)
from precover.units import Length
from precover_rules.burial.cover_table import (
    LOW_VOLTAGE,
    OPEN_GROUND,
    SMALL,
    TABLE,
    column_of,
    deepest,
    is_listed_lighting,
    laid,
    qualifies_as_low_voltage,
    qualifies_as_small,
    row_of_ground,
    rows_of_concrete,
)
from precover_rules.burial.cover_ways import ways_out
from precover_rules.raceways import is_raceway


@rule(
    looks_at=BuriedLeg,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=(
        "cover-open-ground",
        "cover-two-inch-concrete-in-trench",
        "cover-under-building",
        "cover-exterior-slab-four-inch",
        "cover-street-or-parking",
        "cover-dwelling-driveway",
        "cover-airport",
        "cover-measured-to-top",
        "cover-rock",
        "cover-shallowest-column-choice",
        "cover-strictest-row",
        "cover-small-gfci-column-conditions",
        "cover-thirty-volt-column-conditions",
        "cover-listed-landscape-kit-less",
        "cover-pool-light-six-inch",
    ),
)
def cover_over_a_buried_leg(leg: BuriedLeg, look: Look) -> Answer:
    """The cover over buried wiring is not less than the minimum for its method, its place and its circuit."""
    if leg.buried == "building":
        return does_not_apply("under a building no depth is asked for")
    circuits: list[Circuit | None] = [circuit for circuit, _ in look.trace.circuits_on(look.trace.route_of(leg))]
    if not circuits:
        if look.stated(look.trace.raceway_around(leg)).absent:
            return does_not_apply("nothing is carried here")
        circuits = [None]  # a spare raceway
    cover = look.stated(leg.cover)
    answers = [_for_circuit(circuit, leg, cover, look) for circuit in circuits]
    short = [answer for answer in answers if answer.outcome is Outcome.NOT_MET]
    return max(short or answers, key=_depth_needed)


def _depth_needed(answer: Answer) -> Fraction:
    return Fraction(0) if answer.limit is None else answer.limit.value.amount


def _for_circuit(circuit: Circuit | None, leg: BuriedLeg, cover: Length, look: Look) -> Answer:
    """The cover that one circuit asks for: by its wiring method, or by the shallower column that it qualifies for."""
    raceway = look.stated(look.trace.raceway_around(leg))
    rows = [row_of_ground(leg, look)]
    in_the_open = rows == [OPEN_GROUND]
    needed = look.cell(TABLE, rows[0], column_of(raceway), laid(raceway))
    if in_the_open and cover < needed.like(cover):
        rows = rows_of_concrete(leg, look) or rows
        needed = deepest(rows, column_of(raceway), laid(raceway), look)
    perhaps: list[str] = []
    if circuit is not None and cover < needed.like(cover):
        kit = circuit.kit_depth
        if in_the_open and kit is not None and is_listed_lighting(circuit, look):
            if cover >= kit:
                return met("cover", cover, f"at least {kit}, by the instructions of the listed system")
            perhaps.append(f"or {kit} by the instructions of the listed system")
        for column, qualifies in ((LOW_VOLTAGE, qualifies_as_low_voltage), (SMALL, qualifies_as_small)):
            cell = deepest(rows, column, laid(raceway), look)
            if cell.value >= needed.value:
                continue
            enough = cover >= cell.like(cover)
            fits = qualifies(circuit, leg, look) if enough else _as_far_as_stated(qualifies, circuit, leg, look)
            if fits is None:
                perhaps.append(f"or {cell.like(cover)} if it qualifies as {column}")
            if fits:
                needed = cell
                break
    look.because(f"{raceway}, {' and '.join(rows)}: the column of {needed.key[1]}", leg.place)
    if cover >= needed.like(cover):
        return at_least("cover", cover, needed, at=f"{leg.place}/cover")
    cap = leg.concrete_cap
    over_rock = look.limit("concrete over rock")
    if leg.rock and leg.cap_to_rock and is_raceway(raceway) and cap is not None and cap >= over_rock.like(cap):
        return met("concrete over the raceway", cap, f"at least {over_rock.text}, down to the solid rock")
    ways = ways_out(circuit, leg, cover, raceway, needed, rows, look)
    return at_least("cover", cover, needed, why=", ".join(perhaps), at=f"{leg.place}/cover", amend=ways)


def _as_far_as_stated(
    qualifies: Callable[[Circuit, BuriedLeg, Look], bool], circuit: Circuit, leg: BuriedLeg, look: Look
) -> bool | None:
    """Whether a circuit qualifies for a column in which the leg would be too shallow all the same; None where that hangs
    on a fact that the plan leaves out, which then is no reason to ask for it."""
    try:
        return qualifies(circuit, leg, look)
    except Missing:
        return None
