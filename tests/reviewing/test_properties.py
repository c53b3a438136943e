"""What holds for every rule that is registered, whoever wrote it, on plans of every shape."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

from hypothesis import assume, given
from hypothesis import strategies as st

from precover.plan import BuriedLeg, Leg
from precover.reviewing import Line, Review, place_in_words
from precover.reviewing.supposing import TOO_MANY
from precover.rulebook import Outcome
from precover.units import Length
from support.changed_plans import changed_plans
from support.edits import Stated, copied, in_millimetres, renamed, shuffled, stated, with_value
from support.facts import as_written
from support.narrowed import one_rule, outcomes, review_with, without_metric_twins
from support.plans import plans
from support.reviews import library, reviewed
from support.tried import tried

Data = dict[str, Any]

WANTING = frozenset({Outcome.NOT_MET, Outcome.CANNOT_TELL})
EITHER = changed_plans() | plans() | plans(whole=True)
"""Plans as people write them with some things changed, plans that leave facts out, and plans that state every one."""


def test_every_rule_answers_about_every_subject_it_looks_at() -> None:
    """No rule fails on any plan, and each answer has what it needs to be told. Nine of ten rules have more to tell on some
    of these plans than that it does not apply; each has on the plans of its document (see the tests of the topics)."""
    told: set[str] = set()

    @tried(80)
    @given(EITHER)
    def answers(data: Data) -> None:
        review = reviewed(data)
        assert review.failures == ()
        for line in review.ledger:
            _can_be_told(line, review)
            if line.answer.outcome is not Outcome.DOES_NOT_APPLY:
                told.add(line.rule.id)

    answers()
    rules = {part.id for topic in library().book().topics.values() for part in topic.rules}
    silent = sorted(rules - told)
    assert len(silent) <= len(rules) // 10, silent


def _can_be_told(line: Line, review: Review) -> None:
    answer = line.answer
    assert place_in_words(review.trace.plan, line.place)
    assert review.document.range(line.place).line > 0
    if answer.outcome is Outcome.DOES_NOT_APPLY:
        assert answer.why, line.rule.id
    elif answer.outcome is Outcome.CANNOT_TELL:
        assert answer.asks is not None or answer.why, line.rule.id
    else:
        assert answer.of, line.rule.id
        assert answer.has != "", line.rule.id


@tried(12)
@given(EITHER, st.randoms(use_true_random=False))
def test_the_order_of_keys_changes_nothing(data: Data, chance: random.Random) -> None:
    """A mapping has no order: the same plan written in another gets the same answers."""
    assert outcomes(reviewed(shuffled(data, chance))) == outcomes(reviewed(data))


@tried(12)
@given(EITHER)
def test_names_change_nothing(data: Data) -> None:
    """Ids are the author's own: other ones, that sort otherwise, get the same answers."""
    before, after = reviewed(data), reviewed(renamed(data, _reversed))
    assert _answers(after) == _answers(before)


def _reversed(name: str) -> str:
    return f"n{name[::-1]}"


def _answers(review: Review) -> list[tuple[str, str]]:
    """Rule and outcome, in the order of the plan."""
    return [(line.rule.id, line.answer.outcome.value) for line in review.ran]


@tried(8)
@given(EITHER)
def test_the_same_length_in_millimetres_gets_the_same_answer(data: Data) -> None:
    """18 in and 457.2 mm are one length. Where a limit has a metric twin, rounded by those who print both, the twin
    holds for metric plans on purpose; under limits without twins nothing may differ."""
    metric = in_millimetres(data)
    book = without_metric_twins()
    assert _answers(review_with(book, metric)) == _answers(review_with(book, data))
    for line, twin in zip(reviewed(data).ran, reviewed(metric).ran, strict=True):
        if line.answer.outcome is not twin.answer.outcome:
            assert any(cell.twin_text for cell in (*line.cells, *twin.cells)) or _unclear(line, twin)


def _unclear(*lines: Line) -> bool:
    """Whether one of these came without a derivation, and so without the cells it read."""
    return any(line.answer.outcome in (Outcome.CANNOT_TELL, Outcome.DOES_NOT_APPLY) for line in lines)


@tried(12)
@given(EITHER, st.sampled_from(["1 in", "12 in", "5 ft"]))
def test_deeper_cover_never_adds_a_finding(data: Data, more: str) -> None:
    """Wiring that lies deeper is not worse protected."""
    deeper = copied(data)
    covers = [found for found in stated(deeper) if found.fact is BuriedLeg.facts["cover"]]
    assume(covers)
    for found in covers:
        amount = Length.parse(found.value).amount + Length.parse(more).amount
        found.within["cover"] = f"{float(amount / Length.factors['in']):.9f} in"
    _never(_pairs(reviewed(data), reviewed(deeper)), {Outcome.MET, Outcome.DOES_NOT_APPLY}, WANTING)


@tried(20)
@given(EITHER, st.data())
def test_leaving_a_fact_out_never_settles_it(data: Data, pick: st.DataObject) -> None:
    """What is not met is, without one of its facts, not met still or cannot be told; and what is met is never failed
    for a fact that is not there. Only a contradiction ends where one of its sides is no longer stated."""
    facts = [found.place for found in stated(data) if found.fact.kind == "fact" and not _stands_in(found)]
    assume(facts)
    place = pick.draw(st.sampled_from(facts), label="left out")
    less = copied(data)
    gone = next(found for found in stated(less) if found.place == place)
    del gone.within[gone.fact.key]
    pairs = [pair for pair in _pairs(reviewed(data), reviewed(less)) if pair[0].rule.topic != CONTRADICTIONS]
    _never(pairs, {Outcome.NOT_MET}, {Outcome.MET, Outcome.DOES_NOT_APPLY})
    _never(pairs, {Outcome.MET, Outcome.DOES_NOT_APPLY}, {Outcome.NOT_MET})


CONTRADICTIONS = "wet-places/stated-locations"
"""Looks at locations that are stated against their own place."""


def _stands_in(found: Stated) -> bool:
    """Without the raceway of a leg nothing is unknown: that of its route holds there instead."""
    return issubclass(found.kind, Leg) and found.fact.key == "raceway"


def _pairs(before: Review, after: Review) -> Iterator[tuple[Line, Line]]:
    """Each check of one review with the same check of another, of plans that list the same things."""
    one, other = ({(line.rule.id, line.subject): line for line in of.ran} for of in (before, after))
    assert one.keys() == other.keys()
    yield from ((line, other[check]) for check, line in one.items())


def _never(pairs: Any, was: set[Outcome] | frozenset[Outcome], becomes: set[Outcome] | frozenset[Outcome]) -> None:
    for before, after in pairs:
        assert (before.rule.id, before.subject) == (after.rule.id, after.subject)
        changed = before.answer.outcome in was and after.answer.outcome in becomes
        assert not changed, (before.rule.id, before.subject, before.answer, after.answer)


@tried(10)
@given(changed_plans() | plans(), st.data())
def test_a_fact_is_asked_for_only_where_it_matters(data: Data, pick: st.DataObject) -> None:
    """Written into the plan, some two of the values that the fact can have give different answers; unless the query itself
    says that not all could be tried."""
    asking = [line for line in reviewed(data).ran if line.answer.asks is not None and line.answer.why != TOO_MANY]
    assume(asking)
    line = pick.draw(st.sampled_from(asking), label="asks")
    fact = line.answer.asks
    assert fact is not None
    got = set()
    for value in fact.fact.probes():
        plan = with_value(data, fact.place, as_written(value))
        again = review_with(one_rule(line.rule.id), plan).ran
        got.add(tuple(_told(other) for other in again if other.subject == line.subject))
    assert len(got) > 1, (line.rule.id, line.subject, fact.place, got)


def _told(line: Line) -> tuple[Outcome, str]:
    """The outcome, with the fact that is asked for instead."""
    return line.answer.outcome, "" if line.answer.asks is None else line.answer.asks.place


@tried(12)
@given(EITHER)
def test_what_nothing_hangs_on_changes_nothing(data: Data) -> None:
    """A title, an address, a word on what a circuit is for, and a building that nothing leads to."""
    more = copied(data) | {"title": "Another title"}
    more["site"] = {**more["site"], "address": "12 Orchard Lane"}
    for circuit in more["circuits"].values():
        circuit["serves"] = "this and that"
    more["structures"]["elsewhere"] = {"use": "accessory"}
    before, after = outcomes(reviewed(data)), outcomes(reviewed(more))
    assert {key: after.get(key) for key in before} == before


def test_a_review_is_the_same_in_every_process() -> None:
    """Neither a second run nor another seed of Python's hashes changes a word of a review."""
    collected: list[Data] = []

    @tried(6)
    @given(EITHER)
    def collect(data: Data) -> None:
        collected.append(data)

    collect()
    here = [told(reviewed(data)) for data in collected]
    assert [told(reviewed(data)) for data in collected] == here
    for seed in ("1", "2"):
        there = subprocess.run(
            [sys.executable, __file__],
            input=json.dumps(collected),
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)},
        )
        assert json.loads(there.stdout) == here


def told(review: Review) -> list[list[Any]]:
    """All that a review says, as plain data."""
    said: list[list[Any]] = [
        [
            line.rule.id,
            line.place,
            line.answer.outcome.value,
            *(str(part) for part in (line.answer.of, line.answer.has, line.answer.needs, line.answer.why)),
            [[step, place] for step, place in line.steps],
            [[cell.table, *cell.key] for cell in line.cells],
            [[way.words, json.dumps(way.patch)] for way in line.answer.proposals],
        ]
        for line in review.ledger
    ]
    return said + [[item.item.id, item.subject, item.says] for item in review.inspect]


if __name__ == "__main__":
    print(json.dumps([told(reviewed(data)) for data in json.load(sys.stdin)]))
