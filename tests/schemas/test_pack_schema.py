"""The pack schema: sound, wholly described, and its examples pass it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from jsonschema import Draft202012Validator

import precover_schemas
from precover.rulebook import Severity, Stage
from precover.rulebook.cel.kinds import subjects
from precover.rulebook.table import HOLDS

SCHEMA = precover_schemas.load("pack")


def fields(node: dict[str, Any], place: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every named field of the schema and its definitions."""
    for group in ("properties", "$defs"):
        for name, field in node.get(group, {}).items():
            yield f"{place}/{name}", field
            yield from fields(field, f"{place}/{name}")


def test_the_schema_is_one() -> None:
    """Of the draft that it names."""
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize(
    ("place", "field"), list(fields(SCHEMA)), ids=lambda part: part if isinstance(part, str) else ""
)
def test_a_field_says_what_it_is(place: str, field: dict[str, Any]) -> None:
    """Title, description, and examples that pass."""
    assert field["title"] and field["description"] and field["examples"], place
    alone = {**field, "$defs": SCHEMA["$defs"]}
    assert all(Draft202012Validator(alone).is_valid(example) for example in field["examples"]), place


def test_words_are_those_of_the_engine() -> None:
    """What it is about, severities, stages, and what cells hold."""
    definitions = SCHEMA["$defs"]
    assert set(definitions["about"]["enum"]) == set(subjects())
    assert set(definitions["severity"]["enum"]) == {severity.word for severity in Severity}
    assert definitions["stage"]["enum"] == [stage.value for stage in Stage]
    assert set(definitions["limit"]["properties"]["holds"]["enum"]) == set(HOLDS)


def test_an_object_takes_no_other_key() -> None:
    """A misspelt key is never passed over."""
    for place, field in [("", SCHEMA), *fields(SCHEMA)]:
        if field.get("type") == "object" and place.rpartition("/")[2] != "changes":
            assert field.get("additionalProperties") is not None, place
