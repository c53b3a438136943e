"""Every way out that the topics on loads and on voltage drop propose settles its finding."""

from __future__ import annotations

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line
from precover.rulebook import Outcome
from support.documents import plans_of
from support.reviews import example, library, reviewed

SUBJECTS = ("loads/", "voltage-drop/")
ALUMINUM = """
routes:
  yard:
    raceway: none
    carries:
      workshop-feeder: {wires: null, cable: MHF 2-2-14-6 Al}
"""
PLANS = [
    *(
        (topic.id, base, patch)
        for topic in library().topics.values()
        if topic.id.startswith(SUBJECTS)
        for base, patch in plans_of(topic, "Fails")
    ),
    ("loads/neutral", "joinery-workshop", ALUMINUM),
    ("voltage-drop/at-the-outlets", "joinery-workshop", "circuits: {workshop-feeder: {load: 90 A}}"),
    ("voltage-drop/at-the-outlets", "orchard-pump", "circuits: {pump: {load: null}}"),
]
WITHOUT = {("loads/garage-circuit", "structures:\n  studio: {use: garage, vehicle-bays: 2}")}
"""The light has to go on another circuit, which would be a second supply of the building."""


@pytest.mark.parametrize(("topic", "base", "patch"), PLANS)
def test_each_proposal_settles_its_finding(topic: str, base: str, patch: str) -> None:
    """The plans are the failing ones of the documents, and more; each of their findings has a way out."""
    data = example(base, patch)
    wanting = [
        line for line in reviewed(data).ran if line.rule.topic == topic and line.answer.outcome is Outcome.NOT_MET
    ]
    assert wanting
    for line in wanting:
        assert line.answer.proposals or (topic, patch.strip()) in WITHOUT
        for proposal in line.answer.proposals:
            after = reviewed(applied(data, complete(data, proposal.patch)))
            assert _same(after.ran, line).answer.outcome in (Outcome.MET, Outcome.DOES_NOT_APPLY), proposal.words


def _same(lines: tuple[Line, ...], line: Line) -> Line:
    (found,) = [one for one in lines if (one.rule.id, one.subject) == (line.rule.id, line.subject)]
    return found
