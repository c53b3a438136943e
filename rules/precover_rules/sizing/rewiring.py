"""Other sizes of cable and wire, as a plan writes them: the ways out by larger conductors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import zip_longest

from precover.plan import Cable, Carried, Conductor, Raceway, Thing, Unstated
from precover.rulebook import Effort, Look, Proposal
from precover.units import ConductorSize
from precover_rules.boxes.pull_length import long_enough
from precover_rules.raceway.roomier import roomier
from precover_rules.sizing.laid import Laid

Change = tuple[Thing, str, str]
"""A thing of the plan, the key of a fact of it, and what it is changed to."""


def rewired(
    parts: Sequence[Laid], sizes: Sequence[ConductorSize], look: Look, grounds: Sequence[ConductorSize | None] = ()
) -> tuple[Proposal, ...]:
    """The way out by larger hots, on each route where they are too small, with a neutral that was as large, and `grounds`
    to go with them; none where the plan does not name them, or cable of the kind is not made so large."""
    changes: list[Change] = []
    for part, size, ground in zip_longest(parts, sizes, grounds):
        made = in_size(part.carried, size, look, ground, equal_only=True)
        if not made:
            return ()
        changes += made
    words = ", ".join(f"{size} {part.metal} on {part.route.id}" for part, size in zip(parts, sizes, strict=True))
    grown = {part.route.id: size for part, size in zip(parts, sizes, strict=True)}
    return (with_room(f"use {words}", changes, grown, look),) if changes else ()


def with_room(words: str, changes: Sequence[Change], grown: Mapping[str, ConductorSize], look: Look) -> Proposal:
    """The way out by larger wire, in raceway that has room for it, and through boxes that are long enough. `grown` is the new
    size on each route, by the route's id."""
    larger = list(roomier(changes, look))
    sizes = {route.id: Raceway.parse(text) for thing, route, text in larger if thing is route}
    longer = list(long_enough(grown, sizes, look))
    told = dict.fromkeys(f", and {text} on {route.id}" for _, route, text in larger)
    told |= dict.fromkeys(f", and a box {length} long for {box.id}" for box, length in longer)
    raceways = ((thing, "raceway", text) for thing, _, text in larger)
    boxes = ((box.box, "length", length.text) for box, length in longer)
    return Proposal.state(f"{words}{''.join(told)}", Effort.WIRE, *changes, *raceways, *boxes)


def in_size(
    carried: Carried, size: ConductorSize, look: Look, ground: ConductorSize | None = None, *, equal_only: bool = False
) -> list[Change]:
    """The changes that bring the hots of a circuit to a size, where they are smaller, and its neutral with them: one
    smaller than the hots were stays as it is with `equal_only`. The equipment ground stays, or becomes `ground`. Empty
    where it cannot be done."""
    wires, cable = carried.wires, carried.cable
    if wires is None:
        if isinstance(cable, Unstated):
            return []
        largest = look.find("largest-cable-sold", cable.type)
        if largest is not None and size > largest.value:
            return []
        smallest = cable.size if equal_only else min(cable.insulated)
        insulated = [max(one, size) if one >= smallest else one for one in cable.insulated]
        written = cable_of(cable, insulated, ground)
        return [] if written is None else [(carried, "cable", written)]
    if isinstance(wires.hot, Unstated):
        return []
    changes: list[Change] = [(wires, "hot", wire_of(wires.hot, max(wires.hot.size, size)))]
    if wires.neutral is not None and (not equal_only or wires.neutral.size == wires.hot.size):
        changes.append((wires, "neutral", wire_of(wires.neutral, max(wires.neutral.size, size))))
    if wires.ground is not None and ground is not None:
        changes.append((wires, "ground", wire_of(wires.ground, ground)))
    return changes


def wire_of(wire: Conductor, size: ConductorSize) -> str:
    """The same wire in another size: `2 × 6 AWG Cu THWN-2`."""
    count = f"{wire.count} × " if wire.count > 1 else ""
    return f"{count}{size} {wire.material} {wire.insulation}"


def cable_of(cable: Cable, insulated: Sequence[ConductorSize], ground: ConductorSize | None = None) -> str | None:
    """The same cable with other conductors: written as it was, or size by size where a `ground` of its own or a size like
    1/0 asks for it; None where it cannot be written so."""
    kind, sizes, *rest = cable.text.split()
    by_stroke = "-" not in sizes
    own_ground = ground is not None and cable.ground is not None and ground > insulated[0]
    if by_stroke and len(set(insulated)) == 1 and not own_ground and "/" not in insulated[0].designation:
        return " ".join((kind, f"{insulated[0].designation}/{sizes.rpartition('/')[2]}", *rest))
    of_ground = cable.ground if ground is None or cable.ground is None else ground
    names = [size.designation for size in (*insulated, of_ground) if size is not None]
    if len(names) < 3 or "no" in rest:
        return None  # two sizes would be read as size and count, and the last of several as the ground
    every = "-".join(names)
    return f"{kind} {every} {cable.material}" if by_stroke else " ".join((kind, every, *rest))
