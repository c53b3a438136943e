"""Ways out by larger wire bring the raceway that it needs, where what is there may not hold it."""

from __future__ import annotations

from typing import Any

import pytest

from support.offered import offered, settled
from support.reviews import example, merged

AMPACITY, STUDIO = "/breaker-for-the-ampacity", "/circuits/studio"
HOTS, DROP, FEEDER = "/hots-for-the-voltage", "/drop-of-one-circuit", "/circuits/workshop-feeder"


def test_a_thicker_cable_comes_with_a_raceway_that_holds_it_whoever_makes_it() -> None:
    """Its width, which hangs on the maker, need not be asked for then."""
    data = example("pottery-studio", {"circuits": {"studio": {"breaker": {"rating": "30 A"}}}})
    words = "use 10 AWG Cu on garage-wall, 10 AWG Cu on yard, 10 AWG Cu on ceiling, and PVC-80 1 in on yard"
    found = settled(data, "/breaker-for-small-wire", STUDIO)
    assert not [one for one in found[words] if one.startswith("raceway/")]


def test_a_raceway_that_is_large_enough_stays() -> None:
    """The same in 1-1/4 in."""
    data = example("pottery-studio", {"circuits": {"studio": {"breaker": {"rating": "30 A"}}}})
    roomy = merged(data, {"routes": {"yard": {"raceway": "PVC-80 1-1/4 in"}}})
    words = "use 10 AWG Cu on garage-wall, 10 AWG Cu on yard, 10 AWG Cu on ceiling"
    assert words in offered(roomy, "/breaker-for-small-wire", STUDIO)


def far(**more: Any) -> dict[str, Any]:
    """The joinery workshop so far off that its feeder of 40 A a leg wants 1/0 AWG."""
    leg = {"buried": "lawn", "cover": "24 in", "length": "600 ft"}
    return example(
        "joinery-workshop",
        {"circuits": {"workshop-feeder": {"load": "40 A"}}, "routes": {"yard": {"legs": [leg], **more}}},
    )


def test_wires_come_with_raceway_and_box_for_them() -> None:
    """By the table: three wires of 1/0 AWG and a ground of 3 AWG have 40 % of 1-1/2 in; the box goes by the new raceway."""
    words = (
        "run workshop-feeder in 1/0 AWG, all the way, and EMT 1-1/2 in on garage-run, and PVC-80 1-1/2 in on yard,"
        " and a box 12 in long for pull-box"
    )
    assert settled(far(), DROP, FEEDER) == {words: []}


@pytest.mark.parametrize(
    ("raceway", "told"),
    [
        ("none", ", and EMT 1-1/2 in on garage-run, and a box 12 in long for pull-box"),
        (None, ", and EMT 1-1/2 in on garage-run, and a box 12 in long for pull-box"),
        ("plumbing pipe 2 in", ", and EMT 1-1/2 in on garage-run, and a box 16 in long for pull-box"),
        ("PVC-80 4 in", ", and EMT 1-1/2 in on garage-run, and a box 32 in long for pull-box"),
    ],
)
def test_only_a_raceway_that_the_plan_names_is_exchanged(raceway: str | None, told: str) -> None:
    """Not one that is not there, not known, or none for wiring."""
    assert offered(far(raceway=raceway), DROP, FEEDER) == [f"run workshop-feeder in 1/0 AWG, all the way{told}"]


def test_what_lies_beside_it_in_the_raceway_counts() -> None:
    """Unless the plan does not say what it is: then the raceway stays as it is."""
    data = far()
    data["circuits"]["spare"] = {"kind": "branch circuit", "from": "house-panel", "voltage": "120 V"}
    data["routes"]["garage-run"]["carries"]["spare"] = {"wires": {"hot": "3 × 4/0 AWG Cu THWN-2"}}
    (words,) = offered(data, DROP, FEEDER)
    assert "EMT 2-1/2 in on garage-run" in words
    data["routes"]["garage-run"]["carries"]["spare"] = {}
    (words,) = offered(data, DROP, FEEDER)
    assert "on garage-run" not in words


def test_a_second_hot_comes_with_room_for_it() -> None:
    """A cable of three conductors in the place of one of two."""
    shared = {"voltage": "120/240 V", "multiwire": True, "breaker": {"poles": 2, "common-trip": True}}
    data = example("pottery-studio", {"circuits": {"studio": shared}})
    words = "pull a second hot: NM-B 12/3, UF-B 12/3, and PVC-80 1-1/4 in on yard"
    assert settled(data, HOTS, STUDIO) == {words: []}
