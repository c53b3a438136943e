"""JSON Patch (RFC 6902) on plan data, without changing the data it is applied to.

Only the two operations that proposals use: `add` (which replaces a member that is there) and `remove`. The parts of the
data that a patch does not touch are shared, so that trying an edit costs the edit, not the plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from precover.plan.thing import escaped, tokens_of

Patch = tuple[dict[str, Any], ...]

END = "-"
"""The token for the place behind the last item of a list."""


class PatchError(ValueError):
    """A patch that does not fit the data."""


def complete(data: Any, patch: Sequence[dict[str, Any]]) -> Patch:
    """The patch with the parents it needs: `add` asks for a parent that is there, and a fact of an object that the plan
    leaves out has none yet."""
    made: list[dict[str, Any]] = []
    for step in patch:
        if step["op"] == "add":
            for parent in _missing_parents(data, step["path"]):
                opening = {"op": "add", "path": parent, "value": {}}
                made.append(opening)
                data = applied(data, (opening,))
        made.append(step)
        data = applied(data, (step,))
    return tuple(made)


def applied(data: Any, patch: Sequence[dict[str, Any]]) -> Any:
    """The data with a patch applied; PatchError where it does not fit."""
    for step in patch:
        data = _step(data, tokens_of(step["path"]), step)
    return data


def _missing_parents(data: Any, pointer: str) -> list[str]:
    at, path = data, ""
    missing: list[str] = []
    for token in tokens_of(pointer)[:-1]:
        path += f"/{escaped(token)}"
        if missing or (isinstance(at, dict) and token not in at):
            missing.append(path)
        else:
            at = at[int(token)] if isinstance(at, list) else at[token]
    return missing


def _step(data: Any, tokens: list[str], step: dict[str, Any]) -> Any:
    token, rest = tokens[0], tokens[1:]
    if isinstance(data, dict):
        copy = dict(data)
        if rest:
            if token not in copy:
                raise PatchError(f"nothing is at {step['path']}")
            copy[token] = _step(copy[token], rest, step)
        elif step["op"] == "add":
            copy[token] = step["value"]
        elif copy.pop(token, None) is None:
            raise PatchError(f"nothing is at {step['path']}")
        return copy
    if isinstance(data, list):
        return _item(list(data), token, rest, step)
    raise PatchError(f"nothing is at {step['path']}")


def _item(copy: list[Any], token: str, rest: list[str], step: dict[str, Any]) -> list[Any]:
    index = int(token) if token.isdecimal() else len(copy) if token == END else -1
    if rest or step["op"] == "remove":
        if not 0 <= index < len(copy):
            raise PatchError(f"nothing is at {step['path']}")
        if rest:
            copy[index] = _step(copy[index], rest, step)
        else:
            del copy[index]
    elif 0 <= index <= len(copy):
        copy.insert(index, step["value"])
    else:
        raise PatchError(f"nothing is at {step['path']}")
    return copy
