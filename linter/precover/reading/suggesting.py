"""What the author of a value that cannot be read may have meant: texts that the field does take, made from the value given."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Final

from precover.plan.conductors import Cable, Conductor, Raceway
from precover.plan.problem import Problem
from precover.plan.thing import tokens_of
from precover.reading.everyday import meant
from precover.reading.field import PlanFields
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

_KINDS: Final[tuple[type[Quantity], ...]] = (
    *(Angle, Apparent, Current, Horsepower, Length, Mass, Power, Resistance, Temperature, Voltage, Volume),
)
_PARSERS: Final[dict[str, Any]] = {
    **{kind.name.replace(" ", "-"): kind for kind in _KINDS},
    "supply-voltage": SupplyVoltage,
    "main-breaker": Current,
    "cable": Cable,
    "conductor": Conductor,
    "raceway": Raceway,
}
"""Definition of the plan schema -> what reads its values."""

LONGEST: Final = 60
"""A value longer than this was not one mistake."""

_NUMBER = re.compile(r"[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|\.[0-9]+")
_CABLE_SIZES = re.compile(r"(?<![\w/-])(?:([0-9]+)[-/]([2-4])|[0-9/]+(?:-[0-9/]+){2,})(?![\w/-])")
_SCHEDULE = re.compile(r"pvc[ -]?(?:sch\w*\.? ?)?(40|80)\b|(?:sch\w*\.? ?)?\b(40|80) ?pvc\b")
_TRADE_SIZE = re.compile(r"(?<![\w/-])((?:[1-4][- ])?[1-3]/[248]|[1-4])(?![0-9/-])")
_RACEWAY_WORD = re.compile(r"\b(?!conduit|pipe|inch)[a-z]{3,}(?:-[a-z]{2})?")
_WIRE = re.compile(
    r"(?:(?P<count>[0-9]{1,2}) ?[x×] ?)?#?(?P<size>[0-9/]+)(?: ?(?:awg|ga|gauge))?"
    r"(?: (?P<metal>cu|al|copper|aluminum))? (?P<insulation>[a-z][a-z0-9/-]+)"
)


def sharpened(problem: Problem, data: Any, fields: PlanFields) -> Problem:
    """The problem of a value that could not be read, with a hint that uses the value where one can be made of it."""
    field, value = fields.at(problem.place), _value_at(data, problem.place)
    if problem.message.endswith("has no unit"):
        return problem._replace(hint=with_unit(field, value) or problem.hint)
    found = suggested(field, value)
    return problem._replace(hint=f"did you mean {either(found)}? {problem.hint}") if found else problem


def suggested(field: dict[str, Any], value: Any) -> tuple[str, ...]:
    """Texts that a field takes and that the value given may have meant, the value itself if it takes that; each has been
    read by what reads the field."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return ()
    text = " ".join(str(value)[: LONGEST + 1].split())
    if not text or len(text) > LONGEST:
        return ()
    names = [name for name in referred(field) if name in _PARSERS]
    tried = dict.fromkeys(guess for name in names for guess in (text, *_guesses(name, text, field)))
    return tuple(guess for guess in tried if any(_reads(_PARSERS[name], guess) for name in names))


def referred(field: dict[str, Any]) -> list[str]:
    """Names of the definitions that a field refers to."""
    return [one["$ref"].rpartition("/")[2] for one in (field, *field.get("anyOf", ())) if "$ref" in one]


def with_unit(field: dict[str, Any], value: Any) -> str:
    """A hint for a number without its unit; empty where none can be made."""
    found = suggested(field, value)
    if not found:
        return ""
    units = field.get("unit", "")
    return f"write {either(found)}" + (f", or with the unit that is meant: {units}" if "," in units else "")


def either(found: tuple[str, ...]) -> str:
    """Suggestions as a message shows them."""
    return " or ".join(f"`{text}`" for text in found)


def _reads(kind: Any, text: str) -> bool:
    try:
        kind.parse(text)
    except QuantityError:
        return False
    return True


def _guesses(name: str, text: str, field: dict[str, Any]) -> Iterator[str]:
    if name == "cable":
        yield from _cables(text)
    elif name == "raceway":
        yield from _raceways(text)
    elif name == "conductor":
        yield from _conductors(text)
    elif _NUMBER.fullmatch(text):
        example = next((one for one in field.get("examples", ()) if len(_NUMBER.findall(one)) == 1), None)
        if example is not None:
            yield _NUMBER.sub(text, example, count=1).removeprefix("-")


def _cables(text: str) -> Iterator[str]:
    """`UF 12-2`, `12/2 NM-B`, `romex 12/2`: type and sizes in order, in the plan's words."""
    sizes = _CABLE_SIZES.search(text)
    if sizes is None:
        return
    kind, *ending = (text[: sizes.start()] + text[sizes.end() :]).split() or [""]
    written = f"{sizes[1]}/{sizes[2]}" if sizes[1] else sizes[0]
    said: list[str] = [word for word in ("Cu", "Al") if word in ending]
    said += ["no ground"] if "no ground" in text.lower() else []
    for one in meant("cable", kind) or (kind,):
        yield " ".join([one, written, *said])


def _raceways(text: str) -> Iterator[str]:
    """`PVC 3/4`, `sch 40 pvc 3/4 in`, `1 EMT`, `3/4`: type, then trade size."""
    small = text.lower()
    schedule = _SCHEDULE.search(small)
    if schedule is not None:
        small = f"{small[: schedule.start()]} {small[schedule.end() :]}"
    size, word = _TRADE_SIZE.search(small), _RACEWAY_WORD.search(small)
    if size is None:
        return
    if schedule is not None:
        kinds: tuple[str, ...] = (f"PVC-{schedule[1] or schedule[2]}",)
    else:
        kinds = meant("raceway", word[0]) or (word[0].upper(),) if word else meant("raceway", "pvc")
    for kind in kinds:
        yield f"{kind} {size[1].replace(' ', '-')} in"


def _conductors(text: str) -> Iterator[str]:
    """`12 THWN-2`, `#12 copper THWN-2`: with the scale, and with either metal where none is said."""
    form = _WIRE.fullmatch(text.lower())
    if form is None:
        return
    count = f"{form['count']} × " if form["count"] else ""
    insulation = "bare" if form["insulation"] == "bare" else form["insulation"].upper()
    for metal in ("Cu", "Al"):
        if not form["metal"] or form["metal"].startswith(metal[0].lower()):
            yield f"{count}{form['size']} AWG {metal} {insulation}"


def _value_at(data: Any, place: str) -> Any:
    for token in tokens_of(place):
        data = data[int(token)] if isinstance(data, list) else data[token]
    return data
