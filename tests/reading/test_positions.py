"""Where things stand in a text: the range of every place is the text of its value."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import yaml
from hypothesis import HealthCheck, given, settings

from precover.plan.thing import escaped, tokens_of
from precover.reading import Document, Range, Source, parse
from support.plans import plans
from support.reviews import EXAMPLES, data_of


def places(data: Any, place: str = "") -> Iterator[str]:
    """The JSON Pointer of every value."""
    yield place
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inner:
        yield from places(value, f"{place}/{escaped(str(key))}")


def value_at(data: Any, place: str) -> Any:
    """The value at a JSON Pointer."""
    for token in tokens_of(place):
        data = data[int(token)] if isinstance(data, list) else data[token]
    return data


def cut(text: str, stretch: Range) -> str:
    """A stretch of a text, with the columns ahead of it, so that a block keeps its indentation."""
    lines = text.split("\n")[stretch.line - 1 : stretch.end_line]
    lines[-1] = lines[-1][: stretch.end_column - 1]
    lines[0] = " " * (stretch.column - 1) + lines[0][stretch.column - 1 :]
    return "\n".join(lines)


def holds_everywhere(text: str) -> None:
    """Each value but the whole is read again from its own stretch."""
    document = parse(Source("x", text))
    for place in places(document.data):
        if place:
            stretch = document.range(place)
            assert data_of(cut(text, stretch)) == value_at(document.data, place), place
            key = document.range(place, key=True)
            assert (key.line, key.column) <= (stretch.line, stretch.column)


def test_every_place_of_the_examples() -> None:
    """Blocks and flows, quoted and plain."""
    for example in EXAMPLES.glob("*.yaml"):
        holds_everywhere(example.read_text(encoding="utf-8"))


@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(plans())
def test_every_place_of_a_plan_however_it_is_laid_out(data: dict[str, Any]) -> None:
    """As JSON in one line and in many, and as YAML in blocks."""
    holds_everywhere(json.dumps(data, ensure_ascii=False))
    holds_everywhere(json.dumps(data, ensure_ascii=False, indent=2))
    holds_everywhere(yaml.safe_dump(data, allow_unicode=True, sort_keys=False))


def test_what_is_not_there_stands_at_its_nearest_parent() -> None:
    """A fact that the plan leaves out is marked at the key of the thing that it is about."""
    document: Document = parse(Source("x", "boxes:\n  post-box:\n    at: post\nrules: []\n"))
    assert document.range("/boxes/post-box/box/volume") == Range(2, 3, 2, 11)
    assert document.range("/boxes/none/at") == Range(1, 1, 1, 6)
    assert document.range("/routes") == Range(1, 1, 1, 1)
    assert document.range("/rules/3") == Range(4, 1, 4, 6)
    assert document.range("/rules/x") == Range(4, 1, 4, 6)


def test_columns_count_code_points() -> None:
    """Not bytes, and not halves of surrogate pairs."""
    document = parse(Source("x", 'title: "𝛀°é"\nsite: {frost: true}\n'))
    assert document.range("/title") == Range(1, 8, 1, 13)
    assert parse(Source("x", "a: {𝛀: 1, b: 2}\n")).range("/a/b") == Range(1, 14, 1, 15)
