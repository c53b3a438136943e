"""Places and messages as SARIF writes them."""

from __future__ import annotations

import os
from functools import lru_cache
from pathlib import Path
from typing import Any, Final
from urllib.parse import quote

from precover.reading import Located
from precover.reviewing import Review
from precover.showing.sentences import where
from precover.showing.visible import visible

NEWLINES: Final = ("\r\n", "\n", "\r", "\u0085", "\u2028", "\u2029")
"""The line ends by which a plan's lines are counted."""


def message(text: str) -> dict[str, str]:
    """A plain message. Braces are doubled (they would be placeholders), and no text of a plan makes a link."""
    return {"text": visible(text).replace("{", "{{").replace("}", "}}").replace("](", "] (")}


def location(review: Review, pointer: str) -> dict[str, Any]:
    """A place of a plan: its region, its JSON Pointer, its words."""
    at = review.document.range(pointer)
    lines = _lines(review.document.source.text)
    region = {
        "startLine": at.line,
        "startColumn": _utf16(lines, at.line, at.column),
        "endLine": at.end_line,
        "endColumn": _utf16(lines, at.end_line, at.end_column),
    }
    return {
        "physicalLocation": {"artifactLocation": {"uri": uri_of(review.document.source.name)}, "region": region},
        "logicalLocations": [{"fullyQualifiedName": pointer, "name": visible(where(review, pointer))}],
    }


def span(text: str, start: int, end: int) -> dict[str, int]:
    """The region from one index of a text to another."""
    lines = _lines(text)

    def at(index: int) -> tuple[int, int]:
        ahead = text[:index].splitlines(keepends=True)
        if not ahead:
            return 1, 1
        if ahead[-1].splitlines() == [ahead[-1]]:
            return len(ahead), _utf16(lines, len(ahead), len(ahead[-1]) + 1)
        return len(ahead) + 1, 1

    (line, column), (end_line, end_column) = at(start), at(end)
    return {"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column}


def located(problem: Located) -> dict[str, Any]:
    """The place of a problem in a file that could not be read: the file, and the line where it is known."""
    physical: dict[str, Any] = {"artifactLocation": {"uri": uri_of(problem.file)}}
    if problem.line:
        physical["region"] = {"startLine": problem.line}
    return {"physicalLocation": physical}


def uri_of(name: str) -> str:
    """A file name as a URI: absolute names as `file:`, others relative to where the command ran."""
    path = Path(name)
    return ("file://" if path.is_absolute() else "") + quote(os.fsencode(path.as_posix()))


@lru_cache(maxsize=8)
def _lines(text: str) -> list[str]:
    return text.splitlines()


def _utf16(lines: list[str], line: int, column: int) -> int:
    """A column counted in code points as one counted in UTF-16 code units."""
    ahead = lines[line - 1][: column - 1] if line <= len(lines) else ""
    return column + sum(ord(mark) > 0xFFFF for mark in ahead)
