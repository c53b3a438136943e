"""The ledger on the field sheet: every check that ran, met ones too, with its numbers and why."""

from __future__ import annotations

from itertools import groupby

from precover.reviewing import Line, Review
from precover.rulebook import Outcome
from precover.showing.sentences import line_number, sentence, stop_of, where, within
from precover.showing.sheet import Sheet

_MARKS = {
    Outcome.MET: "met",
    Outcome.NOT_MET: "NOT MET",
    Outcome.CANNOT_TELL: "NOT TOLD",
    Outcome.DOES_NOT_APPLY: "no concern",
}


def put_ledger(sheet: Sheet, review: Review) -> None:
    """Put the ledger on the sheet, in the order of the walk."""
    sheet.heading("Ledger", f"{len(review.ledger)} checks")
    for stop, lines in groupby(review.ledger, key=lambda line: stop_of(line.place)):
        sheet.gap()
        sheet.text(where(review, stop), style="label")
        for line in lines:
            _put(sheet, review, line)


def _put(sheet: Sheet, review: Review, line: Line) -> None:
    part = within(review, line.subject if line.answer.asks is not None else line.place)
    about = f"{part}: {sentence(line)}" if part else sentence(line)
    sheet.entry(_MARKS[line.answer.outcome], about, indent=2)
    for step, place in line.steps:
        sheet.entry("", f"- {step}" + (f" (line {line_number(review, place)})" if place is not None else ""), indent=2)
    sheet.entry("", line.rule.id, indent=2, style="quiet")
