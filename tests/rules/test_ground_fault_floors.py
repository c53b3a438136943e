"""Accessory buildings count by their floor; published sources disagree about raised ones."""

from __future__ import annotations

from support.receptacles import BENCH, RULE, line, studio
from support.reviews import lines, outcome, reviewed_example


def test_unstated_and_protected() -> None:
    """Where it is protected anyway, nobody asks about the floor."""
    of = reviewed_example("pottery-studio", {"structures": {"studio": {"floor": None, "habitable": None}}})
    assert outcome(of, RULE, BENCH) == "met"
    assert not [line for line in lines(of, RULE) if line.answer.asks]


def test_unstated_and_not_protected() -> None:
    """Where it is not, the floor decides, and is asked for."""
    of = studio(structure={"floor": None})
    assert outcome(of, RULE, BENCH) == "cannot tell"
    assert line(of, BENCH).place == "/structures/studio/floor"


def test_unstated_near_a_sink() -> None:
    """Near a sink protection is needed whatever the floor."""
    assert outcome(studio(structure={"floor": None}, bench={"sink-distance": "3 ft"}), RULE, BENCH) == "not met"


def test_a_garage_has_no_test_of_its_floor() -> None:
    """A garage counts at any height."""
    assert outcome(studio(structure={"use": "garage", "floor": "above grade"}), RULE, BENCH) == "not met"


def test_a_sink_counts_only_where_the_plan_states_one() -> None:
    """In a raised building, where nothing else would ask for protection."""
    raised = {"floor": "above grade"}
    assert outcome(studio(structure=raised, bench={"sink-distance": None}), RULE, BENCH) == "does not apply"
    assert outcome(studio(structure=raised, bench={"sink-distance": "3 ft"}), RULE, BENCH) == "not met"
