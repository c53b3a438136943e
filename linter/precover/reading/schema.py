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

MOST_ERRORS: Final = 20 * MOST_PROBLEMS
"""One mistake can break many clauses of the schema; of a file with more errors than this, the first are looked at."""


def against_schema(data: Any, schema: str = "plan") -> list[Problem]:
    """What in `data` its schema does not allow, each mistake once; empty for valid data."""
    if _fast(schema).is_valid(data):
        return []
    return _explained(data, schema)


@cache
def _fast(schema: str) -> jsonschema_rs.Draft202012Validator:
    return jsonschema_rs.Draft202012Validator(_without_quantities(schema))


def _without_quantities(schema: str) -> str:
    """The schema's text without the patterns of quantities, each of which stands in a line of its own: making them takes
    longer than all the rest of a cold start's validation, and every quantity is parsed exactly when the plan is built."""
    first, *rest = precover_schemas.text(schema).split(_PATTERN_OF_A_QUANTITY)
    return first + "".join(part[part.index("\n") :] for part in rest)


_PATTERN_OF_A_QUANTITY: Final = '\n      "pattern": "^\\\\s*'
"""How the line begins."""


def _explained(data: Any, schema: str) -> list[Problem]:
    import json

    import jsonschema

    from precover.reading.field import PlanFields
    from precover.reading.schema_sentences import problems_of

    validator = jsonschema.Draft202012Validator(json.loads(_without_quantities(schema)))
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
