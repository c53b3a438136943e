"""Wiring where it comes out of the ground: that the plan shows it, and how direct-burial wiring is protected there."""

from precover.plan import (
    Box,
    BuriedLeg,
    FramingLeg,
    Leg,
    OverheadLeg,
    Panel,
    PassageLeg,
    RiseLeg,
    SurfaceLeg,
)
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
    not_met,
    rule,
)
from precover.units import Length
from precover_rules.burial.cover_table import (
    OPEN_GROUND,
    SMALL,
    deepest,
    qualifies_as_small,
    row_of_ground,
    rows_of_concrete,
)
from precover_rules.burial.way import beside, buried_part, only_low_voltage, onward
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import is_raceway

_ABOVE_GROUND = (SurfaceLeg, FramingLeg, OverheadLeg)


def _out_of_no_ground(leg: RiseLeg, look: Look) -> str:
    route = look.trace.route_of(leg)
    none = buried_part(leg, route) is None or only_low_voltage(route, look)
    return "no line-voltage wiring comes out of the ground here" if none else ""


def _nothing_emerges(leg: RiseLeg, look: Look) -> str:
    if not look.trace.route_of(leg).carries:
        return "nothing is pulled in yet"
    in_raceway = not look.stated(look.trace.raceway_around(_ground(leg, look))).absent
    return "the raceway goes on in the ground" if in_raceway else ""


def _unprotected(leg: RiseLeg, look: Look) -> str:
    protected = leg.inside_post or not look.stated(look.trace.raceway_around(leg)).absent
    return "" if protected else "there is no protection"


@rule(looks_at=BuriedLeg, severity=Severity.QUERY, stage=Stage.PLAN, rows=("cover-rise-allowed",))
def way_out_of_the_ground(leg: BuriedLeg, look: Look) -> Answer:
    """The plan shows how buried wiring comes out of the ground at either end."""
    route = look.trace.route_of(leg)
    if only_low_voltage(route, look):
        return does_not_apply("low-voltage wiring")
    for other, side, name in zip(beside(leg, route), ("supply", "load"), (route.from_, route.to), strict=True):
        if not _leads_out(other, look.trace.node(name)):
            needs = "a leg that rises out of the ground, or one that goes in below grade"
            return not_met("the way out of the ground", f"not shown at the {side} side", needs)
    return met("the way out of the ground", "shown at both ends")


@rule(
    looks_at=RiseLeg,
    unless=(_out_of_no_ground, _nothing_emerges),
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("emerge-protect-height", "cover-rise-allowed"),
)
def protection_of_emerging_cable(leg: RiseLeg, look: Look) -> Answer:
    """Wiring laid without raceway is in one, or inside a post, where it comes out of the ground."""
    if leg.inside_post:
        return met("protection", "inside a post")
    raceway = look.stated(look.trace.raceway_around(leg))
    deep, high = _limits(look)
    needs = (
        f"a raceway or a post around it, from up to {deep.text} below grade to {high.text} above or to where it goes in"
    )
    if not raceway.absent:
        return met("protection", raceway.text, needs)
    text = fitting("PVC-80", look.trace.route_of(leg), look)
    if text is None:
        return not_met("protection", "none", needs)
    amend = Proposal.state(
        f"bring it up in {text}, from {deep.text} below grade to where it goes in",
        Effort.WIRE,
        (leg, "raceway", text),
        (leg, "sleeve-below", deep.text),
        (leg, "to-entry", True),
        (leg, "bushing", True),
    )
    return not_met("protection", "none", needs, amend=(amend,))


@rule(
    looks_at=RiseLeg,
    unless=(_out_of_no_ground, _nothing_emerges, _unprotected),
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("emerge-protect-height",),
)
def protection_below_grade(leg: RiseLeg, look: Look) -> Answer:
    """The protection of emerging cable begins at the depth of the minimum cover, or at the greatest depth asked for."""
    ground = _ground(leg, look)
    below = look.stated(leg.sleeve_below)
    needed = _limits(look)[0]
    if below < needed.like(below):
        needed = _minimum_cover(ground, needed, look)
    if needed.like(below) > below and isinstance(ground.cover, Length) and below >= ground.cover:
        return does_not_apply("it begins at the bottom of the trench, whose depth is looked at there")
    text = _text(needed, below)
    amend = Proposal.state(f"begin it {text} below grade", Effort.WIRE, (leg, "sleeve-below", text))
    return at_least("protection below grade", below, needed, at=f"{leg.place}/sleeve-below", amend=(amend,))


@rule(
    looks_at=RiseLeg,
    unless=(_out_of_no_ground, _nothing_emerges, _unprotected),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("emerge-protect-height",),
)
def protection_above_grade(leg: RiseLeg, look: Look) -> Answer:
    """The protection of emerging cable reaches well above grade, or up to where the wiring goes in."""
    if look.stated(leg.to_entry):
        return met("protection above grade", "up to where the wiring goes in")
    above = look.stated(leg.sleeve_above)
    needed = _limits(look)[1]
    text = _text(needed, above)
    ways = (
        Proposal.state("carry it on to where the wiring goes in", Effort.WIRE, (leg, "to-entry", True)),
        Proposal.state(f"carry it up to {text}", Effort.WIRE, (leg, "sleeve-above", text)),
    )
    return at_least("protection above grade", above, needed, at=f"{leg.place}/sleeve-above", amend=ways)


@rule(
    looks_at=RiseLeg,
    unless=_out_of_no_ground,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("emerge-enter-building",),
)
def protection_up_to_the_entry(leg: RiseLeg, look: Look) -> Answer:
    """Wiring that goes from the ground into a building is protected up to the point where it goes in."""
    on, end = onward(leg, look.trace.route_of(leg))
    entry = next((index for index, other in enumerate(on) if isinstance(other, PassageLeg)), None)
    if entry is None and _outdoors(look.trace.node(end), look):
        return does_not_apply("it does not go into a building")
    outside = [leg, *on[:entry]]
    if leg.to_entry is not False and all(is_raceway(look.stated(look.trace.raceway_around(part))) for part in outside):
        return met("protection", "raceway all the way to the entry")
    if look.stated(leg.to_entry):
        return met("protection", "up to the entry")
    amend = Proposal.state("carry the protection on to where the wiring goes in", Effort.WIRE, (leg, "to-entry", True))
    return not_met("protection", "ends before the entry", "up to the entry", amend=(amend,))


def _ground(leg: RiseLeg, look: Look) -> BuriedLeg:
    """The buried leg that wiring emerges from."""
    ground = buried_part(leg, look.trace.route_of(leg))
    assert ground is not None  # noqa: S101 - their condition
    return ground


def _limits(look: Look) -> tuple[Cell, Cell]:
    """How deep and how high protection reaches."""
    return (
        look.limit("protection of emerging cable below grade"),
        look.limit("protection of emerging cable above grade"),
    )


def _minimum_cover(ground: BuriedLeg, most: Cell, look: Look) -> Cell:
    """The minimum cover of the buried leg where that is less than the greatest depth that protection has to reach: only
    a circuit of the small column has it so shallow."""
    row = row_of_ground(ground, look)
    rows = (rows_of_concrete(ground, look) if row == OPEN_GROUND else []) or [row]
    cell = deepest(rows, SMALL, "direct", look)
    circuits = [circuit for circuit, _ in look.trace.circuits_on(look.trace.route_of(ground))]
    if cell.value < most.value and all(qualifies_as_small(circuit, ground, look) for circuit in circuits):
        return cell
    return most


def _text(cell: Cell, measured: Length) -> str:
    return cell.twin_text if measured.metric and cell.twin_text else cell.text


def _leads_out(other: Leg | None, node: Panel | Box) -> bool:
    """The leg beside a buried one, or the box at the end of the route, is in the ground itself or comes out of it."""
    if other is not None:
        return not isinstance(other, _ABOVE_GROUND)
    return isinstance(node, Box) and (node.area == "ground" or node.box.kind in ("handhole", "pedestal"))


def _outdoors(node: Panel | Box, look: Look) -> bool:
    return look.stated(node.area) in ("outdoors", "ground")
