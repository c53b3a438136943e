"""Numbers beside the line: what a rule worked out, in the few topics whose number a person keeps in mind."""

from __future__ import annotations

from typing import Final

from lsprotocol import types

from precover.editor.diagnostics import range_of
from precover.editor.texts import OpenText
from precover.reviewing import Line
from precover.rulebook import Outcome
from precover.showing.sentences import needed, sentence
from precover.showing.visible import visible

HINTED: Final = {
    "burial/minimum-cover": "cover",
    "raceway/fill": "fill",
    "voltage-drop/at-the-outlets": "drop",
    "boxes/fill": "box fill",
}
"""Topics that give hints, with the word for their number."""


def hints(text: OpenText, within: types.Range) -> list[types.InlayHint]:
    """The hints in a range, at the ends of their lines; none while the text cannot be reviewed."""
    made = text.now
    if made is None:
        return []
    found: dict[tuple[int, str], types.InlayHint] = {}
    for line in made.review.ledger:
        if line.rule.topic in HINTED and line.answer.outcome in (Outcome.MET, Outcome.NOT_MET):
            at = range_of(made.review, line.place, made.positions).end.line
            if within.start.line <= at <= within.end.line:
                label = f"{HINTED[line.rule.topic]}: {_numbers(line)}"
                found[at, label] = types.InlayHint(
                    position=made.positions.line_end(at),
                    label=visible(label),
                    tooltip=visible(f"{sentence(line)} ({line.answer.outcome.value}, {line.rule.topic})"),
                    padding_left=True,
                )
    return list(found.values())


def _numbers(line: Line) -> str:
    """Both numbers that were compared."""
    return f"{line.answer.has}, {needed(line)}" if str(line.answer.needs) else str(line.answer.has)
