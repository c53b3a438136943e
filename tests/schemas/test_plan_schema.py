"""The plan schema: sound, wholly described, and at one with the plan classes and with the parsers of quantities."""

import re
import typing
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

import precover_schemas
from precover.plan import Cable, Conductor, Device, Leg, MainBreaker, Plan, Raceway, Route, Thing, Unstated
from precover.plan.thing import Fact, blank
from precover.units import (
    Angle,
    Apparent,
    Current,
    Horsepower,
    Length,
    Mass,
    Power,
    Quantity,
    QuantityError,
    Resistance,
    SupplyVoltage,
    Temperature,
    Voltage,
    Volume,
)

SCHEMA = precover_schemas.load("plan")
DEFS: dict[str, Any] = SCHEMA["$defs"]

LISTS_OF_A_PLAN = {"structures", "panels", "circuits", "routes"}
"""What every plan has to list, be it empty: all other lists but those of a route are empty when left out."""

LISTS_OF_A_ROUTE = {"carries", "legs"}
"""What every route has to list: wiring that lies nowhere would be looked at by no rule."""


def name_of(kind: type) -> str:
    """The name that a class has among the definitions."""
    words = kind.name if issubclass(kind, Quantity) else re.sub(r"(?<=.)(?=[A-Z])", " ", kind.__name__)
    return words.lower().replace(" ", "-")


def by_name(*kinds: Any) -> dict[str, Any]:
    """Classes by the names they have among the definitions."""
    return {name_of(kind): kind for kind in kinds}


QUANTITIES = by_name(
    Angle, Apparent, Current, Horsepower, Length, Mass, Power, Resistance, SupplyVoltage, Temperature, Voltage, Volume
)
NOTATIONS = by_name(Cable, Conductor, Raceway, MainBreaker)
UNIONS = by_name(Device, Leg)
WITH_UNIT = {*QUANTITIES, "main-breaker"}


def types_of(fact: Fact) -> tuple[Any, ...]:
    """The types that a fact's value may have."""
    return fact.type if isinstance(fact.type, tuple) else (fact.type,)


def is_thing(kind: Any) -> bool:
    """Whether it is a class of things, not of values."""
    return isinstance(kind, type) and issubclass(kind, Thing)


def reached(kind: type[Thing]) -> Iterator[type[Thing]]:
    """The class, and every class of things that can stand somewhere below it."""
    if kind in UNIONS.values():
        for branch in kind.__subclasses__():
            yield from reached(branch)
        return
    yield kind
    for fact in kind.facts.values():
        for part in filter(is_thing, types_of(fact)):
            yield from reached(part)


CLASSES = list(dict.fromkeys(reached(Plan)))


def schema_of(kind: type) -> dict[str, Any]:
    """The schema of a class."""
    return SCHEMA if kind is Plan else typing.cast(dict[str, Any], DEFS[name_of(kind)])


def properties() -> Iterator[tuple[str, dict[str, Any]]]:
    """Every property of every object, with its place in the schema."""
    for owner, schema in (("", SCHEMA), *DEFS.items()):
        for key, field in schema.get("properties", {}).items():
            yield f"{owner}/{key}", field


def described() -> Iterator[tuple[str, dict[str, Any]]]:
    """The schema itself, every definition and every property."""
    yield "", SCHEMA
    yield from DEFS.items()
    yield from properties()


def standing_alone(schema: dict[str, Any]) -> dict[str, Any]:
    """A part of the schema with all definitions, so that its references lead somewhere."""
    return {**schema, "$defs": DEFS}


def referred(field: dict[str, Any]) -> list[str]:
    """The definitions that a property refers to."""
    options = [field, *field.get("anyOf", [])]
    return [option["$ref"].removeprefix("#/$defs/") for option in options if "$ref" in option]


# The schema in itself


def test_the_text_is_what_is_loaded_and_each_caller_gets_data_of_its_own() -> None:
    """`load` reads the packaged file afresh."""
    packaged = Path(precover_schemas.__file__).parent / "plan.schema.json"
    assert precover_schemas.text("plan") == packaged.read_text(encoding="utf-8")
    assert precover_schemas.load("plan") == SCHEMA
    assert precover_schemas.load("plan") is not SCHEMA


def test_the_schema_is_valid() -> None:
    """The schema keeps to JSON Schema 2020-12, for both validators."""
    Draft202012Validator.check_schema(SCHEMA)
    assert jsonschema_rs.meta.is_valid(SCHEMA)


def test_everything_has_a_title_a_description_and_examples() -> None:
    """The texts that an editor shows are all there."""
    wanting = [
        (place, key)
        for place, schema in described()
        for key in ("title", "description", "examples")
        if not schema.get(key)
    ]
    assert wanting == []
    assert "TODO" not in precover_schemas.text("plan")


def test_titles_are_short_and_descriptions_are_sentences() -> None:
    """A title fits beside a field; a description ends with a full stop."""
    odd = [
        place
        for place, schema in described()
        if len(schema["title"]) > 30 or not schema["description"].endswith(".") or "  " in schema["description"]
    ]
    assert odd == []


def test_every_word_of_a_closed_list_is_explained() -> None:
    """The description of a closed list names each of its words."""
    silent = [
        (place, word)
        for place, field in properties()
        for word in field.get("enum", [])
        if f"`{word}`" not in field["description"]
    ]
    assert silent == []


def test_every_example_is_valid() -> None:
    """Each example passes the schema of the very thing it is an example of."""
    wrong = [
        (place, example, error.message)
        for place, schema in described()
        for example in schema["examples"]
        for error in Draft202012Validator(standing_alone(schema)).iter_errors(example)
    ]
    assert wrong == []


def test_every_example_of_a_compact_notation_can_be_read() -> None:
    """What the schema leaves to the parsers, they accept in every example, wherever it stands."""
    readers = QUANTITIES | NOTATIONS
    for place, schema in described():
        names = [place] if place in readers else [name for name in referred(schema) if name in readers]
        for example in schema["examples"] if names else []:
            assert any(reads(readers[name], example) for name in names), (place, example)


def test_every_quantity_says_its_units() -> None:
    """A property that takes a quantity names the units of its definition; no other property names any."""
    for place, field in properties():
        units = [DEFS[name]["unit"] for name in referred(field) if name in WITH_UNIT]
        assert field.get("unit", "") == ", ".join(units), place


@pytest.mark.parametrize("name", sorted(WITH_UNIT))
def test_every_unit_named_can_be_read(name: str) -> None:
    """Whoever writes a unit that the schema names is understood."""
    for unit in DEFS[name]["unit"].split(", "):
        assert accepts(name, f"1 {unit}")
        assert reads((QUANTITIES | NOTATIONS)[name], f"1 {unit}")


# The schema and the plan classes


def test_every_definition_belongs_to_a_class() -> None:
    """No class is without a definition and no definition without a class; `id` alone is the language's own."""
    assert sorted(DEFS) == sorted({"id", "statement", *by_name(*CLASSES), *UNIONS, *QUANTITIES, *NOTATIONS} - {"plan"})


@pytest.mark.parametrize("kind", CLASSES, ids=name_of)
def test_an_object_has_the_keys_of_its_class(kind: type[Thing]) -> None:
    """Keys agree, in the same order; `$schema` alone is there for editors only."""
    schema = schema_of(kind)
    assert [key for key in schema["properties"] if key != "$schema"] == [fact.key for fact in kind.facts.values()]
    assert schema["type"] == "object"
    assert schema["additionalProperties"] is False


@pytest.mark.parametrize("kind", CLASSES, ids=name_of)
def test_only_what_a_plan_must_claim_is_none_where_it_is_left_out(kind: type[Thing]) -> None:
    """A None would stand for any other fact that a plan leaves out, and no rule would ask for it."""
    left_out = blank(kind, "/here")
    given = {name: getattr(left_out, name) for name in kind.facts}
    assert {name for name, value in given.items() if value is None} == {
        name for name, fact in kind.facts.items() if fact.kind == "option"
    }
    assert {name for name, value in given.items() if isinstance(value, Unstated)} == {
        name for name, fact in kind.facts.items() if fact.kind == "fact"
    }


@pytest.mark.parametrize("kind", CLASSES, ids=name_of)
def test_an_object_requires_what_its_class_needs(kind: type[Thing]) -> None:
    """What a class cannot do without is required; a plan must also list its main parts."""
    needed = {fact.key for fact in kind.facts.values() if fact.kind == "needed"}
    assert set(schema_of(kind).get("required", [])) == needed | {Plan: LISTS_OF_A_PLAN, Route: LISTS_OF_A_ROUTE}.get(
        kind, set()
    )


@pytest.mark.parametrize("kind", CLASSES, ids=name_of)
def test_a_property_takes_what_its_class_takes(kind: type[Thing]) -> None:
    """Types, words and references agree."""
    for fact in kind.facts.values():
        field = schema_of(kind)["properties"][fact.key]
        assert {key: field[key] for key in field if key not in TEXTS_AND_BOUNDS} == as_schema(fact), fact.key


TEXTS_AND_BOUNDS = {
    "title",
    "description",
    "unit",
    "examples",
    "minLength",
    "maxLength",
    "minimum",
    "maximum",
    "minItems",
}


def as_schema(fact: Fact) -> dict[str, Any]:
    """What a property's schema says of types, by how its fact is typed."""
    plain = {bool: "boolean", int: "integer", str: "string"}
    if len(fact.words) == 1:
        return {"const": fact.words[0]}
    if fact.words:
        return {"type": plain[type(fact.words[0])], "enum": list(fact.words)}
    if fact.type in plain:
        return {"type": plain[fact.type]}
    if typing.get_origin(fact.type) is tuple:
        return {"type": "array", "items": {"type": "string", "minLength": 1, "maxLength": 200}}
    if typing.get_origin(fact.type) is Mapping:
        answers = {"$ref": "#/$defs/statement"}
        return {"type": "object", "propertyNames": {"$ref": "#/$defs/id"}, "additionalProperties": answers}
    refs = [{"$ref": f"#/$defs/{name_of(kind)}"} for kind in types_of(fact)]
    if fact.kind == "things":
        return {"type": "object", "propertyNames": {"$ref": "#/$defs/id"}, "additionalProperties": refs[0]}
    if fact.kind == "list":
        return {"type": "array", "items": refs[0]}
    return refs[0] if len(refs) == 1 else {"anyOf": refs}


@pytest.mark.parametrize("union", UNIONS.values(), ids=name_of)
def test_a_union_has_a_branch_for_each_subclass(union: type[Thing]) -> None:
    """Each branch is told by the one key that its class needs, and leads to the definition of that class."""
    heads = {head_of(branch): f"#/$defs/{name_of(branch)}" for branch in union.__subclasses__()}
    schema = schema_of(union)
    assert schema["oneOf"] == [{"required": [head]} for head in heads]
    assert schema["allOf"] == [{"if": {"required": [head]}, "then": {"$ref": ref}} for head, ref in heads.items()]


@pytest.mark.parametrize("union", UNIONS.values(), ids=name_of)
def test_a_union_takes_exactly_one_branch(union: type[Thing]) -> None:
    """Each branch alone passes; none at all, or two together, do not."""
    validator = Draft202012Validator(standing_alone(schema_of(union)))
    alone = [schema_of(branch)["examples"][0] for branch in union.__subclasses__()]
    assert all(validator.is_valid(example) for example in alone)
    assert not validator.is_valid({})
    assert not any(validator.is_valid(alone[0] | other) for other in alone[1:])


def head_of(branch: type[Thing]) -> str:
    """The key that tells a branch of a union from the others."""
    (head,) = (fact.key for fact in branch.facts.values() if fact.kind == "needed")
    return head


# The schema and the parsers of quantities


def accepts(name: str, text: str) -> bool:
    """Whether a definition takes the text; both validators must say the same."""
    verdicts = {bool(validator.is_valid(text)) for validator in validators(name)}
    assert len(verdicts) == 1
    return verdicts.pop()


@cache
def validators(name: str) -> tuple[Any, Any]:
    """A definition's validator for its verdict, and the one for its messages."""
    return jsonschema_rs.Draft202012Validator(DEFS[name]), Draft202012Validator(DEFS[name])


def units_of(kind: Any) -> list[str]:
    """Every unit that a parser knows."""
    return [*getattr(kind, "factors", ["V"])]


def reads(kind: Any, text: str) -> bool:
    """Whether a parser takes the text."""
    return refusal(kind, text) is None


def refusal(kind: Any, text: str) -> str | None:
    """What a parser says against the text, if anything."""
    try:
        kind.parse(text)
    except QuantityError as problem:
        return problem.message
    return None


ONLY_THE_PARSER_SEES = (
    "puts a smaller unit first",
    "puts a unit twice",
    "divides by zero",
    "puts the higher voltage first",
    "is no voltage at all",
)
"""Faults of value or order, which a pattern cannot see."""

NUMBERS = ["12", "1.5", ".5", "3/4", "1 1/2", "1  1/2", "0.75", "120/240", "120 / 208"]
ODD_NUMBERS = ["", "1/0", "0/4", "5.", "1e3", "-3", "−3", "1,5", "1/2/3", "240/120", "1234567890", "1.1234567890"]
EVERY_UNIT = [unit for kind in QUANTITIES.values() for unit in units_of(kind)]
JUNK = st.text("aAvVfFhHpPiInNtT°²³Ω'\"-+/.0 x\t\n", max_size=4)


@st.composite
def written(draw: st.DrawFn, kind: Any) -> str:
    """A text made of what quantities are made of, sometimes right and sometimes not."""
    gaps, own = st.sampled_from([" ", "", "  "]), st.sampled_from(units_of(kind))
    number = st.integers(0, 10**4).map(str) | st.sampled_from(NUMBERS)
    term = st.tuples(number, gaps, own | own.map(str.swapcase)).map("".join)
    odd_number, odd_unit = st.sampled_from(NUMBERS + ODD_NUMBERS), st.sampled_from(EVERY_UNIT) | JUNK
    odd_term = st.tuples(odd_number, gaps, own | odd_unit).map("".join)
    ahead, behind = draw(st.sampled_from([("", ""), (" ", "\n"), ("-", ""), ("−", " ")]))
    several = draw(st.lists(term | term | odd_term, min_size=1, max_size=draw(st.sampled_from([1, 1, 3]))))
    return (ahead + draw(gaps).join(several) + behind)[:40]


def agree(name: str, text: str) -> bool:
    """Whether pattern and parser say the same of a text, but for faults that only the parser sees."""
    said = refusal(QUANTITIES[name], text)
    return (said or "").endswith(ONLY_THE_PARSER_SEES) or accepts(name, text) == (said is None)


@pytest.mark.parametrize("name", QUANTITIES)
@given(data=st.data())
def test_pattern_and_parser_agree(name: str, data: st.DataObject) -> None:
    """A text that passes the pattern can be read, and the other way round."""
    assert agree(name, data.draw(written(QUANTITIES[name])))


@pytest.mark.parametrize("name", QUANTITIES)
def test_pattern_and_parser_agree_on_every_unit_and_form_of_number(name: str) -> None:
    """Nothing here is left to chance: each form of number, right or wrong, with each unit in either case."""
    for unit in units_of(QUANTITIES[name]):
        for spelled in (unit, unit.upper(), unit.lower()):
            assert [number for number in NUMBERS + ODD_NUMBERS if not agree(name, f"{number} {spelled}")] == [], spelled


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("length", "6 in 12 ft"),
        ("length", "6 in 6 in"),
        ("length", "1/0 in"),
        ("current", "20/0 A"),
        ("supply-voltage", "240/120 V"),
        ("supply-voltage", "0 V"),
    ],
)
def test_only_the_parser_sees_faults_of_value_or_order(name: str, text: str) -> None:
    """The documented differences: such a text passes the pattern, and the parser says what is wrong with it."""
    assert accepts(name, text)
    assert (refusal(QUANTITIES[name], text) or "").endswith(ONLY_THE_PARSER_SEES)


@pytest.mark.parametrize("name", QUANTITIES)
def test_pattern_and_parser_agree_on_the_longest_text(name: str) -> None:
    """Forty characters are read, forty-one are not."""
    kind, unit = QUANTITIES[name], DEFS[name]["unit"].split(", ")[0]
    for length, good in ((40, True), (41, False)):
        text = "1" + unit.rjust(length - 1)
        assert (accepts(name, text), reads(kind, text)) == (good, good)


def test_a_hostile_text_is_refused_at_once() -> None:
    """The pattern of compound lengths has one way only to read a text, however many gaps it has."""
    assert not accepts("length", "1 in  " * 5_000 + "x")
