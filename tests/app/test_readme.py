"""What the README shows is what a run prints."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from precover.reviewing import open_plan

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


def test_the_plan_shown_can_be_read() -> None:
    """The sketch of the plan language is a plan."""
    plans = re.findall(r"```yaml\n(format: .*?)```", README.read_text(encoding="utf-8"), re.DOTALL)

    assert len(plans) == 1
    assert open_plan("README.md", plans[0].encode()).plan.circuits


def test_the_run_script_finds_the_test_command() -> None:
    """`.ci/run` runs what stands below its mark."""
    assert re.search(r"<!-- test command -->\n```sh\n[^`]*pytest\n```", README.read_text(encoding="utf-8"))
