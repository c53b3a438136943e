"""Ways out as code actions: proved on the plan as it is, and written as one edit in one place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from lsprotocol import types

from precover.amending.prover import way_out
from precover.amending.rewriting import Unwritable, changed_stretch, rewritten
from precover.amending.way import Mark, Way, mark
from precover.editor.diagnostics import Marked, of_review
from precover.editor.texts import Reviewed, Stale
from precover.showing.sentences import EFFORTS
from precover.showing.visible import visible


class Action(NamedTuple):
    """A way out: what it does, the edit, and the diagnostics that it resolves."""

    words: str
    edit: types.TextEdit
    resolves: tuple[types.Diagnostic, ...]


def actions(made: Reviewed, uri: str, within: types.Range, wanted: Callable[[], bool]) -> list[Action]:
    """The proved ways out of the findings in a range that are a plain edit in one place, each edit once; Stale as soon as
    nobody wants them any more."""
    marked = of_review(made, uri)
    found: dict[tuple[int, int, int, int, str], Action] = {}
    for one in marked:
        if not _meet(one.diagnostic.range, within):
            continue
        for way in _ways(made, one, wanted):
            edit = one_edit(made, way)
            if edit is not None:
                at = edit.range
                key = (at.start.line, at.start.character, at.end.line, at.end.character, edit.new_text)
                words = f"{way.words[:1].upper()}{way.words[1:]} ({EFFORTS[way.effort]})"
                found.setdefault(key, Action(visible(words), edit, _resolved(made, way, marked)))
    return list(found.values())


def one_edit(made: Reviewed, way: Way) -> types.TextEdit | None:
    """A way out as one edit of the text; None where it changes several places, or cannot be written in place."""
    if len(way.proposals) > 1:
        return None
    before = made.positions.text
    try:
        after = rewritten(made.opened.document, way.patch)
    except Unwritable:
        return None
    start, end, inserted = changed_stretch(before, after)
    if "\n" in before[start:end]:
        return None
    if start < end:  # whole words, as a person would change them
        ahead, behind = _in_word(before, start, -1), _in_word(before, end, 1)
        inserted = f"{before[ahead:start]}{inserted}{before[end:behind]}"
        start, end = ahead, behind
    return types.TextEdit(made.positions.span(start, end), inserted)


def _ways(made: Reviewed, one: Marked, wanted: Callable[[], bool]) -> Iterator[Way]:
    for finding in made.review.findings:
        key = mark(finding)
        if key not in one.marks:
            continue
        if key not in made.ways:
            if not wanted():
                raise Stale
            made.ways[key] = way_out(finding, made.prover)
        way = made.ways[key]
        if way is not None:
            yield way


def _resolved(made: Reviewed, way: Way, marked: list[Marked]) -> tuple[types.Diagnostic, ...]:
    after = made.prover.after(way.patch)
    left: set[Mark] = {mark(finding) for finding in after.wanting} if after is not None else set()
    return tuple(one.diagnostic for one in marked if one.marks and not one.marks & left)


def _in_word(text: str, index: int, step: int) -> int:
    """The end of the word that an index is in, in one direction."""
    while 0 <= (at := min(index, index + step)) < len(text) and (text[at].isalnum() or text[at] in "-._"):
        index += step
    return index


def _meet(one: types.Range, other: types.Range) -> bool:
    return one.start <= other.end and other.start <= one.end
