"""The requirement map of the base pack: what becomes of each of its rows."""

from __future__ import annotations

import csv

from precover.rulebook.coverage import State, coverage
from precover_rules.packs import US_2017
from support.reviews import library

BOOK = library().book()
COVERED = coverage(BOOK)


def test_every_row_has_one_state() -> None:
    """Each row of the file once, with what its state says and nothing that another would say."""
    assert US_2017.requirements is not None
    with US_2017.requirements.open(encoding="utf-8", newline="") as lines:
        names = [row["id"] for row in csv.DictReader(lines)]
    assert [covered.row.id for covered in COVERED] == names
    assert len(set(names)) == len(names)
    for covered in COVERED:
        said = {
            State.DECIDED: bool(covered.rules),
            State.INSPECTED: bool(covered.inspections) and not covered.rules,
            State.LEFT_OUT: bool(covered.reason),
            State.OPEN: not (covered.rules or covered.inspections or covered.reason),
        }
        assert [state for state, so in said.items() if so] == [covered.state], covered.row.id


def test_the_states_are_those_of_the_rules_that_name_the_rows() -> None:
    """Each rule and inspection stands with every row it names, and with no other."""
    shown = {(covered.row.id, part.id) for covered in COVERED for part in (*covered.rules, *covered.inspections)}
    assert shown == {(row, part.id) for part in (*BOOK.rules, *BOOK.inspections) for row in part.rows}


def test_every_row_out_of_scope_has_a_reason_of_its_own() -> None:
    """One that says more than that it is out of scope."""
    reasons = [covered.reason for covered in COVERED if covered.state is State.LEFT_OUT]
    assert all(len(reason.split()) >= 5 for reason in reasons)
