"""The ways out that the sizing topics offer: each settles its finding."""

from __future__ import annotations

import pytest

from precover.amending.patch import applied, complete
from precover.rulebook import Outcome
from support.documents import plans_of
from support.reviews import example, library, reviewed

WITHOUT = {
    "sizing/branch-ratings/fixed-equipment-beside-other-outlets": "another circuit is another plan",
    "sizing/receptacle-ratings/load-plugged-into-a-shared-circuit": "a smaller load is another load",
    "sizing/dwelling-voltage/small-loads-in-a-dwelling": "another voltage is another circuit",
    "sizing/fault-loop/fault-trips-at-once": "advice",
}
"""Findings that no edit settles, and why."""

PLANS = [
    (topic.id, base, patch)
    for topic in library().topics.values()
    if topic.id.startswith("sizing/")
    for base, patch in plans_of(topic, "Fails")
]


@pytest.mark.parametrize(("topic", "base", "patch"), PLANS)
def test_each_way_out_settles_its_finding(topic: str, base: str, patch: str) -> None:
    """Applied alone, the rule no longer finds it at that place."""
    data = example(base, patch)
    for line in reviewed(data).ran:
        if line.rule.topic != topic or line.answer.outcome is not Outcome.NOT_MET:
            continue
        assert bool(line.answer.proposals) != (line.rule.id in WITHOUT), line.rule.id
        for way in line.answer.proposals:
            after = reviewed(applied(data, complete(data, way.patch)))
            still = [one for one in after.ran if one.rule.id == line.rule.id and one.subject == line.subject]
            assert {one.answer.outcome for one in still} <= {Outcome.MET, Outcome.DOES_NOT_APPLY}, way.words
