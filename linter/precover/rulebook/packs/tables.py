"""The tables in force: those of the base, each changed by the packs after it when it is first asked for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import partial
from itertools import pairwise
from pathlib import Path
from typing import Final

from precover.reading.errors import Located
from precover.record import Record
from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.packs.change import Changes, Key, Place, SetCell
from precover.rulebook.table import HOLDS, Cell, Table, files_in, leading_number, read_table
from precover.units import QuantityError

_NUMBERS: Final = frozenset({"count", "number", "percent"})
_NUMBER: Final = r"[0-9]{1,9}(?:\.[0-9]{1,9})?(?: ?%)?"
"""Anything longer, or with an exponent, is no limit, and could take for ever to be made a number."""


class Layer(Record):
    """A pack of the list in force, with what it changes. `edition` is the edition that it is part of, or ""; `below` the
    id of the pack that it changes."""

    pack: Pack
    changes: Changes
    edition: str = ""
    below: str = ""


class Tables(dict[str, Table]):
    """Tables by name, each read when something of it is first asked for: few plans need them all."""

    def __init__(self, layers: Sequence[Layer]) -> None:
        super().__init__()
        self._layers = layers
        for layer in layers:
            for name, path in files_in(layer.pack.tables) if layer.pack.tables is not None else ():
                if name in self:
                    raise PackUnreadable(f"pack `{layer.pack.id}` brings the table `{name}` again", "name a table once")
                self[name] = Table.unread(name, partial(self._in_force, name, path, layer))

    def check(self, layers: Sequence[Layer]) -> None:
        """Read every table that these layers change; PackUnreadable for a change that cannot be made."""
        for layer in layers:
            for name in layer.changes.tables:
                if name not in self:
                    raise _refused(layer, layer.changes.cells(name)[0], *_no_table(name, list(self)))
                self[name].cells  # noqa: B018

    def _in_force(self, name: str, path: Path, base: Layer) -> Table:
        at = base
        try:
            table = read_table(path, base.edition or base.pack.id)
            for layer in self._layers:
                at = layer
                before = self._before(layer)
                for change in layer.changes.cells(name):
                    _set(table, change, layer, before)
        except ValueError as problem:
            raise PackUnreadable(f"pack `{at.pack.id}`: {problem}", "correct the table") from None
        return table

    def _before(self, layer: Layer) -> str:
        """Id of the edition that a layer of an edition follows."""
        found = (one.pack.id for one, other in pairwise(self._layers) if other is layer)
        return next(found, layer.pack.id)


def _set(table: Table, change: SetCell, layer: Layer, before: str) -> None:
    """Make one change of a table that was read for this book alone."""
    old = table.cells.get(change.key)
    if old is None and not change.adds:
        raise _refused(layer, change, *no_cell(table, change.key))
    if old is not None and change.adds:
        raise _refused(layer, change, f"{_named(change)} is there already", "change it in place of adding it")
    if len(change.key) != len(table.columns):
        raise _refused(layer, change, f"a cell of `{table.name}` has {_columns(table)}", "name the cell by all of them")
    holds = old.holds if old is not None else change.holds
    if change.holds not in ("", holds):
        raise _refused(layer, change, f"{_named(change)} holds {holds}, not {change.holds}", "keep to what it holds")
    row = (holds, change.text, change.metric, change.source, change.confidence, change.note)
    _readable(table, change, holds, layer)
    if layer.edition:
        cell = Cell(table.name, change.key, row, layer.edition)
        if old is not None:
            old.set_by = before
            cell.earlier = old
    else:
        cell = Cell(table.name, change.key, row, layer.pack.id, old)
    if old is not None:
        table.cells[change.key] = cell
    else:
        _insert(table, cell)


def _readable(table: Table, change: SetCell, holds: str, layer: Layer) -> None:
    """The new value is of the kind that the cell holds; a word is one that the table knows."""
    if holds not in HOLDS:
        near = _near(holds, HOLDS)
        hint = f"did you mean `{near}`?" if near else f"one of: {', '.join(HOLDS)}"
        raise _refused(layer, change, f"`{holds}` is nothing that a cell can hold", hint)
    for text in (change.text, change.metric):
        try:
            if holds in _NUMBERS and text and not re.fullmatch(_NUMBER, text):
                raise ValueError(text)
            if text or text is change.text:
                HOLDS[holds](text)
        except QuantityError as problem:
            raise _refused(layer, change, problem.message, problem.hint) from None
        except (ValueError, KeyError, ZeroDivisionError, ArithmeticError):
            raise _refused(
                layer, change, f"`{text}` is not a {holds}", f"write it like {_like(table, holds)}"
            ) from None
    if holds == "word" and len(table.columns) + (table.name != "limits") > 1 and not layer.edition:
        words = sorted({cell.text for one in table.cells.values() for cell in one.line() if cell.holds == "word"})
        if change.text not in words:
            near = _near(change.text, words)
            ahead = f"did you mean `{near}`? " if near else ""
            told = f"`{change.text}` is not a word that the table `{table.name}` knows"
            raise _refused(layer, change, told, f"{ahead}one of: {', '.join(words)}")


def _like(table: Table, holds: str) -> str:
    return next((f"`{cell.text}`" for cell in table.cells.values() if cell.holds == holds), f"a {holds}")


def _insert(table: Table, cell: Cell) -> None:
    """Add a cell: among numbers in ascending order where it belongs, else at the end."""
    own = leading_number(cell.key[0])
    numbers = [] if own is None else [leading_number(key[0]) for key in table.cells]
    known = [number for number in numbers if number is not None]
    if own is None or len(known) < len(numbers) or known != sorted(known):
        table.cells[cell.key] = cell
        return
    rest = {key: table.cells.pop(key) for key, number in zip(list(table.cells), known, strict=True) if number > own}
    table.cells[cell.key] = cell
    table.cells.update(rest)


def _named(change: SetCell) -> str:
    return f"`{', '.join(change.key)}` of the table `{change.table}`"


def _columns(table: Table) -> str:
    return f"{len(table.columns)} parts: {', '.join(table.columns)}" if len(table.columns) > 1 else "one part"


def no_cell(table: Table, key: Key) -> tuple[str, str]:
    """What to say of a cell that a table does not have, and the nearest that it has."""
    what = (
        f"there is no limit `{key[0]}`"
        if table.name == "limits"
        else f"the table `{table.name}` has no cell `{', '.join(key)}`"
    )
    near = max(table.cells, key=lambda held: _likeness(held, key), default=None)
    if near is not None and _likeness(near, key) > 0.6:
        return what, f"did you mean `{', '.join(near)}`?"
    return what, "`precover packs show` lists the cells; one that is new is added with `adds: true`"


def _likeness(one: Key, other: Key) -> float:
    """How much two keys look alike, part by part: 1 for the same."""
    from difflib import SequenceMatcher  # only for a change that cannot be made

    pairs = list(zip(one, other, strict=False))
    return sum(SequenceMatcher(None, *pair).ratio() for pair in pairs) / max(len(one), len(other))


def _near(name: str, known: Iterable[str], cutoff: float = 0.6) -> str | None:
    from difflib import get_close_matches  # only for a change that cannot be made

    return next(iter(get_close_matches(name, list(known), n=1, cutoff=cutoff)), None)


def _no_table(name: str, names: list[str]) -> tuple[str, str]:
    near = _near(name, names, 0.5)
    return (
        f"there is no table `{name}`",
        f"did you mean `{near}`?" if near else f"tables: {', '.join(sorted(names))}",
    )


def _refused(layer: Layer, change: SetCell, message: str, hint: str) -> PackUnreadable:
    return layer_problem(layer.pack, change.place, message, hint)


def layer_problem(pack: Pack, place: Place, message: str, hint: str) -> PackUnreadable:
    """What keeps a change from being made, with its place in the pack's file."""
    problems = [Located(place.file, place.line, place.column, message, hint)] if place.file else []
    return PackUnreadable(f"pack `{pack.id}`: {message}", hint, problems)
