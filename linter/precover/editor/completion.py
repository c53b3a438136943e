"""What can be written at the cursor."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Any, Final

from lsprotocol import types

from precover.amending.scalars import flow
from precover.editor import names
from precover.editor.cutting import Cursor, cursor_at
from precover.editor.fields import Place, place
from precover.editor.hover import field_text
from precover.editor.kinds import Kind
from precover.editor.notations import NOTATIONS
from precover.editor.texts import OpenText
from precover.plan.thing import tokens_of
from precover.showing.visible import visible

_KEY_AT_MARGIN: Final = re.compile(r"^([A-Za-z][\w-]*):", re.MULTILINE)
_Kind = types.CompletionItemKind
FIRST: Final = {True: "0", False: "1"}
"""Sorts what must stand somewhere before what may."""


def completion(text: OpenText, position: types.Position, packs: Iterable[str]) -> list[types.CompletionItem]:
    """Keys and values for a position: by the schema, the names in the plan, the notations; `packs` are the rule packs
    that a plan can name."""
    index = text.positions.index(position)
    cursor = cursor_at(text.text, index) if text.kind is not Kind.OTHER else None
    if cursor is None:
        return []
    at = text.positions.span(cursor.start, cursor.end)
    if at.start.line != at.end.line:
        return []
    return [_placed(item, at, number) for number, item in enumerate(_items(text, cursor, packs))]


def _items(text: OpenText, cursor: Cursor, packs: Iterable[str]) -> Iterator[types.CompletionItem]:
    here = place(cursor.place, cursor.data, text.kind.value)
    colon = "" if cursor.key and text.text[cursor.end :].lstrip(" ").startswith(":") else ": "
    if cursor.key or here.keys or here.heads:
        yield from _keys(text, cursor, here, colon)
    elif tokens_of(cursor.place)[:1] == ["rules" if text.kind is Kind.PLAN else "extends"]:
        for pack in packs:
            yield _item(pack, pack, _Kind.Module, {})
    elif tokens_of(cursor.place)[-1:] == ["carries"]:
        yield from _circuits(text, cursor, colon)
    else:
        yield from _values(text, cursor, here)


def _keys(text: OpenText, cursor: Cursor, here: Place, colon: str) -> Iterator[types.CompletionItem]:
    stated = _stated(text, cursor)
    if tokens_of(cursor.place)[-1:] == ["carries"]:
        yield from _circuits(text, cursor, colon)
    wanted = here.keys if here.keys else {key: {} for key in here.heads}
    for key, entry in wanted.items():
        if key == cursor.text or key not in stated:
            about = entry or place(f"{cursor.place}/{key}", _with(cursor, key), text.kind.value).about
            item = _item(key, f"{key}{colon}", _Kind.Property, about)
            item.sort_text = FIRST[key in here.required]
            yield item


def _circuits(text: OpenText, cursor: Cursor, colon: str) -> Iterator[types.CompletionItem]:
    for name in names.known(text.data, names.CIRCUITS, cursor.place):
        yield _item(name, f"{name}{colon}", _Kind.Reference, {"title": "Circuit"})


def _values(text: OpenText, cursor: Cursor, here: Place) -> Iterator[types.CompletionItem]:
    kind = names.kind_of(cursor.place) if text.kind is Kind.PLAN else None
    if kind is not None:
        for name in names.known(text.data, kind, cursor.place):
            yield _item(name, name, _Kind.Reference, here.about)
    for word in here.words:
        yield _item(flow(word), flow(word), _Kind.EnumMember, here.about)
    notation = next((name for name in NOTATIONS if here.refers_to(name)), None)
    if notation is not None:
        for written in NOTATIONS[notation](cursor.ahead):
            yield _item(written, flow(written), _Kind.Value, here.about)
    elif not here.words and kind is None:
        for example in here.examples:
            yield _item(flow(example), flow(example), _Kind.Value, here.about | {"detail": "for example"})


def _stated(text: OpenText, cursor: Cursor) -> set[str]:
    """The keys that the thing around the cursor has already."""
    if cursor.place == "":
        return set(_KEY_AT_MARGIN.findall(text.text))
    data: Any = cursor.data
    for token in tokens_of(cursor.place):
        data = (
            data[int(token)]
            if isinstance(data, list) and token.isdecimal()
            else data.get(token)
            if isinstance(data, dict)
            else None
        )
    return set(data) if isinstance(data, dict) else set()


def _with(cursor: Cursor, key: str) -> Any:
    """The data around the cursor as if the thing there had this key."""
    made: Any = {key: None}
    for token in reversed(tokens_of(cursor.place)):
        made = [None] * int(token) + [made] if token.isdecimal() else {token: made}
    return made


def _item(label: str, written: str, kind: types.CompletionItemKind, about: dict[str, Any]) -> types.CompletionItem:
    unit = f"unit: {about['unit']}" if "unit" in about else ""
    detail = about.get("detail") or unit or about.get("title")
    return types.CompletionItem(
        label=visible(label),
        kind=kind,
        detail=detail,
        documentation=types.MarkupContent(types.MarkupKind.Markdown, field_text(about))
        if "description" in about
        else None,
        insert_text=written,
    )


def _placed(item: types.CompletionItem, at: types.Range, number: int) -> types.CompletionItem:
    written = item.insert_text or item.label
    item.text_edit = types.TextEdit(at, written)
    item.filter_text = written
    item.insert_text = None
    item.sort_text = f"{item.sort_text or ''}{number:05}"
    return item
