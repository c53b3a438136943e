"""Published decisions on disconnects, supplies and multiwire circuits, put to the whole tool."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import outcome, reviewed_example

STUDIO = "/structures/studio"
NEEDED, OPENS = "disconnect/needed/disconnect-at-the-structure", "disconnect/opening/opens-every-hot"
RATING, SNAP = "disconnect/rating/rating-for-the-structure", "disconnect/kind/snap-switch-for-a-small-circuit"
ONE, HANDLES = "disconnect/supplies/one-supply", "disconnect/handles/six-handles-at-most"
TOGETHER = "disconnect/multiwire/hots-open-together"
HOUSE_BREAKER_ONLY = {
    "boxes": {
        "entry-box": {"devices": {"main-switch": None}},
        "ceiling-box": {"devices": {"lamp": {"switched-by": None}}},
    }
}
SHARED = {"multiwire": True, "voltage": "120/240 V", "breaker": {"poles": 2, "common-trip": True}}


def studio(patch: dict[str, Any] | None = None) -> Review:
    """The pottery studio: one 20 A branch circuit to an outbuilding, with a snap switch at its entry."""
    return reviewed_example("pottery-studio", patch or {})


def test_a_snap_switch_for_one_circuit_to_a_storage_building() -> None:
    """Trade forum, single branch circuit to residential storage building:
    https://forums.mikeholt.com/threads/single-branch-circuit-to-residential-storage-building.137565
    a disconnect is needed at the building, a snap switch will do, the house breaker does not count."""
    assert (outcome(studio(), NEEDED, STUDIO), outcome(studio(), SNAP, STUDIO)) == ("met", "met")
    assert outcome(studio(HOUSE_BREAKER_ONLY), NEEDED, STUDIO) == "not met"


@pytest.mark.parametrize("rating", ["15 A", "20 A"])
def test_the_house_breaker_is_no_disconnect_of_a_shed(rating: str) -> None:
    """Home repair forum, outdoor receptacle (2007): http://www.diychatroom.com/f18/outdoor-receptacle-10908/
    not compliant; the fix is a single-pole switch at the entry, labelled."""
    circuit = {"circuits": {"studio": {"breaker": {"rating": rating}}}}
    assert outcome(studio(HOUSE_BREAKER_ONLY | circuit), NEEDED, STUDIO) == "not met"
    single = {"boxes": {"entry-box": {"devices": {"main-switch": {"opens": "one hot"}}}}}
    fixed = studio(circuit | single)
    assert (outcome(fixed, NEEDED, STUDIO), outcome(fixed, OPENS, STUDIO)) == ("met", "met")


def test_the_house_breaker_is_none_for_a_feeder_either() -> None:
    """Trade forum, disconnects at separate structures:
    https://forums.mikeholt.com/threads/separate-strutures-disconnects.25504
    the breaker in the main building is not enough. Here a panel without a main and without any breaker."""
    of = reviewed_example(
        "joinery-workshop",
        {
            "panels": {"workshop-panel": {"main": "none"}},
            "circuits": dict.fromkeys(("bench-outlets", "lights", "planer")),
            "routes": dict.fromkeys(("bench", "porch", "lighting", "porch-lighting", "planer-run")),
            "boxes": dict.fromkeys(("bench-box", "yard-box", "switch-box", "porch-light-box", "planer-box")),
        },
    )
    assert outcome(of, NEEDED, "/structures/workshop") == "not met"


@pytest.mark.parametrize(("opens", "expected"), [("all hots", "met"), ("one hot", "not met")])
def test_a_multiwire_circuit_to_a_shed_takes_a_two_pole_20_a_switch(opens: str, expected: str) -> None:
    """Trade forum, run circuit to shed (2002 edition): http://www.electricalknowledge.com/forum/archives/106.asp
    12/3 split into lights and outlets: a two-pole 20 A switch; the neutral is not switched."""
    switch = {"boxes": {"entry-box": {"devices": {"main-switch": {"opens": opens}}}}}
    of = studio({"circuits": {"studio": SHARED}} | switch)
    assert (outcome(of, OPENS, STUDIO), outcome(of, RATING, STUDIO), outcome(of, SNAP, STUDIO)) == (
        expected,
        "met",
        "met",
    )
    no_box = studio({"circuits": {"studio": SHARED}} | HOUSE_BREAKER_ONLY)
    assert outcome(no_box, NEEDED, STUDIO) == "not met"


def test_six_breakers_may_serve_and_more_need_a_main() -> None:
    """Home repair forum, outdoor receptacle (2007): http://www.diychatroom.com/f18/outdoor-receptacle-10908/"""
    spare = {"kind": "branch circuit", "from": "workshop-panel", "voltage": "120 V", "multiwire": False}

    def workshop(more: int, main: str) -> str:
        circuits = {f"spare-{number}": spare for number in range(more)}
        patch = {"panels": {"workshop-panel": {"main": main}}, "circuits": circuits}
        return outcome(reviewed_example("joinery-workshop", patch), HANDLES, "/structures/workshop")

    assert (workshop(3, "none"), workshop(4, "none"), workshop(4, "60 A")) == ("met", "not met", "met")


def test_the_light_pole_exception_does_not_reach_a_garage() -> None:
    """Building code forum, branch circuit to detached garage:
    https://www.thebuildingcodeforum.com/forum/threads/branch-circuit-to-detached-garage.26470/latest"""
    garage = {"structures": {"studio": {"use": "garage"}}}
    assert outcome(studio(HOUSE_BREAKER_ONLY | garage), NEEDED, STUDIO) == "not met"


def test_one_two_wire_or_one_multiwire_circuit_without_a_panel() -> None:
    """Trade forum, maximum number of circuits to a detached structure:
    https://forums.mikeholt.com/threads/maximum-number-of-circuits-to-a-detached-structure.7737"""
    assert outcome(studio(), ONE, STUDIO) == "met"
    assert outcome(studio({"circuits": {"studio": SHARED}}), ONE, STUDIO) == "met"
    assert outcome(studio(supplied_by(heat="120 V")), ONE, STUDIO) == "not met"


def supplied_by(**voltages: str) -> dict[str, Any]:
    """Further circuits to the studio, each with its voltage and a receptacle."""
    return {
        "circuits": {n: {"kind": "branch circuit", "from": "house-panel", "voltage": v} for n, v in voltages.items()},
        "boxes": {f"{n}-box": {"at": "studio", "box": {}, "devices": {"o": {"receptacle": "20 A"}}} for n in voltages},
        "routes": {
            n: {
                "from": "house-panel",
                "to": f"{n}-box",
                "carries": {n: {}},
                "legs": [{"buried": "lawn", "length": "6 ft"}],
            }
            for n in voltages
        },
    }


def test_three_cables_to_one_shed() -> None:
    """Home building forum, outbuilding: https://www.finehomebuilding.com/forum/question-on-nec-250-32-outbuilding-911
    a kiln, heat and lights each on a circuit of their own: not allowed, one feeder instead."""
    assert outcome(studio(supplied_by(kiln="240 V", heat="120 V")), ONE, STUDIO) == "not met"


def test_a_service_and_a_branch_circuit_are_disputed() -> None:
    """Trade forum, new service at detached garage: http://forums.mikeholt.com/threads/2573401
    no settled answer: a question for the authority."""
    of = studio({"panels": {"car-panel": {"at": "studio", "duty": "service equipment"}}})
    assert outcome(of, ONE, STUDIO) == "cannot tell"


def test_tied_handles_will_do() -> None:
    """Training newsletter, multiwire circuits (2008): http://www.jade1.com/newsletter/2008/05/code_change_OR.htm
    the poles are opened together; they need not trip together. The plan's `common-trip` covers tie and trip alike."""
    of = studio({"circuits": {"studio": SHARED}})
    assert outcome(of, TOGETHER, "/circuits/studio") == "met"
