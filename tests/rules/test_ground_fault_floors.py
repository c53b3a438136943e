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


def test_a_sink_is_asked_for_only_where_nothing_else_decides() -> None:
    """The distance to a sink matters in a raised building, and not in one at grade."""
    assert line(studio(structure={"floor": "above grade"}, bench={"sink-distance": None}), BENCH).place == (
        f"{BENCH}/sink-distance"
    )
    assert outcome(studio(bench={"sink-distance": None}), RULE, BENCH) == "not met"
