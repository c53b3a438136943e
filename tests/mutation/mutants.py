"""Small faults that a test should notice, in Python source and in tables.

In source: comparisons, operands of `and` and `or`, bare conditions, arithmetic, numbers, words that decide (not those that
are only said to people), what a function of a boolean or optional result returns, `any`/`all` and `min`/`max`. In tables:
every value and its metric twin.
"""

from __future__ import annotations

import ast
import csv
import io
import re
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple


class Mutant(NamedTuple):
    """One fault. `lines` are those that run it, empty for what is worked out when the module is imported; of a table, the
    number of the row.

    `node` and `option` find it again in the text it was made from.
    """

    path: str
    where: str
    change: str
    lines: range
    node: int
    option: int

    @property
    def name(self) -> str:
        """What it is called in the list of survivors: no line numbers, which move."""
        return f"{self.path} {self.where}: {self.change}"


def mutants_of(path: str, text: str) -> list[Mutant]:
    """Every mutant of a file, in its order; of the same change in the same place, the second is numbered 2."""
    found = list(_in_table(path, text) if path.endswith(".csv") else _in_source(path, text))
    seen: Counter[str] = Counter()
    numbered = []
    for mutant in found:
        seen[mutant.name] += 1
        again = seen[mutant.name]
        numbered.append(mutant._replace(change=f"{mutant.change} (no. {again})") if again > 1 else mutant)
    return numbered


def mutated(text: str, mutant: Mutant) -> str:
    """The text with the fault."""
    return _mutated_table(text, mutant) if mutant.path.endswith(".csv") else ast.unparse(mutated_tree(text, mutant))


def mutated_tree(text: str, mutant: Mutant) -> ast.Module:
    """The syntax tree with the fault; lines and columns are those of the text."""
    tree = ast.parse(text)
    old = list(ast.walk(tree))[mutant.node]
    new = list(_options(old, _parents(tree)))[mutant.option]
    made = _Exchange(old, new).visit(tree)
    assert isinstance(made, ast.Module)
    return ast.fix_missing_locations(made)


class _Exchange(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, ast.copy_location(new, old)

    def visit(self, node: ast.AST) -> ast.AST:
        return self.new if node is self.old else self.generic_visit(node)


Parents = dict[ast.AST, ast.AST]


def _parents(tree: ast.AST) -> Parents:
    return {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}


def _in_source(path: str, text: str) -> Iterator[Mutant]:
    tree = ast.parse(text)
    parents = _parents(tree)
    for number, node in enumerate(ast.walk(tree)):
        for option, new in enumerate(_options(node, parents)):
            where, lines = _home(node, parents)
            yield Mutant(path, where, f"{_short(node)} -> {_short(new)}", lines, number, option)


def _short(node: ast.AST) -> str:
    words = " ".join(ast.unparse(node).split())
    return words if len(words) <= 90 else f"{words[:60]} ... {words[-25:]}"


def _home(node: ast.AST, parents: Parents) -> tuple[str, range]:
    """The function that a node runs in, by its qualified name, and the lines of its statement (of its head, where it
    has a body)."""
    names: list[str] = []
    statement: ast.AST | None = None
    below, at = node, parents.get(node)
    runs_later = False
    if isinstance(node, ast.stmt):
        statement = node
    while at is not None:
        if statement is None and isinstance(at, (ast.stmt, ast.match_case)):
            statement = at
        if isinstance(at, (ast.FunctionDef, ast.ClassDef)):
            names.append(at.name)
            runs_later |= isinstance(at, ast.FunctionDef) and below in at.body
        below, at = at, parents.get(at)
    if not runs_later or statement is None:
        return ".".join(reversed(names)) or "module", range(0)
    if isinstance(statement, ast.match_case):
        return ".".join(reversed(names)), range(statement.pattern.lineno, statement.pattern.end_lineno or 0)
    assert isinstance(statement, ast.stmt)
    first, last = statement.lineno, statement.end_lineno or statement.lineno
    body = getattr(statement, "body", None) or getattr(statement, "cases", None)
    if body:
        head = body[0].pattern.lineno if isinstance(body[0], ast.match_case) else body[0].lineno
        last = max(first, head - 1)
    return ".".join(reversed(names)), range(first, last + 1)


_SWAPS: dict[type[ast.AST], tuple[type[ast.AST], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Add: (ast.Sub,),
    ast.Sub: (ast.Add,),
    ast.Mult: (ast.Div,),
    ast.Div: (ast.Mult,),
    ast.FloorDiv: (ast.Mult,),
    ast.Mod: (ast.Mult,),
    ast.Pow: (ast.Mult,),
}
_CALLS = {"any": "all", "all": "any", "min": "max", "max": "min"}
_READS = ("cell", "limit", "get")
"""Calls whose words decide: elsewhere words that are passed on are said to people."""


def _options(node: ast.AST, parents: Parents) -> Iterator[ast.AST]:
    """What could stand in a node's place."""
    if isinstance(node, ast.Constant):
        yield from _other_constants(node, parents)
    elif isinstance(node, ast.Return):
        yield from (ast.Return(ast.Constant(other)) for other in _other_returns(node, parents))
    else:
        yield from _other_operations(node)
    if _is_bare_condition(node, parents):
        yield ast.UnaryOp(ast.Not(), node)  # type: ignore[arg-type]


def _other_operations(node: ast.AST) -> Iterator[ast.AST]:
    match node:
        case ast.Compare():
            for place, operator in enumerate(node.ops):
                for swap in _SWAPS[type(operator)]:
                    ops = [*node.ops[:place], swap(), *node.ops[place + 1 :]]
                    yield ast.Compare(node.left, ops, node.comparators)  # type: ignore[list-item]
        case ast.BoolOp():
            for place in range(len(node.values)):
                rest = node.values[:place] + node.values[place + 1 :]
                yield rest[0] if len(rest) == 1 else ast.BoolOp(node.op, rest)
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield operand
        case ast.BinOp() if not _joins_words(node):
            for swap in _SWAPS.get(type(node.op), ()):
                yield ast.BinOp(node.left, swap(), node.right)  # type: ignore[arg-type]
        case ast.AugAssign():
            for swap in _SWAPS.get(type(node.op), ()):
                yield ast.AugAssign(node.target, swap(), node.value)  # type: ignore[arg-type]
        case ast.Call(func=ast.Name(id=name)) if name in _CALLS:
            yield ast.Call(ast.Name(_CALLS[name], ast.Load()), node.args, node.keywords)


def _other_constants(node: ast.Constant, parents: Parents) -> Iterator[ast.Constant]:
    match node.value:
        case bool() as value if not _makes_a_type(node, parents):
            yield ast.Constant(not value)
        case str() as value if _decides(node, parents):
            yield ast.Constant(f"{value} otherwise")
        case int() | float() as value if not isinstance(value, bool) and value + 1 != value:
            yield ast.Constant(value + 1)


def _makes_a_type(node: ast.AST, parents: Parents) -> bool:
    """How a data class or a type variable is made (`frozen=True`) decides nothing."""
    while not isinstance(node, (ast.stmt, ast.Module)):
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "TypeVar":
            return True
        node = parents[node]
    return isinstance(node, ast.ClassDef)


def _joins_words(node: ast.BinOp) -> bool:
    return any(isinstance(side, (ast.JoinedStr, ast.List, ast.Tuple)) for side in (node.left, node.right))


def _decides(node: ast.Constant, parents: Parents) -> bool:
    """A word that something is looked up by, compared with or chosen from; not one that is only said, as several words
    are that stand by themselves, nor one that is in a decorator (the rows of a rule have a test of their own)."""
    above = parents[node]
    if isinstance(above, ast.Call):
        return isinstance(above.func, ast.Attribute) and above.func.attr in _READS
    if " " in node.value and isinstance(above, (ast.IfExp, ast.Assign, ast.AnnAssign, ast.Return, ast.BoolOp)):
        return False
    if " " in node.value and isinstance(above, ast.Tuple) and _is_unpacked(above, parents):
        return False
    if isinstance(above, (ast.Expr, ast.keyword, ast.arg)) or getattr(above, "annotation", None) is node:
        return False
    while isinstance(above, (ast.expr, ast.keyword)):
        if isinstance(above, ast.JoinedStr) or _names_a_type(above):
            return False
        above = parents[above]
    return not isinstance(above, (ast.FunctionDef, ast.arguments))


def _is_unpacked(node: ast.Tuple, parents: Parents) -> bool:
    """Several values that are given several names at once."""
    above = parents[node]
    return isinstance(above, ast.Assign) and isinstance(above.targets[0], ast.Tuple)


def _names_a_type(node: ast.expr) -> bool:
    return isinstance(node, ast.Subscript) and ast.unparse(node.value) == "Literal"


def _other_returns(node: ast.Return, parents: Parents) -> tuple[bool | None, ...]:
    if node.value is None or isinstance(node.value, ast.Constant):
        return ()
    at: ast.AST = node
    while not isinstance(at, (ast.FunctionDef, ast.Lambda)):
        at = parents[at]
    result = ast.unparse(at.returns) if isinstance(at, ast.FunctionDef) and at.returns else ""
    if result == "bool":
        return True, False
    return (None,) if result.endswith("| None") else ()


def _is_bare_condition(node: ast.AST, parents: Parents) -> bool:
    """A condition that is neither a comparison nor made of others, which have mutants of their own."""
    above = parents.get(node)
    if isinstance(node, (ast.Compare, ast.BoolOp, ast.UnaryOp, ast.Constant)):
        return False
    return (isinstance(above, (ast.If, ast.IfExp, ast.While)) and above.test is node) or (
        isinstance(above, ast.comprehension) and node in above.ifs
    )


def _rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


def _in_table(path: str, text: str) -> Iterator[Mutant]:
    header, *rows = _rows(text)
    keys = header.index("holds")
    for number, row in enumerate(rows):
        for column in ("value", "metric"):
            if row[header.index(column)]:
                change = f"{column} {row[header.index(column)]} -> {_other(header, rows, number, column)}"
                yield Mutant(
                    path, " / ".join(row[:keys]), change, range(number, number + 1), number, header.index(column)
                )


def _mutated_table(text: str, mutant: Mutant) -> str:
    header, *rows = _rows(text)
    rows[mutant.node][mutant.option] = _other(header, rows, mutant.node, header[mutant.option])
    written = io.StringIO()
    csv.writer(written, lineterminator="\n").writerows([header, *rows])
    return written.getvalue()


def _other(header: list[str], rows: list[list[str]], number: int, column: str) -> str:
    """Another value that could stand in the same place: one more, or what another row holds."""
    place, holds = header.index(column), header.index("holds")
    value, kind = rows[number][place], rows[number][holds]
    if kind == "yes or no":
        return "no" if value == "yes" else "yes"
    if kind not in ("word", "size") and re.search(r"\d", value):
        return re.sub(r"\d+(\.\d+)?", lambda found: _one_more(found.group()), value, count=1)
    after = rows[number + 1 :] + rows[:number]
    return next((row[place] for row in after if row[holds] == kind and row[place] not in ("", value)), f"{value} more")


def _one_more(digits: str) -> str:
    """The number with one more in its last place."""
    places = len(digits.partition(".")[2])
    return f"{(int(digits.replace('.', '')) + 1) / 10**places:.{places}f}"
