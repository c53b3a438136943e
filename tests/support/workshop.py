"""Variations of the joinery workshop that tests of several subjects look at."""

from __future__ import annotations

from typing import Any

from support.reviews import example, merged

ONLY_PLANER: dict[str, Any] = {
    "circuits": {"bench-outlets": None, "lights": None},
    "boxes": dict.fromkeys(("bench-box", "yard-box", "switch-box", "porch-light-box")),
    "routes": dict.fromkeys(("bench", "porch", "lighting", "porch-lighting")),
}
"""The workshop with nothing but its planer."""


def shop(*patches: dict[str, Any]) -> dict[str, Any]:
    """The workshop with changes."""
    data = example("joinery-workshop")
    for patch in patches:
        data = merged(data, patch)
    return data


def planer(wire: str, rating: str = "30 A", high: str = "86 °F", **circuit: Any) -> dict[str, Any]:
    """The workshop with another wire or cable to its planer, in conduit along an inside wall."""
    carried = {"wires": {"hot": f"2 × {wire}"}} if "AWG" in wire or "kcmil" in wire else {"wires": None, "cable": wire}
    return shop(
        {
            "site": {"design-high": high},
            "circuits": {"planer": {"breaker": {"rating": rating}, **circuit}},
            "routes": {"planer-run": {"carries": {"planer": carried}}},
        }
    )


def shed(receptacle: str, **circuits: dict[str, Any]) -> dict[str, Any]:
    """A change that puts a second panel behind the workshop's, with these branch circuits, a receptacle on each."""
    legs = [{"in": "wall framing", "length": "20 ft"}]
    branch = {"kind": "branch circuit", "from": "shed-panel", "multiwire": False}
    return {
        "panels": {"shed-panel": {"at": "workshop", "area": "indoors", "duty": "feeder panel", "system": "120/240 V"}},
        "circuits": {
            "sub": {"kind": "feeder", "from": "workshop-panel", "voltage": "120/240 V", "breaker": {"rating": "30 A"}},
            **{name: {**branch, **circuit} for name, circuit in circuits.items()},
        },
        "boxes": {
            "shed-box": {
                "at": "workshop",
                "box": {},
                "devices": {name: {"receptacle": receptacle, "circuit": name} for name in circuits},
            }
        },
        "routes": {
            "sub": {
                "from": "workshop-panel",
                "to": "shed-panel",
                "raceway": "none",
                "carries": {"sub": {"cable": "NM-B 10/3"}},
                "legs": legs,
            },
            "shed": {
                "from": "shed-panel",
                "to": "shed-box",
                "raceway": "none",
                "carries": {name: {"cable": "NM-B 14/2"} for name in circuits},
                "legs": legs,
            },
        },
    }
