"""What a schema error says to the author of a plan: one sentence, and what to write instead."""

from __future__ import annotations

import difflib
from itertools import islice
from typing import Any

from precover.plan.problem import Problem
from precover.plan.thing import escaped
from precover.reading.errors import MOST_PROBLEMS, short
from precover.reading.everyday import meant
from precover.reading.field import PlanFields
from precover.reading.one_line import as_yaml
from precover.reading.suggesting import either, suggested, with_unit
from precover.reading.unknown_keys import stands_for, unknown_key


def place_of(error: Any) -> str:
    """The JSON Pointer of the value that an error is about."""
    place = "".join(f"/{escaped(str(token))}" for token in error.absolute_path)
    return f"{place}/{escaped(error.instance)}" if _of_a_name(error) else place


def heads_stated(error: Any) -> list[str]:
    """Of the keys that say what a thing is, those that it has; for an error of the choice between them."""
    return [head for head in _heads(error) if isinstance(error.instance, dict) and head in error.instance]


def problems_of(error: Any, fields: PlanFields, most: int) -> list[Problem]:
    """The problems that one error stands for, up to `most` and one more."""
    place = place_of(error)
    if _of_a_name(error):
        return [_not_an_id(place, error.instance)]
    if error.validator == "additionalProperties":
        unknown = (key for key in error.instance if key not in error.schema["properties"])
        return [unknown_key(place, key, error.schema, fields) for key in islice(unknown, most + 1)]
    if error.validator == "required":
        strange = [key for key in error.instance if key not in error.schema.get("properties", {})][:MOST_PROBLEMS]
        there = {*error.instance, *(stands_for(key, error.schema, fields) for key in strange)}
        return [_missing(place, key, error.schema) for key in error.validator_value if key not in there]
    return [_SENTENCES.get(error.validator, _other)(place, error, _described(fields.at(place), error))]


def _described(field: Any, error: Any) -> Any:
    """What the schema says of the value at this place, or at any."""
    return field if "examples" in field else error.schema


def _heads(error: Any) -> list[str]:
    return [option["required"][0] for option in error.validator_value if "required" in option]


def _of_a_name(error: Any) -> bool:
    return "propertyNames" in error.absolute_schema_path


def _not_an_id(place: str, name: str) -> Problem:
    hint = "an id starts with a letter and has letters, digits, `-`, `_` or `.`, at most 64"
    return Problem(place, f"`{short(name)}` cannot be an id", hint, key=True)


def _missing(place: str, key: str, schema: Any) -> Problem:
    field = schema.get("properties", {}).get(key, {})
    if "enum" in field:
        return Problem(place, f"`{key}` is missing", f"add `{key}`, one of: {', '.join(field['enum'])}", key=True)
    written = [as_yaml(example) for example in field.get("examples", ())]
    return Problem(
        place, f"`{key}` is missing", f"add it, like `{key}: {written[0]}`" if written else f"add `{key}`", key=True
    )


def _type(place: str, error: Any, field: Any) -> Problem:
    given, wanted, schema = error.instance, error.validator_value, error.schema
    if given is None:
        return Problem(place, "nothing is stated here", _state(field))
    number = isinstance(given, int | float) and not isinstance(given, bool)
    if wanted == "string" and number and "unit" in schema:
        return Problem(place, f"`{given}` has no unit", with_unit(field, given) or _like(field))
    message = f"{_NOUNS.get(wanted, wanted)} belongs here, not {_kind(given)}"
    if wanted == "boolean":
        return Problem(place, message, _yes_or_no(given))
    if "enum" in schema:
        return Problem(place, message, _one_word_of(given, schema["enum"]))
    if place == "":
        return Problem(place, message, "start with `format: precover-plan/1`")
    if wanted == "string" and "minLength" in schema and not isinstance(given, dict | list):
        return Problem(place, message, "put it in quotes")
    if wanted == "object" and "properties" in schema:
        return Problem(place, message, _as_its_first_key(given, schema) or _like(field))
    found = suggested(field, given)
    return Problem(place, message, f"did you mean {either(found)}?" if found else _like(field))


def _state(field: Any) -> str:
    sample = _sample(field)
    return (
        "state it"
        + (f", like `{sample}`" if sample else "")
        + ", or remove the key: what is left out counts as unknown"
    )


def _as_its_first_key(given: Any, schema: Any) -> str:
    """For a value where a mapping belongs: the value under the first key of that, if it can stand there."""
    key, field = next(iter(schema["properties"].items()))
    if isinstance(given, str) and given in field.get("enum", ()):
        return f"write `{{{key}: {given}}}`"
    found = suggested(field, given)
    return f"write `{{{key}: {found[0]}}}`; it may have: {', '.join(schema['properties'])}" if found else ""


def _yes_or_no(given: Any) -> str:
    meant = {"yes": "true", "on": "true", "true": "true", "no": "false", "off": "false", "false": "false"}
    word = meant.get(str(given).lower())
    return f"write `{word}`" if word else "write `true` or `false`, or leave the key out where it is not known"


def _enum(place: str, error: Any, _field: Any) -> Problem:
    kind = "words" if all(isinstance(word, str) for word in error.validator_value) else "values"
    message = f"`{short(as_yaml(error.instance))}` is not one of the {kind} known here"
    return Problem(place, message, _one_word_of(error.instance, error.validator_value))


def _one_word_of(given: Any, values: list[Any]) -> str:
    """A hint that lists the words of a field, the likeliest first."""
    words = [as_yaml(word) for word in values]
    listed = f"one of: {', '.join(words)}"
    if isinstance(given, dict | list):
        return listed
    said = short(as_yaml(given))
    if not isinstance(given, str) and said in values:
        return f'put it in quotes: `"{said}"`; {listed}'
    small = said.lower()
    known = [word for word in (small, *meant("word", small)) if word in words]
    near = known or difflib.get_close_matches(small, words, n=1, cutoff=0.5)
    return f"did you mean `{near[0]}`? {listed}" if near else listed


def _pattern(place: str, error: Any, field: Any) -> Problem:
    return Problem(place, f"`{short(error.instance)}` is not {_a(_title(error.schema))}", _like(field))


def _const(place: str, error: Any, _field: Any) -> Problem:
    return Problem(place, f"`{short(as_yaml(error.instance))}` is not known here", f"write `{error.validator_value}`")


def _one_of(place: str, error: Any, _field: Any) -> Problem:
    heads, said = _heads(error), heads_stated(error)
    if len(said) > 1:
        return Problem(place, f"`{said[0]}` and `{said[1]}` exclude each other", "keep the one that says what this is")
    keys = list(error.instance)[:20] if isinstance(error.instance, dict) else []
    near = [word for key in keys for word in meant("key", key) if word in heads]
    near += [match for key in keys for match in difflib.get_close_matches(short(key), heads, n=1, cutoff=0.75)]
    ahead = f"did you mean `{near[0]}`? " if near else ""
    message = f"this {_title(error.schema)} does not say what it is"
    return Problem(place, message, f"{ahead}it needs one of: {', '.join(heads)}")


def _any_of(place: str, error: Any, field: Any) -> Problem:
    if isinstance(error.instance, str):
        return _pattern(place, error, field)
    if isinstance(error.instance, dict | list | bool) or error.instance is None:
        return Problem(place, f"text belongs here, not {_kind(error.instance)}", _like(field))
    return Problem(place, f"`{error.instance}` has no unit", with_unit(field, error.instance) or _like(field))


def _not(place: str, error: Any, _field: Any) -> Problem:
    both = error.validator_value["required"]
    return Problem(place, f"`{both[0]}` and `{both[1]}` exclude each other", "keep one of the two")


def _length(place: str, error: Any, field: Any) -> Problem:
    size, things = len(error.instance), "characters" if isinstance(error.instance, str) else "entries"
    if size == 0:
        like = f", like `{sample}`" if (sample := _sample(field)) else ""
        instead = "" if "minItems" in error.schema else ", or remove the key"
        return Problem(place, "this is empty", f"state it{like}{instead}")
    return Problem(place, f"this has {size:,} {things}", f"at most {error.validator_value:,} belong here")


def _range(place: str, error: Any, _field: Any) -> Problem:
    schema = error.schema
    return Problem(
        place, f"`{error.instance}` is out of range", f"from {schema.get('minimum')} to {schema.get('maximum')}"
    )


def _other(place: str, error: Any, _field: Any) -> Problem:
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
    written = [as_yaml(example) for example in schema.get("examples", ())]
    return next((text for text in written if short(text) == text), short(written[0]) if written else "")


def _kind(value: Any) -> str:
    names = {dict: "a mapping", list: "a list", bool: "true or false", str: "text", type(None): "nothing"}
    return f"`{value}`" if isinstance(value, int | float) and not isinstance(value, bool) else names[type(value)]
