"""Published worked examples: what this package computes for them."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from electrical import computing_circuits, computing_drops, computing_raceways
from electrical.computing import COMPUTATIONS, agrees, compare, records

MODULES = (computing_circuits, computing_drops, computing_raceways)
"""Imported for the computations that they register."""

RUN = [record for record in records() if record["computation"]]


@pytest.mark.parametrize("record", RUN, ids=[record["id"] for record in RUN])
def test_worked_example(record: dict[str, Any]) -> None:
    """It agrees with the publication, or differs as its record says, and why."""
    computed, off = compare(record)
    if "ours" not in record:
        assert not off, computed
        return
    assert off, "the record says that it differs, but it agrees"
    assert record["because"]
    for name, value in record["ours"].items():
        assert agrees(value, computed[name]), (name, computed)


def test_what_is_not_computed_says_why() -> None:
    """Few records have nothing to compute, and each has its reason."""
    idle = [record for record in records() if not record["computation"]]
    assert len(idle) <= 3
    assert all(record["because"] for record in idle)


def test_every_record_has_its_source() -> None:
    """Every record names where it was published."""
    assert all(record["source"] and record["address"].startswith("http") for record in records())
    assert max(Counter(record["id"] for record in records()).values()) == 1


def test_every_computation_is_used() -> None:
    """No computation is registered that no record needs."""
    assert {record["computation"] for record in RUN} == set(COMPUTATIONS)
