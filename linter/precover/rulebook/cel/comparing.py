"""Comparisons: both sides of one kind, and limits in the units of the plan."""

from __future__ import annotations

import operator
from collections.abc import Callable
from typing import Any, Final

from precover.rulebook.cel.kinds import ORDERED, Kind
from precover.rulebook.cel.running import Scope
from precover.rulebook.cel.syntax import Node, Refusal
from precover.rulebook.cel.typed import Run, Typed, nearest
from precover.units import Quantity, QuantityError

SIGNS: Final[dict[str, tuple[Callable[[Any, Any], Any], str]]] = {
    "relation_eq": (operator.eq, ""),
    "relation_ne": (operator.ne, "other than"),
    "relation_ge": (operator.ge, "at least"),
    "relation_le": (operator.le, "at most"),
    "relation_gt": (operator.gt, "more than"),
    "relation_lt": (operator.lt, "less than"),
}


def comparing(left: Typed, right: Typed, compare: Callable[[Any, Any], Any], *, lacking: bool) -> Run:
    """A comparison; with something that is not there only `!=` holds. A limit is compared in the units of the plan."""
    one, other, of_left, of_right = left.run, right.run, left.cell, right.cell

    def run(scope: Scope) -> bool:
        if of_right is not None:
            has = one(scope)
            cell = of_right(scope)
            want = cell.like(has) if isinstance(has, Quantity) else cell.value
        elif of_left is not None:
            want = other(scope)
            cell = of_left(scope)
            has = cell.like(want) if isinstance(want, Quantity) else cell.value
        else:
            has, want = one(scope), other(scope)
        if has is None or want is None:
            return lacking and has is not want
        return bool(compare(has, want))

    return run


def alike(left: Typed, right: Typed, node: Node) -> tuple[Typed, Typed]:
    """Both of one kind: a text in quotes is read as the kind of the other side."""
    if left.written is not None and right.written is None:
        left = read_as(left, right.kind, node)
    elif right.written is not None and left.written is None:
        right = read_as(right, left.kind, node)
    if left.kind.sort != right.kind.sort or (left.kind.sort != "text" and left.kind.of != right.kind.of):
        raise Refusal(f"{left.kind} beside {right.kind}", "compare what is alike", node.offset)
    return left, right


def read_as(part: Typed, kind: Kind, node: Node) -> Typed:
    """A text in quotes as a value of a kind."""
    written = str(part.written)
    if kind.sort in ("quantity", "notation"):
        try:
            value = kind.of.parse(written)
        except QuantityError as problem:
            raise Refusal(problem.message, problem.hint, node.offset) from None
        return part._replace(kind=Kind(kind.sort, kind.of), run=lambda _scope: value)
    if kind.sort == "text":
        if kind.words and written not in kind.words:
            raise Refusal(
                f"`{written[:60]}` is not one of the words known here", nearest(written, list(kind.words)), node.offset
            )
        return part
    raise Refusal(f"{kind} beside a text in quotes", "write numbers, true and false without quotes", node.offset)


def ordered(part: Typed, node: Node) -> None:
    """Refuse what is neither more nor less than another."""
    of = part.kind.of
    if part.kind.sort == "number" or (isinstance(of, type) and issubclass(of, ORDERED)):
        return
    raise Refusal(f"{part.kind} is neither more nor less", "compare it with `==` or `!=`", node.offset)
