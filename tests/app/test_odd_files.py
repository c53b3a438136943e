"""Files that are no plain file, and outputs that lead nowhere: one line, exit status 2, no traceback."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from precover.showing.cautions import CAUTIONS
from support.reviews import EXAMPLES

PRECOVER = [sys.executable, "-m", "precover.app"]
BAD = EXAMPLES / "orchard-pump-uncorrected.plan.yaml"


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A plan with findings, in a folder of its own."""
    return Path(shutil.copy(BAD, tmp_path / "a.plan.yaml"))


def run(*arguments: str, at: Path | None = None, ending: str = "") -> subprocess.CompletedProcess[str]:
    """The command, within a time; with `ending` through a shell, with that behind it."""
    words = ["sh", "-c", f'"$@" {ending}', "sh", *PRECOVER, *arguments] if ending else [*PRECOVER, *arguments]
    done = subprocess.run(words, cwd=at, capture_output=True, encoding="utf-8", timeout=60, check=False)
    assert "Traceback" not in done.stderr
    assert "fault of precover" not in done.stderr
    return done


@pytest.mark.parametrize("command", ["review", "amend"])
def test_a_named_pipe_is_not_waited_for(plan: Path, command: str) -> None:
    """One that a shell opens for a command has an end, and is read."""
    pipe = plan.with_name("b.plan.yaml")
    os.mkfifo(pipe)
    done = run(command, str(pipe))
    assert (done.returncode, done.stdout) == (2, "")
    assert "is a named pipe, which may never end; name a file, or - for standard input" in done.stderr
    opened = subprocess.run(
        ["bash", "-c", '"$@" review <(cat a.plan.yaml) --form lines', "sh", *PRECOVER],
        cwd=plan.parent,
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    assert (opened.returncode, opened.stderr) == (1, f"precover: {CAUTIONS[0]}\n")


@pytest.mark.parametrize("text", ["", "# only\n# remarks\n", "---\n", "\ufeff", "null\n"])
def test_an_empty_plan(plan: Path, text: str) -> None:
    """Says how to begin."""
    plan.write_text(text, encoding="utf-8")
    for command in ("review", "amend"):
        done = run(command, str(plan))
        assert done.returncode == 2
        assert "the plan is empty; start with `format: precover-plan/1`" in done.stderr


def test_links_that_lead_nowhere_are_told_in_a_folder_too(plan: Path) -> None:
    """A plan that cannot be read is not passed over, and does not keep the others from review."""
    plan.with_name("gone.plan.yaml").symlink_to("nowhere")
    plan.with_name("round.plan.yaml").symlink_to("round.plan.yaml")
    plan.with_name("folder.plan.yaml").mkdir()
    done = run("review", str(plan.parent), "--form", "lines")
    assert done.returncode == 2
    assert "gone.plan.yaml: cannot be read: no such file" in done.stderr
    assert "round.plan.yaml: cannot be read: too many levels" in done.stderr
    assert done.stderr.count("\n") == 3  # the two, and the caution
    assert "a.plan.yaml:" in done.stdout


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read everything")
def test_a_file_that_may_not_be_read(plan: Path) -> None:
    """Says so."""
    plan.chmod(0)
    done = run("review", str(plan))
    assert (done.returncode, done.stdout) == (2, "")
    assert "cannot be read: permission denied; check the name and the permissions" in done.stderr


def test_amend_takes_a_file(plan: Path) -> None:
    """A folder has many, or none."""
    done = run("amend", ".", at=plan.parent)
    assert (done.returncode, done.stdout) == (2, "")
    assert "`amend` takes one file" in done.stderr


def test_a_link_is_amended_where_it_leads(plan: Path) -> None:
    """It stays a link."""
    link = plan.with_name("link.plan.yaml")
    link.symlink_to(plan.name)
    assert run("amend", str(link), "--write", "--least").returncode == 0
    assert link.is_symlink()
    assert plan.read_bytes() != BAD.read_bytes()


def test_a_file_of_two_names_is_not_amended_under_one(plan: Path) -> None:
    """The other name would keep the plan as it was."""
    other = plan.with_name("other.plan.yaml")
    other.hardlink_to(plan)
    done = run("amend", str(plan), "--write", "--least")
    assert done.returncode == 2
    assert "has other names (hard links)" in done.stderr
    assert plan.read_bytes() == other.read_bytes() == BAD.read_bytes()


@pytest.mark.parametrize("command", [("review", str(BAD)), ("amend", str(BAD)), ("topics",), ("schema", "plan")])
def test_a_closed_output_is_said(command: tuple[str, ...]) -> None:
    """No review is lost in silence."""
    done = run(*command, ending=">&-")
    assert done.returncode == 2
    assert done.stderr == "precover: standard output is closed; write elsewhere with --output\n"


def test_a_closed_input_is_said() -> None:
    """In place of a plan."""
    done = run("review", "-", ending="<&-")
    assert done.returncode == 2
    assert done.stderr == "stdin: is closed; name a file, or send the plan through a pipe\n"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
@pytest.mark.parametrize("ending", ["2>/dev/full", "2>&-"])
def test_where_nothing_can_be_told_the_status_tells(ending: str) -> None:
    """2 for what cannot be read, 0 for a plan with nothing to settle."""
    assert run("review", "nowhere.plan.yaml", ending=ending).returncode == 2
    good = EXAMPLES / "orchard-pump.plan.yaml"
    assert run("review", str(good), ending=ending).returncode == 0
