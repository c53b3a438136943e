"""Rule packs in an editor: told what is wrong with them, understood under the cursor, and followed by the plans that lie
open while they change."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from lsprotocol import types

import precover
from precover.editor.completion import completion
from precover.editor.diagnostics import diagnostics
from precover.editor.hover import hover
from precover.editor.texts import OpenText
from support.editor import Client
from support.open_texts import FAILING, cursor, look, text_of

PACK = (Path(precover.__file__).parent / "app/draft.pack.yaml").read_text(encoding="utf-8")
KINDS = sorted((Path(__file__).parents[1] / "packs/kinds").glob("*.pack.yaml"))


def opened(text: str, uri: str = "file:///nowhere/town.pack.yaml") -> OpenText:
    """A pack that has been looked at."""
    made = OpenText(uri, text, 1, "utf-16", "yaml")
    look(made)
    return made


@pytest.mark.parametrize("path", KINDS[::5], ids=lambda path: path.name.partition(".")[0])
def test_packs_that_are_right(path: Path) -> None:
    """Of every kind: nothing is said."""
    assert diagnostics(opened(path.read_text(encoding="utf-8"), path.as_uri())) == []


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ("adopted-by:", "adopted:", "not a key known here"),
        ("value: 30 in", "value: 30 bananas", "bananas"),
        ("spacing of rods:", "spacing of rocks:", "spacing of rocks"),
        ("extends: us-2023 ", "extends: us-1923 ", "us-1923"),
        ("table: minimum-cover", "table: maximum-cover", "maximum-cover"),
        ("  loads/surge:", "  loads/urge:", "loads/urge"),
        ("limits:\n", "limits: &a\n  x: *a\n", "a pack has no references"),
    ],
)
def test_packs_that_are_wrong(right: str, wrong: str, says: str) -> None:
    """Where it is (a cell as a whole where it begins), in words of packs."""
    assert right in PACK
    text = opened(PACK.replace(right, wrong, 1))
    found = diagnostics(text)
    assert found and any(says in one.message for one in found), found
    line = text.positions.position(text.text.index(wrong)).line
    assert any(line - 2 <= one.range.start.line <= line + wrong.count("\n") for one in found), (line, found)


def test_hover_and_completion() -> None:
    """From the schema of packs."""
    text = opened(PACK)
    found = hover(text, text.positions.position(text.text.index("effective") + 1))
    assert found is not None and isinstance(found.contents, types.MarkupContent)
    assert "The day from which it is in force." in found.contents.value
    typed, index = cursor(PACK.replace("severity: correction", "severity: ¦", 1))
    half = opened(typed)
    words = {item.label for item in completion(half, half.positions.position(index), ("us-2023",))}
    assert words == {"danger", "correction", "query", "advice"}
    typed, index = cursor(PACK.replace("extends: us-2023", "extends: ¦", 1))
    half = opened(typed)
    assert {item.label for item in completion(half, half.positions.position(index), ("us-2023",))} == {"us-2023"}


def pack(inches: int) -> str:
    """A pack that asks for another cover under a lawn."""
    return (
        "format: precover-pack/1\nid: my-county\ntitle: Of a county\nextends: us-2023\ncells:\n"
        "  - {table: minimum-cover, key: [open ground, nonmetallic raceway, raceway], "
        f"value: {inches} in, metric: {inches * 25} mm, because: A test., look-up: nowhere}}\n"
    )


@pytest.mark.parametrize("told", ["watched", "saved"])
def test_a_pack_that_changes_under_an_open_plan(tmp_path: Path, told: str) -> None:
    """The plan is reviewed by what is there now; broken, the plan says which pack is; put right, as before."""
    file = tmp_path / "county.pack.yaml"
    file.write_text(pack(30), encoding="utf-8")
    plan = text_of(FAILING).replace("[us-2023]", "[us-2023, ./county.pack.yaml]")
    uri = (tmp_path / "studio.plan.yaml").as_uri()

    def change(text: str) -> list[str]:
        file.write_text(text, encoding="utf-8")
        if told == "watched":
            changes = [{"uri": file.as_uri(), "type": 2}]
            client.notify("workspace/didChangeWatchedFiles", {"changes": changes})
        else:
            client.notify("textDocument/didSave", {"textDocument": {"uri": file.as_uri()}})
        return [one["message"] for one in client.diagnostics(uri, 1)]

    with Client() as client:
        client.begin()
        first = [one["message"] for one in client.open(uri, plan)]
        assert any("needed: at least 30 in" in one and "set by my-county" in one for one in first), first
        time.sleep(0.01)
        assert any("needed: at least 36 in" in one for one in change(pack(36)))
        broken = change(pack(36).replace("minimum-cover", "maximum-cover"))
        assert "maximum-cover" in broken[0] and len(broken) == len(first) + 1
        assert change(pack(30)) == first
        assert client.end()[0] == 0
