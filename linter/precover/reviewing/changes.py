"""Where two versions of a plan differ."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from precover.plan.thing import escaped

STOPS: Final = ("structures", "panels", "circuits", "boxes", "routes")
"""The parts of a plan that list things by id."""


def changed_places(before: Any, after: Any) -> Iterator[str]:
    """JSON Pointers of what two plans in plain data do not have alike: a thing by its id, or another key of the plan."""
    for key in dict.fromkeys((*before, *after)):
        one, other = before.get(key), after.get(key)
        if one == other:
            continue
        if key in STOPS and isinstance(one, Mapping) and isinstance(other, Mapping):
            for name in dict.fromkeys((*one, *other)):
                if one.get(name) != other.get(name):
                    yield f"/{escaped(key)}/{escaped(name)}"
        else:
            yield f"/{escaped(key)}"
