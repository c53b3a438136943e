"""Every way out that the topics on water and on conductors propose settles its finding."""

from __future__ import annotations

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line
from precover.rulebook import Outcome
from support.documents import plans_of
from support.reviews import example, library, reviewed

SUBJECTS = ("wet-places/", "conductors/")
PLANS = [
    (topic.id, base, patch)
    for topic in library().topics.values()
    if topic.id.startswith(SUBJECTS)
    for base, patch in plans_of(topic, "Fails")
]


@pytest.mark.parametrize(("topic", "base", "patch"), PLANS)
def test_each_proposal_settles_its_finding(topic: str, base: str, patch: str) -> None:
    """The plans are the failing ones of the documents; each of their findings has a way out."""
    data = example(base, patch)
    wanting = [
        line for line in reviewed(data).ran if line.rule.topic == topic and line.answer.outcome is Outcome.NOT_MET
    ]
    assert wanting
    for line in wanting:
        assert line.answer.proposals
        for proposal in line.answer.proposals:
            after = reviewed(applied(data, complete(data, proposal.patch)))
            assert _same(after.ran, line).answer.outcome in (Outcome.MET, Outcome.DOES_NOT_APPLY), proposal.words


def _same(lines: tuple[Line, ...], line: Line) -> Line:
    (found,) = [one for one in lines if (one.rule.id, one.subject) == (line.rule.id, line.subject)]
    return found


@pytest.mark.parametrize("name", ["pottery-studio", "joinery-workshop", "orchard-pump"])
def test_the_compliant_examples_have_no_finding(name: str) -> None:
    """Nothing wrong, and nothing asked."""
    assert not [one for one in reviewed(example(name)).findings if one.line.rule.id.startswith(SUBJECTS)]
