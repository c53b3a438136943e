"""What other packs would change for many plans: rows, sums, unreadable plans, every core."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

import precover_schemas
from precover.reviewing import open_plan, review
from precover.reviewing.impact import Impact, impact
from precover.rulebook import Severity
from support.reviews import EXAMPLES, example, library, reviewed, written

TOWN = """\
format: precover-pack/1
id: town
title: Town
extends: us-2023
limits:
  spacing of rods: {value: 10 ft}
off:
  disconnect/needed: {because: Not asked here.}
"""


def run(*arguments: str, at: Path | None = None) -> subprocess.CompletedProcess[str]:
    """One call of `precover impact`."""
    command = [sys.executable, "-m", "precover.app", "impact", *arguments]
    return subprocess.run(
        command, capture_output=True, text=True, check=False, cwd=at, timeout=120, stdin=subprocess.DEVNULL
    )


@pytest.fixture
def office(tmp_path: Path) -> Path:
    """Plans on file, one of them unreadable, and a pack of the town."""
    plans = tmp_path / "plans"
    plans.mkdir()
    for name in ("joinery-workshop", "pottery-studio"):
        (plans / f"{name}.plan.yaml").write_bytes((EXAMPLES / f"{name}.plan.yaml").read_bytes())
    post = {"boxes": {"post-box": {"devices": {"main-switch": None}}}}
    (plans / "no-switch.plan.yaml").write_bytes(written(example("orchard-pump", post)))
    (plans / "unreadable.plan.yaml").write_text("format: [", encoding="utf-8")
    (tmp_path / "town.pack.yaml").write_text(TOWN, encoding="utf-8")
    return tmp_path


def record(office: Path, *arguments: str) -> dict[str, Any]:
    """The JSON of an impact, valid by its schema."""
    done = run("--from", "us-2023", "--to", "town.pack.yaml", "plans", "--form", "json", *arguments, at=office)
    made: dict[str, Any] = json.loads(done.stdout)
    Draft202012Validator(precover_schemas.load("impact")).validate(made)
    return made


def test_rows_and_sums(office: Path) -> None:
    """One plan newly fails, one newly passes, one is as before, one is a row though it cannot be read."""
    made = record(office)
    states = {Path(row["file"]).name.partition(".")[0]: row["state"] for row in made["rows"]}
    assert states == {
        "joinery-workshop": "newly fails",
        "no-switch": "newly passes",
        "pottery-studio": "as before",
        "unreadable": "unreadable",
    }
    assert (made["plans"], made["newly_fail"], made["newly_pass"]) == (4, 1, 1)
    assert made["topics"] == [
        {"topic": "disconnect/needed", "gained": 0, "lost": 1, "plans": 1},
        {"topic": "grounding/rods", "gained": 1, "lost": 0, "plans": 1},
    ]
    assert made["moved"] == [
        {"table": "limits", "key": ["spacing of rods"], "was": "6 ft", "becomes": "10 ft", "plans": 1}
    ]


def test_the_threshold_decides_what_fails(office: Path) -> None:
    """Rods too close together are a correction: no plan fails for danger."""
    made = record(office, "--fail-at", "danger")
    assert made["newly_fail"] == 0
    assert {row["state"] for row in made["rows"]} == {"other findings", "as before", "unreadable"}


@pytest.mark.parametrize(
    ("plans", "status"),
    [(("joinery-workshop",), 1), (("pottery-studio",), 0), (("pottery-studio", "unreadable"), 2)],
)
def test_the_exit_status(office: Path, plans: tuple[str, ...], status: int) -> None:
    """1 where a plan newly fails, 2 where one could not be reviewed."""
    files = [f"plans/{name}.plan.yaml" for name in plans]
    assert run("--from", "us-2023", "--to", "town.pack.yaml", *files, at=office).returncode == status


def test_the_peoples_form(office: Path) -> None:
    """The counts, what moved, and each plan with what it gains; nothing on stderr that is no terminal."""
    done = run("--from", "us-2023", "--to", "town.pack.yaml", "plans", at=office)
    for words in (
        "newly fail  1 plan",
        "6 ft -> 10 ft",
        "no-switch.plan.yaml",
        "unreadable.plan.yaml:",
        "no approval",
    ):
        assert words in done.stdout
    assert done.stderr == ""
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_the_same_on_many_cores(office: Path) -> None:
    """Rows in the order of the plans, whichever process reviewed them; the other direction mirrors it."""
    for number in range(40):
        name = "no-switch" if number % 3 else "joinery-workshop"
        copy = (office / "plans" / f"{name}.plan.yaml").read_bytes()
        (office / "plans" / f"z{number:02}.plan.yaml").write_bytes(copy)
    made = record(office)
    files = [row["file"] for row in made["rows"]]
    assert files == sorted(files) and len(files) == 44
    assert (made["newly_fail"], made["newly_pass"]) == (15, 27)
    back = run("--from", "town.pack.yaml", "--to", "us-2023", "plans", "--form", "json", at=office)
    mirrored = json.loads(back.stdout)
    assert (mirrored["newly_fail"], mirrored["newly_pass"]) == (27, 15)
    for row, other in zip(made["rows"], mirrored["rows"], strict=True):
        assert (row.get("gained"), row.get("lost")) == (other.get("lost"), other.get("gained"))


def test_the_same_rules_change_nothing() -> None:
    """Not even for a plan with findings."""
    plan = example("joinery-workshop-uncorrected")
    made = impact(reviewed(plan), reviewed(plan))
    assert (made.gained, made.lost, made.moved) == ((), (), ())
    assert not made.newly_fails(Severity.ADVICE) and not made.newly_passes(Severity.ADVICE)


def test_the_same_open_plan_under_one_book_after_the_other(tmp_path: Path) -> None:
    """What was worked out under the first is not taken for the second: as if the plan were opened anew."""
    town = tmp_path / "town.pack.yaml"
    cells = 'cells:\n  - {table: ampacity, key: [Cu, "12", 60 °C], value: 10 A}\n'
    town.write_text(TOWN.partition("limits:")[0] + cells, encoding="utf-8")
    opened = open_plan("pump.plan.yaml", written(example("orchard-pump")))
    told = [[line.answer for line in review(opened, library(), packs).ran] for packs in ((), (str(town),), ())]
    fresh = open_plan("pump.plan.yaml", written(example("orchard-pump")))
    anew = [line.answer for line in review(fresh, library(), (str(town),)).ran]
    assert [(a.outcome, str(a.needs), str(a.has)) for a in told[1]] == [
        (a.outcome, str(a.needs), str(a.has)) for a in anew
    ]
    assert told[0] == told[2] != told[1]


def test_a_query_that_becomes_a_finding_is_gained() -> None:
    """What could not be told and is now not met is lost as the one and gained as the other."""
    plan = example("joinery-workshop", {"structures": {"workshop": {"floor": "above grade"}}})
    plan["circuits"]["bench-outlets"]["breaker"].pop("ground-fault")
    made: Impact = impact(reviewed(plan, ("us-2023",)), reviewed(plan, ("us-2026",)))
    assert [found.answer for found in made.gained if found.topic == "ground-fault/receptacles"] == ["cannot tell"]


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="this system has no pseudo-terminals")
def test_progress_is_shown_on_a_terminal(office: Path) -> None:
    """On stderr, of more plans than a few."""
    for number in range(30):
        copy = (office / "plans" / "pottery-studio.plan.yaml").read_bytes()
        (office / "plans" / f"z{number:02}.plan.yaml").write_bytes(copy)
    outer, inner = os.openpty()
    command = [sys.executable, "-m", "precover.app", "impact", "--from", "us-2020", "--to", "us-2023", "plans"]
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=inner, cwd=office, check=False, timeout=120)
    os.close(inner)
    told = os.read(outer, 4096).decode()
    os.close(outer)
    assert "34 of 34 plans" in told
    assert b" of 34 plans" not in done.stdout
