"""Places in a text as three parties count them: an index of code points, lines and columns of YAML, positions of the
Language Server Protocol."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Mapping
from functools import cached_property
from itertools import accumulate
from typing import Final

from lsprotocol import types

from precover.reading import Range

_YAML_BREAK: Final = re.compile("\r\n|[\r\n\x85\u2028\u2029]")
_EDITOR_BREAK: Final = re.compile("\r\n|[\r\n]")
_OF_YAML_ALONE: Final = ("\x85", "\u2028", "\u2029")

UNITS: Final[Mapping[str, Callable[[str], int]]] = {
    "utf-8": lambda text: len(text.encode("utf-8", "surrogatepass")),
    "utf-16": lambda text: len(text) + sum(mark > "\uffff" for mark in text),
    "utf-32": len,
}
"""How many units a text has, by the encoding that client and server have agreed on."""


class Positions:
    """The places of one text. What lies outside the text is taken as the nearest place in it."""

    def __init__(self, text: str, encoding: str = "utf-16") -> None:
        self.text = text
        self._units = UNITS[encoding]

    def index(self, position: types.Position) -> int:
        """The index that a position of the editor stands for."""
        lines = self._editor_lines
        if position.line >= len(lines):
            return len(self.text)
        start = lines[position.line]
        line = self._line(position.line)
        if line.isascii():
            return start + min(position.character, len(line))
        units = 0
        for at, mark in enumerate(line):
            units += self._units(mark)
            if units > position.character:
                return start + at
        return start + len(line)

    def position(self, index: int) -> types.Position:
        """The position of an index, in the editor's count."""
        index = max(0, min(index, len(self.text)))
        line = bisect_right(self._editor_lines, index) - 1
        ahead = self.text[self._editor_lines[line] : index]
        return types.Position(line, len(ahead) if ahead.isascii() else self._units(ahead))

    def start_of(self, line: int, column: int) -> int:
        """The index of a line and column that the reading floor gives, from 1."""
        lines = self._yaml_lines
        if line > len(lines):
            return len(self.text)
        line, column = max(line, 1), max(column, 1)
        last = lines[line] - 1 if line < len(lines) else len(self.text)
        return min(lines[line - 1] + column - 1, last)

    def span(self, start: int, end: int) -> types.Range:
        """The range between two indexes."""
        return types.Range(self.position(start), self.position(end))

    def range(self, at: Range) -> types.Range:
        """A range of the reading floor, in the editor's count."""
        return self.span(self.start_of(at.line, at.column), self.start_of(at.end_line, at.end_column))

    def line_end(self, line: int) -> types.Position:
        """The end of a line of the editor, before its line break."""
        return self.position(self._editor_lines[line] + len(self._line(line)))

    def _line(self, line: int) -> str:
        lines = self._editor_lines
        end = lines[line + 1] if line + 1 < len(lines) else len(self.text)
        return self.text[lines[line] : end].rstrip("\r\n")

    @cached_property
    def _editor_lines(self) -> list[int]:
        if "\r" in self.text:
            return [0, *(found.end() for found in _EDITOR_BREAK.finditer(self.text))]
        lengths = [len(line) + 1 for line in self.text.split("\n")]
        return [0, *accumulate(lengths[:-1])]

    @cached_property
    def _yaml_lines(self) -> list[int]:
        if not any(mark in self.text for mark in _OF_YAML_ALONE):
            return self._editor_lines
        return [0, *(found.end() for found in _YAML_BREAK.finditer(self.text))]
