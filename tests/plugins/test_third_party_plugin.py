"""A plugin from an installed distribution runs as the built-in rules do; one that cannot be loaded costs only itself."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from support.reviews import EXAMPLES

HERE = Path(__file__).parent


def install(site: Path, name: str, module: str) -> None:
    """A distribution as pip lays it out: its metadata with the entry point, beside its modules."""
    info = site / f"{name}-1.0.dist-info"
    info.mkdir(parents=True)
    (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[precover]\n{name} = {module}\n", encoding="utf-8")


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A folder of installed distributions with the plugin in it."""
    folder = tmp_path / "site"
    shutil.copytree(HERE / "orchard_notes", folder)
    install(folder, "orchard-notes", "orchard_notes")
    return folder


def run(site: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """The command, with the distributions of `site` installed."""
    environment = os.environ | {"PYTHONPATH": os.pathsep.join([str(site), *sys.path])}
    command = [sys.executable, "-m", "precover.app", *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=False, env=environment, timeout=120)


def plan(tmp_path: Path, height: str) -> Path:
    """The pump plan under the base pack and the plugin's."""
    text = (EXAMPLES / "orchard-pump.plan.yaml").read_text(encoding="utf-8")
    text = text.replace("rules: [us-2023]", "rules: [us-2023, orchard-valley]")
    path = tmp_path / "pump.plan.yaml"
    path.write_text(
        text.replace("receptacle: 20 A", f"receptacle: 20 A\n{' ' * 8}height: {height}", 1), encoding="utf-8"
    )
    return path


@pytest.mark.parametrize(("height", "status", "answer"), [("20 in", 1, "not met"), ("30 in", 0, "met")])
def test_its_rule_runs_with_its_own_table(site: Path, tmp_path: Path, height: str, status: int, answer: str) -> None:
    """Topic, locator, hazard and the table that set the limit are the plugin's."""
    done = run(site, "review", str(plan(tmp_path, height)), "--form", "json", "--ledger")
    assert done.returncode == status, done.stderr
    (review,) = json.loads(done.stdout)["reviews"]
    (line,) = [line for line in review["ledger"] if line["topic"] == "receptacle-heights" and line["answer"] == answer]

    assert line["needs"]["text"] == "30 in"
    assert [(limit["table"], limit["set_by"]) for limit in line["limits"]] == [("orchard-valley", "orchard-valley")]
    assert [pack["id"] for pack in review["packs"]] == ["us-2023", "orchard-valley"]


def test_its_topic_is_listed_with_the_built_in_ones(site: Path) -> None:
    """`topics` makes no difference between them."""
    listed = run(site, "topics").stdout

    assert "receptacle-heights" in listed
    assert "burial/minimum-cover" in listed


def test_a_plugin_that_fails_is_noted_and_the_others_run(site: Path) -> None:
    """It says which, and why, and the exit status tells that something was not checked."""
    (site / "broken_plugin.py").write_text("raise RuntimeError('no rules today')\n", encoding="utf-8")
    install(site, "broken", "broken_plugin")
    done = run(site, "review", str(EXAMPLES / "orchard-pump.plan.yaml"))

    assert done.returncode == 2
    assert "no rules today" in done.stdout
    assert "Traceback" not in done.stdout + done.stderr
    assert " met, " in done.stdout


def test_a_plugin_cannot_take_a_topic_that_is_there(site: Path) -> None:
    """Two plugins with one topic: the second is noted, the first stays."""
    shutil.copy(site / "orchard_notes.py", site / "again.py")
    install(site, "zz-again", "again")
    done = run(site, "review", str(EXAMPLES / "orchard-pump.plan.yaml"))

    assert done.returncode == 2
    assert "zz-again" in done.stdout
    assert "is there already" in done.stdout


def test_the_order_of_installation_does_not_matter(site: Path, tmp_path: Path) -> None:
    """The same bytes come out whichever folder is found first."""
    other = tmp_path / "other"
    other.mkdir()
    for part in [*site.glob("orchard_notes*"), *site.glob("*.dist-info")]:
        shutil.move(str(part), other / part.name)
    arguments = ("review", str(EXAMPLES / "orchard-pump.plan.yaml"), "--form", "json", "--ledger")
    environment = os.environ | {"PYTHONPATH": os.pathsep.join([*sys.path, str(other)])}
    last = subprocess.run(
        [sys.executable, "-m", "precover.app", *arguments], capture_output=True, check=False, env=environment
    )

    assert last.stdout.decode() == run(other, *arguments).stdout
