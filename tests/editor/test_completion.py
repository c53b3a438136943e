"""What is offered at the cursor, in plans that are half written."""

from __future__ import annotations

import pytest
from lsprotocol import types

from precover.editor.completion import completion
from precover.editor.cutting import cursor_at
from precover.editor.notations import cables, conductors, raceways
from precover.editor.texts import OpenText
from precover.plan import Cable, Conductor, Raceway
from precover.reading import PlanUnreadable
from precover.reviewing import open_plan
from support.open_texts import FAILING, cursor, look, opened, text_of

PLAN = text_of(FAILING)


def offered(text: str) -> dict[str, str]:
    """Labels offered at `¦`, each with the whole text after it was chosen. The text is that of the example, typed on."""
    typed, index = cursor(text)
    open_text = opened(PLAN)
    open_text.take(typed, 2)
    look(open_text)
    found = {}
    for item in completion(open_text, open_text.positions.position(index), ("us-2023",)):
        edit = item.text_edit
        assert isinstance(edit, types.TextEdit) and item.filter_text
        start, end = open_text.positions.index(edit.range.start), open_text.positions.index(edit.range.end)
        assert start <= index <= end
        found[item.label] = typed[:start] + edit.new_text + typed[end:]
    return found


@pytest.mark.parametrize(
    ("text", "place", "key"),
    [
        ("ro¦", "", True),
        ("routes:\n  yard:\n    fr¦\n", "/routes/yard", False),
        ("routes:\n  yard:\n    from: ¦\n    to: b\n", "/routes/yard/from", False),
        ("routes:\n  yard:\n    from: a\n    ¦\n    to: b\n", "/routes/yard", True),
        ("routes:\n  yard:\n    legs:\n      - {buried: la¦\n", "/routes/yard/legs/0/buried", False),
        ("routes:\n  yard:\n    legs:\n      - {buried: lawn, ¦}\n", "/routes/yard/legs/0", True),
        ("routes:\n  yard:\n    legs:\n      - {rise: 1 ft}\n      - {¦\n", "/routes/yard/legs/1", True),
        ("boxes:\n  a:\n    devices:\n      d: {receptacle: '¦20 A'}\n", "/boxes/a/devices/d/receptacle", False),
        ("boxes:\n  a: {\n  b:\n    at: ¦\n", "/boxes/b/at", False),
        ("boxes:\r\n  a:\r\n    at: ¦\r\n", "/boxes/a/at", False),
        ("site:\n  frost: \U0001f4a1¦\nroutes: ]broken\n", "/site/frost", False),
    ],
)
def test_where_the_cursor_is(text: str, place: str, key: bool) -> None:
    """Found from the part around it, whatever is wrong elsewhere."""
    typed, index = cursor(f"format: precover-plan/1\n{text}")
    found = cursor_at(typed, index)
    assert found is not None and (found.place, found.key) == (place, key)
    assert typed[found.start : found.end].strip("'") == found.text


@pytest.mark.parametrize("text", ["a: 1 # com¦ment", "a: 1\n  # ¦\n", "¦", "\n\n¦\n", "a: 'x\n  ¦y'\n"])
def test_where_there_is_nothing_to_complete(text: str) -> None:
    """In comments, in the void, in texts of several lines: no fault."""
    typed, index = cursor(text)
    found = cursor_at(typed, index)
    assert found is None or found.text == ""


def test_keys_by_place() -> None:
    """Those of the thing that is there, without those that it has; what must be stated first."""
    whole = offered(PLAN.replace("    to: entry-box\n", "    to: entry-box\n    ¦\n", 1))
    assert "complete-before-pull" not in whole and "spaced" in whole and "buried" not in whole
    leg = offered(PLAN.replace("{buried: lawn, length: 46 ft, cover: 10 in}", "{buried: lawn, ¦}", 1))
    assert {"cover", "concrete-cap", "slab"} <= leg.keys() and not {"buried", "rise", "sleeve-below"} & leg.keys()
    assert "{buried: lawn, cover: }" in leg["cover"]
    assert {"buried", "rise", "through"} == offered(
        PLAN.replace("{buried: lawn,", "{¦}\n      - {buried: lawn,", 1)
    ).keys() & {
        "buried",
        "rise",
        "through",
        "cover",
    }
    device = offered(PLAN.replace("lamp: {luminaire: 40 W,", "lamp: {luminaire: 40 W, ¦,", 1))
    assert "wattage" not in device and "cover" not in device


def test_a_key_that_is_there_keeps_its_colon() -> None:
    """Only the word is replaced."""
    found = offered(PLAN.replace("    location: wet\n", "    lo¦cation: wet\n", 1))
    assert found["location"] == PLAN


def test_words_and_truth() -> None:
    """Closed lists, as they must be written."""
    found = offered(PLAN.replace("buried: lawn", "buried: gra¦", 1))
    assert "buried: gravel path," in found["gravel path"]
    assert {"true", "false"} == offered(PLAN.replace("frost: true", "frost: ¦", 1)).keys()


def test_names_by_kind() -> None:
    """Of things that are there, and of the right kind only."""
    assert offered(PLAN.replace("to: entry-box", "to: ¦", 1)).keys() == {
        "house-panel",
        "terrace-box",
        "entry-box",
        "ceiling-box",
    }
    assert offered(PLAN.replace("at: studio", "at: ¦", 1)).keys() == {"house", "studio"}
    assert offered(PLAN.replace("from: house-panel", "from: ¦", 1)).keys() == {"house-panel"}
    assert offered(PLAN.replace("switched-by: entry-box/main-switch", "switched-by: ¦", 1)).keys() == {
        "entry-box/main-switch"
    }
    assert "studio" in offered(PLAN.replace("      studio: {cable: NM-B 12/2}", "      ¦", 1))
    assert offered(PLAN.replace("[us-2023]", "[¦]", 1)).keys() == {"us-2023"}


def test_quantities_show_how_they_are_written() -> None:
    """Examples with units."""
    assert "18 in" in offered(PLAN.replace("cover: 10 in", "cover: ¦", 1))


def test_what_is_offered_can_be_read() -> None:
    """Cables, raceways and wires, every one."""
    assert {"UF-B 12/2", "SER 2-2-2-4 Al", "cord 12/3"} <= set(cables())
    assert {"none", "PVC-80 3/4 in", "EMT 4 in"} <= set(raceways())
    for text in cables():
        Cable.parse(text)
    for text in raceways():
        Raceway.parse(text)
    assert "12 AWG Cu" in conductors("") and "2 × 6 AWG Cu" in conductors("2 × ")
    begun = conductors("2 × 6 AWG Cu")
    assert "2 × 6 AWG Cu THWN-2" in begun and [Conductor.parse(text) for text in begun]
    raceway = offered(PLAN.replace("raceway: PVC-40 3/4 in", "raceway: PVC-80 ¦", 1))
    assert "raceway: PVC-80 1 in\n" in raceway["PVC-80 1 in"]


@pytest.mark.parametrize("line", range(0, PLAN.count("\n"), 3))
def test_every_key_that_is_offered_is_known(line: int) -> None:
    """Whatever key is chosen behind any line, it is not one that the reading floor has not heard of."""
    lines = PLAN.splitlines(keepends=True)
    indent = " " * (len(lines[line]) - len(lines[line].lstrip()))
    typed = "".join(lines[: line + 1]) + f"{indent}¦\n" + "".join(lines[line + 1 :])
    for key, text in offered(typed).items():
        try:
            open_plan("plan", text.encode())
        except PlanUnreadable as problem:
            assert not [one for one in problem.problems if "not a key known here" in one.message], key


def test_typed_letter_by_letter() -> None:
    """At no point a fault, from an empty file to the whole plan."""
    open_text = OpenText("file:///t.plan.yaml", "", 0, "utf-16")
    for index in range(0, len(PLAN), 7):
        open_text.take(PLAN[:index], index)
        look(open_text)
        completion(open_text, open_text.positions.position(index), ())
