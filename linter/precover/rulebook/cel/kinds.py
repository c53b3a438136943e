"""The kinds of values in an expression, and the fields of each kind of thing."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any, Final, NamedTuple

from precover.plan import Cable, Conductor, Device, Leg, Plan, Raceway, Site, Thing
from precover.plan.conductors import CABLE_TYPES, INSULATIONS, RACEWAY_TYPES
from precover.plan.panels import MainBreaker
from precover.plan.thing import Fact
from precover.tracing import Lying
from precover.units import ConductorSize, Current, Quantity, SupplyVoltage, TradeSize


class Kind(NamedTuple):
    """What a value is. `of` is the class of a quantity, thing or notation, or the kind of what a list holds; `words` are
    those of a closed list."""

    sort: str
    of: Any = None
    words: tuple[Any, ...] = ()

    def __str__(self) -> str:
        if self.sort == "list":
            return f"a list of {_plural(str(self.of))}"
        if self.sort == "thing":
            return f"a {noun(self.of)}"
        if self.sort == "quantity":
            return f"a {self.of.name}"
        if self.sort == "notation":
            return f"a {noun(self.of).replace('-', ' ')}"
        return {"yes": "yes or no", "number": "a number", "text": "text"}[self.sort]


YES: Final = Kind("yes")
NUMBER: Final = Kind("number")
TEXT: Final = Kind("text")


def thing(of: type) -> Kind:
    """The kind of a class of the plan."""
    return Kind("thing", of)


def several(of: Kind) -> Kind:
    """A list."""
    return Kind("list", of)


class Field(NamedTuple):
    """A field of a thing or notation: its kind, whether it may be absent, and how it is read.

    `fact` is the fact of the plan that it is, whose value may be unstated.
    """

    kind: Kind
    may_lack: bool
    fact: Fact | None = None
    work: Callable[[Any, Any], Any] | None = None


NOTATIONS: Final[Mapping[type, Mapping[str, Field]]] = {
    Cable: {
        "type": Field(Kind("text", None, CABLE_TYPES), False),
        "size": Field(Kind("notation", ConductorSize), False),
        "ground": Field(Kind("notation", ConductorSize), True),
        "material": Field(Kind("text", None, ("Cu", "Al")), False),
    },
    Conductor: {
        "count": Field(NUMBER, False),
        "size": Field(Kind("notation", ConductorSize), False),
        "material": Field(Kind("text", None, ("Cu", "Al")), False),
        "insulation": Field(Kind("text", None, INSULATIONS), False),
    },
    Raceway: {
        "type": Field(Kind("text", None, (*RACEWAY_TYPES, "none")), False),
        "size": Field(Kind("notation", TradeSize), True),
        "absent": Field(YES, False),
    },
    MainBreaker: {"rating": Field(Kind("quantity", Current), True)},
    SupplyVoltage: {"line_to_line": Field(NUMBER, False), "line_to_ground": Field(NUMBER, False)},
    ConductorSize: {},
    TradeSize: {},
}
"""What is written in one notation, with the parts that an expression can name."""

ORDERED: Final = (Quantity, ConductorSize, TradeSize)


def noun(of: type) -> str:
    """What a class of the plan is called: its name, joined by hyphens."""
    if of is Lying:
        return "conductors"
    return re.sub(r"(?<=[a-z])(?=[A-Z])", "-", of.__name__).lower()


@cache
def subjects() -> Mapping[str, type]:
    """What a requirement can be about, by its noun."""
    from precover.plan import Box, Carried, Circuit, Electrode, Grounding, Panel, Route, Structure

    whole = (Plan, Site, Structure, Grounding, Electrode, Panel, Circuit, Box, Route, Carried, Leg, Device, Lying)
    return {noun(kind): kind for kind in (*whole, *Leg.__subclasses__(), *Device.__subclasses__())}


@cache
def fields(of: type) -> Mapping[str, Field]:
    """The fields of a class of things or of a notation: what the plan states of it, and what is worked out."""
    if of in NOTATIONS:
        return NOTATIONS[of]
    from precover.rulebook.cel.related import related

    found = dict(_stated(of)) if issubclass(of, Thing) else {}
    if of in (Leg, Device):
        found = _of_union(of.__subclasses__())
        found["kind"] = Field(Kind("text", None, tuple(map(noun, of.__subclasses__()))), False, None, _noun_of)
    for base in reversed(of.__mro__):
        found |= related().get(base, {})
    return found


def _noun_of(one: Any, _look: Any) -> str:
    return noun(type(one))


def _stated(of: type[Thing]) -> Iterator[tuple[str, Field]]:
    if any("id" in vars(base).get("__annotations__", ()) for base in of.__mro__):
        yield "id", Field(TEXT, False, None, lambda one, _look: one.id)
    for fact in of.facts.values():
        kind = kind_of(fact)
        if kind is not None and fact.attribute != "format":
            yield fact.attribute, Field(kind, fact.kind == "option", fact)


def _of_union(kinds: Sequence[type[Thing]]) -> dict[str, Field]:
    """Fields of things of several classes: those that mean the same wherever they are; absent where a class has none."""
    found: dict[str, Field] = {}
    torn: set[str] = set()
    for one in kinds:
        for name, field in _stated(one):
            if name in found and found[name].kind != field.kind:
                torn.add(name)
            found[name] = field._replace(may_lack=True)
    return {name: field for name, field in found.items() if name not in torn}


def kind_of(fact: Fact) -> Kind | None:
    """The kind of a fact; None for one that an expression cannot use."""
    of = fact.type
    if isinstance(of, type) and issubclass(of, Thing):
        return several(thing(of)) if fact.kind in ("things", "list") else thing(of)
    if fact.words:
        first = fact.words[0]
        return Kind("number" if isinstance(first, int) else "text", None, fact.words)
    if of is bool:
        return YES
    if of is int:
        return NUMBER
    if of is str:
        return TEXT
    if isinstance(of, type) and issubclass(of, Quantity):
        return Kind("quantity", of)
    return Kind("notation", of) if of in NOTATIONS else None


def _plural(words: str) -> str:
    return words.removeprefix("a ") + ("" if words.endswith("s") else "es" if words.endswith("x") else "s")
