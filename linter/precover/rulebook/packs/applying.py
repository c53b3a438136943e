"""The topics in force: those that plugins gave, changed by one pack after the other."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import wraps
from pathlib import Path
from typing import Any

from precover.plan.thing import Fact
from precover.record import Record
from precover.rulebook.answer import Answer, Outcome, does_not_apply
from precover.rulebook.look import Look
from precover.rulebook.packs.change import Except, Grade, Inspect, PartChange, Require, Rewrite, Switch
from precover.rulebook.packs.tables import Layer, layer_problem
from precover.rulebook.rule import Inspection, Rule
from precover.rulebook.table import Table
from precover.rulebook.topic import Topic


class Off(Record):
    """A rule or an entry of the inspection list that is out of force, and who put it so."""

    part: Rule | Inspection
    switch: Switch
    set_by: str
    by_edition: bool


class InForce(Record):
    """Topics with their parts in force, the parts that are not, what plans are asked to state besides, and exceptions
    with the packs that made them."""

    topics: Mapping[str, Topic]
    off: tuple[Off, ...]
    statements: Mapping[str, str]
    excepted: tuple[tuple[str, Except], ...]


def apply(topics: Mapping[str, Topic], layers: Sequence[Layer], tables: Mapping[str, Table]) -> InForce:
    """The topics under a list of packs; PackUnreadable for a change that names nothing."""
    state = _State(topics)
    statements: dict[str, Fact] = {}
    asks: dict[str, str] = {}
    for layer in layers:
        statements |= layer.changes.statements()
        asks |= layer.changes.asks
        for change in (*layer.changes.own(tables, statements), *layer.changes.parts):
            state.make(change, layer)
    return state.made()._replace(statements=asks)


def _excepting(check: Callable[[Any, Look], Answer], change: Except) -> Callable[[Any, Look], Answer]:
    """A rule's check that does not hold an excepted thing to the rule; asked only where the rule is not met."""

    @wraps(check)
    def excepting(subject: Any, look: Look) -> Answer:
        answer = check(subject, look)
        if answer.outcome in _FINE or not isinstance(subject, change.about) or not change.holds(subject, look):
            return answer
        return does_not_apply(change.reason)

    return excepting


_FINE = frozenset({Outcome.MET, Outcome.DOES_NOT_APPLY})


class _State:
    """Parts by id while changes are made."""

    def __init__(self, topics: Mapping[str, Topic]) -> None:
        self.topics = dict(topics)
        self.parts: dict[str, Rule | Inspection] = {}
        for topic in topics.values():
            self.parts |= {rule.id: rule for rule in topic.rules} | {item.id: item for item in topic.inspections}
        self.off: dict[str, Off] = {}
        self.touched: set[str] = set()
        self.excepted: list[tuple[str, Except]] = []

    def make(self, change: PartChange, layer: Layer) -> None:
        if isinstance(change, Switch):
            self._switch(change, layer)
        elif isinstance(change, Grade):
            self._grade(change, layer)
        elif isinstance(change, Rewrite):
            self._rewrite(change, layer)
        elif isinstance(change, Except):
            self._except(change, layer)
        elif isinstance(change, Require):
            self._add(change.rule, change, layer)
        else:
            self._add(change.item, change, layer)

    def made(self) -> InForce:
        """What came of it; topics that nothing touched are handed on as they are."""
        for name in self.touched:
            topic = self.topics[name]
            here = [part for part in self.parts.values() if part.topic == name and part.id not in self.off]
            here.sort(key=lambda part: part.id)
            self.topics[name] = topic._replace(
                rules=tuple(part for part in here if isinstance(part, Rule)),
                inspections=tuple(part for part in here if isinstance(part, Inspection)),
            )
        topics = dict(sorted(self.topics.items())) if self.touched else self.topics
        return InForce(topics, tuple(self.off[name] for name in sorted(self.off)), {}, tuple(self.excepted))

    def _switch(self, change: Switch, layer: Layer) -> None:
        found = [change.part] if change.part in self.parts else []
        if change.part in self.topics:
            found = [part.id for part in self.parts.values() if part.topic == change.part]
        # An edition may name rules of a plugin that is not there: it failed to load, or the book is one of few topics.
        if not found and not layer.edition:
            raise layer_problem(layer.pack, change.place, *self._unknown(change.part))
        for name in found:
            self.touched.add(self.parts[name].topic)
            if change.on:
                self.off.pop(name, None)
            else:
                self.off[name] = Off(self.parts[name], change, layer.edition or layer.pack.id, bool(layer.edition))

    def _grade(self, change: Grade, layer: Layer) -> None:
        rule = self.parts.get(change.rule)
        graded = [rule] if isinstance(rule, Rule) else []
        if change.rule in self.topics:
            graded = [p for p in self.parts.values() if isinstance(p, Rule) and p.topic == change.rule]
        if not graded:
            raise layer_problem(layer.pack, change.place, *self._unknown(change.rule))
        for one in graded:
            self.touched.add(one.topic)
            was = one if one.severity is not change.severity else one.was
            self.parts[one.id] = one._replace(severity=change.severity, set_by=layer.pack.id, was=was)

    def _rewrite(self, change: Rewrite, layer: Layer) -> None:
        topic = self.topics.get(change.topic)
        if topic is None:
            raise layer_problem(layer.pack, change.place, *self._unknown(change.topic))
        self.topics[change.topic] = topic.rewritten(change.title, change.text, change.look_up, layer.pack.id)

    def _except(self, change: Except, layer: Layer) -> None:
        rule = self.parts.get(change.rule)
        if not isinstance(rule, Rule):
            raise layer_problem(layer.pack, change.place, *self._unknown(change.rule))
        if not any(issubclass(change.about, kind) or issubclass(kind, change.about) for kind in rule.kinds):
            told = f"`{rule.id}` does not look at such a thing"
            kinds = " and ".join(kind.__name__ for kind in rule.kinds)
            raise layer_problem(layer.pack, change.place, told, f"it looks at each {kinds}")
        self.touched.add(rule.topic)
        self.excepted.append((layer.pack.id, change))
        self.parts[rule.id] = rule._replace(check=_excepting(rule.check, change))

    def _add(self, part: Rule | Inspection, change: Require | Inspect, layer: Layer) -> None:
        if part.id in self.parts:
            told = f"`{part.id}` is there already"
            raise layer_problem(layer.pack, change.place, told, "give it another name")
        if part.topic not in self.topics:
            if part.topic != layer.pack.id:
                raise layer_problem(layer.pack, change.place, *self._unknown(part.topic))
            self.topics[part.topic] = Topic(part.topic, Path(), (), (), layer.pack.id, f"# {layer.pack.title}\n")
        self.parts[part.id] = part
        self.touched.add(part.topic)

    def _unknown(self, name: str) -> tuple[str, str]:
        from difflib import get_close_matches  # only for a name that is wrong

        known = [*self.topics, *self.parts]
        near = get_close_matches(name, known, n=1, cutoff=0.5)
        if not near:
            ends = {one.rpartition("/")[2]: one for one in known}
            near = [ends[end] for end in get_close_matches(name.rpartition("/")[2], list(ends), n=1, cutoff=0.6)]
        hint = f"did you mean `{near[0]}`?" if near else "`precover topics` lists the topics"
        return f"there is no rule or topic `{name}`", hint
