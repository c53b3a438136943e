"""A file's bytes as text."""

from __future__ import annotations

import re
from typing import Final, NoReturn

from precover.reading.errors import Located, PlanUnreadable
from precover.record import Record

LARGEST_FILE: Final = 2 * 1024 * 1024
"""Bytes. A plan of 20,000 lines has well under one million; a larger file is something else, or an attack."""

MOST_MARKS: Final = 200_000
"""Marks that part values from each other, and so about as many values. A plan of 20,000 lines has fewer than 100,000."""

_MARKS = (",", "[", "{", ":", "\n", "\r", "- ", "? ")


class Source(Record):
    """A plan's text with the name of the file it came from."""

    name: str
    text: str


def decode(name: str, raw: bytes) -> Source:
    """The text of a UTF-8 file, without a byte order mark; PlanUnreadable for any other encoding or a file too large."""
    if len(raw) > LARGEST_FILE:
        size = f"the file has {len(raw):,} bytes; a plan may have {LARGEST_FILE:,}"
        _refuse(Located(name, 0, 0, size, "split the project into several plans"))
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\0" in raw[:2]:
        _refuse(Located(name, 1, 1, "the file is UTF-16 or UTF-32, not UTF-8", "save it as UTF-8"))
    raw = raw.removeprefix(b"\xef\xbb\xbf")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as problem:
        line, column = after(raw[: problem.start].decode("utf-8"))
        byte = f"byte 0x{raw[problem.start]:02X} is not UTF-8 text"
        _refuse(Located(name, line, column, byte, "save the file as UTF-8"))
    if len(text) > MOST_MARKS and sum(map(text.count, _MARKS)) > MOST_MARKS:
        _refuse(
            Located(name, 0, 0, f"the file has more than {MOST_MARKS:,} values", "split the project into several plans")
        )
    return Source(name, text)


def after(text: str) -> tuple[int, int]:
    """Line and column of what follows a text, with every line break that YAML knows."""
    lines = re.split(_BREAK, text)
    return len(lines), len(lines[-1]) + 1


_BREAK: Final = "\r\n|[\r\n\x85\u2028\u2029]"


def _refuse(problem: Located) -> NoReturn:
    raise PlanUnreadable([problem]) from None
