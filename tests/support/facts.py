"""Facts of a plan as text: every value that a fact can have, as a plan would write it."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from hypothesis import strategies as st

import precover_schemas
from precover.plan import MainBreaker, Thing
from precover.plan.thing import Fact

DEFS: dict[str, Any] = precover_schemas.load("plan")["$defs"]


def as_written(value: Any) -> Any:
    """A typed value as a plan writes it: probes are typed, plans are plain data."""
    if isinstance(value, MainBreaker) and value.rating is None:
        return "none"
    return getattr(value, "text", value)


@cache
def values_of(kind: type[Thing], key: str) -> tuple[Any, ...]:
    """Plain values of one fact: those that the reviewer tries, and the examples of the schema."""
    fact = next(fact for fact in kind.facts.values() if fact.key == key)
    field = schema_of(kind)["properties"][key]
    if fact.words or fact.type is bool:
        return tuple(as_written(value) for value in fact.probes())
    found = [*field.get("examples", ()), *(as_written(value) for value in _probes(fact))]
    return tuple(dict.fromkeys(min(value, field["maximum"]) if isinstance(value, int) else value for value in found))


def _probes(fact: Fact) -> list[Any]:
    kinds = fact.type if isinstance(fact.type, tuple) else (fact.type,)
    return list(fact.probes()) or [value for kind in kinds for value in getattr(kind, "probes", tuple)()]


def schema_of(kind: type[Thing]) -> dict[str, Any]:
    """The definition of a class in the plan schema."""
    return DEFS[re.sub(r"(?<=.)(?=[A-Z])", "-", kind.__name__).lower()]


@cache
def facts_of(kind: type[Thing], *apart: str, whole: bool = False) -> st.SearchStrategy[dict[str, Any]]:
    """Plain data of a thing: what is needed, and each other fact or not (`whole`: each one); without the keys `apart`.

    Extras that a plan must claim (concrete over a cable, solid rock) are there or not in either case.
    """
    needed: dict[str, st.SearchStrategy[Any]] = {}
    optional: dict[str, st.SearchStrategy[Any]] = {}
    for fact in kind.facts.values():
        if fact.key in apart or fact.kind in ("things", "list"):
            continue
        if fact.kind == "part":
            optional[fact.key] = facts_of(fact.type, whole=whole)
            continue
        if isinstance(fact.type, type) and issubclass(fact.type, Thing):
            optional[fact.key] = facts_of(fact.type, whole=whole)
            continue
        values = st.sampled_from(values_of(kind, fact.key))
        (needed if fact.kind == "needed" or (whole and fact.kind == "fact") else optional)[fact.key] = values
    if whole:
        needed |= {key: optional.pop(key) for key in [*optional] if _is_part(kind, key)}
    return st.fixed_dictionaries(needed, optional=optional)


def _is_part(kind: type[Thing], key: str) -> bool:
    return any(fact.key == key and fact.kind == "part" for fact in kind.facts.values())
