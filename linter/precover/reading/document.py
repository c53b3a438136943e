"""A parsed document: its plain data, and where in the text each value stands."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import islice
from types import NoneType
from typing import Any, Final

import yaml

from precover.plan.thing import tokens_of
from precover.reading.errors import MOST_PROBLEMS, Located, PlanUnreadable, short
from precover.reading.source import Source
from precover.record import Record

DEEPEST = 32
LONGEST_NUMBER = 40

_RESOLVED: Final = frozenset({str, dict, list, NoneType, bool, int, float})
"""The tags of nodes that the text gives none: the types of their plain data."""


class Range(Record):
    """A stretch of text, counted from 1 in code points; the end is just after the last character."""

    line: int
    column: int
    end_line: int
    end_column: int


class Document:
    """The tree of a text, once as plain data (`data`) and once by place (`range`).

    Positions are not copied out of the tree: they are looked up when something is to be said about a place.
    """

    __slots__ = ("data", "root", "source")

    def __init__(self, source: Source, root: yaml.Node) -> None:
        self.source = source
        self.root = root
        problems: list[Located] = []
        self.data = _Plain(source, problems).of(root, 0)
        if problems:
            raise PlanUnreadable(problems)

    def range(self, pointer: str, *, key: bool = False) -> Range:
        """Where the value at a JSON Pointer stands (or its key); where it is not there, its nearest parent's key."""
        return range_in(self.root, tokens_of(pointer), key=key)

    def locate(self, pointer: str, message: str, hint: str, *, key: bool = False) -> Located:
        """A problem at a place of this document."""
        at = self.range(pointer, key=key)
        return Located(self.source.name, at.line, at.column, message, hint)


def range_in(root: yaml.Node, tokens: list[str], *, key: bool = False) -> Range:
    """Where what the tokens lead to stands in a tree, by the rules of `Document.range`."""
    found, found_key = root, None
    for token in tokens:
        step = _child(found, token)
        if step is None:
            key = True
            break
        found_key, found = step
    node = found_key if key and found_key is not None else found
    if node is root and (key or not tokens):
        return Range(1, 1, 1, 1)
    return _range(node)


def _child(node: yaml.Node, token: str) -> tuple[yaml.Node | None, yaml.Node] | None:
    if isinstance(node, yaml.MappingNode):
        return next(((key, value) for key, value in node.value if key.value == token), None)
    if isinstance(node, yaml.SequenceNode) and token.isdecimal() and int(token) < len(node.value):
        return None, node.value[int(token)]
    return None


def _range(node: yaml.Node) -> Range:
    start, end = node.start_mark, node.end_mark
    if isinstance(node, yaml.ScalarNode) or (isinstance(node, yaml.CollectionNode) and node.flow_style):
        return Range(start.line + 1, start.column + 1, end.line + 1, end.column + 1)
    # A block collection's end mark stands at the next token: the range ends with the last of its own values.
    last = node.value[-1] if node.value else None
    last = last[1] if isinstance(last, tuple) else last
    ending = _range(last) if last is not None else None
    if ending is None:
        return Range(start.line + 1, start.column + 1, end.line + 1, end.column + 1)
    return Range(start.line + 1, start.column + 1, ending.end_line, ending.end_column)


def _references(source: Source) -> Iterator[Located]:
    """Every `*` reference of a text: its place is not in the tree, where it is the value itself."""
    for token in yaml.scan(source.text, Loader=yaml.CSafeLoader):
        if isinstance(token, yaml.AliasToken):
            mark = token.start_mark
            message = f"`*{short(token.value)}` refers to a value elsewhere"
            hint = "write the value out at each place; a plan has no references"
            yield Located(source.name, mark.line + 1, mark.column + 1, message, hint)


class _Plain:
    """Plain data of a node tree. Notes every duplicate key, tag and reference on the way, so that all are told at once."""

    def __init__(self, source: Source, problems: list[Located]) -> None:
        self.source = source
        self.problems = problems
        self.may_refer = "*" in source.text
        self.seen: set[int] = set()
        self.told: set[int] = set()
        self.referred = False

    def of(self, node: yaml.Node, depth: int) -> Any:
        tag: Any = node.tag
        if tag not in _RESOLVED:
            self._note(node, f"the tag `{short(tag)}` has no meaning in a plan", "write the plain value")
            return None
        if self.may_refer and self._again(node):
            return None
        if tag is str:
            return node.value
        if tag is dict or tag is list:
            return self._collection(node, depth, tag)
        return self._typed(node, tag)

    def _collection(self, node: yaml.Node, depth: int, tag: type) -> Any:
        if depth > DEEPEST:
            self._note(node, f"nested more than {DEEPEST} levels deep", "a plan is at most a dozen levels deep")
            return None
        if tag is list:
            return [self.of(item, depth + 1) for item in node.value]
        made: dict[str, Any] = {}
        for key, value in node.value:
            name = self._key(key)
            if name is None:
                continue
            if name in made:
                self._note_twice(node, key)
            else:
                made[name] = self.of(value, depth + 1)
        return made

    def _key(self, key: yaml.Node) -> str | None:
        tag: Any = key.tag
        if tag not in _RESOLVED or not isinstance(key, yaml.ScalarNode):
            self._note(key, "a key must be a plain word", "put the value behind a named key")
            return None
        if self.may_refer and self._again(key):
            return None
        name: str = key.value
        if name == "<<":
            self._note(key, "`<<` is not part of YAML 1.2", "write the keys out")
            return None
        return name

    def _typed(self, node: yaml.Node, tag: type) -> Any:
        text = node.value
        if tag is NoneType:
            return None
        if tag is bool:
            return text[0] in "tT"
        if len(text) > LONGEST_NUMBER:
            self._note(node, f"a number of {len(text):,} digits", "check the value")
            return None
        if tag is int:
            return int(text, 0) if text[:2] in ("0x", "0o") else int(text)
        value = float(text.lower().replace(".inf", "inf").replace(".nan", "nan"))
        if not math.isfinite(value):
            self._note(node, f"`{text}` is not a number a plan can use", "write the value")
            return None
        return value

    def _again(self, node: yaml.Node) -> bool:
        """Whether a node was here before, which is so only where a reference leads to it."""
        if id(node) not in self.seen:
            self.seen.add(id(node))
            return False
        if not self.referred:
            self.referred = True
            self.problems += islice(_references(self.source), MOST_PROBLEMS + 1)
        return True

    def _note_twice(self, node: yaml.Node, key: yaml.Node) -> None:
        if len(self.problems) <= MOST_PROBLEMS:
            line = next(first.start_mark.line + 1 for first, _ in node.value if first.value == key.value)
            self._note(key, f"`{short(key.value)}` stands here twice; first in line {line}", "keep one of the two")

    def _note(self, node: yaml.Node, message: str, hint: str) -> None:
        """Note a problem, once for a node; past the most that are told, only that there are more."""
        if len(self.problems) > MOST_PROBLEMS or id(node) in self.told:
            return
        self.told.add(id(node))
        mark = node.start_mark
        self.problems.append(Located(self.source.name, mark.line + 1, mark.column + 1, message, hint))
