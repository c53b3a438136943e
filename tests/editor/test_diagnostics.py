"""Diagnostics: what the review found, at its places, in every state of the text."""

from __future__ import annotations

from pathlib import Path

from lsprotocol import types
from pygls import uris

from precover.editor.diagnostics import diagnostics
from precover.editor.texts import OpenText, Stale, name_of
from support.open_texts import FAILING, at, look, opened, text_of
from support.reviews import library, reviewed_example

PLAN = text_of(FAILING)
ERROR, WARNING = types.DiagnosticSeverity.Error, types.DiagnosticSeverity.Warning


def one(text: OpenText, topic: str) -> types.Diagnostic:
    """The first diagnostic of a topic."""
    return next(found for found in diagnostics(text) if found.code == topic)


def marked(text: OpenText, found: types.Diagnostic) -> str:
    """The text that a diagnostic underlines."""
    return text.text[text.positions.index(found.range.start) : text.positions.index(found.range.end)]


def test_one_for_every_finding() -> None:
    """As many as the review has, with severity, topic, derivation and its places, and a document that is there."""
    text = opened(PLAN)
    found = diagnostics(text)
    assert len(found) == len(reviewed_example(FAILING).findings)
    cover = one(text, "burial/minimum-cover")
    assert marked(text, cover) == "10 in" and cover.severity == ERROR and cover.source == "precover"
    assert "cover: 10 in; needed: at least 18 in" in cover.message and "set by us-2023" in cover.message
    assert cover.related_information and cover.related_information[0].location.range.start.line > 0
    assert cover.code_description is not None
    path = uris.to_fs_path(cover.code_description.href)
    assert path is not None and Path(path).read_text(encoding="utf-8").startswith("# ")


def test_things_are_marked_by_their_names() -> None:
    """Not over all their lines."""
    text = opened(PLAN)
    assert marked(text, one(text, "burial/sealing")) == "yard"
    assert all(found.range.start.line == found.range.end.line for found in diagnostics(text))


def test_what_is_not_stated_is_asked_for_once() -> None:
    """As a warning where it would stand, with how to state it."""
    text = opened(text_of("orchard-pump-uncorrected"))
    asked = [found for found in diagnostics(text) if "is not stated" in found.message]
    assert len(asked) == 2 and {found.severity for found in asked} == {WARNING}
    assert any("state it as weather-resistant: true or false" in found.message for found in asked)


def test_while_the_text_cannot_be_read() -> None:
    """The reason, at its place, and what was found before, moved with its lines."""
    text = opened(PLAN)
    before = one(text, "burial/minimum-cover").range.start.line
    text.take(PLAN.replace("title:", "new: 1\n\ntitle:", 1), 2)
    look(text)
    found = diagnostics(text)
    (problem,) = [one for one in found if one.code is None]
    assert "`new` is not a key known here" in problem.message and marked(text, problem) == "new:"
    assert problem.severity == ERROR
    assert one(text, "burial/minimum-cover").range.start.line == before + 2
    assert marked(text, one(text, "burial/minimum-cover")) == "10 in"
    text.take(PLAN, 3)
    look(text)
    assert len(diagnostics(text)) == len(found) - 1


def test_a_pack_that_is_not_there() -> None:
    """Said at the place that names it."""
    text = opened(PLAN.replace("[us-2023]", "[nowhere]"))
    (problem,) = diagnostics(text)
    assert "no rule pack `nowhere`" in problem.message and problem.range.start.line == at(text, "rules").line


def test_settled_plans_are_silent() -> None:
    """The twin that was put right."""
    assert diagnostics(opened(text_of("pottery-studio"))) == []


def test_work_on_an_old_version_is_dropped() -> None:
    """As soon as nobody wants it."""
    text = opened(PLAN)
    text.take(PLAN.replace("cover: 10 in", "cover: 24 in"), 2)
    for turns in (0, 1, 2):
        answers = iter([True] * turns + [False])
        try:
            text.examined(library(), (), lambda answers=answers: next(answers))  # type: ignore[misc]
        except Stale:
            continue
        raise AssertionError(turns)
    assert text.now is None and text.last is not None


def test_non_ascii_text_ahead() -> None:
    """A lamp in the same line takes two units."""
    leg = "{buried: lawn, length: 46 ft, cover: 10 in}"
    plan = PLAN.replace(leg, leg.replace("lawn", '"lawn"')).replace("title: One", "title: \U0001f4a1\U0001f4a1 One")
    text = opened(plan.replace("terrace-outlet:\n", "terrace-outlet: # \U0001f4a1\n"))
    assert marked(text, one(text, "burial/minimum-cover")) == "10 in"


def test_names_of_documents() -> None:
    """Files below by their way from here, others by their whole path, what is no file by its address."""
    assert name_of("untitled:Untitled-1") == "untitled:Untitled-1"
    assert name_of("file:///nowhere/a%20b.plan.yaml") == "/nowhere/a b.plan.yaml"
