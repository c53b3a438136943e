"""Receptacles of the bundled examples, with and without ground-fault protection."""

from __future__ import annotations

from typing import Any

from precover.reviewing import Line, Review
from support.reviews import reviewed_example

RULE = "/protection-of-a-receptacle"
BENCH = "/boxes/entry-box/devices/bench-outlet"
TERRACE = "/boxes/terrace-box/devices/terrace-outlet"
POST = "/boxes/post-box/devices/outlet"
PLANER = "/boxes/planer-box/devices/planer-outlet"


def studio(
    *, structure: dict[str, Any] | None = None, box: dict[str, Any] | None = None, bench: dict[str, Any] | None = None
) -> Review:
    """The pottery studio without any ground-fault protection, with changes to the studio, its box and its receptacle.
    No sink is near unless the change brings one."""
    patch: dict[str, Any] = {
        "structures": {"studio": structure or {}},
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False, "protects-downstream": False}}},
            "entry-box": {**(box or {}), "devices": {"bench-outlet": {"sink-distance": "40 ft", **(bench or {})}}},
        },
    }
    return reviewed_example("pottery-studio", patch)


def line(of: Review, place: str) -> Line:
    """The ledger line on the receptacle at a place."""
    (found,) = [line for line in of.ran if line.rule.id.endswith(RULE) and line.subject == place]
    return found
