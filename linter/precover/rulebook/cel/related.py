"""What a requirement can ask of a thing besides what the plan states of it: what it belongs to, and what is worked out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any

from precover.plan import (
    Bend,
    Box,
    Breaker,
    Carried,
    Circuit,
    Device,
    Electrode,
    GroundFaultDevice,
    Leg,
    Panel,
    Raceway,
    Receptacle,
    Route,
    Structure,
)
from precover.rulebook.cel.kinds import TEXT, YES, Field, Kind, noun, several, thing
from precover.rulebook.look import Look
from precover.tracing import Lying, Protector
from precover.units import Length


class Protecting:
    """What can give ground-fault protection to what lies behind it."""

    __slots__ = ("at", "place")

    def __init__(self, at: Protector) -> None:
        self.at = at
        self.place = at.place


@cache
def related() -> Mapping[type, Mapping[str, Field]]:
    """Fields that are worked out, by class."""
    length, protecting = Kind("quantity", Length), several(thing(Protecting))
    around = _field(Kind("notation", Raceway), lambda leg, look: look.stated(look.trace.raceway_around(leg)))
    return {
        Device: {
            "box": _field(thing(Box), lambda one, look: look.trace.box_of(one)),
            "circuit": _field(thing(Circuit), lambda one, look: look.trace.circuit_of(one)),
            "structure": _field(thing(Structure), lambda one, look: look.trace.structure_of(one)),
            "protectors": _field(protecting, lambda one, look: [Protecting(p) for p in look.trace.protectors_of(one)]),
        },
        Leg: {
            "route": _field(thing(Route), lambda one, look: look.trace.route_of(one)),
            "circuits": _field(several(thing(Circuit)), lambda one, look: _carried(look.trace.route_of(one), look)),
            "raceway_around": around,
            "protectors": _field(protecting, _ahead_of_leg),
        },
        Lying: {
            "leg": _field(thing(Leg), lambda one, _look: one.leg),
            "route": _field(thing(Route), lambda one, _look: one.route),
            "circuit": _field(thing(Circuit), lambda one, _look: one.circuit),
            "carried": _field(thing(Carried), lambda one, _look: one.carried),
            "raceway_around": around._replace(
                work=lambda one, look: look.stated(look.trace.raceway_around(one.leg)),
            ),
        },
        Carried: {
            "circuit": _field(thing(Circuit), lambda one, look: look.plan.circuits[one.id]),
            "route": _field(thing(Route), _route_with),
        },
        Route: {
            "circuits": _field(several(thing(Circuit)), _carried),
            "length": _field(length, lambda one, look: _length([one], look)),
            "from_structure": _field(thing(Structure), lambda one, look: _at(one.from_, look)),
            "to_structure": _field(thing(Structure), lambda one, look: _at(one.to, look)),
        },
        Circuit: {
            "routes": _field(several(thing(Route)), lambda one, look: look.trace.tree.routes[one.id]),
            "length": _field(length, lambda one, look: _length(look.trace.tree.routes[one.id], look)),
            "devices": _field(several(thing(Device)), lambda one, look: look.trace.devices_on(one)),
            "panel": _field(thing(Panel), lambda one, look: look.plan.panels.get(one.from_), may_lack=True),
        },
        Box: {"structure": _field(thing(Structure), lambda one, look: look.trace.structure_of(one))},
        Panel: {
            "structure": _field(thing(Structure), lambda one, look: look.trace.structure_of(one)),
            "circuits": _field(several(thing(Circuit)), lambda one, look: look.trace.circuits_from(one)),
            "feeder": _field(thing(Circuit), lambda one, look: look.trace.feeder_of(one), may_lack=True),
        },
        Structure: {
            "boxes": _field(several(thing(Box)), lambda one, look: _boxes(one, look)),
            "devices": _field(several(thing(Device)), lambda one, look: look.trace.devices_at(one)),
            "panels": _field(several(thing(Panel)), lambda one, look: look.trace.panels_at(one)),
            "supplies": _field(
                several(thing(Circuit)), lambda one, look: [supply.circuit for supply in look.trace.supplies(one)]
            ),
            "circuits": _field(several(thing(Circuit)), _serving),
        },
        Electrode: {"structure": _field(thing(Structure), lambda one, look: look.trace.structure_with(one))},
        Protecting: {
            "class_a": _field(YES, _is_class_a),
            "structure": _field(thing(Structure), _protects_from, may_lack=True),
            "kind": _field(
                TEXT._replace(words=tuple(map(noun, (Breaker, Receptacle, GroundFaultDevice)))),
                lambda one, _look: noun(type(one.at)),
            ),
        },
    }


def _field(kind: Kind, work: Any, *, may_lack: bool = False) -> Field:
    return Field(kind, may_lack, None, work)


def _carried(route: Route, look: Look) -> list[Circuit]:
    return [circuit for circuit, _ in look.trace.circuits_on(route)]


def _ahead_of_leg(leg: Leg, look: Look) -> list[Protecting]:
    found: dict[str, Protector] = {}
    for circuit in _carried(look.trace.route_of(leg), look):
        found |= {one.place: one for one in look.trace.protectors_ahead_of_leg(circuit, leg)}
    return [Protecting(one) for one in found.values()]


def _route_with(carried: Carried, look: Look) -> Route:
    return look.trace.lying(carried)[0].route if look.trace.lying(carried) else _named_in(carried, look)


def _named_in(carried: Carried, look: Look) -> Route:
    return next(route for route in look.plan.routes.values() if carried in route.carries.values())


def _length(routes: Iterable[Route], look: Look) -> Length:
    """The stated lengths of all legs together; a bend has none."""
    legs = (leg for route in routes for leg in route.legs if not isinstance(leg, Bend))
    return Length.of(
        sum((look.stated(leg.length).in_unit("ft") for leg in legs), start=Length.of(0, "ft").amount), "ft"
    )


def _at(node: str, look: Look) -> Structure:
    return look.plan.structures[look.trace.node(node).at]


def _boxes(structure: Structure, look: Look) -> Iterator[Box]:
    return (box for box in look.plan.boxes.values() if box.at == structure.id)


def _serving(structure: Structure, look: Look) -> list[Circuit]:
    """The branch circuits that something at a structure is on, each once."""
    found = (look.trace.circuit_of(device) for device in look.trace.devices_at(structure))
    return list({circuit.id: circuit for circuit in found if circuit.kind == "branch circuit"}.values())


def _is_class_a(one: Protecting, look: Look) -> bool:
    if isinstance(one.at, Receptacle):
        return bool(look.stated(one.at.ground_fault))
    return bool(look.stated(one.at.ground_fault if isinstance(one.at, Breaker) else one.at.trip) == "class A")


def _protects_from(one: Protecting, look: Look) -> Structure | None:
    if not isinstance(one.at, Breaker):
        return look.trace.structure_of(one.at)
    circuit = next(c for c in look.plan.circuits.values() if c.breaker.place == one.at.place)
    panel = look.plan.panels.get(circuit.from_)
    return look.trace.structure_of(panel) if panel is not None else None
