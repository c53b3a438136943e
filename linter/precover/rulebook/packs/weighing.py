"""Whether a change asks more of a plan than the edition does, or less.

Which way a value is stricter is data of the base pack (`stricter.csv`: table, key, and `higher`, `lower`, `yes`, `no`, or
words from the strictest on, like `no > if marked > yes`). Where that is not known, or the value only orders ways out, it
is not said.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping, Sequence
from enum import Enum
from functools import lru_cache
from pathlib import Path
from typing import Final

from precover.record import Record
from precover.rulebook.pack import PackUnreadable
from precover.rulebook.packs.change import NOWHERE, Except, Grade, Key, Place, Rewrite, Switch
from precover.rulebook.packs.tables import Layer
from precover.rulebook.rule import Inspection, Rule
from precover.rulebook.table import Cell, Table

COLUMNS: Final = ["table", "key", "stricter"]
ANY: Final = "*"
ON_THE_LIST: Final = "on the inspection list"


class Direction(Enum):
    """What a change does to what is asked."""

    TIGHTENS = "tightens"
    LOOSENS = "loosens"
    CHANGES = "changes"
    """Whether it asks more or less cannot be told from the value alone."""
    SAME = "restates"
    ADDS = "adds"


class Effect(Record):
    """One change of a pack on top of the edition: what it was and what it became ("" where there was nothing)."""

    pack: str
    what: str
    was: str
    becomes: str
    direction: Direction
    because: str
    place: Place


def effects(
    layers: Sequence[Layer],
    tables: Mapping[str, Table],
    rules: Iterable[Rule],
    items: Sequence[Inspection],
    excepted: Sequence[tuple[str, Except]],
) -> tuple[Effect, ...]:
    """The effects of all packs on top of the edition, pack by pack in the order of the list."""
    local = [layer for layer in layers if not layer.edition]
    if not local:
        return ()
    stricter = [row for layer in layers if layer.pack.stricter for row in _read(layer.pack.stricter)]
    graded = {rule.id: rule for rule in rules}
    found: list[Effect] = []
    for layer in local:
        for name in layer.changes.tables:
            for change in layer.changes.cells(name):
                cell = _of(tables[name].cells.get(change.key), layer.pack.id)
                if cell is not None:
                    found.append(_of_cell(cell, layer.pack.id, change.place, stricter))
        found += _of_parts(layer, graded, items)
        found += [
            Effect(
                pack,
                one.rule,
                "for all",
                f"not for some {one.about.__name__.lower()}",
                Direction.LOOSENS,
                one.reason,
                one.place,
            )
            for pack, one in excepted
            if pack == layer.pack.id
        ]
    return tuple(found)


def _of(cell: Cell | None, pack: str) -> Cell | None:
    """The cell as this pack set it, be it in force or changed again by a later one."""
    while cell is not None and cell.set_by != pack:
        cell = cell.was
    return cell


def _of_cell(cell: Cell, pack: str, place: Place, stricter: Sequence[tuple[str, Key, str]]) -> Effect:
    what = cell.key[0] if cell.table == "limits" else f"{cell.table} ({', '.join(cell.key)})"
    if cell.was is None:
        return Effect(pack, what, "", cell.text, Direction.ADDS, cell.note, place)
    way = next((way for table, key, way in stricter if table == cell.table and _fits(key, cell.key)), "")
    return Effect(pack, what, cell.was.text, cell.text, _direction(cell.was, cell, way), cell.note, place)


def _fits(pattern: Key, key: Key) -> bool:
    return all(part in (ANY, held) for part, held in zip(pattern, key, strict=False))


def _direction(was: Cell, now: Cell, way: str) -> Direction:
    if was.value == now.value and (was.twin_text == now.twin_text or not was.twin_text):
        return Direction.SAME
    if " > " in way:
        words = way.split(" > ")
        if was.text not in words or now.text not in words:
            return Direction.CHANGES
        more = words.index(now.text) < words.index(was.text)
    elif way in ("yes", "no"):
        more = now.value is (way == "yes")
    elif way in ("higher", "lower"):
        if was.value == now.value:
            return Direction.CHANGES
        more = (now.value > was.value) == (way == "higher")
    else:
        return Direction.CHANGES
    return Direction.TIGHTENS if more else Direction.LOOSENS


def _of_parts(layer: Layer, graded: Mapping[str, Rule], items: Sequence[Inspection]) -> list[Effect]:
    pack = layer.pack.id
    found = [
        Effect(pack, rule.id, "", rule.asks, Direction.ADDS, "", NOWHERE)
        for rule in graded.values()
        if _first(rule).set_by == pack
    ]
    found += [
        Effect(pack, item.id, "", ON_THE_LIST, Direction.ADDS, "", NOWHERE) for item in items if item.set_by == pack
    ]
    for change in layer.changes.parts:
        if isinstance(change, Switch):
            until = f" until {change.until}" if change.until else ""
            was, becomes = ("out of force", "in force") if change.on else ("in force", f"out of force{until}")
            way = Direction.TIGHTENS if change.on else Direction.LOOSENS
            found.append(Effect(pack, change.part, was, becomes, way, change.reason, change.place))
        elif isinstance(change, Grade):
            found += [_of_grade(pack, change, rule) for rule in graded.values() if _is_of(rule, change)]
        elif isinstance(change, Rewrite):
            texts = {"title": change.title, "text": change.text, "place to look up": change.look_up}
            words = f"another {', '.join(name for name, text in texts.items() if text)}"
            found.append(Effect(pack, change.topic, "", words, Direction.SAME, "", change.place))
    return found


def _first(rule: Rule) -> Rule:
    """A rule as it was before any pack changed its severity."""
    while rule.was is not None:
        rule = rule.was
    return rule


def _is_of(rule: Rule, change: Grade) -> bool:
    return rule.id == change.rule or rule.topic == change.rule


def _of_grade(pack: str, change: Grade, rule: Rule) -> Effect:
    was = rule.was.severity if rule.was is not None else change.severity
    if was is change.severity:
        way = Direction.SAME
    else:
        way = Direction.TIGHTENS if change.severity > was else Direction.LOOSENS
    return Effect(pack, rule.id, was.word, change.severity.word, way, change.reason, change.place)


@lru_cache(maxsize=16)
def _read(path: Path) -> tuple[tuple[str, Key, str], ...]:
    with path.open(encoding="utf-8", newline="") as lines:
        rows = csv.reader(lines)
        if next(rows, None) != COLUMNS:
            raise PackUnreadable(f"{path.name}:1: the columns are {', '.join(COLUMNS)}", "correct the file")
        return tuple((table, tuple(key.split(" | ")), stricter) for table, key, stricter in rows)
