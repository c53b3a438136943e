"""What the inspection list says of a disconnect, and where it says nothing."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import example, merged, reviewed

DWELLING = {"structures": {"workshop": {"use": "dwelling"}}}
BY_BREAKERS = {"panels": {"workshop-panel": {"main": "none"}}}
OUT_OF_REACH = {"circuits": {"workshop-feeder": {"breaker": {"readily-accessible": False}}}}
THREE_HOMES = {"site": {"premises": "two-family dwelling"}}
ONE_CIRCUIT = {
    "circuits": {"bench-outlets": None, "lights": None},
    "routes": {"bench": None, "porch": None, "lighting": None, "porch-lighting": None},
    "boxes": {"bench-box": None, "yard-box": None, "switch-box": None, "porch-light-box": None},
}


def said(data: dict[str, Any], item: str) -> list[str]:
    """Everything that one entry says of a plan."""
    return [entry.says for entry in reviewed(data).inspect if entry.item.id.endswith(f"/{item}")]


def workshop(*patches: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop with changes."""
    data = example("joinery-workshop")
    for patch in patches:
        data = merged(data, patch)
    return data


def studio(**patch: Any) -> dict[str, Any]:
    """The pottery studio with changes."""
    return example("pottery-studio", patch)


@pytest.mark.parametrize(
    ("data", "item", "expected"),
    [
        (
            workshop(DWELLING),
            "emergency-disconnect-marked",
            ["The outside disconnect of workshop is marked as its emergency disconnect."],
        ),
        (workshop(), "emergency-disconnect-marked", []),
        (workshop(DWELLING, {"structures": {"workshop": {"detached": False}}}), "emergency-disconnect-marked", []),
        (
            workshop(BY_BREAKERS),
            "grouped-and-marked",
            [
                "the breakers of workshop-panel stand together as the disconnect of workshop, each marked with what it opens."
            ],
        ),
        (workshop(), "grouped-and-marked", []),
        (workshop(BY_BREAKERS, ONE_CIRCUIT), "grouped-and-marked", []),
        (
            workshop(),
            "marking-lasts",
            [
                "the main of workshop-panel is marked legibly as the disconnect of workshop, with a marking that lasts"
                " there."
            ],
        ),
        (studio(boxes={"entry-box": {"devices": {"main-switch": {"role": "lighting"}}}}), "marking-lasts", []),
        (workshop(THREE_HOMES, {"structures": {"workshop": {"detached": False}}}), "every-occupant-can-reach-it", []),
        (
            workshop(THREE_HOMES),
            "every-occupant-can-reach-it",
            ["Each occupant of workshop can reach the disconnect of what supplies them."],
        ),
        (
            workshop(OUT_OF_REACH),
            "branch-breakers-within-reach",
            [
                "The breaker of workshop-feeder cannot be reached at once; the branch breakers behind it, in"
                " workshop-panel, can."
            ],
        ),
        (workshop(), "branch-breakers-within-reach", []),
        (
            studio(circuits={"studio": {"breaker": {"readily-accessible": False}}}),
            "branch-breakers-within-reach",
            [],
        ),
        (
            studio(),
            "disconnect-first-in-its-box",
            ["In entry-box the supply goes to main-switch first: nothing is fed from ahead of it."],
        ),
        (studio(boxes={"entry-box": {"devices": {"bench-outlet": None}}}), "disconnect-first-in-its-box", []),
        (workshop(), "disconnect-first-in-its-box", []),
        (
            studio(boxes={"entry-box": {"devices": {"main-switch": {"role": "lighting"}}}}),
            "disconnect-first-in-its-box",
            [],
        ),
        (workshop(), "snap-switch-shows-its-position", []),
        (
            studio(boxes={"entry-box": {"devices": {"main-switch": {"role": "lighting"}}}}),
            "snap-switch-shows-its-position",
            [],
        ),
        (workshop(), "shared-neutral", []),
    ],
)
def test_what_is_said(data: dict[str, Any], item: str, expected: list[str]) -> None:
    """In whole sentences where it comes up, else nothing; a feeder of three wires shares its neutral as well."""
    assert said(data, item) == expected


def test_a_disconnect_that_cannot_be_locked_needs_no_provision_that_stays() -> None:
    """Only one that can."""
    for lockable, expected in ((True, 1), (False, 0)):
        device = {"disconnect": "60 A", "opens": "all hots", "lockable": lockable}
        data = studio(boxes={"entry-box": {"devices": {"cut-off": device}}})
        assert len(said(data, "lock-provision-stays")) == expected
