"""What a person can do about a line that YAML cannot place: how far it is indented, and how far those that it may belong to."""

from __future__ import annotations

import re
from typing import NamedTuple


class _Line(NamedTuple):
    number: int
    """Counted from 1."""
    indent: int
    text: str
    """Without the indentation."""


def misplaced(text: str, number: int, said: str) -> tuple[str, str] | None:
    """Message and hint for the line of that number, of which the parser says `said`; None where it is not its
    indentation, or the line above, that is wrong."""
    lines = _lines(text, number)
    if not lines or lines[-1].number != number:
        return None
    here, above = lines[-1], _open(lines)
    if "\t" in here.text[: len(here.text) - len(here.text.lstrip())]:
        return f"line {number} is indented with a tab", "indent with spaces"
    if len(lines) > 1 and (found := _above_it(lines[-2], here, said)) is not None:
        return found
    if said.startswith("did not find expected key") and here.indent not in {line.indent for line in above}:
        return _between(here, above)
    if "'-' indicator" in said:
        return _no_dash(here, above) if here.indent in {line.indent for line in above} else _between(here, above)
    return None


def _above_it(before: _Line, here: _Line, said: str) -> tuple[str, str] | None:
    """What is wrong with the line above: the parser has read on into this one."""
    if _NO_SPACE.match(before.text):
        return f"line {before.number} has no space after its `:`", "write `key: value`"
    if said.startswith("could not find expected ':'") and before.text.startswith("{"):
        return f"line {before.number} has no `- ` ahead, as each entry of a list has", "write `- ` ahead of it"
    if not said.startswith("mapping values"):
        return None
    if _STATED.match(before.text) and before.indent < here.indent:
        return (
            f"line {here.number} is indented {_by(here)}, and line {before.number}, which it cannot belong to, {_by(before)}",
            "indent what belongs together equally far",
        )
    if before.indent == here.indent and ":" not in before.text:
        return f"line {before.number} has no `:`", "write `key: value`"
    return None


def _between(here: _Line, above: list[_Line]) -> tuple[str, str] | None:
    """A line that is indented like none that is still open above it."""
    nearest = [
        *[line for line in above if line.indent > here.indent][-1:],
        *[line for line in above if line.indent < here.indent][:1],
    ]
    if not nearest:
        return None
    like = ", or ".join(f"{_by(line)} like line {line.number}" for line in nearest)
    return f"line {here.number} is indented {_by(here)}, like nothing that it could belong to", f"indent it {like}"


def _no_dash(here: _Line, above: list[_Line]) -> tuple[str, str]:
    first = next(line for line in above if line.indent == here.indent)
    return (
        f"a list goes on here (line {first.number}), and this line has no `- `",
        "write `- ` ahead of it, or indent it less",
    )


def _lines(text: str, last: int) -> list[_Line]:
    """The lines up to a number that hold something."""
    found = []
    for number, line in enumerate(_BREAK.split(text)[:last], 1):
        bare = line.lstrip(" ")
        if bare and not bare.startswith("#"):
            found.append(_Line(number, len(line) - len(bare), bare))
    return found


def _open(lines: list[_Line]) -> list[_Line]:
    """Of the lines above the last one those that something may still be added to, the innermost first."""
    found: list[_Line] = []
    for line in reversed(lines[:-1]):
        if not found or line.indent < found[-1].indent:
            found.append(line)
    return found


def _by(line: _Line) -> str:
    return f"by {line.indent} space{'s' if line.indent > 1 else ''}" if line.indent else "not at all"


_BREAK = re.compile("\r\n|[\r\n\x85\u2028\u2029]")
_NO_SPACE = re.compile(r"(?:- )?[A-Za-z][\w-]*:[^\s:/]")
_STATED = re.compile(r"(?:- )?[A-Za-z][\w-]*: +[^\s#]")
