"""Keys that a thing of the plan does not have: which of its own is meant, or where such a key belongs."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from typing import Any

from precover.plan.problem import Problem
from precover.plan.thing import escaped
from precover.reading.errors import short
from precover.reading.everyday import meant
from precover.reading.field import PlanFields
from precover.reading.one_line import as_yaml

MOST_OWNERS = 3
"""Kinds of things that a message names as having a key."""


def unknown_key(place: str, key: str, schema: Any, fields: PlanFields) -> Problem:
    """The problem of a key that the schema of its object does not know."""
    return Problem(
        f"{place}/{escaped(key)}", f"`{short(key)}` is not a key known here", _hint(key, schema, fields), key=True
    )


def stands_for(key: str, schema: Any, fields: PlanFields) -> str | None:
    """The key of the same object that an unknown one stands for, as far as a hint would say so."""
    known = schema.get("properties", {})
    for word in _said(key):
        if word in known:
            return word
        if _inside(word, schema, fields):
            return None
    if meant("key", short(key)):
        return None  # what it means is known, and is not of this object: no other word was misspelt
    near = difflib.get_close_matches(_said(key)[0], list(known), n=1, cutoff=0.6)
    return near[0] if near else None


def _hint(key: str, schema: Any, fields: PlanFields) -> str:
    near = stands_for(key, schema, fields)
    if near is not None:
        return f"did you mean `{near}`?"
    said = _said(key)
    inside = next((hint for word in said if (hint := _inside(word, schema, fields))), "")
    if inside:
        return inside
    owners = list(dict.fromkeys(owner for word in said for owner in fields.owners(word)))[:MOST_OWNERS]
    elsewhere = f"it belongs to: {', '.join(owners)}; " if owners else ""
    return f"{elsewhere}keys known here: {', '.join(schema['properties'])}"


def _said(key: str) -> list[str]:
    """A key as the plan language would write it, and what it may mean there."""
    return [short(key).lower().replace("_", "-").replace(" ", "-"), *meant("key", short(key))]


def _inside(word: str, schema: Any, fields: PlanFields) -> str:
    """A hint where a key belongs one level deeper; empty where it does not."""
    return next(_places(word, schema, fields), "")


def _places(word: str, schema: Any, fields: PlanFields) -> Iterator[str]:
    for part, field in schema["properties"].items():
        if word in fields.definition(field).get("properties", {}):
            yield f"it belongs inside `{part}`: `{part}: {{{word}: ...}}`"
        elif any(word in kind.get("properties", {}) for kind in fields.entries(field)):
            shown = next((text for one in field["examples"] if f"{word}: " in (text := as_yaml(one))), None)
            like = f", like `{part}: {shown}`" if shown is not None else ""
            yield f"`{word}` belongs to an entry of `{part}`{like}"
