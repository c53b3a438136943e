"""Reads the next version of a text: what an edit leaves as it was is not parsed again.

A text is cut where its layout shows it to be safe: before every key at the margin, and below such a key before every
entry. Each piece must be a whole YAML document of its own; where one is not (a quote or a bracket left open, a tag, a
reference, an entry that is there twice), the text is parsed as a whole, which also words what is wrong with it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, NamedTuple

import yaml

from precover.plan.thing import tokens_of
from precover.reading.document import Document, Range, range_in
from precover.reading.errors import PlanUnreadable
from precover.reading.parse import parse
from precover.reading.source import Source

_KEY = re.compile(r"([A-Za-z][\w-]*):(?=\s|$)")
_ALONE = re.compile(r"\s*(?:#.*)?$")
_ENTRY = re.compile(r"( +)([A-Za-z][\w.-]*):(?=\s|$)")
_OTHER_BREAKS = ("\x85", "\u2028", "\u2029")


class Piece(NamedTuple):
    """A stretch of whole lines: an entry of a section, or (without `name`) a key at the margin with all below it."""

    section: str
    name: str
    line: int
    """Number of its first line, from 0."""
    text: str


class Pieces:
    """The pieces of the last version of one text, each with its document."""

    def __init__(self) -> None:
        self._known: dict[str, Document] = {}

    def read(self, source: Source) -> Document:
        """The document of the next version; PlanUnreadable as for `parse`."""
        pieces = pieces_of(source.text)
        if pieces is not None:
            try:
                return self._joined(source, pieces)
            except PlanUnreadable:
                pass  # told below, by the place each problem has in the whole text
        return parse(source)

    def _joined(self, source: Source, pieces: list[Piece]) -> Document:
        known: dict[str, Document] = {}
        for piece in pieces:
            if piece.text not in known:
                known[piece.text] = self._known.get(piece.text) or parse(Source(source.name, piece.text))
        data: dict[str, Any] = {}
        placed: dict[tuple[str, str], tuple[Document, int]] = {}
        for piece in pieces:
            document = known[piece.text]
            into = data.setdefault(piece.section, {}) if piece.name else data
            own = piece.name or piece.section
            if own in into or document.data.keys() != {own}:
                raise PlanUnreadable([])
            into[own] = document.data[own]
            placed[piece.section, piece.name] = document, piece.line
        self._known = known
        return _Joined(source, data, placed)


class _Joined(Document):
    """A document put together from pieces; its whole tree is made only for who asks for it."""

    __slots__ = ("_placed", "_whole")

    def __init__(
        self, source: Source, data: dict[str, Any], placed: dict[tuple[str, str], tuple[Document, int]]
    ) -> None:
        self.source = source
        self.data = data
        self._placed = placed
        self._whole: Document | None = None

    @property
    def root(self) -> yaml.Node:  # type: ignore[override]
        """The tree of the whole text."""
        return self._parsed().root

    def range(self, pointer: str, *, key: bool = False) -> Range:
        tokens = tokens_of(pointer)
        found = self._placed.get((tokens[0], tokens[1])) if len(tokens) > 1 else None
        if found is not None:
            del tokens[0]
        elif tokens:
            found = self._placed.get((tokens[0], ""))
        if found is None:
            return self._parsed().range(pointer, key=key)
        document, line = found
        at = range_in(document.root, tokens, key=key)
        return Range(at.line + line, at.column, at.end_line + line, at.end_column)

    def _parsed(self) -> Document:
        if self._whole is None:
            self._whole = parse(self.source)
        return self._whole


def pieces_of(text: str) -> list[Piece] | None:
    """Where a text can be cut; None where its layout does not show it."""
    if any(mark in text for mark in _OTHER_BREAKS) or text.count("\r") != text.count("\r\n"):
        return None
    lines = [f"{line}\n" for line in text.split("\n")]
    lines[-1] = lines[-1][:-1]
    margins = [number for number, line in enumerate(lines) if line and line[0] not in " \t#\r\n"]
    if not margins or not all(_ALONE.match(line) for line in lines[: margins[0]]):
        return None
    keys = [key for number in margins if (key := _KEY.match(lines[number])) is not None]
    if len({key[1] for key in keys}) < len(margins):
        return None
    return [
        piece
        for key, start, end in zip(keys, margins, [*margins[1:], len(lines)], strict=True)
        for piece in _section(key, lines, start, end)
    ]


def _section(key: re.Match[str], lines: list[str], start: int, end: int) -> Iterator[Piece]:
    name = key[1]
    starts = _entries(lines, start, end) if _ALONE.match(lines[start], key.end()) else []
    if not starts:
        yield Piece(name, "", start, "".join(lines[start:end]))
        return
    for (first, own), (last, _) in zip(starts, [*starts[1:], (end, "")], strict=True):
        yield Piece(name, own, first, "".join(lines[first:last]))


def _entries(lines: list[str], start: int, end: int) -> list[tuple[int, str]]:
    """Where the entries of a section begin, and their names; none where it is anything else than entries."""
    found: list[tuple[int, str]] = []
    indent, deeper = "", "\0"
    for number in range(start + 1, end):
        line = lines[number]
        if line.startswith(deeper):
            continue
        bare = line.strip()
        if not bare or bare[0] == "#":
            continue
        entry = _ENTRY.match(line)
        if entry is None or (indent and entry[1] != indent):
            return []
        indent, deeper = entry[1], f"{entry[1]} "
        found.append((number, entry[2]))
    return found
