"""Positions: the same place in an editor's count, in YAML's, and in code points."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lsprotocol import types
from pygls.workspace import PositionCodec

from precover.editor.moving import Moved
from precover.editor.positions import Positions
from precover.reading import Source, parse

MARKS = st.text(st.sampled_from("ab é°½\U0001f4a1\U00010348\n\r\x85\u2028"), max_size=60)
ENCODINGS = ("utf-8", "utf-16", "utf-32")


@settings(max_examples=200, deadline=None, derandomize=True, database=None)
@given(MARKS, st.sampled_from(ENCODINGS))
def test_there_and_back(text: str, encoding: str) -> None:
    """Every index that is not inside a line break has a position, and that position this index."""
    positions = Positions(text, encoding)
    for index in range(len(text) + 1):
        if text[index - 1 : index + 1] != "\r\n" and text[index : index + 1] not in "\r\n":
            assert positions.index(positions.position(index)) == index


@settings(max_examples=200, deadline=None, derandomize=True, database=None)
@given(st.text(st.sampled_from("ab é°½\U0001f4a1\n"), max_size=60), st.sampled_from(ENCODINGS))
def test_as_pygls_counts(text: str, encoding: str) -> None:
    """Where lines end in `\\n` alone, as the codec of pygls counts them."""
    positions, codec = Positions(text, encoding), PositionCodec(types.PositionEncodingKind(encoding))
    lines = text.splitlines(keepends=True)
    for index in range(len(text)):
        at = positions.position(index)
        theirs = codec.position_from_client_units(lines, at)
        assert sum(map(len, lines[: theirs.line])) + theirs.character == index


@pytest.mark.parametrize("mark", ["\x85", "\u2028", "\u2029"])
def test_line_breaks_that_only_yaml_knows(mark: str) -> None:
    """A value after one stands in another line for YAML, and in the same for the editor."""
    text = f'a: "\U0001f4a1{mark}  b"\nc: here\n'
    at = parse(Source("plan", text)).range("/c")
    assert at.line == 3
    found = Positions(text).range(at)
    assert (found.start.line, found.start.character) == (1, 3)
    assert Positions(text).index(found.start) == text.index("here")


def test_units_of_a_mark_beyond_the_basic_plane() -> None:
    """A lamp is four, two or one."""
    text = "k: \U0001f4a1x"
    for encoding, column in zip(ENCODINGS, (7, 5, 4), strict=True):
        assert Positions(text, encoding).position(4) == types.Position(0, column)
    assert Positions(text).index(types.Position(0, 4)) == 3  # inside the lamp: before it


def test_outside_the_text() -> None:
    """The nearest place in it."""
    positions = Positions("ab\ncd")
    assert positions.index(types.Position(0, 99)) == 2
    assert positions.index(types.Position(99, 0)) == 5
    assert positions.position(99) == types.Position(1, 2)
    assert positions.start_of(99, 1) == 5 and positions.start_of(0, 0) == 0 and positions.start_of(1, 99) == 2


def test_lines_followed_into_the_next_version() -> None:
    """Before an edit as they were, behind it with their text, inside it nearby."""
    moved = Moved("a\nb\nc\nd\n", "a\nnew\nnewer\nc\nd\n")
    assert [moved.line(number) for number in range(4)] == [0, 1, 3, 4]
    gone = Moved("a\nb\nc\nd\n", "a\nd\n")
    assert [gone.line(number) for number in range(4)] == [0, 1, 1, 1]
    assert Moved("a\nb\n", "").line(1) == 0
