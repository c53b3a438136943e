"""Calls: whether something is there, how many there are, limits, tests of texts, loops over lists."""

from __future__ import annotations

from typing import Any, Final

from precover.rulebook.cel.core import Core
from precover.rulebook.cel.kinds import NUMBER, YES, several
from precover.rulebook.cel.reading import LOOPS, TEXT_TESTS, count, each, reading
from precover.rulebook.cel.running import Scope
from precover.rulebook.cel.syntax import Node, Refusal
from precover.rulebook.cel.typed import Typed, nearest
from precover.rulebook.table import Cell

MOST_NESTED: Final = 3
"""Loops within loops."""
CALLS: Final = ("has", "size", "limit", "cell")


class Calls(Core):
    """The part of the checker that knows calls."""

    def _ident_arg(self, node: Node) -> Typed:
        name, parts = str(node.parts[0]), arguments(node.parts[1:])
        if name not in CALLS:
            raise Refusal(f"`{name}()` is nothing known here", nearest(name, list(CALLS)), node.offset)
        if name in ("limit", "cell"):
            return self._cell(name, parts, node)
        if len(parts) != 1:
            raise Refusal(f"`{name}()` takes one value", f"write `{name}(...)`", node.offset)
        if name == "size":
            return self._size(self.of(parts[0]), node)
        return self._has(parts[0], node)

    def _has(self, part: Node, node: Node) -> Typed:
        """Whether something is there, or, of a fact, whether the plan states it."""
        if part.rule != "member_dot":
            raise Refusal("`has()` asks for a field", "write it like `has(leg.cover)`", node.offset)
        owner, name = self.of(part.parts[0]), str(part.parts[1])
        field, of = self.field(owner, name, part), owner.run
        if field.fact is None:
            read = reading(owner, name, field)
            return Typed(YES, lambda scope: read(scope) is not None)
        attribute = field.fact.attribute

        def run(scope: Scope) -> bool:
            one = of(scope)
            if one is None or attribute not in type(one).facts:
                return False
            value = getattr(one, attribute)
            return value is not None and type(value).__name__ != "Unstated"

        return Typed(YES, run)

    def _size(self, part: Typed, node: Node) -> Typed:
        if part.kind.sort not in ("list", "text"):
            raise Refusal(f"{part.kind} has no size", "a list or a text has", node.offset)
        run = part.run
        return Typed(NUMBER, lambda scope: count(run(scope), scope))

    def _cell(self, name: str, parts: tuple[Node, ...], node: Node) -> Typed:
        words = [self.of(part).written for part in parts]
        if not words or None in words or (name == "limit" and len(words) != 1):
            raise Refusal(f"`{name}()` takes names in quotes", 'like `limit("spacing of rods")`', node.offset)
        table, *key = ["limits", *map(str, words)] if name == "limit" else list(map(str, words))
        try:
            kind = self.known.cell_kind(table, tuple(key))
        except Refusal as problem:
            raise Refusal(problem.message, problem.hint, node.offset) from None

        self.cells.append((table, tuple(key)))

        def cell(scope: Scope) -> Cell:
            return scope.look.cell(table, *key)

        return Typed(kind, lambda scope: cell(scope).value, cell=cell, path=key[-1] if key else table)

    def _member_dot_arg(self, node: Node) -> Typed:
        name, parts = str(node.parts[1]), arguments(node.parts[2:])
        owner = self.of(node.parts[0])
        if name == "size" and not parts:
            return self._size(owner, node)
        if name in TEXT_TESTS:
            (other,) = [self.of(part) for part in parts] if len(parts) == 1 else [None]
            if owner.kind.sort != "text" or other is None or other.kind.sort != "text":
                raise Refusal(f"`{name}()` compares two texts", f'like `circuit.id.{name}("x")`', node.offset)
            test, has, want = TEXT_TESTS[name], owner.run, other.run
            return Typed(YES, lambda scope: (text := has(scope)) is not None and test(text, want(scope)))
        if name in LOOPS:
            return self._loop(owner, name, parts, node)
        raise Refusal(f"`{name}()` is nothing known here", nearest(name, [*LOOPS, *TEXT_TESTS, "size"]), node.offset)

    def _loop(self, owner: Typed, name: str, parts: tuple[Node, ...], node: Node) -> Typed:
        if owner.kind.sort != "list":
            raise Refusal(f"{owner.kind} is no list", f"`{name}()` goes through a list", node.offset)
        if len(parts) != 2 or parts[0].rule != "ident":
            raise Refusal(
                f"`{name}()` takes a name and an expression", f"like `.{name}(one, one.kind == ...)`", node.offset
            )
        if self.loops == MOST_NESTED:
            raise Refusal(f"more than {MOST_NESTED} loops within each other", "make several requirements", node.offset)
        word = str(parts[0].parts[0])
        if word in self.names or word == "statements":
            raise Refusal(f"`{word}` is something already", "take another name", parts[0].offset)
        self.names[word] = owner.kind.of
        self.loops += 1
        body = self.of(parts[1])
        self.loops -= 1
        del self.names[word]
        if name != "map":
            self.yes(body, parts[1])
        items, loop = owner.run, LOOPS[name]

        def going(scope: Scope) -> Any:
            return loop(each(items(scope) or (), word, scope), body.run, scope)

        if name == "map":
            return Typed(several(body.kind), going)
        return Typed(owner.kind if name == "filter" else YES, going)


def arguments(parts: tuple[Any, ...]) -> tuple[Node, ...]:
    """What stands between the brackets of a call."""
    if len(parts) == 1 and isinstance(parts[0], Node) and parts[0].rule == "exprlist":
        return parts[0].parts
    return tuple(part for part in parts if isinstance(part, Node))
