"""Two packs of one list that set the same thing, neither of them a change of the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from precover.record import Record
from precover.rulebook.packs.change import Grade, Place, Rewrite, Switch
from precover.rulebook.packs.tables import Layer


class Conflict(Record):
    """What two packs set; the later of them has its way."""

    what: str
    first: str
    first_place: Place
    last: str
    last_place: Place


def conflicts(layers: Sequence[Layer]) -> tuple[Conflict, ...]:
    """Every thing that two packs set side by side, in the order of the list."""
    local = [layer for layer in layers if not layer.edition]
    below = _below(local)
    seen: dict[tuple[str, str], tuple[str, Place]] = {}
    found: list[Conflict] = []
    for layer in local:
        own = list(_sets(layer))
        for kind, what, place in own:
            before = seen.get((kind, what))
            if before is not None and before[0] not in below[layer.pack.id]:
                found.append(Conflict(what, before[0], before[1], layer.pack.id, place))
        seen |= {(kind, what): (layer.pack.id, place) for kind, what, place in own}
    return tuple(found)


def _below(layers: Sequence[Layer]) -> dict[str, frozenset[str]]:
    """Of each pack, itself and the packs that it changes."""
    found: dict[str, frozenset[str]] = {}
    for layer in layers:
        parent = layer.below
        found[layer.pack.id] = frozenset({layer.pack.id}) | found.get(parent, frozenset())
    return found


def _sets(layer: Layer) -> Iterator[tuple[str, str, Place]]:
    for table in layer.changes.tables:
        for cell in layer.changes.cells(table):
            yield "cell", f"{cell.table} ({', '.join(cell.key)})", cell.place
    for change in layer.changes.parts:
        if isinstance(change, Switch):
            yield "force", f"whether {change.part} is in force", change.place
        elif isinstance(change, Grade):
            yield "severity", f"the severity of {change.rule}", change.place
        elif isinstance(change, Rewrite):
            yield "topic", f"the topic {change.topic}", change.place
