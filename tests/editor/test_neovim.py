"""Neovim, through its own language client: a plan that fails is opened, put right by code actions, and saved."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path
from typing import Any

import pytest

from support.editor import COMMAND, program
from support.open_texts import FAILING, text_of
from support.reviews import reviewed

SCRIPT = Path(__file__).with_name("neovim.lua")


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What Neovim saw."""
    neovim = program("nvim", "neovim")
    folder = tmp_path_factory.mktemp("neovim")
    plan = folder / "studio.plan.yaml"
    plan.write_text(text_of(FAILING), encoding="utf-8")
    environment = os.environ | {
        "PLAN": str(plan),
        "SERVER": json.dumps([*COMMAND, "--log", str(folder / "log")]),
        "SEEN": str(folder / "seen.json"),
        "XDG_STATE_HOME": str(folder),
        "XDG_CACHE_HOME": str(folder),
    }
    ran = subprocess.run(
        [neovim, "--headless", "-u", "NONE", "-i", "NONE", "-n", "-S", str(SCRIPT)],
        env=environment,
        cwd=folder,
        capture_output=True,
        timeout=240,
        check=False,
    )
    assert (folder / "seen.json").exists(), ran.stderr.decode()
    told: dict[str, Any] = json.loads((folder / "seen.json").read_text(encoding="utf-8"))
    assert told.get("problem") is None, (told, ran.stderr.decode())
    told["saved"] = plan.read_text(encoding="utf-8")
    told["log"] = (folder / "log").read_text(encoding="utf-8")
    return told


def test_diagnostics_at_the_right_lines(seen: dict[str, Any]) -> None:
    """Those of the values that the review marks (of a whole thing, of its name), each with its topic."""
    review = reviewed(text_of(FAILING).encode())

    def line(place: str) -> int:
        at = review.document.range(place)
        return at.line if at.line == at.end_line else review.document.range(place, key=True).line

    expected = sorted((line(finding.line.place), finding.line.rule.topic) for finding in review.findings)
    assert sorted((one["line"], one["code"]) for one in seen["first"]) == expected
    lines = text_of(FAILING).splitlines()
    (cover,) = [one for one in seen["first"] if one["code"] == "burial/minimum-cover"]
    assert lines[cover["line"] - 1][cover["column"] :].startswith("10 in")


def test_code_actions_settle_findings(seen: dict[str, Any]) -> None:
    """Each that was taken, its diagnostic went."""
    assert [(step["title"], step["done"]) for step in seen["steps"]] == [
        ("Use a weather-resistant receptacle (another part)", True),
        ("Close it with an in-use hood listed extra-duty (another part)", True),
    ]


def test_saved_and_gone(seen: dict[str, Any]) -> None:
    """The file has the edits and nothing else; what they settle is not told any more."""
    settled = text_of(FAILING).replace("weather-resistant: false", "weather-resistant: true")
    assert seen["saved"] == settled.replace("cover: closed", "cover: in-use")
    assert "wet-places/receptacles" in {one["code"] for one in seen["first"]}
    assert "wet-places/receptacles" not in {one["code"] for one in seen["last"]}
    assert len(seen["last"]) == len(seen["first"]) - 2


def test_hover_answers(seen: dict[str, Any]) -> None:
    """At the cursor, which stands in a cover; and the log is clean."""
    assert "Cover" in seen["hover"] and seen["log"] == ""
