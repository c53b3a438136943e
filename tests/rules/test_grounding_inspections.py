"""What the inspection list says of grounding, and where it says nothing."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example, reviewed

NO_RODS = {"north-rod": None, "south-rod": None}
FOOTING = {"footing": {"kind": "concrete-encased", "bonded": True, "length": "20 ft"}}


def said(data: dict[str, Any], item: str) -> list[str]:
    """Everything that one entry says of a plan."""
    return [entry.says for entry in reviewed(data).inspect if entry.item.id.endswith(f"/{item}")]


def workshop(electrodes: dict[str, Any] | None = None) -> dict[str, Any]:
    """The joinery workshop with other electrodes."""
    return example("joinery-workshop", {"structures": {"workshop": {"grounding": {"electrodes": electrodes or {}}}}})


def studio(electrodes: dict[str, Any] | None = None) -> dict[str, Any]:
    """The pottery studio, which needs none, with electrodes."""
    return example("pottery-studio", {"structures": {"studio": {"grounding": {"electrodes": electrodes or {}}}}})


ROD = {"stake": {"kind": "rod", "bonded": True}}


@pytest.mark.parametrize(
    ("data", "item", "starts"),
    [
        (workshop(), "metal-of-the-structure-bonded", ["At workshop: metal water pipe is bonded"]),
        (studio(), "metal-of-the-structure-bonded", []),
        (workshop(FOOTING), "footing-steel-seen-before-the-pour", ["Before the pour: at least 20 ft of bar or wire"]),
        (workshop(), "footing-steel-seen-before-the-pour", []),
        (studio(FOOTING), "footing-steel-seen-before-the-pour", []),
        (workshop(), "conductor-to-the-electrodes", ["At workshop a conductor of its own goes to the electrodes"]),
        (workshop(NO_RODS), "conductor-to-the-electrodes", []),
        (studio(ROD), "conductor-to-the-electrodes", []),
        (workshop(), "rods-seen", ["north-rod, south-rod: driven full length"]),
        (workshop({**NO_RODS, **FOOTING}), "rods-seen", []),
        (workshop({"north-rod": None, **FOOTING}), "rods-seen", ["south-rod: driven full length"]),
        (studio(ROD), "rods-seen", []),
        (workshop(), "bond-of-the-neutral", ["workshop-panel: bonding screw or strap taken out"]),
        (studio(), "bond-of-the-neutral", []),
    ],
)
def test_what_is_said(data: dict[str, Any], item: str, starts: list[str]) -> None:
    """With this plan's names, where a system of electrodes is needed; else nothing."""
    found = said(data, item)
    assert len(found) == len(starts)
    assert all(one.startswith(start) for one, start in zip(found, starts, strict=True))
