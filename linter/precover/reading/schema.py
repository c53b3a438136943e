"""Validation of the plain data against the plan schema.

jsonschema-rs gives the verdict, which is all a good plan needs; only for a bad one is jsonschema loaded, whose errors
are turned here into one sentence and a hint each.
"""

from __future__ import annotations

import difflib
from functools import cache
from typing import Any, Final

import jsonschema_rs

import precover_schemas
from precover.plan.problem import Problem
from precover.plan.thing import escaped

MOST_PROBLEMS: Final = 50
"""A file with more problems than this is told the first ones."""


def against_schema(data: Any, schema: str = "plan") -> list[Problem]:
    """Everything in `data` that its schema does not allow; empty for valid data."""
    if _fast(schema).is_valid(data):
        return []
    return _explained(data, schema)


@cache
def _fast(schema: str) -> jsonschema_rs.Draft202012Validator:
    return jsonschema_rs.Draft202012Validator(precover_schemas.load(schema))


def _explained(data: Any, schema: str) -> list[Problem]:
    import jsonschema

    validator = jsonschema.Draft202012Validator(precover_schemas.load(schema))
    problems: dict[tuple[str, str], Problem] = {}
    for error in validator.iter_errors(data):
        for problem in _problems(error):
            problems.setdefault((problem.place, problem.message), problem)
        if len(problems) >= MOST_PROBLEMS:
            break
    return list(problems.values())


def _problems(error: Any) -> list[Problem]:
    place = "".join(f"/{escaped(str(token))}" for token in error.absolute_path)
    if error.validator == "additionalProperties":
        return [
            _unknown_key(place, key, error.schema) for key in error.instance if key not in error.schema["properties"]
        ]
    if error.validator == "required":
        missing = [key for key in error.validator_value if key not in error.instance]
        return [Problem(place, f"`{key}` is missing", _example(error.schema, key), key=True) for key in missing]
    return [_SENTENCES.get(error.validator, _other)(place, error)]


def _unknown_key(place: str, key: str, schema: Any) -> Problem:
    known = list(schema["properties"])
    near = difflib.get_close_matches(key, known, n=1, cutoff=0.6)
    hint = f"did you mean `{near[0]}`?" if near else f"keys known here: {', '.join(known)}"
    return Problem(f"{place}/{escaped(key)}", f"`{short(key)}` is not a key known here", hint, key=True)


def _example(schema: Any, key: str) -> str:
    field = schema.get("properties", {}).get(key, {})
    examples = field.get("examples")
    return f"add it, like `{key}: {short(_yaml(examples[0]))}`" if examples else f"add `{key}`"


def _type(place: str, error: Any) -> Problem:
    wanted = error.validator_value
    given = error.instance
    if given is None:
        return Problem(
            place, "nothing is stated here", "state the value, or remove the key: what is left out counts as unknown"
        )
    if wanted == "string" and isinstance(given, (int, float)) and not isinstance(given, bool):
        return Problem(
            place,
            f"`{given}` has no unit",
            f"write it like `{_sample(error.schema)}`" if _sample(error.schema) else "put it in quotes",
        )
    nouns = {
        "string": "text",
        "object": "a mapping (`key: value`)",
        "array": "a list",
        "boolean": "true or false",
        "integer": "a whole number",
    }
    sample = _sample(error.schema)
    hint = f"write it like `{sample}`" if sample else f"{nouns.get(wanted, wanted)} belongs here"
    return Problem(place, f"{nouns.get(wanted, wanted)} belongs here, not {_kind(given)}", hint)


def _enum(place: str, error: Any) -> Problem:
    words = [str(word) for word in error.validator_value]
    near = difflib.get_close_matches(str(error.instance), words, n=1, cutoff=0.5)
    ahead = f"did you mean `{near[0]}`? " if near else ""
    return Problem(
        place,
        f"`{short(str(error.instance))}` is not one of the words known here",
        f"{ahead}one of: {', '.join(words)}",
    )


def _pattern(place: str, error: Any) -> Problem:
    title = error.schema.get("title", "value")
    unit = error.schema.get("unit")
    units = f"; units: {unit}" if unit else ""
    return Problem(
        place,
        f"`{short(str(error.instance))}` is not a {title.lower()}",
        f"write it like `{_sample(error.schema)}`{units}",
    )


def _const(place: str, error: Any) -> Problem:
    return Problem(place, f"`{short(str(error.instance))}` is not known here", f"write `{error.validator_value}`")


def _one_of(place: str, error: Any) -> Problem:
    heads = [option["required"][0] for option in error.validator_value if "required" in option]
    said = [head for head in heads if isinstance(error.instance, dict) and head in error.instance]
    if len(said) > 1:
        return Problem(place, f"`{said[0]}` and `{said[1]}` exclude each other", "keep the one that says what this is")
    title = str(error.schema.get("title", "entry")).lower()
    return Problem(place, f"this {title} does not say what it is", f"start it with one of: {', '.join(heads)}")


def _any_of(place: str, error: Any) -> Problem:
    return Problem(
        place, f"`{short(str(error.instance))}` is not understood here", f"write it like `{_sample(error.schema)}`"
    )


def _not(place: str, error: Any) -> Problem:
    both = error.validator_value.get("required", ["this", "that"])
    return Problem(place, f"`{both[0]}` and `{both[1]}` exclude each other", "keep one of the two")


def _property_names(place: str, error: Any) -> Problem:
    return Problem(
        place,
        f"`{short(str(error.instance))}` cannot be a name",
        "a name starts with a letter and has letters, digits, `-`, `_` or `.`",
    )


def _length(place: str, error: Any) -> Problem:
    return Problem(
        place,
        "this is empty or too long",
        f"between 1 and {error.schema.get('maxLength', error.schema.get('maxItems', 'many'))} belong here",
    )


def _range(place: str, error: Any) -> Problem:
    return Problem(
        place,
        f"{error.instance} is out of range",
        f"from {error.schema.get('minimum')} to {error.schema.get('maximum')}",
    )


def _other(place: str, error: Any) -> Problem:
    return Problem(
        place,
        f"not allowed by the plan schema ({error.validator})",
        f"see `{error.schema.get('title', 'the schema')}` in the plan schema",
    )


_SENTENCES = {
    "type": _type,
    "enum": _enum,
    "pattern": _pattern,
    "const": _const,
    "oneOf": _one_of,
    "anyOf": _any_of,
    "not": _not,
    "propertyNames": _property_names,
    "minLength": _length,
    "maxLength": _length,
    "maxItems": _length,
    "minItems": _length,
    "minimum": _range,
    "maximum": _range,
}


def short(text: str) -> str:
    """A text of the plan, cut to what a message can hold."""
    return text if len(text) <= 60 else f"{text[:57]}..."


def _sample(schema: Any) -> str:
    examples = schema.get("examples") if isinstance(schema, dict) else None
    return short(_yaml(examples[0])) if examples else ""


def _yaml(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_yaml(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(_yaml(item) for item in value) + "]"
    return str(value)


def _kind(value: Any) -> str:
    names = {dict: "a mapping", list: "a list", bool: "true or false", int: "a number", float: "a number", str: "text"}
    return names.get(type(value), "this")
