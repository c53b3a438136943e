"""Depth of cover over buried wiring."""

from fractions import Fraction

from precover.plan import BuriedLeg, Circuit, Raceway, Receptacle
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Outcome,
    Proposal,
    Severity,
    Stage,
    at_least,
    does_not_apply,
    met,
    rule,
)
from precover.units import Length
from precover_rules.burial.cover_table import (
    CONCRETE_IN_TRENCH,
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
    why_not_small,
)
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
    return short[0] if short else max(answers, key=_depth_needed)


def _depth_needed(answer: Answer) -> Fraction:
    return answer.needs.amount if isinstance(answer.needs, Length) else Fraction(0)


def _for_circuit(circuit: Circuit | None, leg: BuriedLeg, cover: Length, look: Look) -> Answer:
    """The cover that one circuit asks for: by its wiring method, or by the shallower column that it qualifies for."""
    raceway = look.stated(look.trace.raceway_around(leg))
    rows = [row_of_ground(leg, look)]
    in_the_open = rows == [OPEN_GROUND]
    needed = look.cell(TABLE, rows[0], column_of(raceway), laid(raceway))
    if in_the_open and cover < needed.like(cover):
        rows = rows_of_concrete(leg, look) or rows
        needed = deepest(rows, column_of(raceway), laid(raceway), look)
    if circuit is not None and cover < needed.like(cover):
        kit = circuit.kit_depth
        if in_the_open and kit is not None and cover >= kit and is_listed_lighting(circuit, look):
            return met("cover", cover, f"at least {kit}, by the instructions of the listed system")
        needed = _shallower(circuit, leg, cover, raceway, rows, look) or needed
    look.because(f"{raceway}, {' and '.join(rows)}: the column of {needed.key[1]}", leg.place)
    if cover >= needed.like(cover):
        return at_least("cover", cover, needed, at=f"{leg.place}/cover")
    cap = leg.concrete_cap
    over_rock = look.limit("concrete over rock")
    if leg.rock and leg.cap_to_rock and is_raceway(raceway) and cap is not None and cap >= over_rock.like(cap):
        return met("concrete over the raceway", cap, f"at least {over_rock.text}, down to the solid rock")
    ways = _ways_out(circuit, leg, cover, raceway, needed, rows, look)
    return at_least("cover", cover, needed, at=f"{leg.place}/cover", amend=ways)


def _shallower(
    circuit: Circuit, leg: BuriedLeg, cover: Length, raceway: Raceway, rows: list[str], look: Look
) -> Cell | None:
    """The cell of a shallower column, if that column would do and the circuit meets its conditions."""
    for column, qualifies in ((LOW_VOLTAGE, qualifies_as_low_voltage), (SMALL, qualifies_as_small)):
        cell = deepest(rows, column, laid(raceway), look)
        if cover >= cell.like(cover) and qualifies(circuit, leg, look):
            return cell
    return None


def _ways_out(
    circuit: Circuit | None,
    leg: BuriedLeg,
    cover: Length,
    raceway: Raceway,
    needed: Cell,
    rows: list[str],
    look: Look,
) -> tuple[Proposal, ...]:
    """Protect ahead, cap with concrete, run it in rigid metal, or dig: each only where it would settle this leg."""
    depth = needed.twin_text if cover.metric and needed.twin_text else needed.text
    ways = [Proposal.state(f"bury this leg under {depth} of cover", Effort.DIGGING, (leg, "cover", depth))]
    rigid = deepest(rows, "rigid metal conduit", "raceway", look)
    if cover >= rigid.like(cover):
        text = f"RMC {raceway.size or '1 in'}"
        ways.append(
            Proposal.state(f"run this leg in rigid metal conduit ({text})", Effort.WIRE, (leg, "raceway", text))
        )
    ways.extend(_in_concrete(leg, cover, raceway, needed, rows, look))
    if circuit is not None and cover >= deepest(rows, SMALL, laid(raceway), look).like(cover):
        ways.extend(_by_protection(circuit, leg, look))
    return tuple(sorted(ways, key=lambda way: way.effort))


def _in_concrete(
    leg: BuriedLeg, cover: Length, raceway: Raceway, needed: Cell, rows: list[str], look: Look
) -> list[Proposal]:
    if leg.rock and is_raceway(raceway):
        cap = look.limit("concrete over rock").text
        words = f"lay {cap} of concrete over the raceway, down to the rock"
        return [Proposal.state(words, Effort.DIGGING, (leg, "concrete-cap", cap), (leg, "cap-to-rock", True))]
    capped = look.cell(TABLE, CONCRETE_IN_TRENCH, needed.key[1], needed.key[2])
    if rows != [OPEN_GROUND] or cover < capped.like(cover):
        return []
    cap = look.limit("concrete over wiring in a trench").text
    words = f"lay {cap} of concrete over the wiring in the trench"
    return [Proposal.state(words, Effort.DIGGING, (leg, "concrete-cap", cap))]


def _by_protection(circuit: Circuit, leg: BuriedLeg, look: Look) -> list[Proposal]:
    if why_not_small(circuit, look) is not None:
        return []
    ahead = [
        Proposal.state(
            f"feed what leaves {look.trace.box_of(device).id} from the load side of {device.id}",
            Effort.PAPER,
            (device, "protects-downstream", True),
        )
        for device in look.trace.protectors_ahead_of_leg(circuit, leg)
        if isinstance(device, Receptacle) and device.ground_fault is True
    ]
    words = "put ground-fault protection at the breaker, ahead of the buried wiring"
    return [*ahead, Proposal.state(words, Effort.PART, (circuit.breaker, "ground-fault", "class A"))]
