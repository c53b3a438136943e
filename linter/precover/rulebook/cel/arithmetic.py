"""Sums, differences and products of numbers and quantities."""

from __future__ import annotations

import operator

from precover.rulebook.cel.comparing import alike
from precover.rulebook.cel.core import Core
from precover.rulebook.cel.kinds import NUMBER, Kind
from precover.rulebook.cel.running import Scope
from precover.rulebook.cel.syntax import Node, Refusal
from precover.rulebook.cel.typed import Typed
from precover.units import Quantity


class Arithmetic(Core):
    """The part of the checker that reckons."""

    def _addition(self, node: Node) -> Typed:
        sign, right = node.parts[0], self.of(node.parts[1])
        left = self.of(sign.parts[0])
        left, right = alike(left, right, node)
        if left.kind.sort not in ("number", "quantity"):
            raise Refusal(f"{left.kind} cannot be added up", "numbers and quantities can", node.offset)
        add = operator.add if sign.rule == "addition_add" else operator.sub
        one, other = left.run, right.run
        if left.kind.sort == "number":
            return Typed(NUMBER, lambda scope: add(one(scope), other(scope)))
        kind: type[Quantity] = left.kind.of

        def run(scope: Scope) -> Quantity | None:
            has, more = one(scope), other(scope)
            return None if has is None or more is None else kind.of(add(has.amount, more.amount), kind.base)

        return Typed(Kind("quantity", kind), run)

    def _multiplication(self, node: Node) -> Typed:
        sign, right = node.parts[0], self.of(node.parts[1])
        left = self.of(sign.parts[0])
        if sign.rule != "multiplication_mul":
            raise Refusal("division is not offered here", "multiply by a number, like `* 0.5`", node.offset)
        if left.kind.sort == "number" and right.kind.sort == "quantity":
            left, right = right, left
        if right.kind.sort != "number" or left.kind.sort not in ("number", "quantity"):
            raise Refusal(f"{left.kind} times {right.kind}", "multiply by a number", node.offset)
        one, other = left.run, right.run
        if left.kind.sort == "number":
            return Typed(NUMBER, lambda scope: one(scope) * other(scope))
        kind: type[Quantity] = left.kind.of

        def run(scope: Scope) -> Quantity | None:
            has = one(scope)
            return None if has is None else kind.of(has.amount * other(scope), kind.base)

        return Typed(Kind("quantity", kind), run)
