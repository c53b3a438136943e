"""What is asked for: what matters, and, said so, what could not be tried out."""

from __future__ import annotations

from pathlib import Path

import pytest

from precover.plan import Box, Receptacle
from precover.reviewing import Line
from precover.reviewing.supposing import TOO_MANY
from precover.rulebook import Answer, Look, Outcome, Rulebook, Severity, Stage, Topic, met, not_met, rule
from precover.units import Volume
from support.narrowed import Shelf, review_with
from support.reviews import example, library

FACTS = [key for key, fact in Receptacle.facts.items() if fact.type is bool and fact.kind == "fact"][:7]
"""Of yes or no each: six have 126 combinations to try, seven 254, more than are tried."""
OUTLET = "/boxes/post-box/devices/outlet"


def answered(read: int, *, always: bool = False) -> Line:
    """What a rule answers that reads so many facts of a receptacle of which only the rating is stated; it is met whatever
    they are (`always`), or only where the last is true."""

    @rule(looks_at=Receptacle, severity=Severity.ADVICE, stage=Stage.FINAL, look_up="here")
    def reads(receptacle: Receptacle, look: Look) -> Answer:
        """It reads them."""
        values = [look.stated(getattr(receptacle, key)) for key in FACTS[:read]]
        look.because(f"read {read}")
        return met("outlet", "so") if always or values[-1] else not_met("outlet", "not so", "so")

    topic = Topic("trial/reads", Path(__file__), (reads.named("trial/reads", "reads"),), ())
    book = library().book()
    data = example("orchard-pump")
    data["boxes"]["post-box"]["devices"] = {"outlet": {"receptacle": "20 A"}}
    (line,) = review_with(Shelf(Rulebook(book.packs, {topic.id: topic}, book.tables)), data).ran
    return line


@pytest.mark.parametrize("read", range(1, 7))
def test_facts_that_do_not_matter_are_not_asked_for(read: int) -> None:
    """And the derivation says of each that it could not change the answer, once."""
    line = answered(read, always=True)
    assert line.answer.outcome is Outcome.MET
    said = [place for step, place in line.steps if step.endswith("could not change the answer")]
    assert sorted(map(str, said)) == sorted(f"{OUTLET}/{key.replace('_', '-')}" for key in FACTS[:read])
    assert [step for step, place in line.steps if place is None] == [f"read {read}"]


@pytest.mark.parametrize("read", range(1, 7))
def test_the_fact_that_matters_is_asked_for(read: int) -> None:
    """Not one of those before it."""
    answer = answered(read).answer
    assert answer.outcome is Outcome.CANNOT_TELL
    assert answer.asks is not None
    assert answer.asks.field == FACTS[read - 1].replace("_", "-")
    assert answer.why == ""


@pytest.mark.parametrize("always", [True, False])
def test_where_not_all_can_be_tried_the_query_says_so(always: bool) -> None:
    """The first fact is asked for, whether it matters or not."""
    answer = answered(7, always=always).answer
    assert answer.outcome is Outcome.CANNOT_TELL
    assert answer.asks is not None
    assert answer.asks.field == FACTS[0].replace("_", "-")
    assert answer.why == TOO_MANY


VOLUMES = ("12.5 in³", "21.0 in³", "30.3 in³")
"""Of standard boxes: limits that the rule below reads."""


def answered_by_volume(low: str, high: str) -> Answer:
    """What a rule answers that three limits take part in, and that is not met from `low` up to below `high`."""

    @rule(looks_at=Box, severity=Severity.ADVICE, stage=Stage.FINAL, look_up="here")
    def reads(box: Box, look: Look) -> Answer:
        """It reads them."""
        volume = look.stated(box.box.volume)
        for key in look.keys("box-volume"):
            if look.find("box-volume", *key).text not in VOLUMES:  # type: ignore[union-attr]
                look.cells.pop()
        wrong = Volume.parse(low) <= volume < Volume.parse(high)
        return not_met("volume", volume, "another") if wrong else met("volume", volume)

    topic = Topic("trial/reads", Path(__file__), (reads.named("trial/reads", "reads"),), ())
    book = library().book()
    data = example("orchard-pump")
    data["boxes"] = {"post-box": {**data["boxes"]["post-box"], "box": {}}}
    lines = review_with(Shelf(Rulebook(book.packs, {topic.id: topic}, book.tables)), data).ran
    return next(line.answer for line in lines if line.subject == "/boxes/post-box")


@pytest.mark.parametrize(
    ("low", "high"),
    [
        ("0 in³", "1 in³"),
        ("9999 in³", "10001 in³"),
        ("12.5 in³", "12.6 in³"),
        ("21 in³", "21.1 in³"),
        ("12.6 in³", "20.9 in³"),
        ("21.1 in³", "30 in³"),
        ("1 in³", "12 in³"),
        ("31 in³", "9000 in³"),
    ],
)
def test_a_fact_that_matters_between_its_ends_is_asked_for(low: str, high: str) -> None:
    """At a limit that is read, between two of them, or beyond the last."""
    answer = answered_by_volume(low, high)
    assert answer.outcome is Outcome.CANNOT_TELL
    assert answer.asks is not None and answer.asks.field == "volume"


def test_a_fact_that_matters_nowhere_is_not_asked_for() -> None:
    """Though limits are read."""
    assert answered_by_volume("20000 in³", "20001 in³").outcome is Outcome.MET
