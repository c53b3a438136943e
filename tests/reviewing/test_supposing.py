"""What is asked for: what matters, and, said so, what could not be tried out."""

from __future__ import annotations

from pathlib import Path

import pytest

from precover.plan import Receptacle
from precover.reviewing import Line
from precover.reviewing.supposing import TOO_MANY
from precover.rulebook import Answer, Look, Outcome, Rulebook, Severity, Stage, Topic, met, not_met, rule
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
