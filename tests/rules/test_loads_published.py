"""Published load calculations, put to the whole tool."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import lines, outcome, reviewed_example

WORKED = Path(__file__).parents[1] / "published" / "worked.jsonl"
RECORDS: list[dict[str, Any]] = [
    record
    for text in WORKED.read_text(encoding="utf-8").splitlines()
    if (record := json.loads(text))["computation"] == "panel load"
]
"""Their sources stand with them."""

GONE = ("bench-outlets", "lights", "planer")
BOXES = ("bench-box", "yard-box", "switch-box", "porch-light-box", "planer-box")
RUNS = ("bench", "porch", "lighting", "porch-lighting", "planer-run")


def shop(loads: list[dict[str, Any]], rating: str) -> Review:
    """The joinery workshop with these loads only, each on a circuit of its own, behind a feeder of that rating."""
    patch: dict[str, Any] = {
        "circuits": {**dict.fromkeys(GONE), "workshop-feeder": {"breaker": {"rating": rating}}},
        "boxes": dict.fromkeys(BOXES),
        "routes": dict.fromkeys(RUNS),
        "panels": {"workshop-panel": {"main": rating, "bus": rating}},
    }
    for n, load in enumerate(loads):
        name, both = f"load-{n}", load["legs"] == "both"
        patch["circuits"][name] = {
            "kind": "branch circuit",
            "from": "workshop-panel",
            "voltage": "240 V" if both else "120 V",
            "multiwire": False,
            "breaker": {"rating": "60 A"},
        }
        patch["boxes"][name] = {"at": "workshop", "area": "indoors", "box": {}, "devices": {"it": _device(load, both)}}
        cable = "NM-B 6/2" if both else "NM-B 6/3"
        patch["routes"][name] = {
            "from": "workshop-panel",
            "to": name,
            "raceway": "none",
            "carries": {name: {"cable": cable}},
            "legs": [{"in": "wall framing", "length": "5 ft"}],
        }
    return reviewed_example("joinery-workshop", patch)


def _device(load: dict[str, Any], both: bool) -> dict[str, Any]:
    if load.get("motor"):
        amps = load["va"] / (240 if both else 120)
        # No row of the motor table is for 4 hp, so that the published current counts.
        return {"motor": "4 hp", "full-load-current": f"{amps:g} A"}
    return {"equipment": "tool", "load": f"{load['va']} VA", "continuous": load.get("continuous", False)}


@pytest.mark.parametrize("record", RECORDS, ids=lambda record: record["id"])
def test_published_panel_loads(record: dict[str, Any]) -> None:
    """What was published, or what is computed here instead with the reason in the record."""
    expected = record["published"] | record.get("ours", {})
    review = shop(record["given"]["loads"], f"{record['given'].get('panel_a', 100)} A")
    (line,) = lines(review, "/breaker-carries-the-load", "/circuits/workshop-feeder")
    if "enough" in expected:
        assert (line.answer.outcome.value == "met") is expected["enough"]
        assert outcome(review, "/panel-carries-the-load", "/panels/workshop-panel") == "met"
    if "amps" in expected:
        said = re.match(r"at least ([0-9.]+) A", str(line.answer.needs))
        assert said is not None
        assert float(said[1]) == pytest.approx(expected["amps"], abs=0.1)


def test_there_are_published_panel_loads() -> None:
    """The list is not empty."""
    assert len(RECORDS) >= 3
