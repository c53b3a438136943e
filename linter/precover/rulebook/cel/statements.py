"""What a plan states because a pack asks for it: facts like those of any thing, under `/statements`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from precover.plan import Unstated
from precover.plan.thing import Fact
from precover.rulebook.cel.kinds import TEXT, YES, Kind
from precover.rulebook.cel.running import Scope
from precover.rulebook.cel.typed import Run, Typed
from precover.units import Current, Length, Power, QuantityError, Voltage

OWNER: Final = "/statements"
_QUANTITIES: Final = {"length": Length, "current": Current, "voltage": Voltage, "power": Power}


class Unfit(Exception):
    """A plan answers a statement with something that is no answer to it."""

    def __init__(self, name: str, given: object, wanted: str) -> None:
        super().__init__(name)
        self.name = name
        self.given = given
        self.wanted = wanted


def statement_facts(said: Mapping[str, Any]) -> dict[str, Fact]:
    """The facts that a pack's `statements` describe, by name."""
    found = {}
    for name, one in said.items():
        of = _QUANTITIES.get(one["answer"], bool if one["answer"] == "yes or no" else str)
        words = tuple(one.get("words", ())) if one["answer"] == "one of" else ()
        found[name] = Fact(name, name, "fact", of, words)
    return found


def typed_statements(facts: Mapping[str, Fact]) -> dict[str, Typed]:
    """How expressions name and read them: `statements.` and the name, with `_` for `-`."""
    return {_attribute(name): Typed(_kind(fact), _reading(fact), path=name) for name, fact in facts.items()}


def _attribute(name: str) -> str:
    return name.replace("-", "_").replace(".", "_")


def _kind(fact: Fact) -> Kind:
    if fact.type is bool:
        return YES
    return TEXT._replace(words=fact.words) if fact.type is str else Kind("quantity", fact.type)


def _reading(fact: Fact) -> Run:
    unstated = Unstated(OWNER, fact)

    def read(scope: Scope) -> Any:
        given = (scope.look.plan.statements or {}).get(fact.key)
        return scope.stated(OWNER, fact.key, unstated if given is None else _value(fact, given))

    return read


def _value(fact: Fact, given: Any) -> Any:
    if fact.type is bool:
        if not isinstance(given, bool):
            raise Unfit(fact.key, given, "true or false")
        return given
    if fact.type is str:
        if not isinstance(given, str) or (fact.words and given not in fact.words):
            raise Unfit(fact.key, given, f"one of {', '.join(fact.words)}" if fact.words else "text")
        return given
    try:
        return fact.type.parse(given if isinstance(given, str) else str(given))
    except QuantityError as problem:
        raise Unfit(fact.key, given, problem.hint) from None
