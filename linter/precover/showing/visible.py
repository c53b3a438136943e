"""Text of a plan where a terminal, a file or another program will read it."""

from __future__ import annotations


def visible(text: str) -> str:
    """The text with everything that does not print (control characters, escapes, direction marks, line ends) written
    out as `\\x1b` or `\\u202e`: it stays on its line, and nothing in it can command a terminal."""
    if text.isprintable():
        return text
    return "".join(mark if mark.isprintable() else _written(ord(mark)) for mark in text)


def _written(code: int) -> str:
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
