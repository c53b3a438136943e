"""Ways out for a leg that lies too shallow: each an edit that settles it, in the order a contractor would think of them."""

from precover.plan import Bend, BuriedLeg, Circuit, Raceway, Receptacle, RiseLeg, SurfaceLeg
from precover.plan.thing import Thing
from precover.rulebook import Cell, Effort, Look, Proposal
from precover.units import Length
from precover_rules.burial.cover_table import (
    CONCRETE_IN_TRENCH,
    OPEN_GROUND,
    SMALL,
    TABLE,
    deepest,
    laid,
    why_not_small,
)
from precover_rules.burial.way import beside
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import is_raceway, naming_a_raceway


def ways_out(
    circuit: Circuit | None,
    leg: BuriedLeg,
    cover: Length,
    raceway: Raceway,
    needed: Cell,
    rows: list[str],
    look: Look,
) -> tuple[Proposal, ...]:
    """Dig, protect ahead, run the whole route in rigid metal, or cap with concrete: each only where it would do.

    A trench that is a little too shallow is dug deeper before anything is exchanged.
    """
    ways = [_deeper(leg, cover, needed, look)]
    if circuit is not None and cover >= deepest(rows, SMALL, laid(raceway), look).like(cover):
        ways.extend(_by_protection(circuit, leg, look))
    rigid = deepest(rows, "rigid metal conduit", "raceway", look)
    if cover >= rigid.like(cover):
        ways.extend(_in_rigid_metal(leg, look))
    ways.extend(_in_concrete(leg, cover, raceway, needed, rows, look))
    return tuple(sorted(ways, key=lambda way: way.effort))


def _deeper(leg: BuriedLeg, cover: Length, needed: Cell, look: Look) -> Proposal:
    """The trench, and with it the sleeves beside it that begin no lower than protection has to."""
    depth = _like(needed, cover)
    short = needed.like(cover).amount - cover.amount
    little = look.limit("shortfall of cover that is dug away first").like(cover)
    effort = Effort.DIGGING if leg.rock or short > little.amount else Effort.DEEPER
    below = look.limit("protection of emerging cable below grade")
    changes: list[tuple[Thing, str, str]] = [(leg, "cover", depth)]
    for other in beside(leg, look.trace.route_of(leg)):
        if isinstance(other, RiseLeg) and isinstance(other.sleeve_below, Length):
            start = min(needed, below, key=lambda cell: cell.value)
            if other.sleeve_below < start.like(other.sleeve_below):
                changes.append((other, "sleeve-below", _like(start, other.sleeve_below)))
    words = f"bury this leg under {depth} of cover"
    if len(changes) > 1:
        words += ", and begin the protection where it rises as deep as it has to"
    return Proposal.state(words, effort, *changes)


def _in_rigid_metal(leg: BuriedLeg, look: Look) -> list[Proposal]:
    """The raceway of the whole route, so that no piece of metal lies among plastic with nothing to bond it."""
    route = look.trace.route_of(leg)
    named = naming_a_raceway(route)
    around = [look.trace.raceway_around(other) for other in route.legs if not isinstance(other, Bend)]
    if not named or not all(isinstance(raceway, Raceway) and is_raceway(raceway) for raceway in around):
        return []
    changes: list[tuple[Thing, str, object]] = []
    texts: list[str] = []
    for thing in named:
        size = thing.raceway.size if isinstance(thing.raceway, Raceway) else None
        text = fitting("RMC", route, look, size)
        if text is None:
            return []
        changes.append((thing, "raceway", text))
        texts.append(text)
    changes += [(other, "wet-fittings", True) for other in route.legs if isinstance(other, RiseLeg | SurfaceLeg)]
    words = f"run the whole route in rigid metal conduit ({', '.join(dict.fromkeys(texts))}), bonded"
    return [Proposal.state(words, Effort.WIRE, *changes)]


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


def _like(cell: Cell, measured: Length) -> str:
    return cell.twin_text if measured.metric and cell.twin_text else cell.text
