"""Edits of a plan that give a structure grounding electrodes."""

from __future__ import annotations

from typing import Any

from precover.plan import Structure, Unstated
from precover.plan.thing import escaped
from precover.rulebook import Effort, Proposal
from precover_rules.free_names import free_names

_CONDUCTOR = {
    "wire": "6 AWG Cu bare",
    "lands-on": "ground bar",
    "physical-damage": False,
    "protection": "none",
    "in-earth": True,
    "spliced": "no",
}
"""A grounding electrode conductor to rods, as it is commonly run."""


def rod(spacing: str) -> dict[str, Any]:
    """A rod as it is commonly sold and driven."""
    return {
        "kind": "rod",
        "bonded": True,
        "length": "8 ft",
        "diameter": "5/8 in",
        "driven": "8 ft",
        "spacing": spacing,
    }


def two_rods(structure: Structure) -> tuple[Proposal, ...]:
    """Two driven rods with their conductor."""
    names = free_names("rod", structure.grounding.electrodes, numbered=True)
    first, second = next(names), next(names)
    place = f"{structure.grounding.place}/electrodes"
    edits = [
        {"op": "add", "path": f"{place}/{escaped(first)}", "value": rod("6 ft")},
        {"op": "add", "path": f"{place}/{escaped(second)}", "value": rod("6 ft")},
        *conductor_facts(structure),
    ]
    return (Proposal("drive two ground rods at the structure, 6 ft apart", Effort.WIRE, tuple(edits)),)


def another_rod(structure: Structure) -> tuple[Proposal, ...]:
    """One more rod, 6 ft from the others."""
    place = f"{structure.grounding.place}/electrodes"
    name = next(free_names("rod", structure.grounding.electrodes, numbered=True))
    edits: list[dict[str, Any]] = [{"op": "add", "path": f"{place}/{escaped(name)}", "value": rod("6 ft")}]
    edits += [
        {"op": "add", "path": f"{electrode.place}/spacing", "value": "6 ft"}
        for electrode in structure.grounding.electrodes.values()
        if electrode.kind in ("rod", "pipe", "plate") and isinstance(electrode.spacing, Unstated)
    ]
    return (Proposal("drive another ground rod, 6 ft from the first", Effort.WIRE, tuple(edits)),)


def conductor_facts(structure: Structure) -> list[dict[str, Any]]:
    """What the plan leaves out of the grounding electrode conductor, as it is commonly run."""
    conductor = structure.grounding.conductor
    return [
        {"op": "add", "path": f"{conductor.place}/{key}", "value": value}
        for key, value in _CONDUCTOR.items()
        if isinstance(getattr(conductor, key.replace("-", "_")), Unstated)
    ]
