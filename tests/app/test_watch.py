"""`precover review --watch`: a review after every save, and a clean end."""

from __future__ import annotations

import os
import pty
import queue
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from precover.showing.cautions import CAUTIONS
from support.open_texts import FAILING, text_of

COMMAND = [sys.executable, "-m", "precover.app", "review", "--watch", "--form", "lines"]
PATIENCE = 60.0


class Watching:
    """The command at work on a folder, and the lines that it writes."""

    def __init__(self, folder: Path, *arguments: str) -> None:
        self.process = subprocess.Popen(
            [*COMMAND, *arguments], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
        )
        self.lines: queue.Queue[str] = queue.Queue()
        threading.Thread(target=self._read, daemon=True).start()

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.lines.put(line)

    def reviewed(self) -> list[str]:
        """The lines of the next review."""
        found: list[str] = []
        while not found or not found[-1].startswith("watching "):
            found.append(self.lines.get(timeout=PATIENCE))
        return found

    def stop(self) -> int:
        """Interrupt it; its exit status."""
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(PATIENCE)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with one plan that fails."""
    (tmp_path / "studio.plan.yaml").write_text(text_of(FAILING), encoding="utf-8")
    return tmp_path


@pytest.fixture
def watching(folder: Path) -> Iterator[Watching]:
    """The command on that folder."""
    made = Watching(folder, ".")
    yield made
    made.process.kill()
    made.process.wait()


def test_every_save_is_reviewed(folder: Path, watching: Watching) -> None:
    """Saved whole or in its place, broken and put right; another plan comes and goes; at the end the last status."""
    plan = folder / "studio.plan.yaml"
    first = watching.reviewed()
    assert "minimum-cover" in "".join(first) and first[-1] == "watching 1 file; Ctrl-C ends it\n"
    plan.write_text(text_of("pottery-studio"), encoding="utf-8")
    assert watching.reviewed() == [f"precover: {CAUTIONS[0]}\n", "watching 1 file; Ctrl-C ends it\n"]
    other = folder / "new"
    other.write_text("a: ]", encoding="utf-8")
    other.replace(plan)
    assert "studio.plan.yaml:1:" in "".join(watching.reviewed())
    (folder / "more.plan.yaml").write_text(text_of("orchard-pump"), encoding="utf-8")
    assert watching.reviewed()[-1].startswith("watching 2 files")
    (folder / "more.plan.yaml").unlink()
    assert watching.reviewed()[-1].startswith("watching 1 file;")
    plan.write_text(text_of(FAILING), encoding="utf-8")
    watching.reviewed()
    assert watching.stop() == 1
    left = "".join(list(watching.lines.queue))
    assert "Traceback" not in left and "stopped" not in left


def test_a_file_that_goes(folder: Path, watching: Watching) -> None:
    """Is told, and watched for all the same."""
    watching.reviewed()
    (folder / "studio.plan.yaml").unlink()
    assert "folder without a plan" in "".join(watching.reviewed())
    (folder / "studio.plan.yaml").write_text(text_of("pottery-studio"), encoding="utf-8")
    watching.reviewed()
    assert watching.stop() == 0


def test_what_cannot_be_watched(folder: Path) -> None:
    """Standard input."""
    ran = subprocess.run([*COMMAND, "-"], capture_output=True, text=True, cwd=folder, check=False)
    assert ran.returncode == 2 and "standard input cannot be watched" in ran.stderr


def test_a_terminal_is_drawn_anew(folder: Path) -> None:
    """The screen is cleared before each review, and only on a terminal."""
    ours, theirs = pty.openpty()
    watched = subprocess.Popen(
        [*COMMAND, "."], cwd=folder, stdout=theirs, stderr=theirs, env={**os.environ, "TERM": "xterm"}
    )
    os.close(theirs)
    seen = b""
    try:
        while b"Ctrl-C" not in seen:
            seen += os.read(ours, 4096)
        assert seen.startswith(b"\x1b[H\x1b[2J")
        watched.send_signal(signal.SIGINT)
        assert watched.wait(PATIENCE) == 1
    finally:
        watched.kill()
        watched.wait()
        os.close(ours)
