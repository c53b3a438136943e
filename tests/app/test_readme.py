"""What the README shows is what a run prints."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

from precover.reviewing import open_plan
from support.reviews import EXAMPLES

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
OUTPUT = re.compile(r"(?<=<!-- output -->\n```text\n).*?(?=```)", re.DOTALL)


def test_the_output_shown_is_that_of_the_command_shown(rewrite_golden: bool) -> None:
    """The first command's review, word for word."""
    text = README.read_text(encoding="utf-8")
    found = re.search(r"precover review (\S+\.plan\.yaml)", text)
    assert found is not None
    run = [sys.executable, "-m", "precover.app", "review", found[1]]
    done = subprocess.run(run, cwd=ROOT, capture_output=True, text=True, check=False)
    if rewrite_golden:
        text = OUTPUT.sub(lambda _: done.stdout, text, count=1)
        README.write_text(text, encoding="utf-8")
    shown = OUTPUT.search(text)

    assert shown is not None
    assert shown[0] == done.stdout
    assert done.returncode == 1


PACK = re.compile(r"<!-- pack -->\n```yaml\n(.*?)```", re.DOTALL)
RUN = re.compile(r"(<!-- run with the pack: (.*?) -->\n```text\n)(.*?)```", re.DOTALL)


def test_the_pack_shown_does_what_is_shown(rewrite_golden: bool, tmp_path: Path) -> None:
    """Each command with the pack, beside the bundled plans, word for word."""
    text = README.read_text(encoding="utf-8")
    shown = PACK.search(text)
    assert shown is not None
    (tmp_path / "hill-county.pack.yaml").write_text(shown[1], encoding="utf-8")
    shutil.copytree(EXAMPLES, tmp_path / "plans")
    printed = {
        run[2]: subprocess.run(
            [sys.executable, "-m", "precover.app", *run[2].split()],
            cwd=tmp_path,
            capture_output=True,
            text=True,
            check=False,
        ).stdout
        for run in RUN.finditer(text)
    }
    if rewrite_golden:
        text = RUN.sub(lambda run: f"{run[1]}{printed[run[2]]}```", text)
        README.write_text(text, encoding="utf-8")
    assert len(printed) == 2
    assert {run[2]: run[3] for run in RUN.finditer(text)} == printed


def test_the_plan_shown_can_be_read() -> None:
    """The sketch of the plan language is a plan."""
    plans = re.findall(r"```yaml\n(format: precover-plan.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)

    assert len(plans) == 1
    assert open_plan("README.md", plans[0].encode()).plan.circuits


def test_the_run_script_finds_the_test_command() -> None:
    """`.ci/run` runs what stands below its mark."""
    assert re.search(r"<!-- test command -->\n```sh\n[^`]*pytest -n auto\n```", README.read_text(encoding="utf-8"))
