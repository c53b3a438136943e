"""Ways out of a finding on ground-fault protection, each proved by a second review."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.prover import Prover
from precover.amending.way import mark
from precover.reviewing import open_plan, review
from support.reviews import example, library, written


def proved(name: str, patch: dict[str, Any], rule: str, place: str) -> dict[str, bool]:
    """The words of each proposal of the finding at a place, and whether it settles it without bringing another."""
    opened = open_plan("test.plan.yaml", written(example(name, patch)))
    of = review(opened, library())
    (finding,) = [one for one in of.findings if one.line.rule.id.endswith(rule) and one.line.subject == place]
    prover, before = Prover(opened, of), frozenset(mark(one) for one in of.findings)
    ways = {}
    for proposal in finding.line.answer.proposals:
        way = prover.proves(finding, (proposal,), before)
        ways[proposal.words] = way is not None and not way.brings
    return ways


RECEPTACLE = "/protection-of-a-receptacle"
BENCH = "/boxes/entry-box/devices/bench-outlet"
HERE = "a class A ground-fault receptacle for bench-outlet, where it can be reached"
AT_THE_BREAKER = "a class A ground-fault breaker for circuit studio, where it can be reached"


def test_nothing_there_yet() -> None:
    """A receptacle here or a breaker."""
    patch = {"boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}}}}
    assert proved("pottery-studio", patch, RECEPTACLE, BENCH) == {HERE: True, AT_THE_BREAKER: True}


def test_what_is_not_said_to_be_in_reach_is_put_in_reach() -> None:
    """No way out brings the question whether its device can be reached."""
    patch = {
        "circuits": {"studio": {"breaker": {"readily-accessible": None}}},
        "boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}}},
    }
    assert proved("pottery-studio", patch, RECEPTACLE, BENCH) == {HERE: True, AT_THE_BREAKER: True}


def test_what_is_out_of_reach_is_not_proposed() -> None:
    """Neither a receptacle nor a breaker that nobody could test."""
    patch = {
        "circuits": {"studio": {"breaker": {"readily-accessible": False}}},
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}},
            "entry-box": {"devices": {"bench-outlet": {"readily-accessible": False}}},
        },
    }
    assert proved("pottery-studio", patch, RECEPTACLE, BENCH) == {}


def test_from_the_load_side_of_a_box_ahead() -> None:
    """A class A receptacle ahead that does not feed on yet comes first."""
    patch = {"boxes": {"terrace-box": {"devices": {"terrace-outlet": {"protects-downstream": False}}}}}
    ways = proved("pottery-studio", patch, RECEPTACLE, BENCH)
    assert list(ways) == [
        "feed what leaves the box from the load side of terrace-outlet in terrace-box",
        HERE,
        AT_THE_BREAKER,
    ]
    assert all(ways.values())


@pytest.mark.parametrize(
    "guard",
    [
        {"receptacle": "20 A", "voltage": "125 V", "ground-fault": True, "tamper-resistant": True},
        {"ground-fault-device": "20 A", "trip": "class A"},
    ],
)
def test_from_the_load_side_in_its_box(guard: dict[str, Any]) -> None:
    """A class A device in the box can feed it."""
    patch = {
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}},
            "entry-box": {"devices": {"guard": {**guard, "readily-accessible": True}}},
        }
    }
    ways = proved("pottery-studio", patch, RECEPTACLE, BENCH)
    assert list(ways) == ["feed bench-outlet from the load side of guard in its box", HERE, AT_THE_BREAKER]
    assert all(ways.values())


def test_a_receptacle_that_is_not_sold_is_not_proposed() -> None:
    """There is no class A receptacle for 250 V and 30 A: only the breaker is left."""
    patch = {"circuits": {"planer": {"breaker": {"ground-fault": "none"}}}}
    ways = proved("joinery-workshop", patch, RECEPTACLE, "/boxes/planer-box/devices/planer-outlet")
    assert ways == {"a 2-pole class A ground-fault breaker for circuit planer, where it can be reached": True}


def test_a_panel_out_of_reach_gets_no_breaker() -> None:
    """A breaker that nobody could test is no way out."""
    patch = {
        "panels": {"house-panel": {"readily-accessible": False}},
        "boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}}},
    }
    assert proved("pottery-studio", patch, RECEPTACLE, BENCH) == {HERE: True}


def test_what_it_feeds_cannot_feed_it() -> None:
    """A class A device behind it in its box is no source."""
    guard = {"receptacle": "20 A", "voltage": "125 V", "ground-fault": True, "after": "bench-outlet"}
    patch = {
        "boxes": {
            "terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}},
            "entry-box": {"devices": {"guard": guard}},
        }
    }
    assert proved("pottery-studio", patch, RECEPTACLE, BENCH) == {HERE: True, AT_THE_BREAKER: True}


def test_another_circuit_in_its_box_cannot_feed_it() -> None:
    """The load side of a device on another circuit is no source."""
    guard = {"receptacle": "20 A", "voltage": "125 V", "ground-fault": True, "circuit": "lights"}
    patch = {
        "circuits": {"bench-outlets": {"breaker": {"ground-fault": "none"}}},
        "boxes": {"bench-box": {"devices": {"guard": guard, "bench-outlet": {"circuit": "bench-outlets"}}}},
        "routes": {"bench": {"carries": {"lights": {"wires": {"hot": "14 AWG Cu THHN", "neutral": "14 AWG Cu THHN"}}}}},
    }
    ways = proved("joinery-workshop", patch, RECEPTACLE, "/boxes/bench-box/devices/bench-outlet")
    assert [words for words in ways if "load side" in words] == []
    assert len(ways) == 2


def test_hardwired_equipment() -> None:
    """Equipment has no device of its own to exchange."""
    patch = {
        "circuits": {"pump": {"breaker": {"ground-fault": "none"}}},
        "boxes": {"post-box": {"devices": {"outlet": None, "pump": {"equipment": "gate opener", "hardwired": True}}}},
    }
    rule = "/protection-of-hardwired-equipment-outdoors"
    ways = proved("orchard-pump", patch, rule, "/boxes/post-box/devices/pump")
    assert list(ways) == ["a class A ground-fault breaker for circuit pump, where it can be reached"]


@pytest.mark.parametrize(
    ("name", "patch", "rule", "place", "words"),
    [
        (
            "pottery-studio",
            {"boxes": {"terrace-box": {"devices": {"terrace-outlet": {"readily-accessible": False}}}}},
            "/a-device-within-reach",
            "/boxes/terrace-box/devices/terrace-outlet",
            [AT_THE_BREAKER, "move terrace-outlet to where it can be reached"],
        ),
        (
            "orchard-pump",
            {"circuits": {"pump": {"breaker": {"readily-accessible": False}}}},
            "/a-breaker-within-reach",
            "/circuits/pump",
            ["move the breaker to a panel that can be reached"],
        ),
        (
            "orchard-pump",
            {"panels": {"farmhouse-panel": {"readily-accessible": False}}},
            "/a-breaker-within-reach",
            "/circuits/pump",
            ["move the panel farmhouse-panel to where it can be reached"],
        ),
    ],
)
def test_within_reach(name: str, patch: dict[str, Any], rule: str, place: str, words: list[str]) -> None:
    """Moving it, or protection from elsewhere."""
    ways = proved(name, patch, rule, place)
    assert list(ways) == words
    assert all(ways.values())
