"""Validation of the plain data against a schema.

jsonschema-rs gives the verdict, which is all a good plan needs; only for a bad one is jsonschema loaded, whose errors
become one sentence and a hint each.
"""

from __future__ import annotations

from functools import cache
from itertools import islice
from typing import Any, Final

import jsonschema_rs

import precover_schemas
from precover.plan.problem import Problem
from precover.reading.errors import MOST_PROBLEMS
from precover.reading.field import PlanFields

MOST_ERRORS: Final = 20 * MOST_PROBLEMS
"""One mistake can break many clauses of the schema; of a file with more errors than this, the first are looked at."""


def against_schema(data: Any, schema: str = "plan") -> list[Problem]:
    """What in `data` its schema does not allow, each mistake once; empty for valid data."""
    if _fast(schema).is_valid(data):
        return []
    return _explained(data, schema)


@cache
def _fast(schema: str) -> jsonschema_rs.Draft202012Validator:
    return jsonschema_rs.Draft202012Validator(_loaded(schema))


@cache
def _loaded(schema: str) -> Any:
    """The schema without the patterns of quantities: making them takes longer than all the rest of a cold start's
    validation, and every quantity is parsed exactly when the plan is built."""
    loaded = precover_schemas.load(schema)
    for definition in loaded.get("$defs", {}).values():
        if "unit" in definition:
            definition.pop("pattern", None)
    return loaded


def _explained(data: Any, schema: str) -> list[Problem]:
    import jsonschema

    from precover.reading.schema_sentences import problems_of

    validator = jsonschema.Draft202012Validator(_loaded(schema))
    fields = PlanFields(data, schema)
    problems: dict[tuple[str, str], Problem] = {}
    for error in _telling(list(islice(validator.iter_errors(data), MOST_ERRORS))):
        for problem in problems_of(error, fields, MOST_PROBLEMS):
            problems.setdefault((problem.place, problem.message), problem)
    return list(problems.values())[: MOST_PROBLEMS + 1]


def _telling(errors: list[Any]) -> list[Any]:
    """Of the errors of one mistake the one that says it: of a value of the wrong type only that; of a leg or device
    that is two things at once only that, and nothing of what would then be wrong inside it."""
    from precover.reading.schema_sentences import heads_stated, place_of

    mistyped = {place_of(error) for error in errors if error.validator == "type"}
    torn = {place_of(error) for error in errors if error.validator == "oneOf" and len(heads_stated(error)) > 1}
    return [
        error
        for error in errors
        if (error.validator == "type" or place_of(error) not in mistyped)
        and (error.validator == "oneOf" or not _within(place_of(error), torn))
    ]


def _within(place: str, places: set[str]) -> bool:
    return any(place == outer or place.startswith(f"{outer}/") for outer in places)
