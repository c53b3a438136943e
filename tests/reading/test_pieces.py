"""A text read piece by piece is the text read whole: the same data, places and problems, whatever was edited before."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import precover
from precover.plan.thing import escaped
from precover.reading import Document, PlanUnreadable, Source, parse
from precover.reading import pieces as pieces_module
from precover.reading.pieces import Pieces, pieces_of

EXAMPLES = sorted((Path(precover.__file__).parent / "examples").glob("*.plan.yaml"))
TEXTS = [path.read_text(encoding="utf-8") for path in EXAMPLES]


def pointers(data: Any, above: str = "") -> list[str]:
    """Every place of plain data, and one in each thing that is not there."""
    entries = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    below = [place for key, value in entries for place in pointers(value, f"{above}/{escaped(str(key))}")]
    return [above, f"{above}/not-there", *below]


def said(read: Any) -> Any:
    """Everything that a reading says."""
    try:
        document: Document = read()
    except PlanUnreadable as problem:
        return problem.problems
    places = pointers(document.data)
    ranges = [(place, document.range(place), document.range(place, key=True)) for place in places]
    order = list(document.data) if isinstance(document.data, dict) else None
    return order, document.data, ranges


def same(pieces: Pieces, text: str) -> None:
    """Read by pieces and whole."""
    source = Source("plan", text)
    assert said(lambda: pieces.read(source)) == said(lambda: parse(source)), text


@pytest.mark.parametrize("text", TEXTS, ids=[path.name.partition(".")[0] for path in EXAMPLES])
def test_the_bundled_plans(text: str) -> None:
    """Cut into entries, with either line end."""
    for written in (text, text.replace("\n", "\r\n")):
        cut = pieces_of(written)
        assert cut is not None and any(piece.section == "panels" and piece.name for piece in cut)
        same(Pieces(), written)


TRICKY = [
    "a:\n  x: 1\n  x: 2\n",
    "a:\n  x: 1\nb: 2\na:\n  y: 1\n",
    "a:\n  x: 'open\n  y: closed'\n",
    "a:\n  x: {p: 1,\n  y: 2}\n",
    "a: [1,\nb: 2]\n",
    "a: |\n  x: 1\n  y: 2\nb: 1\n",
    "a:\n  x: &here 1\n  y: *here\n",
    "a:\n  x: !tag 1\n  y: 2\n",
    "a:\n  - x: 1\n  - y: 2\nb:\n- 1\n- 2\n",
    "a:\n  x: one\n   two\n  y: 3\n",
    "a:\n    x: 1\n  y: 2\n",
    "a:\n\tx: 1\n",
    "a:\n  x:\n  y:\n    z: 1\nb:\n",
    "--- \na:\n  x: 1\n",
    "a:\n  x: 1\n...\nb:\n  y: 1\n",
    "%YAML 1.1\n---\na:\n  x: 1\n",
    "a:\n  x: 1 # ends\n\n  # between\n\n  y: 2\n# last",
    "a: # bare\n  x: 1\r  y: 2\n",
    "a:\n  x: 1\x85  y: 2\n",
    "a:\n  x: 1\u2028b: 2\n",
    "a:\n  x: '\U0001f4a1 é'\n  y: {k: \U0001f4a1, l: 2}\n",
    "a:\n  true: 1\n  null: 2\n",
    "? a\n: b\n",
    "a:\n  ? x\n  : y\n",
    "\ufeffa:\n  x: 1\n",
    "a:\n  x: 1\x00\n",
    "a:\n  <<: 1\n",
    "",
    "# nothing\n",
    "just words\n",
    "a:b\n  x: 1\n",
    "a:\n  x:1\n  y: 2\n",
]


@pytest.mark.parametrize("text", TRICKY, ids=range(len(TRICKY)))
def test_layouts_that_look_like_entries_and_are_not(text: str) -> None:
    """Open quotes and brackets, block texts, references, other line breaks."""
    same(Pieces(), text)


MARKS = st.sampled_from(
    ["\n", "  ", "    ", ":", ": ", "- ", "{", "}", "[", "]", "'", '"', "#", "|", "&a", "*a", "\r", "x"]
)


@settings(max_examples=150, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from([*TEXTS, *TRICKY]), st.data())
def test_after_random_edits(text: str, draw: st.DataObject) -> None:
    """One reader takes version after version, readable or not."""
    pieces = Pieces()
    for _ in range(draw.draw(st.integers(1, 5))):
        start = draw.draw(st.integers(0, len(text)))
        end = draw.draw(st.integers(start, min(len(text), start + 40)))
        kept = draw.draw(MARKS | st.just(text[end : end + 30]))
        text = text[:start] + kept + text[end:]
        same(pieces, text)


def test_only_what_changed_is_parsed(monkeypatch: pytest.MonkeyPatch) -> None:
    """An edit in one entry costs that entry."""
    pieces, parsed = Pieces(), []
    pieces.read(Source("plan", TEXTS[0]))

    def noted(source: Source) -> Document:
        parsed.append(source.text)
        return parse(source)

    monkeypatch.setattr(pieces_module, "parse", noted)
    edited = TEXTS[0].replace("house-panel:\n", "house-panel:\n    # new\n", 1)
    document = pieces.read(Source("plan", edited))
    assert len(parsed) == 1 and "# new" in parsed[0]
    assert document.range("/circuits") == parse(Source("plan", edited)).range("/circuits")
