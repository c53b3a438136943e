"""Whole reviews, word for word: of the bundled examples, and of every plan in a topic's document.

A changed rule, table cell, wording or position shows here as a difference to be read and then accepted with
`pytest --rewrite-golden`.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from precover.reviewing import Line, Review, place_in_words
from precover.rulebook import Outcome, Topic
from support.documents import plans_of
from support.reviews import EXAMPLES, library, reviewed, reviewed_example

HERE = Path(__file__).parent
TOPICS = list(library().topics.values())


def told(review: Review, line: Line) -> str:
    """One line of the ledger with everything that could change."""
    answer = line.answer
    at = review.document.range(line.place)
    words = [
        f"{answer.outcome.value}: {line.rule.id}",
        f"  at line {at.line}, {place_in_words(review.trace.plan, line.place)} ({line.place})",
        f"  {answer.of}: {answer.has}"
        + (f"; needs {answer.relation} {answer.needs}".replace("  ", " ") if answer.needs else ""),
        *([f"  why: {answer.why}"] if answer.why else []),
        *(f"  step: {step}" for step, _ in line.steps),
        *(f"  way out: {way.words} {list(way.patch)}" for way in answer.proposals),
    ]
    return "\n".join(words)


def whole(review: Review, topic: str = "") -> str:
    """Every line that applies, the inspection list, and the tally."""
    lines = [line for line in review.ledger if line.answer.outcome is not Outcome.DOES_NOT_APPLY]
    shown = [told(review, line) for line in lines if not topic or line.rule.topic == topic]
    inspect = [
        f"inspect ({entry.item.stage.value}): {entry.says}"
        for entry in review.inspect
        if not topic or entry.item.id.startswith(f"{topic}/")
    ]
    tally = [] if topic else [", ".join(f"{count} {outcome.value}" for outcome, count in review.tally.items())]
    return "\n".join([*shown, *inspect, *tally]) + "\n"


def compare(name: str, found: str, rewrite: bool) -> None:
    """The text found against the text kept."""
    kept = HERE / f"{name}.txt"
    if rewrite:
        kept.write_text(found, encoding="utf-8")
    assert found == kept.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.plan.yaml")), ids=lambda path: path.name.split(".")[0])
def test_review_of_an_example(path: Path, rewrite_golden: bool) -> None:
    """The whole ledger of a bundled example."""
    compare(f"example-{path.name.split('.')[0]}", whole(reviewed(path.read_bytes())), rewrite_golden)


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_review_of_a_topics_plans(topic: Topic, rewrite_golden: bool) -> None:
    """What a topic says of each of its failing and passing plans."""
    parts = []
    for kind in ("Fails", "Passes"):
        for number, (base, patch) in enumerate(plans_of(topic, kind), start=1):
            parts.append(f"== {kind} {number}, on {base}\n{whole(reviewed_example(base, patch), topic.id)}")
    compare(f"topic-{topic.id.replace('/', '-')}", "\n".join(parts), rewrite_golden)
