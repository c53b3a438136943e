"""The lines form."""

from __future__ import annotations

import re

from barn_rules import PLAN, barn_review

from precover.reading import Located
from precover.showing.error_lines import problem_lines, review_lines


def test_the_lines_of_a_review() -> None:
    """Each finding in one line, in the order of the walk; a fact that several checks need is asked for once."""
    assert review_lines(barn_review()) == [
        "barn.plan.yaml:23.46-23.50: correction: route yard, leg 1 (buried, lawn): cover: 14 in; needed: at least 18 in (ground/trench)",
        "barn.plan.yaml:24.9-24.37: query: route yard, leg 2 (buried, lawn): cover is not stated; needed for ground/trench",
        "barn.plan.yaml:5.3-5.6: advice: structure barn: detached is not stated; needed for barn/outlets",
        "barn.plan.yaml:14.15-14.53: danger: box barn-box, receptacle outlet: ground-fault protection: none; needed: of its own or from ahead; a barn is a damp place (barn/outlets)",
        "barn.plan.yaml:15.7-15.12: query: box barn-box, receptacle second: ground-fault is not stated; needed for barn/outlets",
    ]


def test_positions_are_those_of_the_text() -> None:
    """Line and columns of the first finding cut the very value out of the file."""
    found = re.match(r"barn\.plan\.yaml:(\d+)\.(\d+)-(\d+)\.(\d+): ", review_lines(barn_review())[0])
    assert found is not None
    line, first, last_line, last = map(int, found.groups())
    assert line == last_line
    assert PLAN.read_text(encoding="utf-8").splitlines()[line - 1][first - 1 : last] == "14 in"


def test_the_ledger_adds_what_found_nothing() -> None:
    """With the ledger, met checks and those that do not apply have their lines after the findings."""
    lines = review_lines(barn_review(), ledger=True)
    assert lines[:5] == review_lines(barn_review())
    assert {line.split(": ")[1] for line in lines[5:]} == {"met", "does not apply"}
    assert len(lines[5:]) == 4


def test_problems_have_their_hint() -> None:
    """A problem without a place has the file alone ahead of it."""
    assert problem_lines([Located("a.plan.yaml", 3, 5, "wrong", "put right"), Located("b", 0, 0, "gone", "look")]) == [
        "a.plan.yaml:3:5: wrong; put right",
        "b: gone; look",
    ]
