"""Valid plain data to the typed plan."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from types import MappingProxyType
from typing import Any, cast

from precover.plan import (
    Bend,
    BuriedLeg,
    Device,
    DisconnectSwitch,
    Equipment,
    FramingLeg,
    GroundFaultDevice,
    Heater,
    Leg,
    Luminaire,
    Motor,
    OverheadLeg,
    PassageLeg,
    Plan,
    Problem,
    Receptacle,
    RiseLeg,
    SurfaceLeg,
    Switch,
    Transformer,
)
from precover.plan.thing import Fact, Thing, escaped
from precover.reading.errors import MOST_PROBLEMS
from precover.units import QuantityError

_BY_FIRST_WORD: dict[type[Thing], dict[str, type[Thing]]] = {
    Leg: {
        "buried": BuriedLeg,
        "rise": RiseLeg,
        "on": SurfaceLeg,
        "in": FramingLeg,
        "through": PassageLeg,
        "bend": Bend,
        "overhead": OverheadLeg,
    },
    Device: {
        "receptacle": Receptacle,
        "switch": Switch,
        "disconnect": DisconnectSwitch,
        "ground-fault-device": GroundFaultDevice,
        "luminaire": Luminaire,
        "equipment": Equipment,
        "motor": Motor,
        "heater": Heater,
        "transformer": Transformer,
    },
}
"""Which class a leg or device is, by the key that only it has."""

_set = object.__setattr__


def build(data: dict[str, Any]) -> tuple[Plan, list[Problem]]:
    """The typed plan of data that the schema has passed, and every quantity or notation in it that cannot be read; past
    the most that are told, nothing more is read.

    A value of None is one that the schema has refused (it allows no null): it is passed over.
    """
    problems: list[Problem] = []
    plan = cast(Plan, _thing(Plan, data, "", problems))
    if not problems:
        return plan, problems
    from precover.reading.field import PlanFields  # only for a plan with mistakes
    from precover.reading.suggesting import sharpened

    fields = PlanFields(data)
    return plan, [sharpened(problem, data, fields) for problem in problems]


def _thing(kind: type[Thing], data: dict[str, Any], place: str, problems: list[Problem]) -> Thing:
    branches = _BY_FIRST_WORD.get(kind)
    if branches is not None:
        kind = next(branch for word, branch in branches.items() if word in data)
    thing = kind.__new__(kind)
    _set(thing, "place", place)
    if len(problems) > MOST_PROBLEMS:
        return thing
    writers = _writers(kind)  # type: ignore[arg-type]  # mypy takes the hash of the instances for that of the class
    for key, value in data.items():
        writer = writers.get(key)
        if writer is not None and value is not None:
            attribute, inside, read = writer
            try:
                _set(
                    thing, attribute, read(value) if inside is None else inside(read, value, f"{place}/{key}", problems)
                )
            except QuantityError as problem:
                problems.append(Problem(f"{place}/{key}", problem.message, problem.hint))
    return thing


Inside = Callable[[Any, Any, str, list[Problem]], Any]


@cache
def _writers(kind: type[Thing]) -> dict[str, tuple[str, Inside | None, Any]]:
    """By key: the attribute, and how to make its value: with what builds things of a class (and the class), or with None
    and what makes it of the value alone."""
    return {fact.key: (fact.attribute, *_writer(fact)) for fact in kind.facts.values()}


def _writer(fact: Fact) -> tuple[Inside | None, Any]:
    kind = fact.type
    if fact.kind == "things":
        return _things, kind
    if fact.kind == "list":
        return _list, kind
    if isinstance(kind, type) and issubclass(kind, Thing):
        return _thing, kind
    if isinstance(kind, tuple):
        return None, lambda value: _first(kind, value)
    return None, getattr(kind, "parse", _plain)


def _plain(value: Any) -> Any:
    """A list as a tuple; a whole number as one, be it written `2` or `2.0` (the schema lets no other float pass)."""
    if isinstance(value, list):
        return tuple(value)
    return int(value) if isinstance(value, float) else value


def _things(kind: type[Thing], value: dict[str, Any], place: str, problems: list[Problem]) -> Any:
    made = {}
    for name, data in value.items():
        if data is None:
            continue
        thing = made[name] = _thing(kind, data, f"{place}/{escaped(name)}", problems)
        _set(thing, "id", name)
    return MappingProxyType(made)


def _list(kind: type[Thing], value: list[Any], place: str, problems: list[Problem]) -> Any:
    made = []
    for index, data in enumerate(value):
        if data is None:
            continue
        thing = _thing(kind, data, f"{place}/{index}", problems)
        _set(thing, "number", index + 1)
        made.append(thing)
    return tuple(made)


def _first(kinds: tuple[Any, ...], value: str) -> Any:
    refused: list[QuantityError] = []
    for kind in kinds:
        try:
            return kind.parse(value)
        except QuantityError as problem:
            refused.append(problem)
    hints = " or: ".join(problem.hint for problem in refused)
    raise QuantityError(refused[0].message, hints)


def heads_of(kinds: tuple[type, ...]) -> tuple[str, ...]:
    """The keys that say that a leg or device is one of these kinds."""
    return tuple(word for words in _BY_FIRST_WORD.values() for word, kind in words.items() if kind in kinds)


def head_of(kind: type) -> str:
    """The key that says that a leg or device is of a kind; empty for kinds that no key tells."""
    return next((word for words in _BY_FIRST_WORD.values() for word, one in words.items() if one is kind), "")
