"""Edits of a plan's text: the edited value changes, and not a byte else."""

from __future__ import annotations

import difflib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from precover.amending.patch import applied
from precover.amending.rewriting import Unwritable, rewritten
from precover.amending.scalars import flow
from precover.reading import Document, Source, parse

PLAN = """\
# the whole site
format: precover-plan/1   # keep me
circuits:
  pump:            # the pump
    kind: "branch circuit"
    breaker: {rating: 20 A, poles: 1}  # main floor

  lamp:
    kind: branch circuit
    breaker:
      rating: 15 A   # small
# between
routes:
  yard:
    legs:
    - {buried: lawn,
       cover: 10 in}   # shallow
    - buried: field
      length: 3 ft
    carries: {}
"""


def document(text: str) -> Document:
    """The document of a text."""
    return parse(Source("plan.yaml", text))


def changed(before: str, after: str) -> list[str]:
    """The lines of a difference, without its context."""
    return [line for line in difflib.ndiff(before.splitlines(), after.splitlines()) if line[0] in "+-"]


@pytest.mark.parametrize(
    ("path", "value", "lines"),
    [
        (
            "/circuits/pump/breaker/rating",
            "15 A",
            [
                "-     breaker: {rating: 20 A, poles: 1}  # main floor",
                "+     breaker: {rating: 15 A, poles: 1}  # main floor",
            ],
        ),
        (
            "/circuits/pump/breaker/ground-fault",
            "class A",
            [
                "-     breaker: {rating: 20 A, poles: 1}  # main floor",
                "+     breaker: {rating: 20 A, poles: 1, ground-fault: class A}  # main floor",
            ],
        ),
        ("/circuits/lamp/breaker/poles", 1, ["+       poles: 1"]),
        ("/circuits/pump/voltage", "120 V", ["+     voltage: 120 V"]),
        (
            "/routes/yard/legs/0/cover",
            "24 in",
            ["-        cover: 10 in}   # shallow", "+        cover: 24 in}   # shallow"],
        ),
        ("/routes/yard/legs/1/cover", "24 in", ["+       cover: 24 in"]),
        ("/routes/yard/legs/-", {"bend": "90°"}, ["+     - {bend: 90°}"]),
        (
            "/routes/yard/carries/pump",
            {"cable": "UF-B 12/2"},
            ["-     carries: {}", "+     carries: {pump: {cable: UF-B 12/2}}"],
        ),
        ("/boxes", {"b": {"at": "x"}}, ["+ boxes: {b: {at: x}}"]),
    ],
)
def test_an_edit_changes_its_own_lines_only(path: str, value: Any, lines: list[str]) -> None:
    """Comments, blank lines, quotes and the order of keys stay."""
    after = rewritten(document(PLAN), ({"op": "add", "path": path, "value": value},))

    assert changed(PLAN, after) == lines


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_line_endings_stay(ending: str) -> None:
    """A new line ends as its neighbours do."""
    text = PLAN.replace("\n", ending)
    after = rewritten(document(text), ({"op": "add", "path": "/circuits/lamp/voltage", "value": "120 V"},))

    assert after.count(ending) == text.count(ending) + 1
    assert "\n" not in after.replace("\r\n", "") or ending == "\n"


def test_a_text_without_a_last_line_end_gets_a_line() -> None:
    """The new key does not join the last line."""
    after = rewritten(document("a: 1"), ({"op": "add", "path": "/b", "value": "2 ft"},))

    assert after == "a: 1\nb: 2 ft\n"


def test_a_key_behind_a_text_over_several_lines() -> None:
    """A block text ends with its own last line."""
    after = rewritten(
        document("t:\n  title: |\n    one\n    two\nu: 1\n"), ({"op": "add", "path": "/t/x", "value": True},)
    )

    assert after == "t:\n  title: |\n    one\n    two\n  x: true\nu: 1\n"


def test_the_same_edit_twice_changes_nothing() -> None:
    """A value that stands there already is not written again."""
    patch = ({"op": "add", "path": "/circuits/lamp/voltage", "value": "120 V"},)
    once = rewritten(document(PLAN), patch)

    assert rewritten(document(once), patch) == once


def test_a_parent_that_is_opened_is_written_once() -> None:
    """An object with its first fact is one entry."""
    patch = (
        {"op": "add", "path": "/circuits/pump/x", "value": {}},
        {"op": "add", "path": "/circuits/pump/x/z", "value": "2 A"},
    )

    assert changed(PLAN, rewritten(document(PLAN), patch)) == ["+     x: {z: 2 A}"]


@pytest.mark.parametrize(("path", "lines"), [("/circuits/pump/kind", 1), ("/circuits/pump/breaker/poles", 2)])
def test_a_key_is_removed_with_its_value(path: str, lines: int) -> None:
    """Removing takes the key's own lines, no more."""
    after = rewritten(document(PLAN), ({"op": "remove", "path": path},))

    assert document(after).data == applied(document(PLAN).data, ({"op": "remove", "path": path},))
    assert len(changed(PLAN, after)) <= lines


WAY = """\
legs:
  # from the house
  - {buried: lawn, cover: 18 in}   # dug by hand
  - buried: field   # a ditch witch
    cover: 20 in
  - {through: wall}
wires:
  hot: 2 × 12 AWG Cu THWN-2   # black and red
  ground: 12 AWG Cu THWN-2
flow: [{buried: lawn,   # the gas line!
        cover: 18 in},
       {buried: field}, {through: wall}]
"""
FIRST, FIELD, WALL = {"buried": "lawn", "cover": "18 in"}, {"buried": "field", "cover": "20 in"}, {"through": "wall"}


@pytest.mark.parametrize(
    ("path", "value", "lines"),
    [
        ("/legs", [FIRST, FIELD], ["-   - {through: wall}"]),
        ("/legs", [FIRST, FIELD, WALL, {"bend": "90°"}], ["+   - {bend: 90°}"]),
        ("/legs", [FIRST, {**FIELD, "cover": "24 in"}, WALL], ["-     cover: 20 in", "+     cover: 24 in"]),
        (
            "/wires",
            {"neutral": "12 AWG Cu THWN-2", "ground": "12 AWG Cu THWN-2", "hot": "12 AWG Cu THWN-2"},
            [
                "-   hot: 2 × 12 AWG Cu THWN-2   # black and red",
                "+   hot: 12 AWG Cu THWN-2   # black and red",
                "+   neutral: 12 AWG Cu THWN-2",
            ],
        ),
        ("/wires", {"hot": "2 × 12 AWG Cu THWN-2"}, ["-   ground: 12 AWG Cu THWN-2"]),
        (
            "/flow",
            [FIRST, {"buried": "field"}],
            ["-        {buried: field}, {through: wall}]", "+        {buried: field}]"],
        ),
        (
            "/flow",
            [FIRST, {"buried": "driveway"}, WALL],
            ["-        {buried: field}, {through: wall}]", "+        {buried: driveway}, {through: wall}]"],
        ),
        ("/legs", [FIRST, FIELD, WALL], []),
    ],
)
def test_of_a_value_that_is_there_only_what_differs_is_written(path: str, value: Any, lines: list[str]) -> None:
    """A list or a block of keys is not written anew: what it has in common with the new one stays as it stands."""
    after = rewritten(document(WAY), ({"op": "add", "path": path, "value": value},))
    assert changed(WAY, after) == lines
    assert document(after).data[path[1:]] == value


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("/legs", [FIRST]),
        ("/flow/0", None),
        ("/flow", "none"),
        ("/wires/hot", None),
        ("/circuits/lamp", None),
        ("/circuits/pump/breaker", "none"),
    ],
)
def test_a_comment_is_never_lost(path: str, value: Any) -> None:
    """Neither inside of what goes nor behind it; and behind a value that only changes it stays."""
    text = PLAN if path.startswith("/circuits") else WAY
    step = {"op": "remove", "path": path} if value is None else {"op": "add", "path": path, "value": value}
    if path == "/circuits/pump/breaker":
        assert "# main floor" in rewritten(document(text), (step,))
    else:
        with pytest.raises(Unwritable):
            rewritten(document(text), (step,))


def test_a_mark_within_a_text_is_no_comment() -> None:
    """A `#` in quotes, or inside a word."""
    text = 'a: {b: "panel #2", c: gauge#12, d: x}\nlist:\n- "#1"\n- "#2"\n'
    after = rewritten(document(text), ({"op": "remove", "path": "/a/b"}, {"op": "remove", "path": "/list/1"}))
    assert after == 'a: {c: gauge#12, d: x}\nlist:\n- "#1"\n'


def test_what_cannot_be_edited_in_place_is_refused() -> None:
    """A block of keys is not replaced by one value, nor emptied, and nothing goes into the middle of a list."""
    with pytest.raises(Unwritable, match="block of keys"):
        rewritten(document(PLAN), ({"op": "add", "path": "/circuits", "value": "none"},))
    with pytest.raises(Unwritable, match="last key"):
        rewritten(document("a:\n  b: 1\n"), ({"op": "remove", "path": "/a/b"},))
    with pytest.raises(Unwritable, match="last item"):
        rewritten(document("a:\n- 1\n"), ({"op": "remove", "path": "/a/0"},))
    with pytest.raises(Unwritable, match="middle of a list"):
        rewritten(document("a: [1, 2]"), ({"op": "add", "path": "/a/0", "value": 3},))
    with pytest.raises(Unwritable, match="middle of a list"):
        rewritten(document("a: [1, 2]"), ({"op": "remove", "path": "/a/0"},))
    with pytest.raises(Unwritable, match="list mark"):
        rewritten(document("a:\n- b: 1\n  c: 2\n"), ({"op": "remove", "path": "/a/0/b"},))


TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=("Cs",)), max_size=20)


@given(
    st.recursive(
        TEXTS | st.booleans() | st.integers(),
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
    )
)
def test_any_value_on_one_line_reads_back(value: Any) -> None:
    """What is written into a plan says what was meant, whatever its text."""
    line = flow(value)

    assert "\n" not in line
    if "<<" not in line:
        assert parse(Source("x", f"k: {line}\n")).data == {"k": value}
