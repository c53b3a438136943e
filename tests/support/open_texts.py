"""Texts as an editor has them open, for tests without a server."""

from __future__ import annotations

from lsprotocol import types

from precover.editor.texts import OpenText
from support.reviews import EXAMPLES, library

FAILING = "pottery-studio-uncorrected"


def text_of(name: str) -> str:
    """The text of a bundled plan."""
    return (EXAMPLES / f"{name}.plan.yaml").read_text(encoding="utf-8")


def opened(text: str, encoding: str = "utf-16") -> OpenText:
    """A text that has been looked at."""
    made = OpenText("file:///test.plan.yaml", text, 1, encoding)
    look(made)
    return made


def look(text: OpenText) -> None:
    """Look at the version that is there, as the desk does."""
    made, text.problems = text.examined(library(), (), lambda: True)
    text.last = made or text.last
    text.seen = text.turn


def cursor(text: str) -> tuple[str, int]:
    """A text with `¦` where the cursor is: the text without it, and its index."""
    return text.replace("¦", "", 1), text.index("¦")


def at(text: OpenText, needle: str, offset: int = 0) -> types.Position:
    """The position of the first place where something stands."""
    return text.positions.position(text.text.index(needle) + offset)
