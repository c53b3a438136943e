"""`precover topics --map` as it is run."""

from __future__ import annotations

import json
import subprocess
import sys


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    """One call of the command."""
    command = [sys.executable, "-m", "precover.app", "topics", *arguments]
    return subprocess.run(command, capture_output=True, encoding="utf-8", timeout=60, check=False)


def test_both_forms_say_the_same() -> None:
    """The sheet keeps to 80 columns and has every row of the JSON form once, and its counts."""
    sheet, data = run("--map"), run("--map", "--form", "json")
    assert (sheet.returncode, data.returncode, sheet.stderr, data.stderr) == (0, 0, "", "")
    record = json.loads(data.stdout)
    lines = sheet.stdout.splitlines()
    assert max(map(len, lines)) <= 80
    above = lines[: next(place for place, line in enumerate(lines) if line.startswith("How much is covered"))]
    shown = [line.strip() for line in above if line.startswith("  ") and line[2:3].strip()]
    assert sorted(row["id"] for subject in record["subjects"] for row in subject["rows"]) == sorted(shown)
    for state, count in record["counts"].items():
        assert f"{count:>5}  {state}" in lines


def test_the_map_is_asked_for_alone() -> None:
    """Not together with a topic."""
    done = run("burial/minimum-cover", "--map")
    assert (done.returncode, done.stdout) == (2, "")
    assert "not allowed with argument" in done.stderr
