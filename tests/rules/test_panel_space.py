"""Working space, heights and rooms of panels and switches."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, example, outcome, reviewed, reviewed_example
from support.trenches import after_each_proposal, line_at, steps_at

PANEL = "/panels/workshop-panel"
LIGHT = "/boxes/switch-box/devices/light-switch"
DEPTH, WIDTH, HEIGHT = "/depth-of-the-space", "/width-of-the-space", "/height-of-the-space"


def workshop(**facts: Any) -> dict[str, Any]:
    """The joinery workshop with facts of its panel."""
    return example("joinery-workshop", {"panels": {"workshop-panel": facts}})


def space(**facts: Any) -> dict[str, Any]:
    """The same with its working space; None leaves a fact out."""
    return workshop(**{"working-space": facts})


# Working space tables, Washington code, and EC magazine - https://www.ecmag.com/magazine/articles/article-detail/codes-standards-working-space
# Height under a low shed ceiling - https://www.doityourself.com/forum/electrical-ac-dc/143443-code-question-subpanel-clearences.html
@pytest.mark.parametrize(
    ("rule", "what", "short", "enough", "unstated"),
    [
        (DEPTH, "depth", "35 in", "36 in", "cannot tell"),
        (DEPTH, "depth", "899 mm", "900 mm", "cannot tell"),
        (WIDTH, "width", "29 in", "30 in", "does not apply"),
        (WIDTH, "width", "760 mm", "762 mm", "does not apply"),
        (HEIGHT, "height", "6 ft 5 in", "6 ft 6 in", "does not apply"),
        (HEIGHT, "height", "1.9 m", "2.0 m", "does not apply"),
    ],
)
def test_working_space(rule: str, what: str, short: str, enough: str, unstated: str) -> None:
    """Short, at the limit, and not stated: the depth is asked for, the rest is on the inspection list."""
    assert outcome(reviewed(space(**{what: short})), rule, PANEL) == "not met"
    assert outcome(reviewed(space(**{what: enough})), rule, PANEL) == "met"
    assert outcome(reviewed(space(**{what: None})), rule, PANEL) == unstated
    assert set(after_each_proposal(space(**{what: short}), rule, PANEL).values()) == {"met"}


@pytest.mark.parametrize(
    ("opposite", "depth", "expected"),
    [
        ("nothing live or grounded", "3 ft", "met"),
        ("grounded parts", "3 ft 5 in", "not met"),
        ("grounded parts", "3 ft 6 in", "met"),
        ("live parts", "3 ft 11 in", "not met"),
        ("live parts", "4 ft", "met"),
        (None, "3 ft 6 in", "cannot tell"),
        (None, "4 ft", "met"),
        (None, "2 ft", "not met"),
    ],
)
def test_depth_above_150_volts_to_ground(opposite: str | None, depth: str, expected: str) -> None:
    """What is opposite matters there, and is asked for only where it does."""
    data = workshop(**{"system": "277/480 V", "working-space": {"depth": depth, "opposite": opposite}})
    assert outcome(reviewed(data), DEPTH, PANEL) == expected


def test_the_derivation_has_the_voltage() -> None:
    """It picks the row."""
    assert "120 V to ground" in steps_at(space(), DEPTH, PANEL)


@pytest.mark.parametrize("rule", [DEPTH, WIDTH, HEIGHT])
def test_only_new_feeder_panels_are_asked(rule: str) -> None:
    """Not what is there, and not the service of the house."""
    of = reviewed(workshop(existing=True))
    assert outcome(of, rule, PANEL) == outcome(of, rule, "/panels/house-panel") == "does not apply"
    assert not [place for place in asked(reviewed_example("pottery-studio")) if "working-space" in place]


# Quiz on measurements, 6 ft 7 in - https://www.ecmag.com/magazine/quizzes/measurements-and-colors
@pytest.mark.parametrize(
    ("height", "panel", "switch"),
    [
        ("6 ft 6 in", "met", "met"),
        ("6 ft 7 in", "met", "met"),
        ("2.0 m", "met", "met"),
        ("2.01 m", "not met", "not met"),
        ("6 ft 8 in", "not met", "not met"),
        (None, "cannot tell", "does not apply"),
    ],
)
def test_heights(height: str | None, panel: str, switch: str) -> None:
    """The middle of the handle, of breakers, switches and disconnects."""
    devices = {"light-switch": {"height": height}, "cut-off": {"disconnect": "60 A", "height": height}}
    patch = {
        "panels": {"workshop-panel": {"handle-height": height}},
        "boxes": {"switch-box": {"devices": devices}},
    }
    of = reviewed(example("joinery-workshop", patch))
    assert outcome(of, "/height-of-breakers", PANEL) == panel
    assert outcome(of, "/height-of-switches", LIGHT) == switch
    assert outcome(of, "/height-of-disconnects", "/boxes/switch-box/devices/cut-off") == switch
    assert outcome(of, "/height-of-breakers", "/panels/house-panel") == "does not apply"
    if panel == "not met":
        data = example("joinery-workshop", patch)
        assert set(after_each_proposal(data, "/height-of-breakers", PANEL).values()) == {"met"}
        assert set(after_each_proposal(data, "/height-of-switches", LIGHT).values()) == {"met"}


@pytest.mark.parametrize(
    ("area", "premises", "expected"),
    [
        ("bathroom", "one-family dwelling", "not met"),
        ("bathroom", "commercial", "met"),
        ("bathroom", None, "cannot tell"),
        ("closet", "one-family dwelling", "cannot tell"),
        ("garage", "one-family dwelling", "met"),
        ("outdoors", None, "met"),
        (None, "one-family dwelling", "cannot tell"),
    ],
)
def test_rooms(area: str | None, premises: str | None, expected: str) -> None:
    """A closet may be one for clothes: the authority says."""
    patch = {"site": {"premises": premises}, "panels": {"workshop-panel": {"area": area}}}
    data = example("joinery-workshop", patch)
    rule = "/not-in-a-bathroom-or-clothes-closet"
    assert outcome(reviewed(data), rule, PANEL) == expected
    if expected == "not met":
        assert set(after_each_proposal(data, rule, PANEL).values()) == {"met"}
    there = example("joinery-workshop", {"panels": {"workshop-panel": {"area": area, "existing": True}}})
    assert outcome(reviewed(there), rule, PANEL) == "does not apply"


def test_inspection_entries() -> None:
    """For the new panel and for switches; nothing of light where the panel is outdoors."""

    def says(data: dict[str, Any]) -> dict[str, str]:
        entries = [entry for entry in reviewed(data).inspect if entry.item.id.startswith("panel-space/")]
        assert len({entry.item.id for entry in entries}) == len(entries)
        return {entry.item.id.rpartition("/")[2]: entry.says for entry in entries}

    indoors = says(workshop())
    assert "30 in wide and 6.5 ft high" in indoors["space-in-front-of-a-panel"]
    assert "a light" in indoors["space-in-front-of-a-panel"]
    assert "up to 6 ft" in indoors["space-above-a-panel"]
    assert "6 ft 7 in" in indoors["handles-within-reach"]
    outdoors = says(workshop(area="outdoors"))["space-in-front-of-a-panel"]
    assert "a light" not in outdoors and outdoors.endswith("that no door blocks.")
    assert set(says(example("pottery-studio"))) == {"handles-within-reach"}


@pytest.mark.parametrize(("system", "expected"), [("150/300 V", "met"), ("151/302 V", "not met")])
def test_up_to_150_volts_to_ground_three_feet_do(system: str, expected: str) -> None:
    """Whatever is opposite."""
    data = workshop(**{"system": system, "working-space": {"depth": "3 ft", "opposite": "live parts"}})
    assert outcome(reviewed(data), DEPTH, PANEL) == expected


@pytest.mark.parametrize(
    ("rule", "what", "short", "way"),
    [
        (DEPTH, "depth", "30 in", "keep 3 ft clear in front of it"),
        (DEPTH, "depth", "800 mm", "keep 900 mm clear in front of it"),
        (WIDTH, "width", "700 mm", "keep 762 mm clear in front of it"),
        (HEIGHT, "height", "6 ft", "keep 6.5 ft clear in front of it"),
        (HEIGHT, "height", "1.8 m", "keep 2.0 m clear in front of it"),
    ],
)
def test_the_space_to_keep_is_said_in_the_units_of_the_plan(rule: str, what: str, short: str, way: str) -> None:
    """Feet and inches, or metres."""
    assert list(after_each_proposal(space(**{what: short}), rule, PANEL)) == [way]


@pytest.mark.parametrize(("rule", "what"), [(WIDTH, "width"), (HEIGHT, "height")])
def test_why_a_width_or_headroom_is_not_compared(rule: str, what: str) -> None:
    """It is not stated of a new panel, or the panel is there already."""
    assert line_at(reviewed(space(**{what: None})), rule, PANEL).answer.why.startswith("not stated")
    there = workshop(existing=True, **{"working-space": {what: None}})
    assert line_at(reviewed(there), rule, PANEL).answer.why == "not a new feeder panel"


@pytest.mark.parametrize(
    ("place", "facts", "expected"),
    [
        ("house-panel", {"handle-height": "7 ft"}, "not met"),
        ("house-panel", {}, "does not apply"),
        ("workshop-panel", {"existing": True, "handle-height": "7 ft"}, "not met"),
        ("workshop-panel", {"existing": True, "handle-height": None}, "does not apply"),
    ],
)
def test_a_stated_height_is_compared_of_any_panel(place: str, facts: dict[str, Any], expected: str) -> None:
    """It is asked of new feeder panels only."""
    of = reviewed(example("joinery-workshop", {"panels": {place: facts}}))
    assert outcome(of, "/height-of-breakers", f"/panels/{place}") == expected
    assert not [asks for asks in asked(of) if asks.endswith("/handle-height")]


@pytest.mark.parametrize(
    ("area", "has"), [("garage", "in the garage"), ("indoors", "indoors"), ("outdoors", "outdoors")]
)
def test_the_room_of_a_panel_is_named(area: str, has: str) -> None:
    """As people say it."""
    line = line_at(reviewed(workshop(area=area)), "/not-in-a-bathroom-or-clothes-closet", PANEL)
    assert line.answer.has == has


def test_no_pipe_above_a_panel_that_is_indoors() -> None:
    """Outdoors nothing is above it."""

    def says(area: str) -> str:
        (entry,) = [
            one for one in reviewed(workshop(area=area)).inspect if one.item.id.endswith("/space-above-a-panel")
        ]
        return entry.says

    assert says("indoors").startswith("workshop-panel: no pipe or duct above it, up to 6 ft")
    assert says("outdoors").startswith("workshop-panel: not over the steps of a stairway")
