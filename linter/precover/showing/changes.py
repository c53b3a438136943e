"""What an amendment changes, edit by edit."""

from __future__ import annotations

from typing import Any, NamedTuple

from precover.amending.amendment import Amendment
from precover.plan.thing import tokens_of
from precover.reading import Document


class Change(NamedTuple):
    """One value of the plan: its place, what it was (None where nothing stood) and what it becomes (None: removed)."""

    place: str
    was: Any
    becomes: Any


def changes(document: Document, amendment: Amendment) -> list[Change]:
    """The values that an amendment changes, in its order; an object that is only opened for a value is left out."""
    found: dict[str, Change] = {}
    for step in amendment.patch:
        if step["op"] == "add" and step["value"] == {}:
            continue
        was, becomes = _at(document.data, tokens_of(step["path"])), step.get("value")
        if was != becomes:
            found[step["path"]] = Change(step["path"], was, becomes)
    return list(found.values())


def _at(data: Any, tokens: list[str]) -> Any:
    for token in tokens:
        if isinstance(data, dict):
            data = data.get(token)
        elif isinstance(data, list) and token.isdecimal() and int(token) < len(data):
            data = data[int(token)]
        else:
            return None
    return data
