"""What is under the cursor: what a field means, and what was worked out about the thing."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

from lsprotocol import types

from precover.editor.cutting import Cursor, cursor_at
from precover.editor.facts import facts_at, facts_of, thing_at
from precover.editor.fields import place
from precover.editor.kinds import Kind
from precover.editor.texts import OpenText
from precover.plan import Route
from precover.plan.thing import Thing
from precover.reading.build import head_of
from precover.showing.sentences import where
from precover.showing.visible import visible

_MARKDOWN = re.compile(r"([\\`*_\[\]<>#|])")


def hover(text: OpenText, position: types.Position) -> types.Hover | None:
    """The meaning of the field at a position, with its unit and an example, and the facts about the thing; None where
    there is nothing to say."""
    cursor = cursor_at(text.text, text.positions.index(position)) if text.kind is not Kind.OTHER else None
    if cursor is None:
        return None
    parts = [*_field(cursor, text.kind), *_facts(text, cursor)]
    if not parts:
        return None
    says = types.MarkupContent(types.MarkupKind.Markdown, "\n\n".join(parts))
    return types.Hover(says, text.positions.span(cursor.start, cursor.end))


def field_text(field: dict[str, Any]) -> str:
    """An entry of the schema in Markdown."""
    lines = [f"**{field['title']}**" if "title" in field else "", str(field.get("description", ""))]
    if "unit" in field:
        lines.append(f"Unit: {field['unit']}")
    examples = [
        one if isinstance(one, str) else json.dumps(one, ensure_ascii=False) for one in field.get("examples", ())
    ]
    if examples:
        lines.append("Example: " + ", ".join(f"`{one}`" for one in examples[:2]))
    return "\n\n".join(line for line in lines if line)


def quiet(text: str) -> str:
    """A text with names of the plan in it, so that Markdown takes nothing in it for a mark."""
    return _MARKDOWN.sub(r"\\\1", visible(text))


def _field(cursor: Cursor, kind: Kind) -> Iterator[str]:
    about = place(cursor.pointer, cursor.data, kind.value).about
    if about and cursor.pointer:
        yield field_text(about)


def _facts(text: OpenText, cursor: Cursor) -> Iterator[str]:
    if text.last is None:
        return
    review = text.last.review
    thing = thing_at(review, cursor.pointer)
    if thing is None:
        return
    facts = facts_of(review, thing) if _names(cursor, thing) else facts_at(review, cursor.pointer)
    if facts:
        when = "" if text.now is not None else " (as last reviewed)"
        yield f"**{quiet(where(review, thing.place))}**{when}"
        yield "\n".join(f"- {quiet(fact)}" for fact in facts)


def _names(cursor: Cursor, thing: Thing) -> bool:
    """The cursor is on what stands for the whole thing: its id, or the key that says what it is."""
    key = cursor.pointer.removeprefix(thing.place)
    return key in ("", f"/{head_of(type(thing))}") or (isinstance(thing, Route) and key == "/raceway")
