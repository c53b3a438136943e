"""Every way out that the topics on disconnects and on grounding propose settles its finding."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line
from precover.rulebook import Outcome
from support.documents import plans_of
from support.reviews import data_of, example, library, reviewed

SUBJECTS = ("disconnect/", "grounding/")
WITHOUT = {
    "disconnect/supplies/one-supply": "a feeder and a panel instead are another plan",
    "disconnect/dwelling/habitable-building-is-planned-as-a-dwelling": "the authority decides",
}
"""Findings that no edit settles, and why."""

PLANS: list[tuple[str, str, str | dict[str, Any]]] = [
    (topic.id, base, patch)
    for topic in library().topics.values()
    if topic.id.startswith(SUBJECTS)
    for base, patch in plans_of(topic, "Fails")
]


def _outdoor_entry() -> dict[str, Any]:
    """The workshop as a dwelling, its feeder by way of an outdoor box there."""
    pull_box = {"at": "workshop", "area": "outdoors", "location": "wet", "box": {"kind": "box"}, "devices": {}}
    inside = {
        "from": "entry",
        "to": "workshop-panel",
        "raceway": "none",
        "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}},
        "legs": [{"through": "wall", "length": "8 in"}],
    }
    return {
        "structures": {"workshop": {"use": "dwelling"}},
        "boxes": {"entry": pull_box},
        "routes": {"yard": {"to": "entry"}, "inside": inside},
    }


MORE: list[tuple[str, str, str | dict[str, Any]]] = [
    (
        "disconnect/needed",
        "joinery-workshop",
        data_of("""
panels: {workshop-panel: {main: none}}
circuits: {bench-outlets: null, lights: null, planer: null}
routes: {bench: null, porch: null, lighting: null, porch-lighting: null, planer-run: null}
boxes: {bench-box: null, yard-box: null, switch-box: null, porch-light-box: null, planer-box: null}
"""),
    ),
    (
        "disconnect/needed",
        "orchard-pump",
        data_of("""
boxes: {post-box: {devices: {main-switch: null}}}
circuits: {pump: {breaker: {rating: 30 A}}}
"""),
    ),
    ("disconnect/needed", "orchard-pump", data_of("boxes: {post-box: {devices: {main-switch: null}}}")),
    ("disconnect/dwelling", "joinery-workshop", _outdoor_entry()),
    (
        "grounding/feeder-ground",
        "joinery-workshop",
        data_of("""
routes: {yard: {raceway: none, carries: {workshop-feeder: {wires: null, cable: SER 6-6-6-12 Al}}}}
"""),
    ),
    (
        "grounding/feeder-ground",
        "joinery-workshop",
        data_of("""
routes: {yard: {raceway: none, carries: {workshop-feeder: {wires: null, cable: UF-B 6/3 no ground}}}}
"""),
    ),
    (
        "grounding/neutral-and-ground",
        "joinery-workshop",
        data_of("""
routes: {yard: {raceway: none, carries: {workshop-feeder: {wires: null, cable: UF-B 6/2}}}}
"""),
    ),
    (
        "grounding/neutral-and-ground",
        "joinery-workshop",
        data_of("""
structures: {workshop: {metal-path: false}}
circuits: {workshop-feeder: {existing: true}}
routes: {yard: {carries: {workshop-feeder: {wires: {ground: null}}}}}
"""),
    ),
    (
        "grounding/electrode-conductor",
        "joinery-workshop",
        data_of("""
structures: {workshop: {grounding: {conductor: {wire: 8 AWG Cu bare}}}}
"""),
    ),
    (
        "grounding/rods",
        "joinery-workshop",
        data_of("""
structures: {workshop: {grounding: {electrodes: {south-rod: null, north-rod: {spacing: null, resistance: 30 ohm}}}}}
"""),
    ),
]


@pytest.mark.parametrize(("topic", "base", "patch"), PLANS + MORE)
def test_each_proposal_settles_its_finding(topic: str, base: str, patch: str | dict[str, Any]) -> None:
    """Failing plans of the documents, and more: their findings have ways out, and each settles its own."""
    data = example(base, patch)
    wanting = [
        line for line in reviewed(data).ran if line.rule.topic == topic and line.answer.outcome is Outcome.NOT_MET
    ]
    assert wanting
    for line in wanting:
        assert line.answer.proposals or line.rule.id in WITHOUT, line.rule.id
        for proposal in line.answer.proposals:
            after = reviewed(applied(data, complete(data, proposal.patch)))
            assert _same(after.ran, line).answer.outcome in (Outcome.MET, Outcome.DOES_NOT_APPLY), proposal.words


def test_an_outdoor_box_is_a_place_for_the_emergency_disconnect() -> None:
    """There it has a way out."""
    of = reviewed(example("joinery-workshop", _outdoor_entry()))
    (line,) = [
        one
        for one in of.ran
        if one.rule.id.endswith("/emergency-disconnect-outside") and one.subject.endswith("workshop")
    ]
    assert [way.words for way in line.answer.proposals] == [
        "put an enclosed breaker of 100 A, which is the emergency disconnect, into entry"
    ]


def _same(lines: tuple[Line, ...], line: Line) -> Line:
    (found,) = [one for one in lines if (one.rule.id, one.subject) == (line.rule.id, line.subject)]
    return found


@pytest.mark.parametrize("name", ["pottery-studio", "joinery-workshop", "orchard-pump"])
def test_the_compliant_examples_have_no_finding(name: str) -> None:
    """Nothing wrong, and nothing asked."""
    assert not [one for one in reviewed(example(name)).findings if one.line.rule.id.startswith(SUBJECTS)]
