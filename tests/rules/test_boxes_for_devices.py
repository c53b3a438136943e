"""Which boxes proposals put devices into, and how high a new switch is in one: seen in the light that a garage lacks."""

from __future__ import annotations

from typing import Any

import pytest

from support.offered import offered, taken
from support.reviews import example, merged

INSIDE, WORKSHOP = "/light-inside-a-garage", "/structures/workshop"
ON_THE_CEILING = (
    "put a light onto the ceiling, by 12 ft of cable in the framing from bench-box, with a switch in bench-box"
)


def garage(bench: dict[str, Any]) -> dict[str, Any]:
    """The joinery workshop as a garage, with the bench's circuit alone to put a light on."""
    use = {"use": "garage", "vehicle-bays": 1, "entrance": True}
    gone = {"switch-box": None, "porch-light-box": None}
    data = example(
        "joinery-workshop",
        {
            "structures": {"workshop": use},
            "boxes": gone,
            "routes": {"lighting": None, "porch-lighting": None},
            "circuits": {"lights": None},
        },
    )
    return merged(data, {"boxes": {"bench-box": bench}})


@pytest.mark.parametrize(
    ("kind", "takes"),
    [("box", True), ("pedestal", True), ("conduit body", False), ("handhole", False), (None, False)],
)
def test_what_takes_a_device(kind: str | None, takes: bool) -> None:
    """No fitting to pull through, and nothing of no known kind."""
    assert offered(garage({"box": {"kind": kind}}), INSIDE, WORKSHOP) == ([ON_THE_CEILING] if takes else [])


@pytest.mark.parametrize(
    ("heights", "switch"),
    [
        ((None,), "48 in"),
        (("40 in",), "40 in"),
        (("36 in",), "36 in"),
        (("35.9 in",), None),
        (("79 in",), "79 in"),
        (("79.1 in",), None),
        (("8 ft",), None),
        ((None, "44 in"), "44 in"),
        (("44 in", "8 ft"), None),
        (("12 in", "44 in"), None),
    ],
)
def test_a_switch_is_as_high_as_what_is_beside_it(heights: tuple[str | None, ...], switch: str | None) -> None:
    """Where a switch can be at that height."""
    outlet = {"receptacle": "20 A", "voltage": "125 V", "ground-fault": False, "tamper-resistant": True}
    devices = {f"outlet-{n}": outlet | ({"height": height} if height else {}) for n, height in enumerate(heights)}
    data = garage({"devices": {"bench-outlet": None, **devices}})
    assert offered(data, INSIDE, WORKSHOP) == ([] if switch is None else [ON_THE_CEILING])
    if switch is not None:
        after = taken(data, INSIDE, WORKSHOP, ON_THE_CEILING)["boxes"]["bench-box"]["devices"]
        assert after["light-switch"]["height"] == switch
