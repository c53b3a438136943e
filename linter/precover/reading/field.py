"""What the plan schema says of a place of a plan: how a fact is called, what it means, how it is written."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import precover_schemas


class PlanFields:
    """The plan schema, or another, read by places of one document."""

    def __init__(self, data: Any, schema: str = "plan") -> None:
        self._data = data
        self._schema = precover_schemas.load(schema)

    def at(self, pointer: str) -> dict[str, Any]:
        """The schema's entry for a place, stated in the plan or not: title, description, unit, examples. Empty where
        the schema knows no such place."""
        data, nodes = self._data, [self._schema]
        for token in (part.replace("~1", "/").replace("~0", "~") for part in pointer.split("/")[1:]):
            opened = [found for node in nodes for found in self._opened(node, data)]
            nodes = [found for node in opened if (found := _below(node, token)) is not None]
            data = _inside(data, token)
        return nodes[0] if nodes else {}

    def definition(self, field: dict[str, Any]) -> dict[str, Any]:
        """The definition that a field refers to; the field itself where it refers to none."""
        return self._schema["$defs"][field["$ref"].rpartition("/")[2]] if "$ref" in field else field

    def entries(self, field: dict[str, Any]) -> list[dict[str, Any]]:
        """The definitions of what a field lists, in order or by ids; none where it lists nothing."""
        whole = self.definition(field)
        entry = whole.get("items", whole.get("additionalProperties"))
        if not isinstance(entry, dict) or "$ref" not in entry:
            return []
        kind = self.definition(entry)
        return [self.definition(part["then"]) for part in kind["allOf"]] if "allOf" in kind else [kind]

    def owners(self, key: str) -> list[str]:
        """The kinds of things that have a key, by their titles."""
        found = (kind for kind in self._schema["$defs"].values() if key in kind.get("properties", {}))
        return [str(kind["title"]).lower() for kind in found]

    def _opened(self, node: dict[str, Any], data: Any) -> Iterator[dict[str, Any]]:
        """A node with what it refers to, and what holds for the kind of thing that the plan has there."""
        yield node
        if "$ref" in node:
            target: Any = self._schema
            for token in node["$ref"].split("/")[1:]:
                target = target[token]
            yield from self._opened(target, data)
        for part in node.get("allOf", ()):
            if "if" not in part:
                yield from self._opened(part, data)
            elif isinstance(data, dict) and all(key in data for key in part["if"].get("required", ())):
                yield from self._opened(part["then"], data)


def _below(node: dict[str, Any], token: str) -> dict[str, Any] | None:
    for found in (node.get("properties", {}).get(token), node.get("additionalProperties"), node.get("items")):
        if isinstance(found, dict):
            return found
    return None


def _inside(data: Any, token: str) -> Any:
    if isinstance(data, list):
        return data[int(token)] if token.isdecimal() and int(token) < len(data) else None
    return data.get(token) if isinstance(data, dict) else None
