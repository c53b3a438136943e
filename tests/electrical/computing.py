"""The register of computations that published worked examples are compared with."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

Given = dict[str, Any]
Result = dict[str, Any]

COMPUTATIONS: dict[str, Callable[[Given], Result]] = {}
RECORDS = Path(__file__).parents[1] / "published" / "worked.jsonl"


def computes(name: str) -> Callable[[Callable[[Given], Result]], Callable[[Given], Result]]:
    """Registers what computes records of that name: from what is given to a value for each published one."""

    def register(function: Callable[[Given], Result]) -> Callable[[Given], Result]:
        assert name not in COMPUTATIONS, name
        COMPUTATIONS[name] = function
        return function

    return register


@cache
def records() -> tuple[dict[str, Any], ...]:
    """Every worked example."""
    return tuple(json.loads(line) for line in RECORDS.read_text(encoding="utf-8").splitlines())


def agrees(published: Any, computed: Any, tolerance: float | None = None) -> bool:
    """Whether a computed value is the published one, to half a unit of the last decimal that is printed.

    `tolerance` takes the place of that half unit where the publication rounded on the way.
    """
    if isinstance(published, list):
        return len(published) == len(computed) and all(map(agrees, published, computed))
    if isinstance(published, bool | str) or published is None:
        return type(published) is type(computed) and published == computed
    if isinstance(computed, int | float | Fraction) and not isinstance(computed, bool):
        text = str(published)
        decimals = len(text.partition(".")[2])
        return abs(float(computed) - published) < (tolerance or 0.5 * 10**-decimals)
    return False


def compare(record: Given) -> tuple[Result, list[str]]:
    """What is computed for a record, and the names of the values that are not the published ones."""
    computed = COMPUTATIONS[record["computation"]](record["given"])
    tolerance = record.get("tolerance", {})
    off = [
        name
        for name, published in record["published"].items()
        if not agrees(published, computed.get(name), tolerance.get(name))
    ]
    return computed, off
