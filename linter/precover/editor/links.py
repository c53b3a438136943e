"""From a name to where it is given, to where it is used, and to another name."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Final

from lsprotocol import types

from precover.editor.names import Use, uses
from precover.editor.texts import OpenText, Reviewed
from precover.plan.thing import tokens_of

_ID: Final = re.compile(r"[A-Za-z][A-Za-z0-9._-]{0,63}")


class CannotRename(Exception):
    """A name that cannot be changed so; its text says why."""


def definition(text: OpenText, position: types.Position) -> list[types.Location]:
    """Where the thing named at a position is given its name."""
    made = text.now
    use = _at(made, position) if made is not None else None
    if made is None or use is None:
        return []
    return [types.Location(text.uri, at) for one, at in _all(made, use.thing) if one.place == one.thing]


def references(text: OpenText, position: types.Position, *, with_definition: bool) -> list[types.Location]:
    """Where the thing named at a position is used."""
    made = text.now
    use = _at(made, position) if made is not None else None
    if made is None or use is None:
        return []
    return [
        types.Location(text.uri, at) for one, at in _all(made, use.thing) if with_definition or one.place != one.thing
    ]


def name_range(text: OpenText, position: types.Position) -> types.Range | None:
    """The range of the name at a position, if there is one that can be changed."""
    made = text.now
    use = _at(made, position) if made is not None else None
    return None if made is None or use is None else _range(made, use)


def renamed(text: OpenText, position: types.Position, name: str) -> list[types.TextEdit]:
    """The edits that give the thing at a position another name everywhere; CannotRename where it cannot have it."""
    made = text.now
    if made is None:
        raise CannotRename("the plan cannot be read as it is; put it right first")
    use = _at(made, position)
    if use is None:
        raise CannotRename("there is no name of a thing here")
    if _ID.fullmatch(name) is None:
        raise CannotRename("an id starts with a letter and has letters, digits, `-`, `_` or `.`, at most 64")
    if name in _beside(made.opened.document.data, use.thing):
        raise CannotRename(f"`{name}` is the name of another thing")
    return [types.TextEdit(at, name) for _, at in _all(made, use.thing)]


def _beside(data: Any, thing: str) -> set[str]:
    """The names that a thing cannot have: those of its kind, and panels and boxes share theirs."""
    tokens = tokens_of(thing)
    if tokens[0] in ("panels", "boxes") and len(tokens) == 2:
        return {*data.get("panels", {}), *data.get("boxes", {})}
    at = data
    for token in tokens[:-1]:
        at = at[token]
    return set(at)


def _at(made: Reviewed, position: types.Position) -> Use | None:
    index = made.positions.index(position)
    for use in uses(made.opened.document.data):
        at = _range(made, use)
        if at is not None and made.positions.index(at.start) <= index <= made.positions.index(at.end):
            return use
    return None


def _all(made: Reviewed, thing: str) -> Iterator[tuple[Use, types.Range]]:
    for use in uses(made.opened.document.data):
        at = _range(made, use) if use.thing == thing else None
        if at is not None:
            yield use, at


def _range(made: Reviewed, use: Use) -> types.Range | None:
    """Where a name stands; None where it is not written out there as it is (behind escapes in quotes)."""
    at = made.opened.document.range(use.place, key=use.key)
    positions = made.positions
    start, end = positions.start_of(at.line, at.column), positions.start_of(at.end_line, at.end_column)
    quote = positions.text[start : start + 1] in ("'", '"')
    first, last = start + quote + use.first, start + quote + use.last
    written = use.place if use.key else use.thing
    if last > end or positions.text[first:last] != tokens_of(written)[-1]:
        return None
    return positions.span(first, last)
