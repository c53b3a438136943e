"""What comes out: findings, the ledger, the inspection list."""

from collections.abc import Mapping
from functools import cached_property
from typing import NamedTuple

from precover.reading import Document
from precover.record import Record
from precover.reviewing.inspecting import ToInspect, inspection_list
from precover.rulebook import Answer, Cell, Outcome, Rule, Rulebook, Severity, does_not_apply
from precover.tracing import Trace, walk_order


class Line(NamedTuple):
    """One line of the ledger: a rule that ran on a subject, what it answered, and how it came to it."""

    rule: Rule
    subject: str
    """JSON Pointer of the subject."""
    answer: Answer
    steps: tuple[tuple[str, str | None], ...] = ()
    cells: tuple[Cell, ...] = ()

    @property
    def place(self) -> str:
        """The JSON Pointer to mark in the plan."""
        return self.answer.at or self.subject


PassedOver = tuple[tuple[Rule, ...], str, str]
"""Rules that are not about a subject, all for one reason, so that none was run on it: the rules, the JSON Pointer of the
subject, and the reason."""


class Ran(Record):
    """What the rules of a book say of a plan: the lines of those that ran, those passed over, and those that failed (id and
    reason)."""

    lines: list[Line]
    passed_over: list[PassedOver]
    faults: dict[str, str]


class Finding(Record):
    """A line of the ledger that somebody must do something about."""

    severity: Severity
    line: Line


class Review:
    """A review of one plan under one rulebook.

    `rules_defaulted`: the plan names no rule packs, and the default pack was used. `told` are the lines of the rules that
    ran, `passed_over` the rules that their conditions kept from running.
    """

    def __init__(
        self,
        document: Document,
        trace: Trace,
        book: Rulebook,
        rules_defaulted: bool,
        ran: Ran,
        failures: tuple[tuple[str, str], ...] = (),
    ) -> None:
        self.document = document
        self.trace = trace
        self.book = book
        self.rules_defaulted = rules_defaulted
        self.told = ran.lines
        self.passed_over = ran.passed_over
        self.faults = (*failures, *ran.faults.items())

    @cached_property
    def _inspections(self) -> tuple[tuple[ToInspect, ...], dict[str, str]]:
        return inspection_list(self.trace, self.book)

    @property
    def inspect(self) -> tuple[ToInspect, ...]:
        """The inspection list. Worked out when first asked for: who only wants findings does not need it."""
        return self._inspections[0]

    @property
    def failures(self) -> tuple[tuple[str, str], ...]:
        """Plugins that could not be loaded and rules that failed, name and reason: what they check was not checked."""
        return tuple(sorted({*self.faults, *self._inspections[1].items()}))

    @cached_property
    def ran(self) -> tuple[Line, ...]:
        """Every check in no order, those that were passed over too."""
        passed = (
            Line(rule, subject, does_not_apply(why)) for rules, subject, why in self.passed_over for rule in rules
        )
        return (*self.told, *passed)

    @cached_property
    def ledger(self) -> tuple[Line, ...]:
        """Every check that ran, in the order of the walk."""
        return tuple(sorted(self.ran, key=self._in_walk))

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What is not met and what cannot be told, in the order of the walk."""
        return tuple(sorted(self.wanting, key=lambda finding: self._in_walk(finding.line)))

    @cached_property
    def wanting(self) -> tuple[Finding, ...]:
        """The findings in no order, for whoever only compares them."""
        return tuple(
            Finding(_severity(line), line)
            for line in self.told
            if (outcome := line.answer.outcome) is _NOT_MET or outcome is _CANNOT_TELL
        )

    @property
    def tally(self) -> dict[Outcome, int]:
        """How many checks gave each of the four answers."""
        counts = dict.fromkeys(Outcome, 0)
        for line in self.told:
            counts[line.answer.outcome] += 1
        counts[Outcome.DOES_NOT_APPLY] += sum(len(rules) for rules, _, _ in self.passed_over)
        return counts

    @cached_property
    def walk(self) -> Mapping[str, int]:
        """Places in the order of the walk."""
        return walk_order(self.trace.plan, self.trace.tree)

    def worst(self) -> Severity | None:
        """The worst severity found, or None."""
        return max((finding.severity for finding in self.findings), default=None)

    def _in_walk(self, line: Line) -> tuple[int, tuple[str, ...], str]:
        tokens = line.place.split("/")
        stop = self.walk.get("/".join(tokens[:3]), self.walk.get("/".join(tokens[:2]), 0))
        return stop, tuple(token.zfill(6) if token.isdecimal() else token for token in tokens[3:]), line.rule.id


_NOT_MET, _CANNOT_TELL = Outcome.NOT_MET, Outcome.CANNOT_TELL


def _severity(line: Line) -> Severity:
    """A query is never worse than what it is about: not knowing something that is only advised is advice."""
    if line.answer.outcome is Outcome.CANNOT_TELL:
        return min(Severity.QUERY, line.rule.severity)
    return line.rule.severity
