"""Hover, hints, outline and folding: what is known of a thing, where it stands."""

from __future__ import annotations

import pytest
from lsprotocol import types

from precover.editor.facts import facts_of, thing_at
from precover.editor.hints import HINTED, hints
from precover.editor.hover import hover
from precover.editor.outline import folding, outline
from precover.editor.texts import OpenText
from precover.rulebook import Outcome
from support.open_texts import FAILING, at, look, opened, text_of
from support.reviews import library

PLAN = text_of(FAILING)
WHOLE = types.Range(types.Position(0, 0), types.Position(9999, 0))


def over(text: OpenText, needle: str) -> str:
    """The hover on the second letter of what stands somewhere."""
    found = hover(text, at(text, needle, 1))
    assert found is not None and isinstance(found.contents, types.MarkupContent)
    return found.contents.value


@pytest.mark.parametrize(
    ("needle", "says"),
    [
        (
            "cover: 10",
            ["**Cover**", "Unit: in, ft", "`18 in`", "cover: 10 in; needed: at least 18 in; not met", "set by us-2023"],
        ),
        (
            "buried: lawn",
            [
                "**Buried under**",
                "protected on studio by: box terrace-box, receptacle terrace-outlet (ground fault: true)",
            ],
        ),
        (
            "yard:",
            [
                "**route yard**",
                "length of its legs: 52.667 ft",
                "bends: 90°, 90°",
                "fill: 0.169 in²; needed: at most 0.269 in²; met",
            ],
        ),
        ("raceway: PVC-40", ["**Raceway**", "fill: 0.169 in²"]),
        ("entry-box:", ["circuits in it: studio", "volume: 34 in³; needed: at least 22.5 in³; met"]),
        (
            "studio:\n    kind",
            ["protected by: circuit studio, breaker (20 A, ground fault: none)", "voltage drop of studio: up to 2.7 %"],
        ),
        ("house-panel:", ["circuits from it: studio"]),
        ("main-switch:", ["rating of the switch"]),
        ("wet\n", ["**Location**"]),
    ],
)
def test_hover(needle: str, says: list[str]) -> None:
    """The meaning of the field, and the numbers of the thing."""
    found = over(opened(PLAN), needle)
    for words in says:
        assert words in found, found


def test_hover_says_nothing_of_what_is_nothing() -> None:
    """In the void, and where no schema and no thing is."""
    text = opened(PLAN)
    assert hover(text, types.Position(3, 0)) is None
    assert hover(opened("a: 1\n"), types.Position(0, 0)) is None


def test_hover_while_the_text_cannot_be_read() -> None:
    """From the last review, and it says so."""
    text = opened(PLAN)
    text.take(PLAN.replace("title:", "]title:", 1), 2)
    look(text)
    assert "(as last reviewed)" in over(text, "yard:") and "**Cover**" in over(text, "cover: 10")


def test_hover_shows_text_of_the_plan_as_text() -> None:
    """Nothing in a plan becomes a link or a picture."""
    plan = PLAN.replace("studio: {use", "studio: {use").replace(
        "kind: branch circuit", "kind: branch circuit\n    serves: '![x](http://x)'"
    )
    assert "](" not in over(opened(plan), "studio:\n    kind")


def test_the_numbers_are_those_of_the_ledger() -> None:
    """Every number that a rule compared for a leg, and no line that is not in the ledger."""
    made = opened(PLAN).now
    assert made is not None
    leg = thing_at(made.review, "/routes/yard/legs/2/cover")
    assert leg is not None and leg.place == "/routes/yard/legs/2"
    compared = [line for line in made.review.ledger if line.subject == leg.place and line.answer.limit is not None]
    told = facts_of(made.review, leg)
    assert compared and all(any(str(line.answer.needs) in fact for fact in told) for line in compared)


def test_hints() -> None:
    """Cover, fill, drop and box fill at the ends of their lines, within the range that is asked for."""
    text = opened(PLAN)
    found = {(hint.position.line, str(hint.label)) for hint in hints(text, WHOLE)}
    ends = {line: len(words) for line, words in enumerate(text.text.splitlines())}
    assert (at(text, "cover: 10").line, "cover: 10 in, at least 18 in") in found
    assert {label.partition(":")[0] for _, label in found} == set(HINTED.values())
    assert all(hint.position.character == ends[hint.position.line] for hint in hints(text, WHOLE))
    line = at(text, "cover: 10").line
    assert len(hints(text, types.Range(types.Position(line, 0), types.Position(line, 5)))) == 1
    text.take("]", 2)
    assert hints(text, WHOLE) == []


def test_hinted_topics_are_there() -> None:
    """And compare numbers in the bundled plans."""
    assert set(HINTED) <= set(library().topics)
    made = opened(PLAN).now
    assert made is not None
    told = {line.rule.topic for line in made.review.ledger if line.answer.outcome in (Outcome.MET, Outcome.NOT_MET)}
    assert set(HINTED) <= told


def test_outline() -> None:
    """Sections, things, legs and devices, each within the one above it."""
    text = opened(PLAN)
    symbols = outline(text)
    assert [symbol.name for symbol in symbols] == ["structures", "panels", "circuits", "boxes", "routes"]
    yard = next(symbol for symbol in symbols[-1].children or () if symbol.name == "yard")
    assert [leg.name for leg in yard.children or ()][2] == "leg 3 (buried, lawn)"
    entry = next(symbol for symbol in symbols[3].children or () if symbol.name == "entry-box")
    assert [device.name for device in entry.children or ()] == ["main-switch", "bench-outlet"]

    def nested(symbol: types.DocumentSymbol) -> None:
        chosen = symbol.selection_range
        assert symbol.range.start <= chosen.start and chosen.end <= symbol.range.end, symbol.name
        for inner in symbol.children or ():
            assert symbol.range.start <= inner.range.start and inner.range.end <= symbol.range.end
            nested(inner)

    for symbol in symbols:
        nested(symbol)


def test_folding() -> None:
    """From a key to the last line below it."""
    text = opened(PLAN)
    folds = {(fold.start_line, fold.end_line) for fold in folding(text)}
    yard = at(text, "  yard:").line
    assert (yard, at(text, "  ceiling:\n").line - 1) in folds
    assert all(start < end for start, end in folds)
