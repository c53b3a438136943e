"""No way out leaves metal without a fault path; an old three-wire feeder's bond; grounds that never leave a building."""

from __future__ import annotations

from typing import Any

import pytest

from precover.amending.patch import applied, complete
from precover.reviewing import Line, Review
from precover.rulebook import Severity
from support.reviews import asked, example, outcome, reviewed, reviewed_example

PANEL, FEEDER, STUDIO = "/panels/workshop-panel", "/circuits/workshop-feeder", "/structures/studio"
APART, PATH, WITHIN = (
    "/neutral-apart-from-ground",
    "/equipment-ground-all-the-way",
    "/equipment-ground-within-a-structure",
)
SIZE, REQUIRED, FOOTING = "/size-of-the-equipment-ground", "/electrode-where-a-feeder-comes-in", "/footing-steel-used"
NO_GROUND: dict[str, Any] = {"yard": {"carries": {"workshop-feeder": {"wires": {"ground": None}}}}}
SEU: dict[str, Any] = {
    "yard": {"raceway": "none", "carries": {"workshop-feeder": {"wires": None, "cable": "SEU 2-2-2 Al"}}},
}


def bonded(routes: dict[str, Any], **panel: Any) -> dict[str, Any]:
    """The workshop with a new feeder wired like that, and a bonded panel."""
    return example("joinery-workshop", {"panels": {"workshop-panel": {"neutral": "bonded", **panel}}, "routes": routes})


def one(of: Review, rule: str, place: str) -> Line:
    """The line of a rule on a subject."""
    (line,) = [line for line in of.ran if line.rule.id.endswith(rule) and line.subject == place]
    return line


@pytest.mark.parametrize("routes", [NO_GROUND, SEU, {"yard": {"carries": {"workshop-feeder": {"wires": None}}}}])
def test_the_neutral_is_not_isolated_while_no_ground_goes_all_the_way(routes: dict[str, Any]) -> None:
    """Not met, and no way out of its own: the bond is the only fault path that is left."""
    line = one(reviewed(bonded(routes)), APART, PANEL)
    assert line.answer.outcome.value == "not met"
    assert line.answer.proposals == ()
    assert "comes first" in line.answer.why


def test_with_a_ground_the_neutral_is_isolated() -> None:
    """The bond may go."""
    (way,) = one(reviewed(bonded({})), APART, PANEL).answer.proposals
    assert [(edit["path"], edit["value"]) for edit in way.patch] == [(f"{PANEL}/neutral", "isolated")]


@pytest.mark.parametrize("bar", [True, False])
def test_the_ground_comes_with_the_isolation(bar: bool) -> None:
    """One step that settles both findings; a panel without a grounding bar gets one."""
    data = bonded(NO_GROUND, **{"ground-bar": bar})
    (way,) = one(reviewed(data), PATH, FEEDER).answer.proposals
    after = reviewed(applied(data, complete(data, way.patch)))
    assert {outcome(after, PATH, FEEDER), outcome(after, APART, PANEL)} == {"met"}
    assert outcome(after, "/ground-bar-in-the-panel", PANEL) == "met"


def test_every_part_without_a_ground_gets_one() -> None:
    """Both parts of the way lack it."""
    pulled = {"raceway": "PVC-40 1-1/4 in", "carries": {"workshop-feeder": {"wires": {"ground": None}}}}
    data = bonded({**NO_GROUND, "garage-run": pulled})
    (way,) = one(reviewed(data), PATH, FEEDER).answer.proposals
    assert "on garage-run" in way.words and "on yard" in way.words
    assert outcome(reviewed(applied(data, complete(data, way.patch))), PATH, FEEDER) == "met"


def test_service_cable_is_exchanged_for_cable_with_a_ground() -> None:
    """SEU has none to uncover; behind 60 A the aluminum ground is 8 AWG."""
    (way,) = one(reviewed(bonded(SEU)), PATH, FEEDER).answer.proposals
    assert way.words.startswith("use MHF 2-2-2-8 Al, with its ground,")


def old(structure: dict[str, Any] | None = None, neutral: str = "bonded", **breaker: Any) -> dict[str, Any]:
    """The workshop with a three-wire feeder that was there before."""
    return example(
        "joinery-workshop",
        {
            "structures": {"workshop": {"metal-path": False, **(structure or {})}},
            "panels": {"workshop-panel": {"neutral": neutral}},
            "circuits": {"workshop-feeder": {"existing": True, "breaker": breaker}},
            "routes": NO_GROUND,
        },
    )


@pytest.mark.parametrize(
    ("structure", "neutral", "trip", "expected"),
    [
        ({}, "bonded", "none", "met"),
        ({}, "bonded", "equipment", "not met"),
        ({}, "bonded", "class A", "not met"),
        ({}, "bonded", None, "cannot tell"),
        ({"metal-path": True}, "bonded", "none", "not met"),
        ({"metal-path": None}, "bonded", "none", "cannot tell"),
        ({"metal-path": None}, "isolated", "none", "not met"),
        ({"metal-path": None}, "bonded", "equipment", "not met"),
    ],
)
def test_an_old_three_wire_feeder(structure: dict[str, Any], neutral: str, trip: str | None, expected: str) -> None:
    """Bonded only without ground-fault protection ahead and without metal between the structures."""
    line = one(reviewed(old(structure, neutral, **{"ground-fault": trip})), APART, PANEL)
    assert line.answer.outcome.value == expected
    if expected == "not met":
        assert line.answer.rows == ("feeder-four-wire",)
        assert line.rule.severity is Severity.DANGER


@pytest.mark.parametrize("neutral", ["bonded", "isolated"])
def test_behind_ground_fault_protection_the_feeder_is_rewired(neutral: str) -> None:
    """The bond is not offered; four wires with the neutral isolated settle it."""
    data = old(neutral=neutral, **{"ground-fault": "equipment"})
    (way,) = one(reviewed(data), APART, PANEL).answer.proposals
    after = applied(data, complete(data, way.patch))
    assert after["panels"]["workshop-panel"]["neutral"] == "isolated"
    assert (outcome(reviewed(after), APART, PANEL), outcome(reviewed(after), PATH, FEEDER)) == ("met", "met")


def test_the_metal_path_is_asked_for() -> None:
    """And nothing else about the bond."""
    assert asked(reviewed(old({"metal-path": None}, **{"ground-fault": "none"}))) == ["/structures/workshop/metal-path"]


def lights(routes: dict[str, Any], **circuit: Any) -> Line:
    """The lighting circuit of the workshop, wired otherwise."""
    of = reviewed_example("joinery-workshop", {"circuits": {"lights": circuit}, "routes": routes})
    return one(of, WITHIN, "/circuits/lights")


def loose(raceway: str | None, ground: str | None = None) -> dict[str, Any]:
    """Two wires, or three, in a raceway."""
    wires = {"hot": "14 AWG Cu THHN", "neutral": "14 AWG Cu THHN", **({"ground": ground} if ground else {})}
    return {"lighting": {"raceway": raceway, "carries": {"lights": {"cable": None, "wires": wires}}}}


@pytest.mark.parametrize(
    ("routes", "expected"),
    [
        ({}, "met"),
        ({"lighting": {"carries": {"lights": {"cable": "NM-B 14/2 no ground"}}}}, "not met"),
        (loose("PVC-40 1/2 in"), "not met"),
        (loose("none"), "not met"),
        (loose("PVC-40 1/2 in", "14 AWG Cu THHN"), "met"),
        (loose("EMT 1/2 in"), "met"),
        (loose("FMC 1/2 in"), "not met"),  # 8 ft of it: too long to count
        (loose(None), "does not apply"),
        ({"lighting": {"carries": {"lights": {"cable": None}}}}, "does not apply"),
    ],
)
def test_a_circuit_that_stays_in_its_building(routes: dict[str, Any], expected: str) -> None:
    """A finding where the plan shows that there is none; nothing is asked."""
    line = lights(routes)
    assert line.answer.outcome.value == expected
    if expected == "not met":
        assert line.rule.severity is Severity.DANGER
        assert line.answer.rows == ("feeder-egc-kind",)
        assert line.answer.proposals


@pytest.mark.parametrize(
    ("lengths", "expected"),
    [
        (["6 ft"], "cannot tell"),
        (["6 ft 1 in"], "not met"),
        (["3 ft", "3 ft"], "cannot tell"),
        (["3 ft", "4 ft"], "not met"),
        ([None], "cannot tell"),
        (["1.8 m"], "cannot tell"),
        (["1.9 m"], "not met"),
    ],
)
def test_flexible_metal_raceway_counts_up_to_six_feet(lengths: list[str | None], expected: str) -> None:
    """All of it together; what else it hangs on is for the authority."""
    routes = loose("FMC 1/2 in")
    legs = [{"in": "wall framing", "location": "dry", **({"length": one} if one else {})} for one in lengths]
    routes["lighting"]["legs"] = legs
    assert lights(routes).answer.outcome.value == expected


def test_old_wiring_in_a_building_is_for_the_authority() -> None:
    """It may stay, but is not extended."""
    assert lights(loose("none"), existing=True).answer.outcome.value == "cannot tell"


def test_a_receptacle_cites_its_own_requirement_first() -> None:
    """A 20 A receptacle on two wires in plastic conduit."""
    bench = {"bench": {"raceway": "PVC-40 1/2 in", "carries": {"bench-outlets": {"wires": {"ground": None}}}}}
    of = reviewed_example("joinery-workshop", {"routes": bench})
    line = one(of, WITHIN, "/circuits/bench-outlets")
    assert line.answer.outcome.value == "not met"
    assert line.answer.rows == ("receptacle-grounding-type", "feeder-egc-kind")
    assert outcome(of, WITHIN, FEEDER) == "does not apply"


def test_all_grounds_that_are_too_small_are_named_and_enlarged() -> None:
    """12 AWG behind 60 A in both parts of the way."""
    small = {"carries": {"workshop-feeder": {"wires": {"ground": "12 AWG Cu THWN-2"}}}}
    data = example("joinery-workshop", {"routes": {"yard": small, "garage-run": small}})
    line = one(reviewed(data), SIZE, FEEDER)
    assert (line.answer.outcome.value, line.answer.why) == ("not met", "too small as well: 12 AWG Cu on yard")
    (way,) = line.answer.proposals
    assert outcome(reviewed(applied(data, complete(data, way.patch))), SIZE, FEEDER) == "met"


def test_a_branch_circuit_without_its_ground_asks_for_no_rods() -> None:
    """Bringing the ground settles it all, and no footing is asked about."""
    data = example("pottery-studio", {"routes": {"yard": {"carries": {"studio": {"cable": "UF-B 12/2 no ground"}}}}})
    of = reviewed(data)
    line = one(of, REQUIRED, STUDIO)
    assert line.answer.outcome.value == "not met"
    assert line.answer.rows == ("electrode-required",)
    (way,) = line.answer.proposals
    assert outcome(reviewed(applied(data, complete(data, way.patch))), REQUIRED, STUDIO) == "does not apply"
    assert outcome(of, FOOTING, STUDIO) == "does not apply"
    assert f"{STUDIO}/new-footing" not in asked(of)
