"""What is on the inspection list of the open trench, with the plan's numbers."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import example, reviewed, reviewed_example
from support.trenches import after_each_proposal, answer_at, lawn, trench


def _says(of: Review, item: str) -> list[str]:
    return [entry.says for entry in of.inspect if entry.item.id == f"burial/open-trench/{item}"]


def test_every_item_comes_up_for_a_conduit_run() -> None:
    """Once each, for the pottery studio's yard."""
    of = reviewed_example("pottery-studio")
    items = ["utilities-located", "trench-left-open", "backfill", "raceway-complete", "ribbon-and-other-lines"]
    for item in items:
        assert len(_says(of, item)) == 1, item


@pytest.mark.parametrize(
    ("item", "numbers"),
    [
        ("utilities-located", ("46 ft of trench of route yard", "24 in")),
        ("trench-left-open", ("46 ft under lawn", "planned cover 18 in")),
        ("backfill", ("46 ft under lawn",)),
        ("raceway-complete", ("PVC-80 3/4 in",)),
        ("ribbon-and-other-lines", ("12 in above", "18 in or deeper")),
    ],
)
def test_the_sentence_has_the_plans_numbers(item: str, numbers: tuple[str, ...]) -> None:
    """Lengths, cover, raceway."""
    (text,) = _says(reviewed_example("pottery-studio"), item)
    assert all(number in text for number in numbers)


@pytest.mark.parametrize("left_out", ["cover", "length"])
def test_a_number_that_the_plan_leaves_out_is_left_out(left_out: str) -> None:
    """No number that was only tried may reach a sentence."""
    leg = lawn("18 in")
    del leg[left_out]
    for raceway in (None, "PVC-40 3/4 in"):
        data = trench(leg, routes={"to-pump": {"raceway": raceway}})
        for entry in reviewed(data).inspect:
            if entry.item.id.startswith("burial/"):
                assert not [tried for tried in ("0 in ", "10000 ft", "4 in", "1/2 in") if f" {tried}" in entry.says]


def test_lengths_of_several_legs_are_named_one_by_one() -> None:
    """The joinery's trench goes on under the driveway."""
    (text,) = _says(reviewed_example("joinery-workshop"), "utilities-located")
    assert "50 ft + 12 ft of trench of route yard" in text


def test_splices_come_up_where_cable_lies_in_the_earth() -> None:
    """Not in a raceway, and not where nothing is carried."""
    assert len(_says(reviewed(trench(lawn("24 in"))), "splices-in-the-ground")) == 1
    assert _says(reviewed(trench(lawn("24 in", raceway="PVC-40 3/4 in"))), "splices-in-the-ground") == []
    unsaid = trench(lawn("24 in"), routes={"to-pump": {"raceway": None}})
    assert len(_says(reviewed(unsaid), "splices-in-the-ground")) == 1


def test_single_wires_are_to_lie_together() -> None:
    """A cable holds its own together."""
    assert len(_says(reviewed_example("joinery-workshop"), "conductors-together")) == 1
    assert _says(reviewed_example("pottery-studio"), "conductors-together") == []


def test_boring_comes_up_under_pavement() -> None:
    """Under a lawn a trench is dug."""
    assert len(_says(reviewed_example("joinery-workshop"), "raceway-put-in-by-boring")) == 1
    assert _says(reviewed_example("pottery-studio"), "raceway-put-in-by-boring") == []


@pytest.mark.parametrize(("stated", "answer"), [(True, "met"), (False, "not met"), (None, "does not apply")])
def test_an_unfinished_raceway_is_a_finding_only_if_the_plan_says_so(stated: bool | None, answer: str) -> None:
    """Left out, it is for the inspector, who has it on the list in any case."""
    data = example("pottery-studio", {"routes": {"yard": {"complete-before-pull": stated}}})
    assert answer_at(data, "raceway-complete-before-the-pull", "/routes/yard") == answer
    assert len(_says(reviewed(data), "raceway-complete")) == 1
    assert set(after_each_proposal(data, "raceway-complete-before-the-pull", "/routes/yard").values()) <= {"met"}


def test_without_a_trench_there_is_nothing_to_inspect() -> None:
    """A plan whose wiring stays above ground."""
    patch: dict[str, Any] = {"routes": {"yard": {"legs": [{"overhead": "yard", "length": "46 ft"}]}}}
    of = reviewed(example("pottery-studio", patch))
    assert not [entry for entry in of.inspect if entry.item.id.startswith("burial/")]
