"""The tree of an expression to something that runs: every field, word and quantity checked on the way."""

from __future__ import annotations

import ast
import operator
from fractions import Fraction
from typing import Any

from precover.rulebook.cel.arithmetic import Arithmetic
from precover.rulebook.cel.calls import CALLS, Calls
from precover.rulebook.cel.comparing import SIGNS, alike, comparing, ordered, read_as
from precover.rulebook.cel.kinds import NUMBER, TEXT, YES, Kind, several
from precover.rulebook.cel.reading import Listed, reading
from precover.rulebook.cel.syntax import Node, Refusal, parsed
from precover.rulebook.cel.typed import Comparison, Expression, Known, Run, Typed, nearest


def checked(text: str, known: Known) -> Expression:
    """The expression, which must say yes or no; Refusal with the place of what is wrong."""
    checker = _Checker(known)
    found = checker.of(parsed(text))
    if found.kind != YES:
        raise Refusal(f"this is {found.kind}, not yes or no", "compare it with something", 0)
    return Expression(text, found.run, checker.whole, tuple(checker.cells))


class _Checker(Arithmetic, Calls):
    """Logic, comparisons, names and values."""

    # What joins yes and no

    def _expr(self, node: Node) -> Typed:
        condition, one, other = (self.of(part) for part in node.parts)
        self.yes(condition, node.parts[0])
        one, other = alike(one, other, node)
        ask, yes, no = condition.run, one.run, other.run
        return Typed(one.kind, lambda scope: yes(scope) if ask(scope) else no(scope))

    def _conditionalor(self, node: Node) -> Typed:
        one, other = self._two(node)
        return Typed(YES, lambda scope: bool(one(scope)) or bool(other(scope)))

    def _conditionaland(self, node: Node) -> Typed:
        one, other = self._two(node)
        return Typed(YES, lambda scope: bool(one(scope)) and bool(other(scope)))

    def _two(self, node: Node) -> tuple[Run, Run]:
        one, other = self.of(node.parts[0]), self.of(node.parts[1])
        self.yes(one, node.parts[0])
        self.yes(other, node.parts[1])
        return one.run, other.run

    def _unary(self, node: Node) -> Typed:
        sign, part = node.parts[0], self.of(node.parts[1])
        run = part.run
        if sign.rule == "unary_not":
            self.yes(part, node.parts[1])
            return Typed(YES, lambda scope: not run(scope))
        if part.kind.sort != "number":
            raise Refusal(f"`-` before {part.kind}", "it stands before a number", node.offset)
        return Typed(NUMBER, lambda scope: -run(scope))

    # Comparisons

    def _relation(self, node: Node) -> Typed:
        sign, right = node.parts[0], self.of(node.parts[1])
        left = self.of(sign.parts[0])
        if sign.rule == "relation_in":
            return self._in(left, right, node)
        compare, relation = SIGNS[sign.rule]
        left, right = alike(left, right, node)
        if sign.rule not in ("relation_eq", "relation_ne"):
            ordered(left, node)
        elif left.kind.sort in ("thing", "list"):
            raise Refusal(f"{left.kind} cannot be compared", "name one of its fields", node.offset)
        if left.field is not None:
            self.whole = Comparison(left, relation, right)
        return Typed(YES, comparing(left, right, compare, lacking=sign.rule == "relation_ne"))

    def _in(self, left: Typed, right: Typed, node: Node) -> Typed:
        if right.kind.sort != "list":
            raise Refusal(f"`in` before {right.kind}", "a list in square brackets stands after `in`", node.offset)
        items: tuple[Typed, ...] | None = getattr(right.run, "items", None)
        if items is None:
            item: Kind = right.kind.of
            if left.written is not None:
                left = read_as(left, item._replace(words=()), node)
            if (item.sort, item.of) != (left.kind.sort, left.kind.of):
                raise Refusal(f"{left.kind} is not looked for in {right.kind}", "compare what is alike", node.offset)
            has, among = left.run, right.run
            return Typed(YES, lambda scope: has(scope) in list(among(scope)))
        runs = [comparing(*alike(left, item, node), operator.eq, lacking=False) for item in items]
        return Typed(YES, lambda scope: any(run(scope) for run in runs))

    # Names, fields, values

    def _literal(self, node: Node) -> Typed:
        text = str(node.parts[0])
        if text in ("true", "false"):
            value: Any = text == "true"
            return Typed(YES, lambda _scope: value)
        if text[:1].isdigit() or text[:1] in "-.":
            if not text.replace(".", "", 1).lstrip("-").isdigit() or len(text) > 20:
                raise Refusal(f"`{text[:40]}` is not a number offered here", "write it like `4` or `0.5`", node.offset)
            number = Fraction(text)
            return Typed(NUMBER, lambda _scope: number)
        if text[:1] in "\"'":
            written = unquoted(text, node)
            return Typed(TEXT, lambda _scope: written, written)
        raise Refusal(
            "this kind of value is not offered here", "text in quotes, numbers, true and false are", node.offset
        )

    def _list_lit(self, node: Node) -> Typed:
        parts = node.parts[0].parts if node.parts and node.parts[0].rule == "exprlist" else node.parts
        items = tuple(self.of(part) for part in parts)
        if not items:
            raise Refusal("an empty list", "name what it holds", node.offset)
        return Typed(several(items[0].kind), Listed(items))

    def _ident(self, node: Node) -> Typed:
        name = str(node.parts[0])
        kind = self.names.get(name)
        if kind is None:
            raise Refusal(f"`{name}` is nothing known here", nearest(name, [*self.names, *CALLS]), node.offset)
        return Typed(kind, lambda scope: scope.names[name], path=name)

    def _member_dot(self, node: Node) -> Typed:
        name = str(node.parts[1])
        if node.parts[0].rule == "ident" and node.parts[0].parts == ("statements",) and "statements" not in self.names:
            return self._statement(name, node)
        owner = self.of(node.parts[0])
        field = self.field(owner, name, node)
        return Typed(field.kind, reading(owner, name, field), path=f"{owner.path}.{name}".lstrip("."), field=field)

    def _statement(self, name: str, node: Node) -> Typed:
        found = self.known.statements.get(name)
        if found is None:
            hint = (
                nearest(name, list(self.known.statements)) if self.known.statements else "declare it under `statements`"
            )
            raise Refusal(f"no pack asks for the statement `{name}`", hint, node.offset)
        return found


def unquoted(text: str, node: Node) -> str:
    try:
        value = ast.literal_eval(text)
    except (SyntaxError, ValueError):
        value = None
    if not isinstance(value, str) or not value.isprintable():
        raise Refusal("this text is not offered here", "write plain text in quotes", node.offset)
    return value
