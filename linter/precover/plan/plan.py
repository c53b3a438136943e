"""The plan as a whole."""

from collections.abc import Mapping
from typing import Literal

from precover.plan.boxes import Box
from precover.plan.circuits import Circuit
from precover.plan.panels import Panel
from precover.plan.routes import Route
from precover.plan.structures import Structure
from precover.plan.thing import Thing, Unstated
from precover.units import Temperature


class Site(Thing):
    """Where it is, as far as rules ask."""

    premises: (
        Literal["one-family dwelling", "two-family dwelling", "multifamily dwelling", "commercial", "agricultural"]
        | Unstated
    )
    address: str | None
    design_high: Temperature | Unstated
    design_low: Temperature | Unstated
    frost: bool | Unstated
    """The ground freezes or settles enough to move wiring."""


class Plan(Thing):
    """A whole plan. What it lists is all there is; what it leaves out of a listed thing is unknown."""

    format: Literal["precover-plan/1"]
    title: str | None
    rules: tuple[str, ...] | None
    """Rule packs in force, base pack first."""
    statements: Mapping[str, str | bool] | None
    """What a rule pack asks for besides, by the names that it gives; yes or no, words, or quantities as text."""
    site: Site
    structures: Mapping[str, Structure]
    panels: Mapping[str, Panel]
    circuits: Mapping[str, Circuit]
    boxes: Mapping[str, Box]
    routes: Mapping[str, Route]
