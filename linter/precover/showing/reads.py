"""What a topic reads: the limits and table cells that its rules look up, found in the source of its module.

Rules name what they read where they read it (`look.limit("...")`, `look.cell("...", ...)`), so there is no second list
to keep. Functions of the topic's own package that a module imports are followed; a name that is worked out when the
rule runs stands for every limit, or every cell of the table, that the module's own words allow.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

from precover.rulebook import Cell, Rulebook, Topic

LIMITS = "limits"


def cells_read(topic: Topic, book: Rulebook) -> list[Cell]:
    """The cells in force that a topic's rules and inspections may read, in the order of their tables."""
    found: dict[Cell, None] = {}
    functions: list[Callable[..., Any]] = [part for rule in topic.rules for part in (*rule.unless, rule.check)]
    functions += [item.says for item in topic.inspections]
    for function in functions:
        own: tuple[tuple[str, tuple[str, ...]], ...] | None = getattr(function, "reads", None)
        named = [(name, tuple(frozenset((part,)) for part in key)) for name, key in own] if own is not None else None
        for name, key in named if named is not None else _lookups(function.__module__, function.__name__):
            table = book.tables.get(name)
            if table is not None:
                found |= {cell: None for held, cell in table.cells.items() if _fits(key, held)}
    order = {
        cell: place for place, cell in enumerate(c for table in book.tables.values() for c in table.cells.values())
    }
    return sorted(found, key=lambda cell: order[cell])


Key = tuple[frozenset[str] | None, ...] | None
"""Words that each part of a key can be, None for any; None for any key at all."""


def _fits(key: Key, held: tuple[str, ...]) -> bool:
    return key is None or (
        len(key) == len(held) and all(words is None or part in words for words, part in zip(key, held, strict=True))
    )


@cache
def _lookups(module: str, function: str) -> tuple[tuple[str, Key], ...]:
    """Every lookup of a function and of what it uses from its own package: table and key."""
    found: dict[tuple[str, Key], None] = {}
    seen: set[tuple[str, str]] = set()
    known = _Source.of(module).parts
    # A function made by another has a name of no part: then all that its module reads counts.
    waiting = [(module, name) for name in ((function,) if function in known else known)]
    while waiting:
        at = waiting.pop()
        if at in seen:
            continue
        seen.add(at)
        source = _Source.of(at[0])
        part = source.parts.get(at[1])
        if part is None:
            continue
        found |= dict.fromkeys(source.lookups(part))
        waiting += source.leads_to(part)
    return tuple(found)


class _Source:
    """The parsed source of a module: its parts by name, and where imported names come from."""

    @staticmethod
    @cache
    def of(module: str) -> _Source:
        return _Source(module)

    def __init__(self, module: str) -> None:
        self.module = module
        path = getattr(sys.modules.get(module), "__file__", None)
        tree = ast.parse(Path(path).read_text(encoding="utf-8")) if path and Path(path).suffix == ".py" else None
        self.parts: dict[str, ast.stmt] = {}
        self.imported: dict[str, tuple[str, str]] = {}
        self.words = frozenset(_texts(tree)) if tree is not None else frozenset()
        for statement in tree.body if tree is not None else ():
            if isinstance(statement, (ast.FunctionDef, ast.ClassDef)):
                self.parts[statement.name] = statement
            elif isinstance(statement, ast.Assign):
                self.parts |= {name.id: statement for name in statement.targets if isinstance(name, ast.Name)}
            elif isinstance(statement, ast.AnnAssign) and isinstance(statement.target, ast.Name):
                self.parts[statement.target.id] = statement
            elif isinstance(statement, ast.ImportFrom) and statement.module:
                for alias in statement.names:
                    self.imported[alias.asname or alias.name] = (statement.module, alias.name)

    def leads_to(self, part: ast.stmt) -> Iterator[tuple[str, str]]:
        """Names used in a part that are parts of this module, or of another of the same package."""
        package = self.module.partition(".")[0]
        for node in ast.walk(part):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
                origin, name = self.imported.get(node.value.id, ("", ""))
                if f"{origin}.{name}" in sys.modules and origin.partition(".")[0] == package:
                    yield f"{origin}.{name}", node.attr
            if isinstance(node, ast.Name):
                if node.id in self.parts:
                    yield self.module, node.id
                elif self.imported.get(node.id, ("",))[0].partition(".")[0] == package:
                    yield self.imported[node.id]

    def lookups(self, statement: ast.stmt) -> Iterator[tuple[str, Key]]:
        """Lookups written in a part."""
        for node in ast.walk(statement):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.args):
                continue
            if node.func.attr == "limit":
                yield LIMITS, (self._can_be(node.args[0]),)
            elif node.func.attr in ("cell", "find"):
                parts = node.args[1:]
                spread = any(isinstance(part, ast.Starred) for part in parts)
                for table in self._can_be(node.args[0]):
                    yield table, None if spread else tuple(self._key_part(part) for part in parts)

    def _can_be(self, node: ast.expr) -> frozenset[str]:
        """What a text can be: itself, or any word of the module where it is worked out."""
        known = self._constant(node)
        return frozenset((known,)) if known is not None else self.words

    def _key_part(self, node: ast.expr) -> frozenset[str] | None:
        known = self._constant(node)
        return frozenset((known,)) if known is not None else None

    def _constant(self, node: ast.expr) -> str | None:
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            return node.value
        if isinstance(node, ast.Name):
            module, name = self.imported.get(node.id, (self.module, node.id))
            value = getattr(_Source.of(module).parts.get(name), "value", None) if module in sys.modules else None
            return value.value if isinstance(value, ast.Constant) and isinstance(value.value, str) else None
        return None


def _texts(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value
