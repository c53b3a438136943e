"""How a query says a fact is stated: with the keys that it is nested in, as the plan writes it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from precover.plan import Plan, Unstated
from precover.plan.thing import Fact, Thing
from precover.showing.asking import Query
from support.reviews import data_of


def facts(
    kind: type[Thing], place: str = "", nest: tuple[str, ...] = ()
) -> Iterator[tuple[str, tuple[str, ...], Fact]]:
    """Every fact that a plan can leave out: the place of its owner, the parts it is nested in, itself."""
    for branch in kind.__subclasses__() or [kind]:
        for fact in branch.facts.values():
            types = fact.type if isinstance(fact.type, tuple) else (fact.type,)
            inner = next((one for one in types if isinstance(one, type) and issubclass(one, Thing)), None)
            if fact.kind == "fact":
                yield place, nest, fact
            if inner is None or inner is kind:
                continue
            if fact.kind == "things" or fact.kind == "list":
                yield from facts(inner, f"{place}/{fact.key}/{'0' if fact.kind == 'list' else 'devices'}")
            else:
                yield from facts(inner, f"{place}/{fact.key}", (*nest, fact.key))


FACTS = {f"{owner}/{fact.key}": (owner, nest, fact) for owner, nest, fact in facts(Plan)}
NESTED = {
    "/circuits/devices/breaker/ground-fault": ("breaker",),
    "/boxes/devices/box/volume": ("box",),
    "/structures/devices/grounding/conductor/wire": ("grounding", "conductor"),
    "/structures/devices/grounding/electrodes/devices/driven": (),
    "/routes/devices/legs/0/slab/thickness": ("slab",),
    "/routes/devices/carries/devices/wires/hot": ("wires",),
    "/panels/devices/working-space/depth": ("working-space",),
    "/site/frost": ("site",),
    "/boxes/devices/devices/devices/weather-resistant": (),
}


def test_the_parts_of_a_plan_are_all_here() -> None:
    """Facts inside parts, in parts of parts, under ids (even one named `devices`), in lists."""
    assert {place: FACTS[place][1] for place in NESTED} == NESTED


@pytest.mark.parametrize("place", FACTS)
def test_a_fact_is_written_where_the_plan_nests_it(place: str) -> None:
    """What is shown is the plan's own YAML, from the thing that it belongs to."""
    owner, nest, fact = FACTS[place]
    written = Query(Unstated(owner, fact), (), {"examples": ["x"]}).written.removesuffix(" (in the manner of x)")
    written = written.replace("one of ", "").replace("true or false", "true")
    found: Any = data_of(written.replace(", ", " "))
    for key in nest:
        assert list(found) == [key]
        found = found[key]
    assert list(found) == [fact.key]
