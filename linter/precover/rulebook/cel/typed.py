"""Checked parts of an expression, and what an expression can name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from difflib import get_close_matches
from typing import Any, NamedTuple

from precover.rulebook.cel.kinds import Field, Kind
from precover.rulebook.cel.running import Scope
from precover.rulebook.table import Cell

Run = Callable[[Scope], Any]


class Typed(NamedTuple):
    """A checked part: its kind, and what gives its value; None stands for what is not there.

    `written` is a text in quotes, which may be read as the kind that it is compared with; `cell` gives the cell of a
    limit; `path` is how the author named it, where it is a field.
    """

    kind: Kind
    run: Run
    written: str | None = None
    cell: Callable[[Scope], Cell] | None = None
    path: str = ""
    field: Field | None = None


class Comparison(NamedTuple):
    """An expression that is one comparison of a fact: what it looks at, how the two relate, what it is compared with."""

    fact: Typed
    relation: str
    other: Typed


class Expression(NamedTuple):
    """A checked expression that says yes or no; `whole` where it is one comparison, `cells` what it compares with."""

    text: str
    run: Run
    whole: Comparison | None
    cells: tuple[tuple[str, tuple[str, ...]], ...]


class Known(NamedTuple):
    """What an expression can name: variables with their kinds and values, limits and table cells, statements."""

    names: Mapping[str, Kind]
    cell_kind: Callable[[str, tuple[str, ...]], Kind]
    """The kind of a table's cell; Refusal where there is none."""
    statements: Mapping[str, Typed]


def nearest(name: str, known: list[str]) -> str:
    """The nearest of the names that are known, or all of them."""
    near = get_close_matches(name, [str(one) for one in known], n=1, cutoff=0.5)
    return f"did you mean `{near[0]}`?" if near else f"known here: {', '.join(sorted(map(str, known)))}"
