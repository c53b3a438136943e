"""Which raceways may lie in the earth, or rise out of it."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan.conductors import RACEWAY_TYPES
from support.reviews import example, library, reviewed, reviewed_example
from support.trenches import SLEEVE, after_each_proposal, answer_at, lawn, line_at, trench

BURIED = "raceway-in-the-earth"
RISING = "raceway-out-of-the-earth"
RISE = "/routes/to-pump/legs/0"


def _buried(raceway: str, **more: Any) -> dict[str, Any]:
    return trench(lawn("24 in", raceway=f"{raceway} 3/4 in", **more))


def _rising(raceway: str, **more: Any) -> dict[str, Any]:
    made = trench(lawn("24 in"))
    made["routes"]["to-pump"]["legs"][0] = {"rise": "2 ft", **SLEEVE, "raceway": f"{raceway} 3/4 in", **more}
    return made


def test_every_raceway_of_the_plan_language_is_judged() -> None:
    """A type without a word in the table would stop the review."""
    cells = library().book().tables["burial-methods"].cells
    assert {kind for what, kind in cells if what == "raceway"} == set(RACEWAY_TYPES)


@pytest.mark.parametrize("raceway", ["PVC-40", "PVC-80", "RTRC", "RTRC-XW", "HDPE", "RMC", "IMC"])
def test_types_made_for_the_earth(raceway: str) -> None:
    """Buried and rising; whether anything else is stated of them does not matter."""
    assert answer_at(_buried(raceway), BURIED) == "met"
    assert answer_at(_rising(raceway), RISING, RISE) == "met"


@pytest.mark.parametrize("raceway", ["FMC", "ENT", "plumbing pipe"])
def test_types_that_are_not(raceway: str) -> None:
    """Marks and coatings do not change it."""
    for more in ({}, {"marked-for-burial": True, "corrosion-protection": True}):
        assert answer_at(_buried(raceway, **more), BURIED) == "not met"
        assert answer_at(_rising(raceway, **more), RISING, RISE) == "not met"


@pytest.mark.parametrize("raceway", ["LFMC", "LFNC"])
@pytest.mark.parametrize(("marked", "answer"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_liquidtight_flexible_types_have_to_be_marked(raceway: str, marked: bool | None, answer: str) -> None:
    """Not stated is not a yes."""
    more = {} if marked is None else {"marked-for-burial": marked}
    assert answer_at(_buried(raceway, **more), BURIED) == answer
    assert answer_at(_rising(raceway, **more), RISING, RISE) == answer


@pytest.mark.parametrize(
    ("envelope", "answer"),
    [("1 7/8 in", "not met"), ("2 in", "met"), ("2 1/8 in", "met"), ("49 mm", "not met"), ("50 mm", "met")],
)
def test_a_type_that_must_be_encased(envelope: str, answer: str) -> None:
    """2 in of concrete around it, or 50 mm. Only a buried leg can be encased.

    Contractor training handout, table notes:
    https://studylib.net/doc/7886408/2011-nec-300.5---power-design--inc.
    """
    assert answer_at(_buried("ENT", **{"concrete-envelope": envelope}), BURIED) == answer


def test_encasing_does_not_help_what_is_no_raceway() -> None:
    """Plumbing pipe in concrete is still plumbing pipe."""
    assert answer_at(_buried("plumbing pipe", **{"concrete-envelope": "4 in"}), BURIED) == "not met"


def test_thin_walled_steel_is_for_the_authority() -> None:
    """Without extra protection it is not met; with it some places accept it, and others refuse.

    Highland Township electrical FAQ, which refuses it:
    http://www.highlandtwp.net/index.php?option=com_content&view=article&id=47&Itemid=158
    """
    assert answer_at(_buried("EMT", **{"corrosion-protection": False}), BURIED) == "not met"
    line = line_at(reviewed(_buried("EMT", **{"corrosion-protection": True})), BURIED)
    assert line.answer.outcome.value == "cannot tell"
    assert line.answer.asks is None
    assert "accepted here" in line.answer.why
    unsaid = line_at(reviewed(_buried("EMT")), BURIED).answer
    assert unsaid.asks is not None
    assert unsaid.asks.field == "corrosion-protection"
    assert answer_at(_rising("EMT", **{"corrosion-protection": True}), RISING, RISE) == "cannot tell"


def test_a_rise_in_the_raceway_of_the_buried_part_is_not_judged_twice() -> None:
    """The buried leg's finding is enough."""
    of = reviewed_example("pottery-studio", {"routes": {"yard": {"raceway": "plumbing pipe 3/4 in"}}})
    assert line_at(of, BURIED, "/routes/yard/legs/2").answer.outcome.value == "not met"
    assert line_at(of, RISING, "/routes/yard/legs/0").answer.outcome.value == "does not apply"


def test_without_raceway_there_is_nothing_to_judge() -> None:
    """The cable is, elsewhere."""
    assert answer_at(trench(lawn("24 in")), BURIED) == "does not apply"
    assert answer_at(_rising("PVC-80") | {}, BURIED) == "does not apply"


@pytest.mark.parametrize("raceway", ["FMC", "ENT", "LFNC", "EMT", "plumbing pipe"])
def test_every_way_out_settles_it(raceway: str) -> None:
    """Plastic conduit does for all of them."""
    data = _buried(raceway, **{"marked-for-burial": False, "corrosion-protection": False})
    ways = after_each_proposal(data, BURIED)
    assert "use PVC-80 3/4 in here instead" in ways
    assert set(ways.values()) == {"met"}
    thin = after_each_proposal(_buried("ENT", **{"concrete-envelope": "1 in"}), BURIED)
    assert len(thin) == 2
    assert set(thin.values()) == {"met"}


def test_the_raceway_is_exchanged_where_it_is_stated() -> None:
    """On the route if the leg has none of its own: then nothing else of the old raceway is left in the earth."""
    of = reviewed_example("pottery-studio", {"routes": {"yard": {"raceway": "plumbing pipe 3/4 in"}}})
    (way,) = line_at(of, BURIED, "/routes/yard/legs/2").answer.proposals
    assert way.patch[0]["path"] == "/routes/yard/raceway"
    (way,) = line_at(reviewed(_buried("FMC")), BURIED).answer.proposals
    assert way.patch[0]["path"] == "/routes/to-pump/legs/1/raceway"


def test_metal_in_the_earth_is_on_the_inspection_list() -> None:
    """Its coating is; plastic has none."""
    for raceway, listed in (("RMC", True), ("EMT", True), ("PVC-40", False)):
        says = [entry.says for entry in reviewed(_buried(raceway)).inspect if "coating" in entry.item.id]
        assert bool(says) is listed
        assert all(f"{raceway} 3/4 in" in text for text in says)


def test_metal_in_a_buried_route_is_seen_to_be_bonded() -> None:
    """A route of metal, or a piece of it among plastic; plastic alone has nothing to bond."""

    def says(raceway: str, leg: str | None = None) -> list[str]:
        buried = {"buried": "lawn", "cover": "24 in", **({"raceway": leg} if leg else {})}
        legs = [{"rise": "2 ft"}, buried, {"rise": "2 ft"}]
        of = reviewed(example("joinery-workshop", {"routes": {"yard": {"raceway": raceway, "legs": legs}}}))
        return [entry.says for entry in of.inspect if entry.item.id.endswith("bonding-of-metal-raceway")]

    assert says("PVC-80 1-1/4 in") == []
    assert ["joined tight from end to end" in text for text in says("RMC 1-1/4 in")] == [True]
    assert ["jumper" in text for text in says("PVC-80 1-1/4 in", "RMC 1-1/4 in")] == [True]


def test_only_the_rows_of_the_type_are_cited() -> None:
    """Flexible raceway is no matter of the EMT article."""
    for raceway, named in (("EMT 3/4 in", True), ("FMC 3/4 in", False)):
        data = _buried(raceway.split()[0], **{"corrosion-protection": False})
        (line,) = [line for line in reviewed(data).ran if line.rule.id.endswith("/raceway-in-the-earth")]
        assert ("emt-burial" in line.answer.rows) is named


def test_the_conduit_offered_holds_what_is_in_it() -> None:
    """Thick-walled plastic of the same trade size is tighter than thin-walled tubing."""
    data = _buried("EMT", **{"corrosion-protection": False})
    data["routes"]["to-pump"]["carries"]["pump"]["cable"] = "UF-B 8/3"
    (line,) = [line for line in reviewed(data).ran if line.rule.id.endswith("/raceway-in-the-earth")]
    assert line.answer.proposals[0].patch[0]["value"] not in ("PVC-80 3/4 in", "PVC-80 1/2 in")
