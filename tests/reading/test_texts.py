"""Texts that are not YAML, or not the part of it that plans are written in: one problem each, at its place."""

from __future__ import annotations

import gc
from contextlib import suppress
from typing import Any

import pytest

from precover.reading import PlanUnreadable, Source, decode, parse
from support.refusals import STUDIO, at, refusal, refusals
from support.reviews import data_of

REFUSED: dict[str, tuple[str | bytes, tuple[int, int], str, str]] = {
    # Bytes
    "Latin-1": (b"title: caf\xe9\n", (1, 11), "byte 0xE9 is not UTF-8", "UTF-8"),
    "Latin-1 after a BOM": (b"\xef\xbb\xbftitle: caf\xe9\n", (1, 11), "byte 0xE9", "UTF-8"),
    "Latin-1 after CR": (b"title: x\rtitle: caf\xe9\r", (2, 11), "byte 0xE9", "UTF-8"),
    "a surrogate": (b"title: \xed\xa0\x80\n", (1, 8), "byte 0xED", "UTF-8"),
    "cut within a character": ("title: °".encode()[:-1], (1, 8), "byte 0xC2", "UTF-8"),
    "UTF-16 with a mark": ("title: x\n".encode("utf-16"), (1, 1), "UTF-16", "save it as UTF-8"),
    "UTF-16 big end first": ("title: x\n".encode("utf-16-be"), (1, 1), "UTF-16", "save it as UTF-8"),
    "UTF-16 little end first": ("title: x\n".encode("utf-16-le"), (1, 1), "UTF-16", "save it as UTF-8"),
    "UTF-32": ("title: x\n".encode("utf-32"), (1, 1), "UTF-32", "save it as UTF-8"),
    # Characters that are no text
    "NUL": ('a: "x\0y"\n', (1, 6), "U+0000", "plain text"),
    "escape": ("a: 1\nb: x\x1b[31m\n", (2, 5), "U+001B", "plain text"),
    "delete": ("a: \x7f\n", (1, 4), "U+007F", "plain text"),
    "C1 control": ("a: \x9b31m\n", (1, 4), "U+009B", "plain text"),
    "BOM in the middle": ("a: 1\n\ufeffb: 2\n", (2, 2), "not YAML", "indentation"),
    # Syntax
    "tab": ("site:\n\tfrost: true\n", (2, 1), "line 2 is indented with a tab", "spaces"),
    "at sign": ("title: @home\n", (1, 8), "cannot start", "quotes"),
    "colon in a value": ("title: a: b\n", (1, 9), "cannot stand here", "quotes"),
    "indentation": (
        "site:\n  frost: true\n premises: x\n",
        (3, 2),
        "line 3 is indented by 1 space",
        "by 2 spaces like line 2, or not at all like line 1",
    ),
    "open bracket": ("title: x\nrules: [a, b\nsite: {}\n", (3, 5), "begins in line 2", "close every"),
    "open quote": ('title: "x\nsite: {}\n', (1, 8), "ends within quotes", "opened here"),
    "unknown escape": ('title: "a\\q"\n', (1, 10), "does not exist", "single quotes"),
    "key without colon": ("title: x\nsite\nrules: []\n", (3, 1), "without its `:`", "key: value"),
    "two values": ('"a" "b"\n', (1, 5), "more text", "one plan"),
    # What plans do not use
    "two documents": ("title: x\n---\ntitle: y\n", (2, 1), "second document", "one plan"),
    "text after the end": ("title: x\n...\ntitle: y\n", (3, 1), "more text", "one plan"),
    "YAML of the future": ("%YAML 9.9\n---\ntitle: x\n", (1, 1), "version of YAML", "%YAML"),
    "unknown directive": ("%FLAVOUR sweet\n---\ntitle: x\n", (1, 9), "directive", "%"),
    "tag !!str": ("title: !!str 1\n", (1, 8), "tag", "plain value"),
    "tag of a Python object": ("a: !!python/object/apply:os.system [x]\n", (1, 4), "python/object", "plain value"),
    "local tag": ("title: !mine x\n", (1, 8), "`!mine`", "plain value"),
    "long tag": (f"title: !{'x' * 1000} y\n", (1, 8), "...`", "plain value"),
    "tag that is a type's name, on text": ("a: !<int> x\n", (1, 4), "`int`", "plain value"),
    "tag that is a type's name, on a list": ("a: !<str> [x]\n", (1, 4), "`str`", "plain value"),
    "tag that is a type's name, on a key": ("!<str> a: x\n", (1, 1), "plain word", "named key"),
    "tag on a key": ("!!str title: x\n", (1, 1), "plain word", "named key"),
    "reference to a mapping": ("a: &x {b: 1}\nc: *x\n", (2, 4), "`*x`", "write the value out"),
    "reference to a word": ("a: &x y\nb: *x\n", (2, 4), "`*x`", "write the value out"),
    "reference to a key": ("&x a: *x\n", (1, 7), "`*x`", "write the value out"),
    "reference to nothing": ("a: *x\n", (1, 4), "refers to nothing", "write the value out"),
    "reference to itself": ("a: &x [*x]\n", (1, 8), "`*x`", "write the value out"),
    "the same anchor twice": ("a: &x 1\nb: &x 2\n", (2, 4), "`&` anchor is there already", "remove it"),
    "merge key": ("<<: {a: 1}\n", (1, 1), "`<<`", "write the keys out"),
    "list as a key": ("? [a, b]\n: 1\n", (1, 3), "plain word", "named key"),
    "mapping as a key": ("{a: 1}: 2\n", (1, 1), "plain word", "named key"),
    "same key twice": ("title: x\nrules: []\ntitle: y\n", (3, 1), "first in line 1", "keep one"),
    "same number as a key twice": ('1: x\n"1": y\n', (2, 1), "first in line 1", "keep one"),
    "same key twice, with CRLF": ("title: x\r\ntitle: y\r\n", (2, 1), "first in line 1", "keep one"),
    "same key twice, with CR": ("title: x\rtitle: y\r", (2, 1), "first in line 1", "keep one"),
    "same key twice, after a line separator": ("title: x\u2028a: 1\ntitle: y\n", (3, 1), "first in line 1", "keep one"),
    "not a number": ("a: .nan\n", (1, 4), "`.nan`", "write the value"),
    "infinity": ("a: -.INF\n", (1, 4), "`-.INF`", "write the value"),
    "a number too large": ("a: 1e999\n", (1, 4), "`1e999`", "write the value"),
    "a very long number": (f"a: {'9' * 10_000}\n", (1, 4), "10,000 digits", "check"),
    "a very long fraction": (f"a: 0.{'3' * 10_000}\n", (1, 4), "10,002 digits", "check"),
    # Nothing there
    "no byte": ("", (1, 1), "empty", "format: precover-plan/1"),
    "only a BOM": (b"\xef\xbb\xbf", (1, 1), "empty", "format: precover-plan/1"),
    "only space": ("  \n\n", (1, 1), "empty", "format: precover-plan/1"),
    "only comments": ("# to do\n# all of it\n", (1, 1), "empty", "format: precover-plan/1"),
    "only a start": ("---\n", (1, 1), "empty", "format: precover-plan/1"),
    "null": ("null\n", (1, 1), "empty", "format: precover-plan/1"),
    "a list": ("- a\n- b\n", (1, 1), "not a list", "format: precover-plan/1"),
    "a word": ("hello\n", (1, 1), "not text", "format: precover-plan/1"),
    "a number": ("42\n", (1, 1), "not `42`", "format: precover-plan/1"),
}


@pytest.mark.parametrize(("text", "place", "message", "hint"), REFUSED.values(), ids=REFUSED)
def test_one_problem_is_told_at_its_place(text: str | bytes, place: tuple[int, int], message: str, hint: str) -> None:
    """File, line, column, what is wrong, and what to do."""
    problem = refusal(text)
    assert at(problem) == place
    assert message in problem.message
    assert hint in problem.hint


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "BOM"])
def test_line_ends_and_a_byte_order_mark_change_nothing(newline: str, mark: bytes) -> None:
    """A plan written on any system is the same plan, and its mistakes stand in the same lines."""
    assert refusals(mark + STUDIO.replace("\n", newline).encode()) == ()
    wrong = STUDIO.replace("cover: 18 in", "cover: deep")
    assert refusals(mark + wrong.replace("\n", newline).encode()) == refusals(wrong)


def test_unused_anchors_and_a_version_are_let_pass() -> None:
    """They change nothing in what the text says."""
    assert refusals("%YAML 1.2\n---\n" + STUDIO.replace("site:", "site: &here", 1) + "...\n") == ()


PLAIN: dict[str, Any] = {
    "on": "on",
    "yes": "yes",
    "No": "No",
    "off": "off",
    "y": "y",
    "1:30": "1:30",
    "190:20:30": "190:20:30",
    "2024-01-31": "2024-01-31",
    "1_000": "1_000",
    "0b101": "0b101",
    "010": 10,
    "0o17": 15,
    "0x1F": 31,
    "+12": 12,
    "-3": -3,
    "1e3": 1000.0,
    ".5": 0.5,
    "true": True,
    "False": False,
    "tRUE": "tRUE",
    "~": None,
    "Null": None,
    "nULL": "nULL",
    '"true"': "true",
    "'12'": "12",
    '"\\e[31m"': "\x1b[31m",
    '"\\x41\\u00b0"': "A°",
    "=": "=",
    ".": ".",
    "-": None,
}


@pytest.mark.parametrize("written", PLAIN)
def test_a_plain_value_means_what_yaml_1_2_says(written: str) -> None:
    """Core schema, section 10.3.2: words of YAML 1.1 (yes, on, base 60, dates) are text."""
    meant = [None] if written == "-" else PLAIN[written]
    value = data_of(f"a: {written}\n" if written != "-" else "a:\n  -\n")["a"]
    assert value == meant
    assert type(value) is type(meant)


@pytest.mark.parametrize(("text", "told"), [("a: 1\na: 2\na: 3\n", 2), ("a: !x 1\nb: !y 2\nc: .inf\n", 3)])
def test_every_problem_of_a_text_is_told_in_its_order(text: str, told: int) -> None:
    """Not only the first."""
    problems = refusals(text)
    assert len(problems) == told
    assert [problem.line for problem in problems] == sorted(problem.line for problem in problems)


def test_many_problems_are_cut_and_the_cut_is_told() -> None:
    """Fifty, and a word that there are more."""
    problems = refusals("a: 1\n" * 1000)
    assert len(problems) == 51
    assert "more problems than the 50" in problems[-1].message
    assert [problem.line for problem in problems[:50]] == list(range(2, 52))


def test_a_document_that_is_refused_leaves_the_collector_as_it_was() -> None:
    """Garbage collection is held only while the tree grows."""
    for text in ("a: 1\n", "a: [\n", "a: \x1b\n", ""):
        with suppress(PlanUnreadable):
            parse(Source("x", text))
        assert gc.isenabled()


def test_a_large_file_is_refused_before_it_is_decoded() -> None:
    """The size is told, without a place."""
    with pytest.raises(PlanUnreadable) as refused:
        decode("big", b"\xff" * 10_000_000)
    (problem,) = refused.value.problems
    assert (problem.line, problem.column) == (0, 0)
    assert "10,000,000 bytes" in problem.message
