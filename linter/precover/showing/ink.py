"""A sheet on a terminal: like a form printed in blue and filled in by pencil. Nothing hangs on colour or weight."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from precover.showing.sheet import Sheet

_INK = {
    "heading": "bold blue",
    "word": "bold",
    "worst": "bold reverse",
    "strong": "bold",
    "label": "blue",
    "quiet": "dim",
    "": "",
}


def inked(sheet: Sheet) -> None:
    """Write the sheet to standard output. Rich decides by `NO_COLOR` and the terminal what can be shown."""
    console = Console(highlight=False, markup=False, emoji=False, soft_wrap=True)
    for line in sheet.lines:
        console.print(Text.assemble(*((text, _INK[style]) for text, style in line)))


def markdown(text: str, width: int) -> None:
    """Write a Markdown document to standard output."""
    from rich.markdown import Markdown

    Console(width=width, highlight=False).print(Markdown(text, code_theme="bw"))
