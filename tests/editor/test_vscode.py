"""The Visual Studio Code extension's own tests, and that it and the server agree on names."""

from __future__ import annotations

import json
import os
import subprocess
import sysconfig
from pathlib import Path

import precover
from precover.app.files import PATTERN
from precover.editor.settings import Settings
from support.editor import program

EXTENSION = Path(precover.__file__).parents[1] / "vscode"


def test_its_own_tests() -> None:
    """Run by Node, with the real server."""
    node = program("node", "nodejs")
    command = Path(sysconfig.get_path("scripts")) / "precover"
    ran = subprocess.run(
        [node, "--test", "settings.test.js"],
        cwd=EXTENSION,
        env={**os.environ, "PRECOVER": str(command)},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert "skipped 0" in ran.stdout


def test_it_is_for_the_files_that_are_plans() -> None:
    """And its settings are those that the server knows."""
    manifest = json.loads((EXTENSION / "package.json").read_text(encoding="utf-8"))["contributes"]
    plans = next(one for one in manifest["languages"] if one["id"] == "precover-plan")
    assert PATTERN in plans["filenamePatterns"]
    declared = {name.partition(".")[2]: one["default"] for name, one in manifest["configuration"]["properties"].items()}
    assert set(declared) - {"command"} == set(Settings._fields)
    assert Settings.of(declared, Settings()) == Settings()
