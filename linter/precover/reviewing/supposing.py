"""Ask only what matters.

A rule that meets an unstated fact is tried again with the values the fact could have: every word of a closed list, or
values at both ends of a scale. Only if that changes the outcome is the fact asked for; else the rule has its answer
without it. So no rule has to think about which of its facts matter in which case.
"""

from __future__ import annotations

from typing import Final

from precover.plan import Unstated
from precover.rulebook import Answer, Look, Missing, Outcome, Rule

MOST_TRIES: Final = 600
"""Evaluations of one rule on one subject before the first unstated fact is asked for without more trying."""

_FINE = frozenset({Outcome.MET, Outcome.DOES_NOT_APPLY})


def suppose(rule: Rule, subject: object, look: Look, fact: Unstated) -> Answer:
    """The answer of a rule that stopped at an unstated fact."""
    return _Supposing(rule, subject, look).over(fact)


class _Supposing:
    def __init__(self, rule: Rule, subject: object, look: Look) -> None:
        self.rule = rule
        self.subject = subject
        self.look = look
        self.tries = 0

    def over(self, fact: Unstated) -> Answer:
        """The answer over all values of a fact."""
        probes = fact.fact.probes()
        answers: list[tuple[Answer, object]] = []
        for value in probes:
            answer = self._with(fact, value)
            if self.tries > MOST_TRIES:
                return _asking(fact)
            if answers and not _agree(answers[0][0], answer):
                return _asking(fact)
            answers.append((answer, value))
        if not answers:
            return _asking(fact)
        return self._settled(fact, answers)

    def _with(self, fact: Unstated, value: object) -> Answer:
        self.tries += 1
        self.look.begin()
        self.look.supposed[fact.place] = value
        try:
            return self.rule.check(self.subject, self.look)
        except Missing as missing:
            return self.over(missing.fact)
        finally:
            del self.look.supposed[fact.place]

    def _settled(self, fact: Unstated, answers: list[tuple[Answer, object]]) -> Answer:
        telling = next((pair for pair in answers if pair[0].outcome is not Outcome.DOES_NOT_APPLY), answers[0])
        if telling[0].outcome is Outcome.CANNOT_TELL:
            return telling[0]
        # Once more with the value shown, so that the derivation noted is that of the answer given.
        answer = self._with(fact, telling[1])
        self.look.because(f"{fact.field} is not stated, and could not change the answer", fact.place)
        return answer._replace(proposals=telling[0].proposals)


def _agree(one: Answer, other: Answer) -> bool:
    if one.outcome is Outcome.CANNOT_TELL or other.outcome is Outcome.CANNOT_TELL:
        return one.outcome is other.outcome and _asked(one) == _asked(other)
    return one.outcome is other.outcome or (one.outcome in _FINE and other.outcome in _FINE)


def _asked(answer: Answer) -> str | None:
    return None if answer.asks is None else answer.asks.place


def _asking(fact: Unstated) -> Answer:
    return Answer(Outcome.CANNOT_TELL, of=fact.field, has="not stated", at=fact.place, asks=fact)
