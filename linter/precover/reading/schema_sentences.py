"""What a schema error says to the author of a plan: one sentence, and what to write instead."""

from __future__ import annotations

import difflib
from itertools import islice
from typing import Any

from precover.plan.problem import Problem
from precover.plan.thing import escaped
from precover.reading.errors import short


def place_of(error: Any) -> str:
    """The JSON Pointer of the value that an error is about."""
    place = "".join(f"/{escaped(str(token))}" for token in error.absolute_path)
    return f"{place}/{escaped(error.instance)}" if _of_a_name(error) else place


def heads_stated(error: Any) -> list[str]:
    """Of the keys that say what a thing is, those that it has; for an error of the choice between them."""
    return [head for head in _heads(error) if isinstance(error.instance, dict) and head in error.instance]


def problems_of(error: Any, most: int) -> list[Problem]:
    """The problems that one error stands for, up to `most` and one more."""
    place = place_of(error)
    if _of_a_name(error):
        return [_not_an_id(place, error.instance)]
    if error.validator == "additionalProperties":
        unknown = (key for key in error.instance if key not in error.schema["properties"])
        return [_unknown_key(place, key, error.schema) for key in islice(unknown, most + 1)]
    if error.validator == "required":
        missing = [key for key in error.validator_value if key not in error.instance]
        return [Problem(place, f"`{key}` is missing", _example(error.schema, key), key=True) for key in missing]
    return [_SENTENCES.get(error.validator, _other)(place, error)]


def _heads(error: Any) -> list[str]:
    return [option["required"][0] for option in error.validator_value if "required" in option]


def _of_a_name(error: Any) -> bool:
    return "propertyNames" in error.absolute_schema_path


def _not_an_id(place: str, name: str) -> Problem:
    hint = "an id starts with a letter and has letters, digits, `-`, `_` or `.`, at most 64"
    return Problem(place, f"`{short(name)}` cannot be an id", hint, key=True)


def _unknown_key(place: str, key: str, schema: Any) -> Problem:
    known = list(schema["properties"])
    near = difflib.get_close_matches(short(key).lower().replace("_", "-").replace(" ", "-"), known, n=1, cutoff=0.6)
    hint = f"did you mean `{near[0]}`?" if near else f"keys known here: {', '.join(known)}"
    return Problem(f"{place}/{escaped(key)}", f"`{short(key)}` is not a key known here", hint, key=True)


def _example(schema: Any, key: str) -> str:
    sample = _sample(schema.get("properties", {}).get(key, {}))
    return f"add it, like `{key}: {sample}`" if sample else f"add `{key}`"


def _type(place: str, error: Any) -> Problem:
    given, wanted, schema = error.instance, error.validator_value, error.schema
    if given is None:
        says = "state the value, or remove it: what is left out counts as unknown"
        return Problem(place, "nothing is stated here", says)
    number = isinstance(given, int | float) and not isinstance(given, bool)
    if wanted == "string" and number and "unit" in schema:
        return Problem(place, f"`{given}` has no unit", _like(schema))
    message = f"{_NOUNS.get(wanted, wanted)} belongs here, not {_kind(given)}"
    if wanted == "boolean":
        return Problem(place, message, _yes_or_no(given))
    if "enum" in schema:
        return Problem(place, message, f"one of: {', '.join(_yaml(word) for word in schema['enum'])}")
    if place == "":
        return Problem(place, message, "start with `format: precover-plan/1`")
    if wanted == "string" and "minLength" in schema and not isinstance(given, dict | list):
        return Problem(place, message, "put it in quotes")
    return Problem(place, message, _like(schema))


def _yes_or_no(given: Any) -> str:
    meant = {"yes": "true", "on": "true", "true": "true", "no": "false", "off": "false", "false": "false"}
    word = meant.get(str(given).lower())
    return f"write `{word}`" if word else "write `true` or `false`, or leave the key out where it is not known"


def _enum(place: str, error: Any) -> Problem:
    words = [_yaml(word) for word in error.validator_value]
    given = short(_yaml(error.instance))
    near = difflib.get_close_matches(given.lower(), words, n=1, cutoff=0.5)
    ahead = f"did you mean `{near[0]}`? " if near else ""
    kind = "words" if all(isinstance(word, str) for word in error.validator_value) else "values"
    return Problem(place, f"`{given}` is not one of the {kind} known here", f"{ahead}one of: {', '.join(words)}")


def _pattern(place: str, error: Any) -> Problem:
    return Problem(place, f"`{short(error.instance)}` is not {_a(_title(error.schema))}", _like(error.schema))


def _const(place: str, error: Any) -> Problem:
    return Problem(place, f"`{short(_yaml(error.instance))}` is not known here", f"write `{error.validator_value}`")


def _one_of(place: str, error: Any) -> Problem:
    heads, said = _heads(error), heads_stated(error)
    if len(said) > 1:
        return Problem(place, f"`{said[0]}` and `{said[1]}` exclude each other", "keep the one that says what this is")
    keys = list(error.instance)[:20] if isinstance(error.instance, dict) else []
    near = [match for key in keys for match in difflib.get_close_matches(short(key), heads, n=1, cutoff=0.75)]
    ahead = f"did you mean `{near[0]}`? " if near else ""
    message = f"this {_title(error.schema)} does not say what it is"
    return Problem(place, message, f"{ahead}it needs one of: {', '.join(heads)}")


def _any_of(place: str, error: Any) -> Problem:
    if isinstance(error.instance, str):
        return _pattern(place, error)
    if isinstance(error.instance, dict | list | bool) or error.instance is None:
        return Problem(place, f"text belongs here, not {_kind(error.instance)}", _like(error.schema))
    return Problem(place, f"`{error.instance}` has no unit", _like(error.schema))


def _not(place: str, error: Any) -> Problem:
    both = error.validator_value["required"]
    return Problem(place, f"`{both[0]}` and `{both[1]}` exclude each other", "keep one of the two")


def _length(place: str, error: Any) -> Problem:
    size, things = len(error.instance), "characters" if isinstance(error.instance, str) else "entries"
    if size == 0:
        return Problem(place, "this is empty", "state it, or remove the key")
    return Problem(place, f"this has {size:,} {things}", f"at most {error.validator_value:,} belong here")


def _range(place: str, error: Any) -> Problem:
    schema = error.schema
    return Problem(
        place, f"`{error.instance}` is out of range", f"from {schema.get('minimum')} to {schema.get('maximum')}"
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
    "minLength": _length,
    "maxLength": _length,
    "maxItems": _length,
    "minItems": _length,
    "minimum": _range,
    "maximum": _range,
}

_NOUNS = {
    "string": "text",
    "object": "a mapping (`key: value`)",
    "array": "a list",
    "boolean": "true or false",
    "integer": "a whole number",
}


def _title(schema: Any) -> str:
    return str(schema.get("title", "value")).lower()


def _a(noun: str) -> str:
    return f"an {noun}" if noun[0] in "aeio" else f"a {noun}"


def _like(schema: Any) -> str:
    units = f"; units: {schema['unit']}" if "unit" in schema else ""
    sample = _sample(schema)
    return f"write it like `{sample}`{units}" if sample else "write a plain value"


def _sample(schema: Any) -> str:
    """The first example of a schema that a message can hold whole."""
    written = [_yaml(example) for example in schema.get("examples", ())]
    return next((text for text in written if short(text) == text), short(written[0]) if written else "")


def _yaml(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_yaml(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(_yaml(item) for item in value) + "]"
    return str(value)


def _kind(value: Any) -> str:
    names = {dict: "a mapping", list: "a list", bool: "true or false", str: "text", type(None): "nothing"}
    return f"`{value}`" if isinstance(value, int | float) and not isinstance(value, bool) else names[type(value)]
