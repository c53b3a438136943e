"""Ask only what matters.

A rule that meets an unstated fact is tried again with the values the fact could have: every word of a closed list, or
values at both ends of a scale and, where it is the only fact that the rule lacks, at every limit that the rule then reads
and between them. Only if that changes the outcome is the fact asked for; else the rule has its answer without it. So no rule
has to think about which of its facts matter in which case.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, pairwise
from typing import Any, Final

from precover.plan import Unstated
from precover.record import Record
from precover.rulebook import Answer, Look, Missing, Outcome, Rule
from precover.units import Quantity, plain

MOST_TRIES: Final = 200
"""Evaluations of one rule on one subject before the first unstated fact is asked for without more trying."""

TOO_MANY: Final = "asked for untried: the facts left out have too many combinations"
"""Why a fact is asked for of which it is not known whether it matters."""

_FINE = frozenset({Outcome.MET, Outcome.DOES_NOT_APPLY})


def suppose(rule: Rule, subject: object, look: Look, fact: Unstated) -> Answer:
    """The answer of a rule that stopped at an unstated fact."""
    return _Supposing(rule, subject, look).answer(fact)


class _Tried(Record):
    """An answer, and the values supposed that gave it, the first fact met first."""

    answer: Answer
    by: tuple[tuple[Unstated, object], ...] = ()


class _Supposing:
    def __init__(self, rule: Rule, subject: object, look: Look) -> None:
        self.rule = rule
        self.subject = subject
        self.look = look
        self.tries = 0

    def answer(self, fact: Unstated) -> Answer:
        """The answer, with the derivation that belongs to it."""
        tried = self._over(fact)
        if tried.by:
            self.look.begin()
            self.look.supposed.update((each.place, value) for each, value in tried.by)
            try:
                self.rule.answer(self.subject, self.look)
            finally:
                self.look.supposed.clear()
            for each, _ in reversed(tried.by):
                self.look.because(f"{each.field} is not stated, and could not change the answer", each.place)
        return tried.answer

    def _over(self, fact: Unstated) -> _Tried:
        """The answer over all values of a fact."""
        found: list[_Tried] = []
        ends, read = fact.fact.probes(), set[Quantity]()
        for value in chain(ends, self._between(ends, read)):
            tried = self._with(fact, value, read)
            if self.tries > MOST_TRIES:
                return _asking(fact, TOO_MANY)
            if found and not _agree(found[0].answer, tried.answer):
                return _asking(fact)
            found.append(tried._replace(by=((fact, value), *tried.by)))
        return _settled(fact, found) if found else _asking(fact)

    def _with(self, fact: Unstated, value: object, read: set[Quantity]) -> _Tried:
        """The answer with one value; the limits of the same dimension that were read for it are added to `read`."""
        self.tries += 1
        self.look.begin()
        self.look.supposed[fact.place] = value
        try:
            return _Tried(self.rule.answer(self.subject, self.look))
        except Missing as missing:
            return self._over(missing.fact)
        finally:
            del self.look.supposed[fact.place]
            if isinstance(value, Quantity):
                read.update(cell.value for cell in self.look.cells if type(cell.value) is type(value))

    def _between(self, ends: tuple[Any, ...], read: set[Quantity]) -> Iterator[Quantity]:
        """Values between the ends of a scale, once these were tried: the limits that were read for them, and what lies
        between. Only where the rule needs no other fact that is left out, or the tries would multiply."""
        if self.tries > len(ends) or not ends or not isinstance(ends[0], Quantity):
            return
        kinds: dict[type[Quantity], None] = dict.fromkeys(map(type, ends))  # a load may be in watts or in volt-amperes
        for kind in kinds:
            low, *_, high = sorted(end for end in ends if type(end) is kind)
            limits = sorted(limit for limit in read if type(limit) is kind and low < limit < high)
            yield from limits
            for one, other in pairwise((low, *limits, high)):
                amount = (one.amount + other.amount) / 2
                yield kind(amount, f"{plain(amount)} {one.base}")


def _settled(fact: Unstated, found: list[_Tried]) -> _Tried:
    answers = [(tried.answer, tried.by[0][1]) for tried in found]
    telling = _strictest(answers)
    if telling[0].outcome is Outcome.CANNOT_TELL:
        return _Tried(telling[0])
    why = "; ".join(part for part in (telling[0].why, *_less(fact, telling[0], answers)) if part)
    by = next(tried.by for tried in found if tried.answer is telling[0])
    return _Tried(telling[0]._replace(why=why), by)


def _strictest(answers: list[tuple[Answer, object]]) -> tuple[Answer, object]:
    """The answer that tells, with its value: of several that are not met, the one that needs most."""
    compared = [pair for pair in answers if pair[0].outcome is Outcome.NOT_MET and pair[0].limit is not None]
    if len(compared) == len(answers) and len({(answer.of, answer.relation) for answer, _ in compared}) == 1:
        strict = min if compared[0][0].relation == "at most" else max
        return strict(compared, key=lambda pair: _limit(pair[0]))
    return next((pair for pair in answers if pair[0].outcome is not Outcome.DOES_NOT_APPLY), answers[0])


def _less(fact: Unstated, telling: Answer, answers: list[tuple[Answer, object]]) -> list[str]:
    """What would be enough by another value of the fact, where the plan falls short of that too."""
    if telling.outcome is not Outcome.NOT_MET or telling.limit is None:
        return []
    found: dict[str, list[str]] = {}
    for answer, value in answers:
        if answer.limit is not None and _limit(answer) != _limit(telling):
            said = {True: "true", False: "false"}.get(value) if isinstance(value, bool) else value
            found.setdefault(str(answer.needs), []).append(str(said))
    if not (fact.fact.words or fact.fact.type is bool):
        return [f"or {needs}, by {fact.field}" for needs in found]
    return [f"or {needs} where {fact.field} is {' or '.join(values)}" for needs, values in found.items()]


def _limit(answer: Answer) -> Any:
    """What the answer was compared with."""
    return None if answer.limit is None else answer.limit.value


def _agree(one: Answer, other: Answer) -> bool:
    if one.outcome is Outcome.CANNOT_TELL or other.outcome is Outcome.CANNOT_TELL:
        return one.outcome is other.outcome and _asked(one) == _asked(other)
    return one.outcome is other.outcome or (one.outcome in _FINE and other.outcome in _FINE)


def _asked(answer: Answer) -> str | None:
    return None if answer.asks is None else answer.asks.place


def _asking(fact: Unstated, why: str = "") -> _Tried:
    return _Tried(Answer(Outcome.CANNOT_TELL, of=fact.field, has="not stated", why=why, at=fact.place, asks=fact))
