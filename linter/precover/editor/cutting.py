"""The part of a text around the cursor, read by itself: it can be understood while the rest of the text cannot."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Final, NamedTuple

import yaml

from precover.plan.thing import escaped
from precover.reading.parse import compose

MARK: Final = "\ue000"
"""Stands where the cursor is; a private character, which no plan has."""

_MARGIN: Final = re.compile(r"[A-Za-z][\w-]*:")
_ENTRY: Final = re.compile(r"^( +)[A-Za-z][\w.-]*:", re.MULTILINE)
_TRIES: Final = ("", "}", "]", ":", "]}", "}]", "}}", ": }", '"', "'", '"}', "'}")
"""What may be missing behind a half-typed word."""


class Cursor(NamedTuple):
    """Where the cursor stands in the plan."""

    place: str
    """JSON Pointer of the value the cursor is in; for a key, of the thing that has it."""
    key: bool
    """It is in a key."""
    text: str
    """The whole key or value, without the mark."""
    ahead: str
    """What of it stands before the cursor."""
    start: int
    end: int
    """Where the key or value stands in the whole text."""
    data: Any
    """Plain data of the part around the cursor: enough for the schema to know what kind of thing each is."""

    @property
    def pointer(self) -> str:
        """JSON Pointer of the entry: a key's own place."""
        return f"{self.place}/{escaped(self.text)}" if self.key else self.place


def cursor_at(text: str, index: int) -> Cursor | None:
    """The key or value at an index of a text; None between them, in a comment, or where nothing can be made of the part."""
    head, start, end = part_around(text, index)
    ahead, behind = text[start:index], text[index:end]
    line_end = len(behind.partition("\n")[0].rstrip("\r"))
    for missing in _TRIES:
        try:
            root = compose(f"{head}{ahead}{MARK}{behind[:line_end]}{missing}{behind[line_end:]}")
        except yaml.YAMLError:
            continue
        if not _is_tree(root):
            return None
        found = next((one for one in _scalars(root, "") if MARK in one[2].value), None)
        if found is None:
            return None
        place, key, node = found
        first = node.start_mark.index - len(head) + start
        last = node.end_mark.index - len(head) + start - len(MARK)
        if last > index + line_end:  # what was missing was a quote
            last = index + line_end
        if node.start_mark.line != node.end_mark.line:
            return None
        written, before = node.value.replace(MARK, ""), node.value.partition(MARK)[0]
        return Cursor(place.replace(MARK, ""), key, written, before, first, last, plain(root))
    return None


def part_around(text: str, index: int) -> tuple[str, int, int]:
    """The entry of a section that an index is in: the line with the section's key, and start and end of the entry. At
    the margin, or where the section has no entries, the whole section."""
    line = text.rfind("\n", 0, index) + 1
    top = _line_up(text, line, _MARGIN)
    below = _line_down(text, index, _MARGIN)
    first = _ENTRY.search(text, text.find("\n", top, below), below) if "\n" in text[top:below] else None
    if first is None or index < first.start():
        return "", top, below
    entry = re.compile(f"{first[1]}[A-Za-z]")
    return (
        f"{text[top : first.start()].partition(chr(10))[0]}\n",
        max(_line_up(text, line, entry), first.start()),
        min(_line_down(text, index, entry), below),
    )


def _line_up(text: str, line: int, start: re.Pattern[str]) -> int:
    while line > 0 and not start.match(text, line):
        line = text.rfind("\n", 0, line - 1) + 1
    return line


def _line_down(text: str, index: int, start: re.Pattern[str]) -> int:
    while True:
        index = text.find("\n", index) + 1
        if index == 0:
            return len(text)
        if start.match(text, index):
            return index


def _is_tree(root: yaml.Node | None) -> bool:
    """No node is met twice, as a `*` reference would have it: followed, a few could stand for more than any memory holds."""
    seen: set[int] = set()
    waiting = [root]
    while waiting:
        node = waiting.pop()
        if id(node) in seen:
            return False
        seen.add(id(node))
        if isinstance(node, yaml.MappingNode):
            waiting += [part for pair in node.value for part in pair]
        elif isinstance(node, yaml.SequenceNode):
            waiting += node.value
    return True


def _scalars(node: yaml.Node | None, place: str) -> Iterator[tuple[str, bool, yaml.ScalarNode]]:
    """Every scalar with its place; a key with the place of its mapping."""
    if isinstance(node, yaml.ScalarNode):
        yield place, False, node
    elif isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            if isinstance(key, yaml.ScalarNode):
                yield place, True, key
                yield from _scalars(value, f"{place}/{escaped(key.value)}")
    elif isinstance(node, yaml.SequenceNode):
        for number, item in enumerate(node.value):
            yield from _scalars(item, f"{place}/{number}")


def plain(node: yaml.Node | None) -> Any:
    """Plain data of a tree, whatever is wrong with it, without the mark and what is marked."""
    if isinstance(node, yaml.MappingNode):
        keys = ((key.value, value) for key, value in node.value if isinstance(key, yaml.ScalarNode))
        return {key.replace(MARK, ""): plain(value) for key, value in keys}
    if isinstance(node, yaml.SequenceNode):
        return [plain(item) for item in node.value]
    return node.value.replace(MARK, "") if isinstance(node, yaml.ScalarNode) else None
