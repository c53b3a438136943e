"""The ways out that the sizing topics offer: each settles its finding."""

from __future__ import annotations

import pytest

from precover.amending.patch import applied, complete
from precover.rulebook import Outcome
from support.documents import plans_of
from support.reviews import example, library, line_of, reviewed

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
        assert line.answer.proposals, line.rule.id
        for way in line.answer.proposals:
            after = reviewed(applied(data, complete(data, way.patch)))
            still = [one for one in after.ran if one.rule.id == line.rule.id and one.subject == line.subject]
            assert {one.answer.outcome for one in still} <= {Outcome.MET, Outcome.DOES_NOT_APPLY}, way.words


@pytest.mark.parametrize(
    ("length", "ways"),
    [
        ("310 ft", ["run pump in 10 AWG, all the way"]),
        ("900 ft", ["run pump in 6 AWG, all the way"]),
        ("3000 ft", []),  # direct-burial cable is not sold so large
    ],
)
def test_a_fault_loop_is_shortened_by_larger_wire(length: str, ways: list[str]) -> None:
    """20 A at 120 V want 1.2 ohm or less, hot and ground: 900 ft of 6 AWG copper have 0.9, of 8 AWG 1.4 (handbook chapter 9
    table 8: 0.491 and 0.778 ohm for 1000 ft)."""
    leg = {"buried": "field", "cover": "24 in", "length": length}
    of = reviewed(example("orchard-pump", {"routes": {"to-pump": {"legs": [leg]}}}))
    found = line_of(of, "/fault-trips-at-once", "/circuits/pump")
    assert [way.words for way in found.answer.proposals] == ways
    assert len(found.steps) == 1  # nothing of the search goes into the derivation


def test_larger_wire_of_a_branch_circuit_makes_up_for_its_feeder() -> None:
    """Of what the loop may have, the feeder's part is taken first; larger wire of the feeder is a way out too. Its own way
    out is another, whose wires want raceways of 1-1/2 in, and a box of eight times that."""
    far = {"routes": {"yard": {"legs": [{"buried": "lawn", "cover": "24 in", "length": "900 ft"}]}}}
    of = reviewed(example("joinery-workshop", far))
    feeder = "run workshop-feeder in 4 AWG, all the way, and a box 10 in long for pull-box"
    ways = {
        place: [way.words for way in line_of(of, "/fault-trips-at-once", f"/circuits/{place}").answer.proposals]
        for place in ("workshop-feeder", "lights", "planer")
    }
    assert ways == {
        "workshop-feeder": [
            "run workshop-feeder in 1/0 AWG, all the way, and EMT 1-1/2 in on garage-run, and PVC-80 1-1/2 in on yard, "
            "and a box 12 in long for pull-box"
        ],
        "lights": ["run lights in 6 AWG, all the way", feeder],
        "planer": [feeder],
    }


def test_nothing_is_asked_of_a_feeder_for_the_sake_of_a_way_out() -> None:
    """Its rating, which larger wire of it would need, is not stated."""
    far = {"routes": {"yard": {"legs": [{"buried": "lawn", "cover": "24 in", "length": "900 ft"}]}}}
    data = example("joinery-workshop", far | {"circuits": {"workshop-feeder": {"breaker": {"rating": None}}}})
    answer = line_of(reviewed(data), "/fault-trips-at-once", "/circuits/planer").answer
    assert (answer.outcome, answer.asks, answer.proposals) == (Outcome.NOT_MET, None, ())
    answer = line_of(reviewed(data), "/fault-trips-at-once", "/circuits/lights").answer
    assert [way.words for way in answer.proposals] == ["run lights in 6 AWG, all the way"]
