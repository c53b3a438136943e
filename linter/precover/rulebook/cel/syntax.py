"""The text of an expression to its tree, within bounds."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any, Final, NamedTuple

from celpy.celparser import CELParseError, CELParser

LONGEST: Final = 2_000
"""Characters of one expression."""
DEEPEST: Final = 40
"""How deep brackets, conditions and negations may be nested."""
LONGEST_CHAIN: Final = 120
"""How many terms one operator may join."""


class Refusal(Exception):
    """What is wrong with an expression. `offset` counts the characters before the place, None where it is all of it."""

    def __init__(self, message: str, hint: str, offset: int | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint
        self.offset = offset


class Node(NamedTuple):
    """A node that says something: the grammar's chains of single children are left out."""

    rule: str
    parts: tuple[Any, ...]
    """Nodes and texts of tokens."""
    offset: int | None


@lru_cache(maxsize=4096)
def parsed(text: str) -> Node:
    """The tree of an expression; Refusal where it is none or too large."""
    if len(text) > LONGEST:
        raise Refusal(f"an expression of {len(text):,} characters", f"at most {LONGEST:,}; make two requirements of it")
    if _depth(text) > DEEPEST:
        raise Refusal(f"nested more than {DEEPEST} levels deep", "make several requirements of it")
    try:
        tree = _parser().parse(text)
    except CELParseError as problem:
        ends = not any(mark.isalnum() or mark in "\"')]}" for mark in text[_offset(text, problem) :])
        told = "the expression ends too soon" if ends else "this cannot stand here"
        raise Refusal(told, "check operators, quotes and brackets", _offset(text, problem)) from None
    return _node(tree, 0)


@cache
def _parser() -> CELParser:
    return CELParser()


def _depth(text: str) -> int:
    """How deep brackets and runs of signs go, whatever stands in quotes."""
    deepest = at = run = 0
    for mark in text:
        run = run + 1 if mark in "!-" else 0
        at += (mark in "([{") - (mark in ")]}")
        deepest = max(deepest, at, run)
    return max(deepest, text.count("?"))


def _offset(text: str, problem: CELParseError) -> int:
    line, column = problem.line or 1, problem.column or 1
    return sum(len(one) + 1 for one in text.split("\n")[: line - 1]) + column - 1


_SINGLE: Final = frozenset(
    ("expr", "conditionalor", "conditionaland", "relation", "addition", "multiplication", "unary", "member", "primary")
)
"""Levels of the grammar that say nothing where they have a single child."""


def _node(tree: Any, depth: int) -> Node:
    if depth > LONGEST_CHAIN:
        raise Refusal("too many terms in one expression", "make several requirements of it")
    while len(tree.children) == 1 and (tree.data == "paren_expr" or tree.data in _SINGLE):
        tree = tree.children[0]
    parts = []
    for part in tree.children:
        if part is not None:
            parts.append(_node(part, depth + 1) if hasattr(part, "data") else str(part))
    return Node(str(tree.data), tuple(parts), _start(tree))


def _start(tree: Any) -> int | None:
    """Where a node's own name stands, else the first token below it."""
    if tree.data in ("member_dot", "member_dot_arg"):
        name: int | None = tree.children[1].start_pos
        return name
    while hasattr(tree, "data"):
        tree = next((part for part in tree.children if part is not None), None)
    start: int | None = getattr(tree, "start_pos", None)
    return start
