"""Things of a plan as the plan writes them, for proposals that repeat one."""

from __future__ import annotations

from typing import Any

from precover.plan.thing import Thing, Unstated


def as_written(thing: Thing) -> dict[str, Any]:
    """A thing of the plan as the plan writes it."""
    written: dict[str, Any] = {}
    for fact in type(thing).facts.values():
        value = getattr(thing, fact.attribute)
        if isinstance(value, Unstated) or value is None:
            continue
        if isinstance(value, Thing):
            value = as_written(value)
        elif fact.kind == "list":
            value = [as_written(part) for part in value]
        elif fact.kind == "things":
            value = {name: as_written(part) for name, part in value.items()}
        else:
            value = getattr(value, "text", value)
        if value not in ({}, []):
            written[fact.key] = value
    return written
