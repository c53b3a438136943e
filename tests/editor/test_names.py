"""Names: every place that uses one is known, and leads to where it is given."""

from __future__ import annotations

from typing import Any

import pytest
from lsprotocol import types

from precover.editor.links import CannotRename, definition, name_range, references, renamed
from precover.editor.names import kind_of, known, uses
from precover.plan.thing import tokens_of
from precover.reading import PlanUnreadable
from precover.reviewing import open_plan
from support.open_texts import FAILING, at, opened, text_of
from support.reviews import EXAMPLES, example, merged, written

EVERY_KIND = """
circuits:
  garden: {kind: low-voltage, from: terrace-box/transformer, voltage: 12 V}
  other: {kind: branch circuit, from: house-panel, voltage: 120 V, not-with: studio, breaker: {rating: 20 A, poles: 1}}
boxes:
  terrace-box:
    devices:
      transformer: {transformer: 300 W, secondary: 12 V, circuit: studio}
      second: {receptacle: 20 A, after: terrace-outlet}
"""


def whole() -> dict[str, Any]:
    """A plan in which every kind of name is used."""
    return example(FAILING, EVERY_KIND)


def value_at(data: Any, pointer: str) -> Any:
    """What stands at a place."""
    for token in tokens_of(pointer):
        data = data[int(token)] if isinstance(data, list) else data[token]
    return data


def with_value(data: Any, pointer: str, value: str) -> Any:
    """The plan with another value at a place."""
    patch: Any = value
    for token in reversed(tokens_of(pointer)):
        patch = {token: patch}
    return merged(data, patch)


def problems(data: Any) -> list[str]:
    """What is wrong with the references of a plan."""
    try:
        open_plan("plan", written(data))
    except PlanUnreadable as problem:
        return [one.message for one in problem.problems]
    return []


def test_every_place_that_uses_a_name_is_known() -> None:
    """A value that the reading floor takes for a name is one here, and the other way round."""
    data = whole()
    lost = "there is no "

    def texts(part: Any, place: str) -> list[str]:
        entries = part.items() if isinstance(part, dict) else enumerate(part) if isinstance(part, list) else ()
        below = [one for key, value in entries for one in texts(value, f"{place}/{key}")]
        return [place, *below] if isinstance(part, str) else below

    checked = 0
    for place in texts(data, ""):
        found = [said for said in problems(with_value(data, place, "lost-and-gone")) if said.startswith(lost)]
        names_something = kind_of(place) is not None
        assert names_something == any("lost-and-gone" in said for said in found), (place, found)
        checked += names_something
    assert checked > 15


def test_every_name_that_is_offered_is_taken() -> None:
    """No name of a kind leads nowhere."""
    data = whole()
    for use in uses(data):
        kind = None if use.key else kind_of(use.place)
        for name in known(data, kind, use.place) if kind is not None else ():
            said = problems(with_value(data, use.place, name))
            assert not [one for one in said if one.startswith("there is no")], (use.place, name, said)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.plan.yaml")), ids=lambda path: path.name.partition(".")[0])
def test_every_use_leads_to_a_thing(path: Any) -> None:
    """And is written where it is said to be."""
    text = opened(path.read_text(encoding="utf-8"))
    data = text.data
    for use in uses(data):
        assert value_at(data, use.thing) is not None
        if not use.key:
            assert str(value_at(data, use.place))[use.first : use.last] == tokens_of(use.thing)[-1]


def test_definition_and_references() -> None:
    """From a use to the thing, from the thing to its uses."""
    text = opened(text_of(FAILING))
    (found,) = definition(text, at(text, "switched-by: entry-box/main-switch", 15))
    assert found.range.start == at(text, "  entry-box:", 2)
    (device,) = definition(text, at(text, "switched-by: entry-box/main-switch", 26))
    assert device.range.start == at(text, "      main-switch:", 6)
    used = references(text, at(text, "  entry-box:", 3), with_definition=True)
    assert [text.text.splitlines()[one.range.start.line].strip() for one in used] == [
        "entry-box:",
        "to: entry-box",
        "from: entry-box",
        "lamp: {luminaire: 40 W, listed-for: dry, switched-by: entry-box/main-switch}",
    ]
    assert len(references(text, at(text, "  entry-box:", 3), with_definition=False)) == 3
    assert definition(text, at(text, "frost: true", 8)) == []


@pytest.mark.parametrize(
    "thing",
    [
        "  studio: {use",
        "  house-panel:",
        "  studio:\n    kind",
        "  entry-box:",
        "  yard:",
        "      main-switch:",
        "      terrace-outlet:",
    ],
)
def test_rename(thing: str) -> None:
    """The plan with another name says the same: as many findings, and no trace of the old name in a reference."""
    text = opened(text_of(FAILING))
    before = text.now
    position = at(text, thing, len(thing) - len(thing.lstrip()))
    edits = sorted(renamed(text, position, "a.new_name-1"), key=lambda edit: edit.range.start, reverse=True)
    made = text.text
    for edit in edits:
        start, end = text.positions.index(edit.range.start), text.positions.index(edit.range.end)
        made = made[:start] + edit.new_text + made[end:]
    after = opened(made).now
    assert before is not None and after is not None
    assert len(after.review.findings) == len(before.review.findings)
    assert len(edits) == made.count("a.new_name-1") > 0


def test_rename_in_quotes_and_behind_wide_marks() -> None:
    """The quotes stay, and what stands before does not move it."""
    plan = text_of(FAILING).replace("to: entry-box", 'to: "entry-box"').replace("title: One", "title: \U0001f4a1 One")
    text = opened(plan)
    edits = renamed(text, at(text, '"entry-box"', 2), "door")
    assert len(edits) == 4
    written_out = [
        text.text[text.positions.index(edit.range.start) : text.positions.index(edit.range.end)] for edit in edits
    ]
    assert written_out == ["entry-box"] * 4


def test_names_that_cannot_be_given() -> None:
    """Taken ones, impossible ones, and where there is no name."""
    text = opened(text_of(FAILING))
    box = at(text, "  entry-box:", 2)
    for name, why in (
        ("terrace-box", "another thing"),
        ("house-panel", "another thing"),
        ("1st", "starts with"),
        ("a b", "starts"),
    ):
        with pytest.raises(CannotRename, match=why):
            renamed(text, box, name)
    with pytest.raises(CannotRename, match="no name"):
        renamed(text, at(text, "frost", 1), "x")
    assert name_range(text, at(text, "frost", 1)) is None
    found = name_range(text, box)
    assert found == types.Range(box, types.Position(box.line, box.character + len("entry-box")))
    text.take("a: ]", 2)
    with pytest.raises(CannotRename, match="cannot be read"):
        renamed(text, box, "door")
