"""Text of a plan is data: nothing in it reaches a terminal or a file as a command, a line end, a link or markup."""

from __future__ import annotations

import io
import json

import pytest
from barn_rules import PLAN, barn_review
from hypothesis import given
from hypothesis import strategies as st

from precover.reading import Located
from precover.reviewing import Review
from precover.showing.as_json import review_json
from precover.showing.error_lines import problem_lines, review_lines
from precover.showing.people import put_review
from precover.showing.sarif import sarif_log
from precover.showing.sheet import Sheet, columns, wrapped
from precover.showing.visible import visible
from support.proved import unproved

EVIL = "\x1b[31mred\x1b[0m [bold]x[/] \u202egnp.exe \u2066\u200b\r\nbarn.plan.yaml:1.1: danger: forged {0} [here](http://example.org) \x07\x9b"
NAME = "a\x1b]0;b\nc.plan.yaml"


def evil_review() -> Review:
    """A barn whose title and file name are hostile."""
    text = PLAN.read_text(encoding="utf-8").replace("Light and outlets for a barn", json.dumps(EVIL))
    return barn_review(text, failures=((EVIL, EVIL),), name=NAME)


def sheet_text() -> str:
    """The hostile barn's sheet."""
    sheet = Sheet()
    put_review(sheet, evil_review(), ledger=True)
    return sheet.plain()


@pytest.mark.parametrize(
    "text",
    [
        sheet_text(),
        "\n".join(review_lines(evil_review(), ledger=True)),
        review_json(unproved(evil_review()), [], ledger=True),
        sarif_log(unproved(evil_review()), [(Located(NAME, 1, 1, EVIL, EVIL),)], ledger=True),
        "\n".join(problem_lines([Located(NAME, 1, 1, EVIL, EVIL)])),
    ],
    ids=["people", "lines", "json", "sarif", "problems"],
)
def test_no_form_writes_what_does_not_print(text: str) -> None:
    """Only line ends of our own, and characters that print."""
    assert text.replace("\n", "").isprintable()


def test_the_sheet_shows_it_written_out() -> None:
    """Hostile text stays readable, and its markup stays text."""
    sheet = " ".join(sheet_text().split())
    assert r"\x1b[31mred\x1b[0m [bold]x[/] \u202egnp.exe" in sheet
    assert r"a\x1b]0;b\x0ac.plan.yaml" in sheet


def test_no_line_can_be_forged() -> None:
    """Every line of the lines form starts with the file's name, with its line end written out."""
    lines = "\n".join(review_lines(evil_review())).split("\n")
    assert lines and all(line.startswith(r"a\x1b]0;b\x0ac.plan.yaml:") for line in lines)


def test_json_keeps_the_text_as_it_is() -> None:
    """A program gets the plan's text back unchanged."""
    record = json.loads(review_json(unproved(evil_review()), []))["reviews"][0]
    assert record["title"] == EVIL
    assert record["file"] == NAME


def test_sarif_messages_have_no_placeholder_and_no_link() -> None:
    """Braces and links of a text would mean something to a viewer."""
    log = json.loads(sarif_log(unproved(evil_review()), [(Located("x", 1, 1, EVIL, EVIL),)]))
    notes = log["runs"][0]["invocations"][0]
    for note in notes["toolExecutionNotifications"] + notes["toolConfigurationNotifications"]:
        text = note["message"]["text"]
        assert "](" not in text
        assert "{" not in text.replace("{{", "")


def test_rich_takes_no_markup_from_a_sheet(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a terminal too, brackets of a plan are brackets."""
    from rich.console import Console

    from precover.showing import ink

    written = io.StringIO()
    monkeypatch.setattr(ink, "Console", lambda **how: Console(file=written, force_terminal=True, width=80, **how))
    sheet = Sheet()
    put_review(sheet, evil_review())
    ink.inked(sheet)
    shown = written.getvalue()
    assert "[bold]x[/]" in shown
    assert "\x1b[31m" not in shown and "\x1b]0;" not in shown


@given(st.text())
def test_visible_text_prints(text: str) -> None:
    """Whatever the text, what is shown of it prints on one line; text that prints is not touched."""
    shown = visible(text)
    assert shown.isprintable()
    assert (shown == text) == text.isprintable()


@given(st.text(), st.integers(8, 90))
def test_wrapping_loses_nothing(text: str, width: int) -> None:
    """All words come through, in lines no wider than asked."""
    shown = visible(text)
    lines = wrapped(shown, width)
    assert "".join("".join(lines).split()) == "".join(shown.split())
    assert all(columns(line) <= width for line in lines)
