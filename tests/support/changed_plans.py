"""Plans as people write them, with some things changed: the bundled examples and the plans of the topics' documents."""

from __future__ import annotations

from functools import cache

from hypothesis import strategies as st

from precover.plan import Carried, Circuit, Device, Electrode, Leg
from support.documents import plans_of
from support.edits import Data, Stated, copied, stated, things
from support.facts import facts_of, values_of
from support.reviews import EXAMPLES, example, library

JOINS = frozenset(
    {"format", "rules", "title", "at", "from", "to", "duty", "circuit", "after", "switched-by", "not-with"}
)
"""Keys that hold a plan together: another value of one leaves no plan that can be traced."""


@cache
def written_plans() -> tuple[Data, ...]:
    """Every bundled example, and every plan of a topic's document."""
    bundled = [example(path.name.removesuffix(".plan.yaml")) for path in sorted(EXAMPLES.glob("*.plan.yaml"))]
    topics = library().book().topics.values()
    return (
        *bundled,
        *(example(*plan) for topic in topics for kind in ("Fails", "Passes") for plan in plans_of(topic, kind)),
    )


@st.composite
def changed_plans(draw: st.DrawFn) -> Data:
    """One of them with up to eight changes."""
    data: Data = copied(draw(st.sampled_from(written_plans())))
    for _ in range(draw(st.integers(0, 8))):
        draw(st.sampled_from(CHANGES))(draw, data)
    return data


def _another_value(draw: st.DrawFn, data: Data) -> None:
    found = draw(st.sampled_from([one for one in stated(data) if not _joins(one)]))
    found.within[found.fact.key] = draw(st.sampled_from(values_of(found.kind, found.fact.key)))


def _joins(one: Stated) -> bool:
    return one.fact.key in JOINS or (one.kind is Circuit and one.fact.key == "kind")


def _left_out(draw: st.DrawFn, data: Data) -> None:
    found = draw(st.sampled_from([one for one in stated(data) if one.fact.kind != "needed" and not _joins(one)]))
    del found.within[found.fact.key]


def _one_more_fact(draw: st.DrawFn, data: Data) -> None:
    kind, thing, _ = draw(st.sampled_from(list(things(data))[1:]))
    more = draw(facts_of(kind, *JOINS, whole=True))
    new = [key for key in more if key not in thing and not {key, *thing} >= {"wires", "cable"}]
    if new:
        key = draw(st.sampled_from(new))
        thing[key] = more[key]


def _another_device(draw: st.DrawFn, data: Data) -> None:
    devices = draw(st.sampled_from([box["devices"] for box in data["boxes"].values() if box.get("devices")]))
    beside = draw(st.sampled_from([*devices.values()]))
    device = draw(facts_of(draw(st.sampled_from(Device.__subclasses__())), *JOINS))
    devices["one-more"] = device | {key: beside[key] for key in ("circuit",) if key in beside}


def _another_leg(draw: st.DrawFn, data: Data) -> None:
    legs = draw(st.sampled_from([*data["routes"].values()])).setdefault("legs", [])
    legs.insert(draw(st.integers(0, len(legs))), draw(facts_of(draw(st.sampled_from(Leg.__subclasses__())))))


def _another_electrode(draw: st.DrawFn, data: Data) -> None:
    structure = draw(st.sampled_from([*data["structures"].values()]))
    structure.setdefault("grounding", {}).setdefault("electrodes", {})["one-more"] = draw(facts_of(Electrode))


def _another_circuit_on_a_route(draw: st.DrawFn, data: Data) -> None:
    reached = {name: {circuit["from"].partition("/")[0]} for name, circuit in data["circuits"].items()}
    for route in data["routes"].values():
        for name in route["carries"]:
            reached[name].add(route["to"])
    empty = [name for name, box in data["boxes"].items() if not box.get("devices")]
    room = [
        (route, name)
        for route in data["routes"].values()
        for name, nodes in reached.items()
        if route["from"] in nodes and route["to"] not in nodes and route["to"] in empty
    ]
    if room:
        route, name = draw(st.sampled_from(room))
        carried = draw(facts_of(Carried))
        carried.pop("cable" if "wires" in carried else "wires", None)
        route["carries"][name] = carried


CHANGES = (
    _another_value,
    _another_value,
    _another_value,
    _left_out,
    _left_out,
    _one_more_fact,
    _another_device,
    _another_leg,
    _another_electrode,
    _another_circuit_on_a_route,
)
