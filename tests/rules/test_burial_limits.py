"""Buried wiring exactly at its limits, with facts left out, and at ends that are not there."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import data_of, example, merged, outcome, reviewed, reviewed_example
from support.trenches import (
    SLEEVE,
    answer_at,
    garden,
    lawn,
    line_at,
    merged_plan,
    protected,
    steps_at,
    trench,
)

COVER, BELOW = "/cover-over-a-buried-leg", "/protection-below-grade"
LEG, RISE = "/routes/to-pump/legs/1", "/routes/to-pump/legs/2"
UP = {"rise": "2 ft", **SLEEVE}
SLAB = {"thickness": "5 in", "reaches-past": "12 in"}


def says(data: dict[str, Any], item: str) -> list[str]:
    """What an entry of the inspection list says."""
    return [entry.says for entry in reviewed(data).inspect if entry.item.id.endswith(f"/{item}")]


# Cover


@pytest.mark.parametrize(
    "data",
    [
        trench(lawn("24 in", **{"concrete-cap": "2 in"})),
        trench(lawn("24 in", buried="walk", slab=SLAB)),
        protected(lawn("24 in")),
    ],
)
def test_at_the_depth_of_open_ground_nothing_else_is_looked_for(data: dict[str, Any]) -> None:
    """Neither concrete nor a column that would do with less."""
    line = line_at(reviewed(data), COVER)
    assert (line.answer.outcome.value, str(line.answer.needs)) == ("met", "24 in")


def test_a_column_that_asks_for_as_much_is_no_other_column() -> None:
    """Under a street all are 24 in."""
    assert steps_at(protected(lawn("20 in", buried="street")), COVER) == [
        "no raceway, street, road or parking: the column of direct burial"
    ]


def test_what_less_might_do_is_said_with_its_conditions() -> None:
    """Nothing is known of the circuit, and the leg is too shallow for any column."""
    circuit = {"pump": {"voltage": None, "breaker": {"rating": None}}}
    line = line_at(reviewed(trench(lawn("4 in"), circuits=circuit)), COVER)
    assert line.answer.outcome.value == "not met"
    assert line.answer.why == (
        "or 6 in if it qualifies as low-voltage control or lighting, "
        "or 12 in if it qualifies as small ground-fault protected branch circuit"
    )


@pytest.mark.parametrize(
    ("ground", "leg", "expected"),
    [
        ("lawn", {"slab": SLAB}, "not met"),
        ("walk", {"slab": {**SLAB, "vehicles": False}}, "met"),
        ("patio", {"slab": {**SLAB, "vehicles": False}}, "met"),
        ("slab", {"slab": {**SLAB, "vehicles": False}}, "met"),
        ("walk", {}, "not met"),
        ("walk", {"slab": {**SLAB, "thickness": "3 in", "vehicles": False}}, "not met"),
        ("walk", {"slab": {**SLAB, "thickness": "4 in", "vehicles": False}}, "met"),
        ("walk", {"slab": {**SLAB, "reaches-past": "5 in", "vehicles": False}}, "not met"),
        ("walk", {"slab": {**SLAB, "reaches-past": "6 in", "vehicles": False}}, "met"),
        ("walk", {"slab": {**SLAB, "vehicles": True}, "dwelling-use-only": False}, "not met"),
    ],
)
def test_where_a_slab_counts(ground: str, leg: dict[str, Any], expected: str) -> None:
    """Paving of 4 in that reaches 6 in past the wiring and carries no vehicles; 18 in do under it, and 24 in elsewhere."""
    assert answer_at(trench(lawn("18 in", buried=ground, **leg)), COVER) == expected


@pytest.mark.parametrize(
    ("patch", "step", "place"),
    [
        ({"site": {"premises": "commercial"}}, "the shallow column is for dwellings", "/site/premises"),
        (
            {"circuits": {"pump": {"voltage": "240 V"}}},
            "at 240 V the shallow column is closed",
            "/circuits/pump/voltage",
        ),
        (
            {"circuits": {"pump": {"breaker": {"rating": "30 A"}}}},
            "behind 30 A the shallow column is closed",
            "/circuits/pump/breaker/rating",
        ),
        (
            {"circuits": {"pump": {"kind": "feeder"}}},
            "a feeder cannot use the shallow column",
            "/circuits/pump",
        ),
    ],
)
def test_why_the_shallow_column_is_closed(patch: dict[str, Any], step: str, place: str) -> None:
    """The derivation says it, with the fact that decides."""
    line = line_at(reviewed(protected(lawn("12 in"), **patch)), COVER)
    assert line.answer.outcome.value == "not met"
    assert (step, place) in line.steps
    assert not [way.words for way in line.answer.proposals if "ground-fault protection at the breaker" in way.words]


@pytest.mark.parametrize(("listed", "expected"), [(True, "met"), (False, "not met")])
def test_pool_lights_of_a_listed_system_may_lie_shallow(listed: bool, expected: str) -> None:
    """In plastic, behind the transformer of the system."""
    data = garden({**lawn("6 in"), "raceway": "PVC-40 3/4 in"}, "pool lighting")
    data["boxes"]["post-box"]["devices"]["power-pack"]["listed-system"] = listed
    assert answer_at(data, COVER) == expected


def test_pool_lights_without_a_transformer_are_of_no_listed_system() -> None:
    """A circuit that begins at a panel."""
    leg = {**lawn("6 in"), "raceway": "PVC-40 3/4 in"}
    data = trench(leg, circuits={"pump": {"voltage": "12 V", "use": "pool lighting"}})
    assert answer_at(data, COVER) == "not met"


# Out of the ground


def test_protection_that_reaches_the_greatest_depth_is_measured_by_it() -> None:
    """Although the circuit might do with less."""
    data = protected(lawn("24 in"))
    data["routes"]["to-pump"]["legs"][2]["sleeve-below"] = "18 in"
    line = line_at(reviewed(data), BELOW, RISE)
    assert (line.answer.outcome.value, str(line.answer.needs)) == ("met", "18 in")


@pytest.mark.parametrize(
    ("cover", "below", "expected"),
    [("10 in", "10 in", "does not apply"), ("10 in", "9 in", "not met"), (None, "10 in", "not met")],
)
def test_protection_to_the_bottom_of_a_shallow_trench(cover: str | None, below: str, expected: str) -> None:
    """It cannot begin lower; the depth of the trench is another finding."""
    data = trench(lawn("10 in"))
    if cover is None:
        del data["routes"]["to-pump"]["legs"][1]["cover"]
    data["routes"]["to-pump"]["legs"][2]["sleeve-below"] = below
    assert answer_at(data, BELOW, RISE) == expected


def test_a_rise_out_of_no_buried_leg() -> None:
    """Its raceway is looked at for itself: nothing lies in the ground before it, and nothing has an end there."""
    data = trench(lawn("24 in"))
    data["routes"]["to-pump"]["legs"] = [{"on": "outside wall"}, {**UP, "raceway": "EMT 3/4 in"}]
    place = "/routes/to-pump/legs/1"
    line = line_at(reviewed(data), "/raceway-out-of-the-earth", place)
    assert line.answer.outcome.value == "cannot tell"
    for rule in ("/bushing-at-the-buried-end", "/protection-of-emerging-cable", BELOW):
        assert answer_at(data, rule, place) == "does not apply"


def test_a_raceway_for_nothing_has_no_cable_to_protect() -> None:
    """A spare sleeve."""
    spare = {"from": "farmhouse-panel", "to": "post-box", "raceway": "none", "carries": {}, "legs": [lawn("24 in"), UP]}
    of = reviewed_example("orchard-pump", {"routes": {"spare": spare}})
    for rule in ("/protection-of-emerging-cable", BELOW):
        assert outcome(of, rule, "/routes/spare/legs/1") == "does not apply"


# The inspection list


def test_what_is_not_stated_is_no_metal_and_has_no_name() -> None:
    """A raceway left out is neither coated nor bonded, and no sleeve ends in the trench."""
    data = trench(lawn("24 in"), routes={"to-pump": {"raceway": None}})
    for leg in data["routes"]["to-pump"]["legs"]:
        leg.pop("raceway", None)
    for item in ("coating-of-metal-raceway", "bonding-of-metal-raceway", "ends-of-a-sleeve-in-the-ground"):
        assert says(data, item) == []


def test_a_cover_that_is_not_stated_is_not_planned() -> None:
    """The sentence goes on without it."""
    data = trench(lawn("24 in"))
    assert "until it has been inspected: planned cover 24 in from the top" in says(data, "trench-left-open")[0]
    del data["routes"]["to-pump"]["legs"][1]["cover"]
    assert "until it has been inspected. The trench" in says(data, "trench-left-open")[0]


@pytest.mark.parametrize(
    ("lengths", "words"),
    [
        (["30 ft", "20 ft"], "Before digging 30 ft + 20 ft of trench of route to-pump: notify"),
        (["30 ft", None], "Before digging the trench of route to-pump: notify"),
        ([None], "Before digging the trench of route to-pump: notify"),
    ],
)
def test_trenches_are_named_with_their_length_where_all_of_it_is_known(lengths: list[str | None], words: str) -> None:
    """Half a length would mislead."""
    data = trench(lawn("24 in"))
    data["routes"]["to-pump"]["legs"] = [
        UP,
        *({**lawn("24 in"), "length": one} if one else {"buried": "lawn"} for one in lengths),
        UP,
    ]
    assert says(data, "utilities-located")[0].startswith(words)


def test_all_trenches_of_a_plan_are_named() -> None:
    """Together, and routes without one are not."""
    more = {"from": "house-panel", "to": "workshop-panel", "carries": {}, "legs": [lawn("24 in")]}
    data = example("joinery-workshop", {"routes": {"spare": more}})
    (text,) = says(data, "utilities-located")
    assert text.startswith(
        "Before digging 50 ft + 12 ft of trench of route yard and 30 ft of trench of route spare: notify"
    )


def test_circuits_of_single_wires_are_named() -> None:
    """Those in one trench; a cable holds its own together."""
    wires = {"hot": "12 AWG Cu THWN-2", "neutral": "12 AWG Cu THWN-2", "ground": "12 AWG Cu THWN-2"}
    more = data_of("{kind: branch circuit, from: farmhouse-panel, voltage: 120 V}")
    carries = {"pump": {"cable": None, "wires": wires}, "more": {"wires": wires}, "gate": {"cable": "UF-B 12/2"}}
    data = merged(
        trench(lawn("24 in", raceway="PVC-80 1 in")),
        {"circuits": {"more": more, "gate": more}, "routes": {"to-pump": {"carries": carries}}},
    )
    for device in data["boxes"]["post-box"]["devices"].values():
        device["circuit"] = "pump"
    (text,) = says(data, "conductors-together")
    assert text.startswith("All conductors of circuit pump and of more, with")


def test_metal_all_the_way_is_bonded_at_its_ends() -> None:
    """One raceway from end to end has no parts."""
    data = trench({**lawn("24 in"), "raceway": "RMC 1 in"})
    for number in (0, 2):
        data["routes"]["to-pump"]["legs"][number]["raceway"] = "RMC 1 in"
    (text,) = says(data, "bonding-of-metal-raceway")
    assert text.startswith("The RMC 1 in is joined tight from end to end")
    assert says(data, "coating-of-metal-raceway")[0].startswith("In the earth, RMC 1 in: its coating")


# Seals


@pytest.mark.parametrize(
    ("inner", "box", "expected"),
    [
        ({"in": "wall framing"}, "outdoors", "not met"),
        ({"on": "floor"}, "outdoors", "not met"),
        ({"on": "post"}, "outdoors", "does not apply"),  # it tells nothing, and the box is outdoors
        ({"on": "post"}, "indoors", "not met"),
        ({"on": "roof"}, "indoors", "does not apply"),
        ({"rise": "2 ft"}, "indoors", "does not apply"),
    ],
)
def test_what_lies_beyond_a_passage(inner: dict[str, Any], box: str, expected: str) -> None:
    """The next leg that tells whether it is outdoors, else the box at the end."""
    wall = {"through": "wall", "length": "8 in", "sealed": False}
    data = example(
        "joinery-workshop",
        {
            "routes": {
                "garage-run": {"legs": [{"on": "outside wall", "length": "4 ft"}, wall, {**inner, "length": "4 ft"}]}
            },
            "boxes": {"pull-box": {"area": box}},
        },
    )
    assert answer_at(data, "/seal-between-warm-and-cold", "/routes/garage-run/legs/1") == expected


def test_low_voltage_wiring_alone_is_let_off_but_nothing_is_not() -> None:
    """A spare raceway shows its way out of the ground as any other does."""
    shown = "/way-out-of-the-ground"
    assert answer_at(garden(lawn("24 in")), shown) == "does not apply"
    spare = merged_plan(
        trench(lawn("24 in")),
        {
            "routes": {
                "spare": {"from": "farmhouse-panel", "to": "post-box", "carries": {}, "legs": [lawn("24 in"), UP]}
            }
        },
    )
    assert answer_at(spare, shown, "/routes/spare/legs/0") == "not met"


def test_one_sleeve_that_begins_too_high_is_told() -> None:
    """The other reaches deep enough already."""
    data = trench(lawn("12 in"))
    data["routes"]["to-pump"]["legs"][0]["sleeve-below"] = "12 in"
    data["routes"]["to-pump"]["legs"][2]["sleeve-below"] = "18 in"
    (way,) = [one for one in line_at(reviewed(data), COVER).answer.proposals if one.words.startswith("bury")]
    assert way.words.endswith("and begin the protection where it rises as deep as it has to")
    assert [edit["path"] for edit in way.patch] == [f"{LEG}/cover", "/routes/to-pump/legs/0/sleeve-below"]


def test_too_shallow_whatever_the_raceway() -> None:
    """It is not asked for, and no rigid metal is offered in place of what is not known."""
    data = trench(lawn("4 in"), routes={"to-pump": {"raceway": None}})
    line = line_at(reviewed(data), COVER)
    assert line.answer.outcome.value == "not met"
    assert not [way.words for way in line.answer.proposals if "rigid metal" in way.words]


def test_nothing_is_spliced_where_nothing_lies() -> None:
    """A trench for later."""
    spare = {"from": "farmhouse-panel", "to": "post-box", "raceway": "none", "carries": {}, "legs": [lawn("24 in")]}
    of = reviewed_example("orchard-pump", {"routes": {"spare": spare}})
    found = [one.subject for one in of.inspect if one.item.id.endswith("/splices-in-the-ground")]
    assert found == ["/routes/to-pump/legs/1"]


def test_low_voltage_wiring_into_a_building_is_let_off() -> None:
    """What is asked of wiring that could kill is not asked of it."""
    data = garden(lawn("24 in"))
    data["structures"]["pump-post"]["use"] = "accessory"
    data["boxes"]["lamp-box"] |= {"area": "indoors", "location": "dry"}
    data["routes"]["to-pump"]["legs"][2]["to-entry"] = False
    assert answer_at(data, "/protection-up-to-the-entry", RISE) == "does not apply"


@pytest.mark.parametrize(
    ("raceways", "said"),
    [
        (["PVC-80 1 in", "PVC-80 1 in"], 0),
        (["none", "none"], 0),
        (["none", "PVC-80 1 in"], 1),
        (["none", None], 0),
        ([None, "PVC-80 1 in"], 0),
    ],
)
def test_a_sleeve_ends_where_cable_goes_on_without_one(raceways: list[str | None], said: int) -> None:
    """Not where one raceway follows another, and nothing is made up of one that is not stated."""
    data = trench(lawn("24 in"), routes={"to-pump": {"raceway": None}})
    buried = [{**lawn("24 in"), **({"raceway": raceway} if raceway else {})} for raceway in raceways]
    data["routes"]["to-pump"]["legs"] = [UP, *buried, UP]
    assert len(says(data, "ends-of-a-sleeve-in-the-ground")) == said


def test_a_raceway_of_one_leg_is_not_named_after_the_route() -> None:
    """The route has none of its own."""
    data = trench({**lawn("24 in"), "raceway": "PVC-80 1 in"}, routes={"to-pump": {"raceway": "none"}})
    (text,) = says(data, "seal-of-a-raceway-from-the-ground")
    assert text.startswith("The raceway from the ground is sealed")


def into_the_studio(*on: dict[str, Any], area: str) -> dict[str, Any]:
    """The studio's conduit from the ground, unsealed at its ends, with other legs after the last rise."""
    legs = [{"rise": "2 ft"}, lawn("18 in"), {"rise": "2 ft"}, *on]
    data = example("pottery-studio", {"boxes": {"entry-box": {"area": area}}})
    data["routes"]["yard"] |= {"legs": legs, "seal-at-from": False, "seal-at-to": False}
    return data


@pytest.mark.parametrize(("area", "expected"), [("outdoors", "not met"), ("indoors", "not met")])
def test_through_a_wall_a_raceway_goes_into_a_building(area: str, expected: str) -> None:
    """Whatever is said of the box behind it."""
    data = into_the_studio({"through": "wall", "sealed": False}, area=area)
    assert answer_at(data, "/seal-where-a-raceway-enters", "/routes/yard") == expected


def test_only_the_first_wall_from_the_ground_is_looked_at_with_the_ground() -> None:
    """A second one, out of the building again, lies between warm and cold."""
    warm = "/seal-between-warm-and-cold"
    first, second = {"through": "wall", "sealed": True}, {"through": "wall", "sealed": False}
    data = into_the_studio(first, {"in": "wall framing"}, second, area="outdoors")
    assert answer_at(data, warm, "/routes/yard/legs/3") == "does not apply"
    assert answer_at(data, warm, "/routes/yard/legs/5") == "not met"


def test_a_passage_after_a_passage_tells_nothing_of_where_it_leads() -> None:
    """Two walls one behind the other: what comes after both decides."""
    warm, wall = "/seal-between-warm-and-cold", {"through": "wall", "sealed": False}
    patch = {"routes": {"garage-run": {"legs": [{"on": "inside wall"}, wall, wall]}}}
    for area, expected in (("outdoors", "not met"), ("indoors", "does not apply")):
        data = example("joinery-workshop", {**patch, "boxes": {"pull-box": {"area": area}}})
        assert answer_at(data, warm, "/routes/garage-run/legs/1") == expected
