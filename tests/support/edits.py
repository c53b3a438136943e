"""Edits of plan data that a review must take in a known way."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from precover.plan import Device, Leg, Plan, Thing
from precover.plan.thing import Fact, escaped, tokens_of
from precover.units import Length

Data = dict[str, Any]


@dataclass(frozen=True)
class Stated:
    """A fact that a plan states: the data it stands in, of what kind of thing, how it is typed, and its place."""

    within: Data
    kind: type[Thing]
    fact: Fact
    place: str

    @property
    def value(self) -> Any:
        """Its value, as the plan writes it."""
        return self.within[self.fact.key]


def stated(data: Data) -> Iterator[Stated]:
    """Every fact that plan data states, of all things in it."""
    for kind, thing, place in things(data):
        for fact in kind.facts.values():
            if fact.key in thing and not _holds_things(fact):
                yield Stated(thing, kind, fact, f"{place}/{fact.key}")


def things(data: Data, kind: type[Thing] = Plan, place: str = "") -> Iterator[tuple[type[Thing], Data, str]]:
    """Every thing in plan data: what it is, its data, and its place."""
    if kind in (Leg, Device):
        kind = next(branch for branch in kind.__subclasses__() if _head(branch) in data)
    yield kind, data, place
    for fact in kind.facts.values():
        value, at = data.get(fact.key), f"{place}/{fact.key}"
        if value is None or not _holds_things(fact):
            continue
        named = value.items() if fact.kind == "things" else enumerate(value) if fact.kind == "list" else ()
        for name, inner in named:
            yield from things(inner, fact.type, f"{at}/{escaped(str(name))}")
        if fact.kind not in ("things", "list"):
            yield from things(value, fact.type, at)


def _holds_things(fact: Fact) -> bool:
    return fact.kind in ("things", "list") or (isinstance(fact.type, type) and issubclass(fact.type, Thing))


def _head(kind: type[Thing]) -> str:
    return next(fact.key for fact in kind.facts.values() if fact.kind == "needed")


def copied(data: Any) -> Any:
    """A copy of plain data, all the way down."""
    if isinstance(data, dict):
        return {key: copied(value) for key, value in data.items()}
    return [copied(value) for value in data] if isinstance(data, list) else data


def shuffled(data: Any, chance: random.Random) -> Any:
    """The same data with the keys of every mapping in another order; lists keep theirs."""
    if isinstance(data, dict):
        keys = chance.sample(list(data), len(data))
        return {key: shuffled(data[key], chance) for key in keys}
    return [shuffled(value, chance) for value in data] if isinstance(data, list) else data


def in_millimetres(data: Data) -> Data:
    """The same plan with every length in inches or feet written as exactly as many millimetres."""
    made: Data = copied(data)
    for found in stated(made):
        if found.fact.type is Length and not Length.parse(found.value).metric:
            found.within[found.fact.key] = f"{_decimal(Length.parse(found.value).amount)} mm"
    return made


def _decimal(amount: Fraction) -> str:
    text = f"{float(amount):.6f}".rstrip("0").rstrip(".")
    assert Fraction(text) == amount, f"{amount} mm is no decimal"
    return text


def renamed(data: Data, name: Callable[[str], str]) -> Data:
    """The same plan with every id, and every reference to one, changed by `name`."""
    made: Data = copied(data)
    for kind in ("structures", "panels", "circuits", "boxes", "routes"):
        made[kind] = {name(old): thing for old, thing in made[kind].items()}
    for structure in made["structures"].values():
        if "electrodes" in structure.get("grounding", {}):
            _rename_keys(structure["grounding"], "electrodes", name)
    for thing in (*made["panels"].values(), *made["boxes"].values()):
        thing["at"] = name(thing["at"])
    for circuit in made["circuits"].values():
        circuit |= {key: _path(circuit[key], name) for key in ("from", "not-with") if key in circuit}
    for route in made["routes"].values():
        route["from"], route["to"] = name(route["from"]), name(route["to"])
        _rename_keys(route, "carries", name)
    for box in made["boxes"].values():
        if "devices" in box:
            _rename_keys(box, "devices", name)
            for device in box["devices"].values():
                for key in ("circuit", "after", "switched-by"):
                    if key in device:
                        device[key] = _path(device[key], name)
    return made


def _rename_keys(within: Data, key: str, name: Callable[[str], str]) -> None:
    within[key] = {name(old): thing for old, thing in within[key].items()}


def _path(path: str, name: Callable[[str], str]) -> str:
    return "/".join(name(part) for part in path.split("/"))


def with_value(data: Data, place: str, value: Any) -> Data:
    """The same plan with a value stated at a place; the mappings on the way are made where they are not there."""
    made: Data = copied(data)
    at: Any = made
    *way, key = tokens_of(place)
    for token in way:
        at = at[int(token)] if isinstance(at, list) else at.setdefault(token, {})
    at[key] = value
    return made
