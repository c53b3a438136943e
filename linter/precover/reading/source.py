"""A file's bytes as text."""

from __future__ import annotations

from dataclasses import dataclass

from precover.reading.errors import Located, PlanUnreadable

LARGEST_FILE = 4 * 1024 * 1024
"""Bytes. A plan of 20,000 lines has well under one million; a larger file is something else, or an attack."""


@dataclass(frozen=True, slots=True)
class Source:
    """A plan's text with the name of the file it came from."""

    name: str
    text: str


def decode(name: str, raw: bytes) -> Source:
    """The text of a UTF-8 file, without a byte order mark; PlanUnreadable for any other encoding or a file too large."""
    if len(raw) > LARGEST_FILE:
        raise PlanUnreadable(
            [
                Located(
                    name,
                    0,
                    0,
                    f"the file has {len(raw):,} bytes; a plan may have {LARGEST_FILE:,}",
                    "split the project into several plans",
                )
            ]
        )
    for mark, encoding in ((b"\xff\xfe", "UTF-16"), (b"\xfe\xff", "UTF-16")):
        if raw.startswith(mark):
            raise PlanUnreadable([Located(name, 1, 1, f"the file is {encoding}, not UTF-8", "save it as UTF-8")])
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        before = raw[: problem.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", errors="replace")) + 1
        raise PlanUnreadable(
            [
                Located(
                    name, line, column, f"byte 0x{raw[problem.start]:02X} is not UTF-8 text", "save the file as UTF-8"
                )
            ]
        ) from None
    return Source(name, text)
