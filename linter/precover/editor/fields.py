"""What the plan schema allows at a place: which keys, which values."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any, NamedTuple

import precover_schemas
from precover.plan.thing import tokens_of


class Place(NamedTuple):
    """The schema's entries for one place: all those that hold for what the plan has there."""

    nodes: tuple[dict[str, Any], ...]

    @property
    def keys(self) -> dict[str, dict[str, Any]]:
        """The keys that can stand here, each with its entry."""
        return {key: entry for node in self.nodes for key, entry in node.get("properties", {}).items()}

    @property
    def heads(self) -> tuple[str, ...]:
        """Of a thing that does not say yet what it is, the keys that can say it."""
        return tuple(
            option["required"][0] for node in self.nodes for option in node.get("oneOf", ()) if "required" in option
        )

    @property
    def required(self) -> frozenset[str]:
        """The keys that must stand here."""
        return frozenset(key for node in self.nodes for key in node.get("required", ()))

    @property
    def words(self) -> list[Any]:
        """The values of a closed list."""
        found = [
            value
            for node in self.nodes
            for value in (*node.get("enum", ()), *([node["const"]] if "const" in node else ()))
        ]
        return found or ([True, False] if self.is_a("boolean") else [])

    @property
    def examples(self) -> list[Any]:
        """Values to write in the manner of."""
        return [
            value for node in self.nodes for value in node.get("examples", ()) if not isinstance(value, (dict, list))
        ]

    @property
    def about(self) -> dict[str, Any]:
        """Title, description, unit and examples, of the entry that says most of this place."""
        return self.nodes[0] if self.nodes else {}

    def is_a(self, kind: str) -> bool:
        """Whether a value of this JSON type belongs here."""
        return any(node.get("type") == kind for node in self.nodes)

    def refers_to(self, name: str) -> bool:
        """Whether the value is written in the notation that the schema defines under this name."""
        return any(node.get("$ref") == f"#/$defs/{name}" for node in self.nodes)


def place(pointer: str, data: Any, schema: str = "plan") -> Place:
    """The place of a pointer in a plan (or what else the schema is of) of which `data` is enough to know what each thing
    is."""
    whole = _schema(schema)
    nodes = list(_opened(whole, whole, data))
    for token in tokens_of(pointer):
        data = _inside(data, token)
        nodes = [opened for node in nodes for below in _below(node, token) for opened in _opened(whole, below, data)]
    return Place(tuple(nodes))


@cache
def _schema(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = precover_schemas.load(name)
    return loaded


def _opened(whole: dict[str, Any], node: dict[str, Any], data: Any) -> Iterator[dict[str, Any]]:
    """An entry with all that it refers to, and of its choices those that hold for the data."""
    yield node
    if "$ref" in node:
        yield from _opened(whole, whole["$defs"][node["$ref"].rpartition("/")[2]], data)
    for part in (*node.get("allOf", ()), *node.get("anyOf", ())):
        if "if" not in part:
            yield from _opened(whole, part, data)
        elif isinstance(data, dict) and all(key in data for key in part["if"].get("required", ())):
            yield from _opened(whole, part["then"], data)


def _below(node: dict[str, Any], token: str) -> Iterator[dict[str, Any]]:
    own = node.get("properties", {}).get(token)
    if isinstance(own, dict):
        yield own
    elif isinstance(node.get("additionalProperties"), dict):
        yield node["additionalProperties"]
    elif token.isdecimal() and isinstance(node.get("items"), dict):
        yield node["items"]


def _inside(data: Any, token: str) -> Any:
    if isinstance(data, list):
        return data[int(token)] if token.isdecimal() and int(token) < len(data) else None
    return data.get(token) if isinstance(data, dict) else None
