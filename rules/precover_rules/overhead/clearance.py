"""How high a span hangs above what lies under it."""

from precover.plan import OverheadLeg, Route, Unstated
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
    inspection,
    rule,
)
from precover.units import Length
from precover_rules.overhead.spans import LOW_VOLTAGE_ONLY, has_span, power_on
from precover_rules.premises import is_dwelling, is_small_dwelling

TABLE = "overhead-clearance"
WALKS = "over walks for pedestrians only"
RESIDENTIAL = "over residential property and driveways"
TRUCKS = "over streets, truck parking and farm land"


def _over_a_roof(leg: OverheadLeg, _look: Look) -> str:
    return "over a roof" if leg.overhead == "roof" else ""


def _not_over_a_roof(leg: OverheadLeg, _look: Look) -> str:
    return "" if leg.overhead == "roof" else "not over a roof"


@rule(
    looks_at=OverheadLeg,
    unless=_over_a_roof,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("overhead-clearance-ground",),
)
def clearance_above_ground(leg: OverheadLeg, look: Look) -> Answer:
    """The lowest point of a span is high enough above the ground for what passes below, and for its voltage."""
    circuits = power_on(leg, look)
    if not circuits:
        return does_not_apply(LOW_VOLTAGE_ONLY)
    has = look.stated(leg.clearance)
    to_ground = max(look.stated(circuit.voltage).line_to_ground for circuit in circuits)
    needed = _above_ground(leg, to_ground, look)
    look.because(f"{to_ground} V to ground, {needed.key[0]}", leg.place)
    return at_least("clearance", has, needed, at=f"{leg.place}/clearance", amend=_raised(leg, needed, look))


@rule(
    looks_at=OverheadLeg,
    unless=_not_over_a_roof,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("overhead-clearance-building",),
)
def clearance_above_a_roof(leg: OverheadLeg, look: Look) -> Answer:
    """The lowest point of a span is high enough above a roof that it crosses."""
    circuits = power_on(leg, look)
    if not circuits:
        return does_not_apply(LOW_VOLTAGE_ONLY)
    has = look.stated(leg.clearance)
    needed = look.cell(TABLE, "over a roof", "any")
    if has < needed.like(has):
        between = max(look.stated(circuit.voltage).line_to_line for circuit in circuits)
        if between <= look.limit("voltage between conductors of spans close over a roof").value.in_unit("V"):
            needed = _closer(leg, look) or needed
    look.because(needed.key[0], leg.place)
    return at_least("clearance", has, needed, at=f"{leg.place}/clearance", amend=_raised(leg, needed, look))


@inspection(looks_at=Route, stage=Stage.FINAL, rows=("overhead-clearance-building",))
def span_beside_buildings(route: Route, look: Look) -> str | None:
    """What a span passes beside."""
    if not has_span(route):
        return None
    windows = look.cell(TABLE, "from openable windows, doors, porches and stairs", "any").text
    edge = look.cell(TABLE, "past a roof edge", "any").text
    return (
        f"The span keeps {windows} from windows that open, doors, porches and stairs, and its height above a roof up to "
        f"{edge} past the edge."
    )


@inspection(looks_at=Route, stage=Stage.PLAN, rows=("overhead-near-pool",))
def near_a_pool(route: Route, _look: Look) -> str | None:
    """Spans near water that people bathe in."""
    if not has_span(route):
        return None
    return f"If route {route.id} passes over or near a pool or hot tub: other clearances hold, which were not checked here."


def _above_ground(leg: OverheadLeg, to_ground: int, look: Look) -> Cell:
    """The cell for what passes below: people on foot, cars, or trucks and farm machines."""
    if leg.overhead in ("street", "field") or (leg.overhead == "driveway" and not is_dwelling(look)):
        return look.cell(TABLE, TRUCKS, "any")
    if leg.overhead in ("yard", "parking") and not is_small_dwelling(look) and look.stated(leg.traffic) == "trucks":
        return look.cell(TABLE, TRUCKS, "any")
    on_foot = leg.overhead == "walk" or (leg.overhead == "yard" and look.stated(leg.traffic) == "people on foot")
    if on_foot and to_ground <= look.limit("voltage to ground of the lowest spans").value.in_unit("V"):
        return look.cell(TABLE, WALKS, "150 V to ground")
    higher = to_ground > look.limit("voltage to ground of spans over residential property").value.in_unit("V")
    return look.cell(TABLE, RESIDENTIAL, "over 300 V to ground" if higher else "300 V to ground")


def _closer(leg: OverheadLeg, look: Look) -> Cell | None:
    """The cell of a steep roof, or of an overhang that is all that the span crosses."""
    if leg.overhang_only:
        return look.cell(TABLE, "over a roof overhang only", "300 V between conductors")
    if look.stated(leg.roof_slope) == "4 in 12 or steeper":
        return look.cell(TABLE, "over a roof of 4 in 12 or steeper", "300 V between conductors")
    return None


def _raised(leg: OverheadLeg, needed: Cell, look: Look) -> tuple[Proposal, ...]:
    """Higher over what passes below, and attached no lower than that: a span sags."""
    changes = [(leg, "clearance", needed.text)]
    words = f"hang the span {needed.text} high"
    low = [
        part
        for part in look.trace.route_of(leg).legs
        if leg.overhead != "roof" and isinstance(part, OverheadLeg) and _is_below(part.attachment, needed)
    ]
    if low:
        words += ", attached no lower than that"
        changes += [(part, "attachment", needed.text) for part in low]
    return (Proposal.state(words, Effort.WIRE, *changes),)


def _is_below(attachment: Length | Unstated, needed: Cell) -> bool:
    return isinstance(attachment, Length) and attachment < needed.like(attachment)
