"""Code actions: what they say they resolve is gone when they are taken, and nothing as bad has come."""

from __future__ import annotations

import pytest
from lsprotocol import types

from precover.amending.prover import ways_out
from precover.amending.way import mark
from precover.editor.actions import actions
from precover.editor.diagnostics import diagnostics
from precover.editor.texts import OpenText, Reviewed, Stale
from precover.reviewing import open_plan, review
from precover.rulebook import Severity
from support.open_texts import at, opened, text_of
from support.reviews import EXAMPLES, library

WHOLE = types.Range(types.Position(0, 0), types.Position(9999, 0))
NAMES = [path.name.partition(".")[0] for path in sorted(EXAMPLES.glob("*-uncorrected.plan.yaml"))]


def reviewed(text: OpenText) -> Reviewed:
    """The review of a text that can be reviewed."""
    assert text.now is not None
    return text.now


def taken(text: OpenText, edit: types.TextEdit) -> str:
    """The text with an edit."""
    start, end = text.positions.index(edit.range.start), text.positions.index(edit.range.end)
    return text.text[:start] + edit.new_text + text.text[end:]


@pytest.mark.parametrize("name", NAMES)
def test_every_action_keeps_its_word(name: str) -> None:
    """On each bundled plan that fails, with wide marks in its text."""
    text = opened(text_of(name).replace("title: ", "title: \U0001f4a1 ", 1))
    found = actions(reviewed(text), text.uri, WHOLE, lambda: True)
    assert found
    before = {(one.code, one.message) for one in diagnostics(text)}
    for action in found:
        after = opened(taken(text, action.edit))
        left = {(one.code, one.message) for one in diagnostics(after)}
        assert action.resolves and not {(one.code, one.message) for one in action.resolves} & left, action.words
        came = [one for one in diagnostics(after) if (one.code, one.message) not in before]
        assert not [one for one in came if one.message.startswith(Severity.DANGER.word)], action.words
        assert (
            "\n"
            not in text.text[
                text.positions.index(action.edit.range.start) : text.positions.index(action.edit.range.end)
            ]
        )


def test_every_plain_way_out_is_offered() -> None:
    """Each proved way of a single edit stands among the actions, or cannot be written in place."""
    raw = text_of(NAMES[0]).encode()
    plan = open_plan("plan", raw)
    made = review(plan, library())
    single = {way.words.lower() for way in ways_out(made, plan).values() if len(way.proposals) == 1}
    text = opened(raw.decode())
    offered = {
        action.words.rpartition(" (")[0].lower() for action in actions(reviewed(text), text.uri, WHOLE, lambda: True)
    }
    assert offered <= single and len(offered) >= len(single) - 2


def test_only_where_the_cursor_is() -> None:
    """And whole words are replaced."""
    text = opened(text_of("pottery-studio-uncorrected"))
    here = at(text, "weather-resistant: false", 22)
    (action,) = actions(reviewed(text), text.uri, types.Range(here, here), lambda: True)
    assert action.edit.new_text == "true" and action.words == "Use a weather-resistant receptacle (another part)"
    nowhere = types.Position(0, 0)
    assert actions(reviewed(text), text.uri, types.Range(nowhere, nowhere), lambda: True) == []


def test_each_finding_is_tried_once() -> None:
    """However often an editor asks, as long as the text stays."""
    text = opened(text_of("pottery-studio-uncorrected"))
    made = reviewed(text)
    actions(made, text.uri, WHOLE, lambda: True)
    tried = made.prover.reviews
    actions(made, text.uri, WHOLE, lambda: True)
    assert made.prover.reviews == tried and set(made.ways) == {mark(finding) for finding in made.review.findings}


def test_stopped_when_nobody_waits_any_more() -> None:
    """Before the next finding is tried."""
    text = opened(text_of("pottery-studio-uncorrected"))
    answers = iter([True, False])
    with pytest.raises(Stale):
        actions(reviewed(text), text.uri, WHOLE, lambda: next(answers))
    assert len(reviewed(text).ways) == 1
