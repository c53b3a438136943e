"""Kinds of installation with requirements of their own, known by what a plan calls its things."""

import re
from functools import lru_cache
from typing import Final

from precover.rulebook import Look

_WORDS: Final = {
    "pool or hot tub": r"hot tubs?|pools?(?! table)|spas?|whirlpool|fountain|swim\w*",
    "vehicle charger": r"evs?|evse|(?:electric )?(?:vehicle|car) charg\w+|electric (?:vehicle|car)|wall ?box charger",
    "generator": r"generators?|transfer switch|power inlet|generator inlet|interlock kit",
    "solar power or battery": r"solar|photovoltaics?|pv|home battery|battery storage|energy storage|wind turbine",
    "classified place": r"(?:spray|paint) (?:booth|room|shop|store)|spray paint\w*|fuel|gasoline|petrol|flammables?|grain|silo",
    "temporary power": r"temporary|construction power",
    "farm": r"barn|stables?|coop|hen ?house|chickens?|poultry|livestock|cattle|dairy|milking|pigs?|piggery|goats?|sheep|horses?",
    "repair": r"repair|service station|body shop",
    "pump": r"(?:\w+ )?pumps?",
    "woodwork": r"joinery|wood ?shop|wood ?work\w*|carpentry|saw ?mill|cabinet shop",
}

_KINDS: Final = re.compile(
    rf"\b(?:{'|'.join(f'(?P<k{number}>{words})' for number, words in enumerate(_WORDS.values()))})\b"
)
"""Of small letters: to pass over the case of names takes it more than twice as long."""
_ORDER: Final = tuple(_WORDS)


def named_as(kind: str, look: Look) -> tuple[str, str] | None:
    """What a plan calls a thing of this kind, and the thing's place; the first of several, or None."""
    return _kinds_among(look.trace.names).get(kind)


def is_called(kind: str, name: str) -> bool:
    """A name says this kind."""
    return kind in _kinds_among(((name, ""),))


@lru_cache(maxsize=64)
def _kinds_among(names: tuple[tuple[str, str], ...]) -> dict[str, tuple[str, str]]:
    found: dict[str, tuple[str, str]] = {}
    for name, place in names:
        words = name.casefold().replace("-", " ").replace("_", " ")
        for match in _KINDS.finditer(words):
            found.setdefault(_ORDER[int(str(match.lastgroup)[1:])], (match.group(), place))
    return found
