"""The schema as the reader uses it."""

from __future__ import annotations

import json

import pytest

import precover_schemas
from precover.reading.schema import _without_quantities


@pytest.mark.parametrize("name", ["plan", "pack"])
def test_only_the_patterns_of_quantities_are_left_out(name: str) -> None:
    """What is left is the whole schema but for the pattern of each definition that has a unit."""
    schema = precover_schemas.load(name)
    left_out = [
        definition.pop("pattern", None) for definition in schema.get("$defs", {}).values() if "unit" in definition
    ]
    assert json.loads(_without_quantities(name)) == schema
    assert len([pattern for pattern in left_out if pattern]) == (12 if name == "plan" else 0)
