"""Depth of cover over buried wiring."""

from precover.plan import BuriedLeg, Circuit, Raceway
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    does_not_apply,
    met,
    rule,
)
from precover.units import Length
from precover_rules.premises import is_dwelling, is_small_dwelling
from precover_rules.protection import class_a_among
from precover_rules.raceways import NONMETALLIC, RIGID_METAL, is_raceway

SMALL = "small ground-fault protected branch circuit"
LOW_VOLTAGE = "low-voltage control or lighting"
OPEN_GROUND = "open ground"


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
    circuits = [circuit for circuit, _ in look.trace.circuits_on(look.trace.route_of(leg))]
    if not circuits:
        return does_not_apply("nothing is carried here")
    if leg.buried == "building":
        return does_not_apply("under a building no depth is asked for")
    cover = look.stated(leg.cover)
    locations = _locations(leg, cover, look)
    answers = [_for_circuit(circuit, leg, cover, locations, look) for circuit in circuits]
    return next((answer for answer in answers if answer.proposals), answers[0])


def _for_circuit(circuit: Circuit, leg: BuriedLeg, cover: Length, locations: list[str], look: Look) -> Answer:
    """The cover that one circuit asks for: by its wiring method, or by the shallower column that it qualifies for."""
    if circuit.kind == "low-voltage" and isinstance(circuit.kit_depth, Length) and cover >= circuit.kit_depth:
        return met("cover", cover, f"at least {circuit.kit_depth}, by the instructions of the listed system")
    raceway = look.stated(look.trace.raceway_around(leg))
    laid = "raceway" if is_raceway(raceway) else "direct"
    needed = _deepest(locations, _column(raceway), laid, look)
    if cover < needed.like(cover):
        needed = _shallower(circuit, leg, cover, raceway, locations, look) or needed
    look.because(f"{raceway}, {' and '.join(locations)}: the column of {needed.key[1]}", leg.place)
    if cover < needed.like(cover) and _rock(leg, raceway, look):
        return does_not_apply("solid rock, with concrete over the raceway down to it")
    short = cover < needed.like(cover)
    ways = _ways_out(circuit, leg, cover, needed, locations, look) if short else ()
    return at_least("cover", cover, needed, at=f"{leg.place}/cover", amend=ways)


def _locations(leg: BuriedLeg, cover: Length, look: Look) -> list[str]:
    """The location rows that describe the leg. Where two do, the table does not say which wins: the deeper one is taken."""
    rows: list[str] = []
    if leg.buried in ("street", "alley"):
        rows.append("street, road or parking")
    elif leg.buried in ("driveway", "parking"):
        at_home = is_small_dwelling(look) and look.stated(leg.dwelling_use_only)
        rows.append("dwelling driveway" if at_home else "street, road or parking")
    elif leg.buried == "airport":
        rows.append("airport")
    deepest = look.cell("minimum-cover", OPEN_GROUND, "direct burial", "direct")
    if cover < deepest.like(cover):
        # Only where the cover is short can concrete over the wiring make a difference.
        if _under_slab(leg) and _counts_as_slab(leg, look):
            rows.append("exterior slab")
        cap = leg.concrete_cap
        if cap is not None and cap >= look.limit("concrete over wiring in a trench").like(cap):
            rows.append("concrete in trench")
    return rows or [OPEN_GROUND]


def _under_slab(leg: BuriedLeg) -> bool:
    """A slab, or a walk or patio for which the plan claims one."""
    return leg.buried == "slab" or (leg.buried in ("patio", "walk") and isinstance(leg.slab.thickness, Length))


def _counts_as_slab(leg: BuriedLeg, look: Look) -> bool:
    thickness = look.stated(leg.slab.thickness)
    if thickness < look.limit("exterior slab thickness").like(thickness):
        return False
    if look.stated(leg.slab.vehicles):
        return False
    past = look.stated(leg.slab.reaches_past)
    return bool(past >= look.limit("exterior slab reach past the wiring").like(past))


def _column(raceway: Raceway) -> str:
    if not is_raceway(raceway):
        return "direct burial"
    return "rigid metal conduit" if raceway.type in RIGID_METAL else "nonmetallic raceway"


def _deepest(locations: list[str], column: str, laid: str, look: Look) -> Cell:
    return max(
        (look.cell("minimum-cover", location, column, laid) for location in locations), key=lambda cell: cell.value
    )


def _shallower(
    circuit: Circuit, leg: BuriedLeg, cover: Length, raceway: Raceway, locations: list[str], look: Look
) -> Cell | None:
    """The cell of a shallower column, if that column would do and the circuit meets its conditions."""
    laid = "raceway" if is_raceway(raceway) else "direct"
    for column, qualifies in ((LOW_VOLTAGE, _low_voltage), (SMALL, _small)):
        cell = _deepest(locations, column, laid, look)
        if cover >= cell.like(cover) and qualifies(circuit, leg, look):
            return cell
    return None


def _low_voltage(circuit: Circuit, leg: BuriedLeg, look: Look) -> bool:
    if look.stated(circuit.voltage).line_to_line > look.limit("low-voltage circuit voltage").value.amount:
        return False
    use = look.stated(circuit.use)
    if use == "pool lighting":
        return look.stated(look.trace.raceway_around(leg)).type in NONMETALLIC
    return use in ("irrigation control", "landscape lighting")


def _small(circuit: Circuit, leg: BuriedLeg, look: Look) -> bool:
    if circuit.kind != "branch circuit":
        look.because(f"a {circuit.kind} cannot use the shallow column", circuit.place)
        return False
    if not is_dwelling(look):
        look.because("the shallow column is for dwellings", "/site/premises")
        return False
    voltage = look.stated(circuit.voltage)
    if voltage.line_to_line > look.limit("small branch circuit voltage").value.amount:
        look.because(f"at {voltage} the shallow column is closed", f"{circuit.place}/voltage")
        return False
    rating = look.stated(circuit.breaker.rating)
    if rating > look.limit("small branch circuit overcurrent device").value:
        look.because(f"behind {rating} the shallow column is closed", f"{circuit.breaker.place}/rating")
        return False
    protector = class_a_among(look.trace.protectors_ahead_of_leg(circuit, leg), look)
    if protector is None:
        look.because("no ground-fault protection stands ahead of this leg", circuit.place)
        return False
    look.because("ground-fault protection ahead of this leg", protector.place)
    return True


def _rock(leg: BuriedLeg, raceway: Raceway, look: Look) -> bool:
    """Solid rock: a raceway may lie shallower under concrete that reaches down to the rock."""
    cap = leg.concrete_cap
    if not (leg.rock and leg.cap_to_rock and cap is not None and is_raceway(raceway)):
        return False
    return bool(cap >= look.limit("concrete over rock").like(cap))


def _ways_out(
    circuit: Circuit, leg: BuriedLeg, cover: Length, needed: Cell, locations: list[str], look: Look
) -> tuple[Proposal, ...]:
    """Protect ahead, cap with concrete, run it in rigid metal, or dig: each only where it would settle this leg."""
    depth = needed.twin_text if cover.metric and needed.twin_text else needed.text
    ways = [Proposal.state(f"bury this leg under {depth} of cover", Effort.DIGGING, (leg, "cover", depth))]
    rigid = _deepest(locations, "rigid metal conduit", "raceway", look)
    if cover >= rigid.like(cover):
        raceway = look.stated(look.trace.raceway_around(leg))
        text = f"RMC {raceway.size}" if raceway.size is not None else "RMC 1 in"
        ways.append(
            Proposal.state(f"run this leg in rigid metal conduit ({text})", Effort.WIRE, (leg, "raceway", text))
        )
    capped = look.cell("minimum-cover", "concrete in trench", needed.key[1], needed.key[2])
    if locations == [OPEN_GROUND] and cover >= capped.like(cover):
        cap = look.limit("concrete over wiring in a trench").text
        ways.append(
            Proposal.state(
                f"lay {cap} of concrete over the wiring in the trench", Effort.DIGGING, (leg, "concrete-cap", cap)
            )
        )
    small = _deepest(locations, SMALL, needed.key[2], look)
    if cover >= small.like(cover) and circuit.kind == "branch circuit":
        ways.append(
            Proposal.state(
                "put ground-fault protection at the breaker, ahead of the buried wiring",
                Effort.PART,
                (circuit.breaker, "ground-fault", "class A"),
            )
        )
    return tuple(sorted(ways, key=lambda way: way.effort))
