"""Queries by fact: what the plan leaves out is asked for once, with every check that needs it."""

from __future__ import annotations

from typing import Any, Final

from precover.plan import Unstated
from precover.plan.thing import tokens_of
from precover.record import Record
from precover.reviewing import Finding, Review
from precover.rulebook import Severity

STATEMENTS: Final = "/statements/"
"""Places of what only a rule pack asks for."""


class Query(Record):
    """An unstated fact and the findings that wait for it, in the order of the walk."""

    fact: Unstated
    findings: tuple[Finding, ...]
    field: dict[str, Any]
    """The fact's entry in the plan schema: title, description, unit, examples."""

    @property
    def severity(self) -> Severity:
        """The worst of what waits for it."""
        return max(finding.severity for finding in self.findings)

    @property
    def place(self) -> str:
        """Where it is stated."""
        return self.fact.place

    @property
    def topics(self) -> tuple[str, ...]:
        """Topics that wait for it, each once."""
        return tuple(dict.fromkeys(finding.line.rule.topic for finding in self.findings))

    @property
    def title(self) -> str:
        """The fact as a person calls it."""
        return str(self.field.get("title", self.fact.field))

    @property
    def written(self) -> str:
        """How the plan states it: its key inside the parts that it belongs to, and the words or the manner of its value."""
        value, manner = self._value
        *parts, key = _keys_within(self.fact.place)
        whole = f"{key}: {value}"
        for part in reversed(parts):
            whole = f"{part}: {{{whole}}}"
        return whole + manner

    @property
    def _value(self) -> tuple[str, str]:
        """What stands for the value, and a note on how it is written."""
        kind = self.fact.fact
        if kind.type is bool:
            return "true or false", ""
        if kind.words:
            return f"one of {', '.join(str(word) for word in kind.words)}", ""
        first = next((one for one in self.field.get("examples", ()) if not isinstance(one, (dict, list))), None)
        return "...", f" (in the manner of {first})" if first is not None else ""


def _keys_within(place: str) -> list[str]:
    """The keys that lead from the thing that a fact belongs to (under an id, or in a list) down to the fact."""
    tokens = tokens_of(place)
    at = start = 0
    while at < len(tokens):
        if tokens[at] in _HOLD_THINGS:
            start = at = at + 2
        else:
            at += 1
    return tokens[start:]


_HOLD_THINGS: Final = frozenset(
    {"structures", "panels", "circuits", "boxes", "routes", "devices", "carries", "legs", "electrodes"}
)
"""Keys under which things stand by id or in a list."""


def to_settle(review: Review) -> list[Finding | Query]:
    """Everything that somebody must do something about, in the order of the walk: findings, and each fact to state
    where it is first needed."""
    if not review.findings:
        return []
    from precover.reading.field import PlanFields  # for what is found

    waiting: dict[str, list[Finding]] = {}
    for finding in review.findings:
        fact = finding.line.answer.asks
        if fact is not None:
            waiting.setdefault(fact.place, []).append(finding)
    fields = PlanFields(review.document.data) if waiting else None
    items: list[Finding | Query] = []
    for finding in review.findings:
        fact = finding.line.answer.asks
        if fact is None or fields is None:
            items.append(finding)
        elif fact.place in waiting:
            asks = review.book.statements.get(fact.field, "") if fact.place.startswith(STATEMENTS) else ""
            field = {"title": fact.field.replace("-", " "), "description": asks} if asks else fields.at(fact.place)
            items.append(Query(fact, tuple(waiting.pop(fact.place)), field))
    return items
