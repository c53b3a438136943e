"""The pre-commit hook: its definition calls what is there, on the files that are plans."""

from __future__ import annotations

import re
import shlex
import subprocess
import sysconfig
from pathlib import Path

import pytest
import yaml

from support.reviews import EXAMPLES

DEFINITION = Path(__file__).parents[2] / ".pre-commit-hooks.yaml"


@pytest.mark.parametrize(("name", "status"), [("orchard-pump", 0), ("orchard-pump-uncorrected", 1)])
def test_the_hook_calls_what_is_there(name: str, status: int) -> None:
    """As pre-commit runs it: the entry with the files behind it."""
    (hook,) = yaml.safe_load(DEFINITION.read_text(encoding="utf-8"))
    plan = EXAMPLES / f"{name}.plan.yaml"
    assert re.search(hook["files"], plan.name) and not re.search(hook["files"], "values.yaml")
    program, *arguments = shlex.split(hook["entry"])
    command = Path(sysconfig.get_path("scripts")) / program
    ran = subprocess.run([command, *arguments, plan], capture_output=True, text=True, check=False)
    assert ran.returncode == status, ran.stderr
