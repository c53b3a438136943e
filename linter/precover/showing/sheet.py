"""The layout of the people's form: lines of at most a given width, each made of stretches with a named style.

Everything that is put on a sheet is made `visible` here, so no text of a plan can get past it.
"""

from __future__ import annotations

from typing import Final

from precover.showing.visible import visible

Style = str
"""`heading`, `label`, `word` (a severity), `worst`, `strong`, `quiet` or nothing."""
Stretch = tuple[str, Style]

LABEL: Final = 12
"""Columns of the label column, with the space after it."""
INDENT: Final = 4
"""Columns ahead of the labels of an item."""


class Sheet:
    """Lines of text, in the order they are read."""

    def __init__(self, width: int = 80, ruled_with: str = "-") -> None:
        self.width = width
        self.ruled_with = ruled_with
        self.lines: list[list[Stretch]] = []

    def gap(self) -> None:
        """An empty line, unless there is one already."""
        if self.lines and self.lines[-1]:
            self.lines.append([])

    def heading(self, text: str, right: str = "") -> None:
        """A heading with a rule drawn to the right edge, where a short note may stand."""
        self.gap()
        text, right = visible(text), visible(right)
        note = f" {right}" if right else ""
        first, *rest = wrapped(text, self.width - columns(note) - 4)
        drawn = self.width - columns(first) - columns(note) - 1
        self.lines.append([(first, "heading"), (" " + self.ruled_with * drawn, "quiet"), (note, "quiet")])
        self.lines += [[(line, "heading")] for line in rest]

    def item(self, mark: str, word: str, text: str, right: str = "") -> None:
        """The first line of an item: its mark, its severity, what it is about, and a note at the right edge."""
        style = "worst" if word == "DANGER" else "word"
        room = self.width - INDENT - LABEL - (columns(right) + 2 if right else 0)
        first, *rest = wrapped(visible(text), room)
        space = " " * (room - columns(first) + 2) if right else ""
        self.lines.append(
            [
                (mark.ljust(INDENT), ""),
                (word, style),
                (" " * (LABEL - len(word)), ""),
                (first, "strong"),
                (space + right, "quiet"),
            ]
        )
        self.lines += [[(" " * (INDENT + LABEL), ""), (line, "strong")] for line in rest]

    def entry(self, label: str, text: str, indent: int = INDENT, style: Style = "", *, column: int = LABEL) -> None:
        """A labelled entry; a longer text goes on under itself. `column` is how wide the label is with its space."""
        ahead = [(" " * indent, ""), (label.ljust(column), "label")]
        for line in wrapped(visible(text), self.width - indent - column):
            self.lines.append([*ahead, (line, style)])
            ahead = [(" " * (indent + column), "")]

    def text(self, text: str, mark: str = "", indent: int = 0, style: Style = "") -> None:
        """A paragraph, perhaps with a mark ahead of its first line."""
        ahead = " " * indent + visible(mark)
        for line in wrapped(visible(text), self.width - len(ahead)):
            self.lines.append([(ahead, ""), (line, style)])
            ahead = " " * len(ahead)

    def plain(self) -> str:
        """The sheet as text without any style."""
        return "".join("".join(text for text, _ in line).rstrip() + "\n" for line in self.lines)


def columns(text: str) -> int:
    """How many columns of a terminal a text takes."""
    if text.isascii():
        return len(text)
    from unicodedata import category, east_asian_width

    return sum(0 if category(mark) in ("Mn", "Me") else 2 if east_asian_width(mark) in "WF" else 1 for mark in text)


def wrapped(text: str, width: int) -> list[str]:
    """The text in lines of at most `width` columns, broken between words; a longer word is cut."""
    width = max(width, 8)
    lines = [""]
    for word in text.split(" "):
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if columns(joined) <= width:
            lines[-1] = joined
            continue
        if lines[-1]:
            lines.append("")
        *full, rest = _cut(word, width)
        lines[-1:] = [*full, rest]
    return lines


def _cut(word: str, width: int) -> list[str]:
    parts, taken = [""], 0
    for mark in word:
        wide = columns(mark)
        if taken + wide > width:
            parts.append("")
            taken = 0
        parts[-1] += mark
        taken += wide
    return parts
