"""An edit as the smallest edits that come to the same, so that what they leave alone keeps its place and its layout."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precover.amending.patch import END
from precover.plan.thing import escaped, tokens_of

Step = dict[str, Any]
"""A step of a JSON Patch: `add` and `remove` as there, and `replace` for an item of a list as well."""


def smallest(data: Any, step: Step) -> Iterator[Step]:
    """What a step changes in the data: nothing where the value stands there already. Items of a list are removed from its end."""
    *above, last = tokens_of(step["path"])
    parent = _at(data, above)
    if step["op"] == "add" and isinstance(parent, dict) and last in parent:
        yield from _between(parent[last], step["value"], step["path"])
    else:
        yield step


def _at(data: Any, tokens: list[str]) -> Any:
    for token in tokens:
        if isinstance(data, dict) and token in data:
            data = data[token]
        elif isinstance(data, list) and token.isdecimal() and int(token) < len(data):
            data = data[int(token)]
        else:
            return None
    return data


def _between(old: Any, new: Any, path: str) -> Iterator[Step]:
    if isinstance(old, dict) and isinstance(new, dict) and old and new:
        yield from _of_keys(old, new, path)
    elif isinstance(old, list) and isinstance(new, list) and old and new:
        for index, (one, other) in enumerate(zip(old, new, strict=False)):
            yield from _between(one, other, f"{path}/{index}")
        for index in reversed(range(len(new), len(old))):
            yield {"op": "remove", "path": f"{path}/{index}"}
        for value in new[len(old) :]:
            yield {"op": "add", "path": f"{path}/{END}", "value": value}
    elif type(old) is not type(new) or old != new:
        yield {"op": "replace", "path": path, "value": new}


def _of_keys(old: dict[str, Any], new: dict[str, Any], path: str) -> Iterator[Step]:
    for key, value in new.items():
        at = f"{path}/{escaped(key)}"
        if key in old:
            yield from _between(old[key], value, at)
        else:
            yield {"op": "add", "path": at, "value": value}
    for key in old:  # last, so that something is left of a mapping all along
        if key not in new:
            yield {"op": "remove", "path": f"{path}/{escaped(key)}"}
