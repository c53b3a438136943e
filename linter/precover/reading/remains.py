"""What can still be read of data of which the schema refuses a part: so that all mistakes of a file are told at once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any, Final

from precover.plan import Problem
from precover.plan.thing import tokens_of


def without(data: Any, problems: Sequence[Problem]) -> Any:
    """The data with None for each refused value. Keys stay, and lists keep their length, so that every place still
    means what it did. What is said of a key alone (unknown, or missing) leaves the value beside it to be read."""
    for problem in problems:
        if not problem.key:
            data = _without(data, tokens_of(problem.place))
    return data


def _without(data: Any, tokens: list[str]) -> Any:
    if not tokens:
        return None
    first, rest = tokens[0], tokens[1:]
    if isinstance(data, dict):
        return {**data, first: _without(data[first], rest)}
    at = int(first)
    return [*data[:at], _without(data[at], rest), *data[at + 1 :]]


def keeps_its_network(problems: Sequence[Problem]) -> bool:
    """Whether everything that names, places or joins the things of a plan is left, though these problems are in it.

    Where it is not, references and circuits are not looked at: what is wrong with them may come of what was refused.
    """
    return all(
        re.fullmatch(_APART, problem.place) and not (problem.key and re.fullmatch(_JOINS, problem.place))
        for problem in problems
    )


_APART: Final = (
    r"/(site|title|rules|\$schema)(/.*)?"
    r"|/structures/[^/]+/.+"
    r"|/panels/[^/]+/(?!(at|duty)$).+"
    r"|/circuits/[^/]+/(?!(kind|from)$).+"
    r"|/boxes/[^/]+/(?!(at|devices)$)(?!devices/[^/]+(/(circuit|after|switched-by))?$).+"
    r"|/routes/[^/]+/(?!(from|to|carries|legs)$)(?!carries/[^/]+$).+"
)
"""Places of facts about a thing, which no other thing hangs on; compiled only for a plan with mistakes."""

_JOINS: Final = r"/(panels|circuits|boxes|routes)/[^/]+(/devices/[^/]+)?/[^/]+"
"""Places where a misspelt key may have meant one that joins things, and may be left out."""
