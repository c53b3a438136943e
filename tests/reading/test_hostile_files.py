"""Files that somebody meant to do harm: told in bounded time and memory, and nothing of them acts on a terminal."""

from __future__ import annotations

import resource
import subprocess
import sys
from pathlib import Path

import pytest

from precover.reading.source import LARGEST_FILE, MOST_MARKS
from support.refusals import STUDIO

MOST_MEMORY = 768 << 20
"""Bytes of address space, of which Python with its libraries takes the larger part."""

MOST_SECONDS = 12
"""Of processor time: several times what the worst of these takes where nothing else runs, start of Python and all."""


def bounded() -> None:
    """What the process may take, and no more."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS))


def under(limit: int, piece: str) -> str:
    """A piece of text again and again, up to just under so many marks or bytes."""
    return piece * (limit // len(piece) - 1)


LEGS = "\n  more:\n    from: house-panel\n    to: entry-box\n    carries: {}\n    legs: ["
NAMES = [f"n{number}" for number in range(MOST_MARKS // 2 - 1000)]
DOUBLED = "".join(f"{chr(98 + n)}: &{chr(98 + n)} [*{chr(97 + n)}, *{chr(97 + n)}]\n" for n in range(24))

HUGE: dict[str, str | bytes] = {
    "references that double": "a: &a [x, x]\n" + DOUBLED,
    "a reference again and again": "a: &a 1\nb: [" + "*a, " * (MOST_MARKS - 100) + "]",
    "ten megabytes": "x" * 10_000_000,
    "ten megabytes that are no text": b"\xff" * 10_000_000,
    "the most bytes of keys": "".join(f"k{n}: v\n" for n in range(LARGEST_FILE // 12)),
    "the most bytes of brackets": "[" * LARGEST_FILE,
    "the most bytes of dashes": under(LARGEST_FILE, "- "),
    "the most bytes of quotes": '"' * LARGEST_FILE,
    "the most bytes of comment": "#" * LARGEST_FILE,
    "the most bytes of space": " " * LARGEST_FILE,
    "depth in brackets": "[" * 10_000 + "]" * 10_000,
    "depth in braces": "{a: " * 10_000,
    "depth in dashes": "- " * 10_000 + "a",
    "depth in indentation": "".join(" " * n + "a:\n" for n in range(1500)),
    "depth again and again": ("- " * 100 + "a\n") * (MOST_MARKS // 120),
    "the most values in a list": "[" + "a," * (MOST_MARKS - 10) + "]",
    "the most empty lists": "[" + "[]," * (MOST_MARKS // 2 - 10) + "]",
    "the most unknown keys": "{" + ",".join(f"{name}: 1" for name in NAMES) + "}",
    "the most keys twice": "{" + ",".join(f"{name}: 1" for name in (NAMES[: len(NAMES) // 2] * 2)) + "}",
    "the most tags": "[" + "!a x," * (MOST_MARKS - 10) + "]",
    "the most panels that are none": STUDIO.replace("panels:\n", "panels:\n" + "".join(f"  {n}: 1\n" for n in NAMES)),
    "the most legs with a wrong key": STUDIO + LEGS + "{buried: lawn, cvoer: 3}," * (MOST_MARKS // 5 - 200) + "]\n",
    "the most legs with a wrong length": STUDIO
    + LEGS
    + "{buried: lawn, cover: 6 in 1 ft}," * (MOST_MARKS // 5 - 200)
    + "]\n",
    "a device that is everything at once": STUDIO.replace(
        "receptacle: 20 A", "receptacle: 20 A\n        switch: 20 A" + "".join(f"\n        {n}: 1" for n in NAMES), 1
    ),
    "circuits from nowhere": STUDIO.replace(
        "circuits:\n", "circuits:\n" + "".join(f"  {n}: {{kind: feeder, from: x}}\n" for n in NAMES[: MOST_MARKS // 6])
    ),
    "routes that come round": STUDIO
    + "".join(
        f"  {n}: {{from: house-panel, to: entry-box, carries: {{studio: {{}}}}, legs: [{{bend: 90°}}]}}\n"
        for n in NAMES[: MOST_MARKS // 15]
    ),
    "a key of two megabytes": f"? {'k' * 2_000_000}\n: 1\n",
    "a value of two megabytes": f"title: {'v' * 2_000_000}\n",
    "escapes of two megabytes": 'title: "' + "\\e" * 1_000_000 + '"\n',
    "a number of two megabytes": f"title: {'9' * 2_000_000}\n",
    "a quantity of two megabytes": STUDIO.replace("18 in", "1 ft " * 350_000),
    "an id of two megabytes": STUDIO.replace("  studio: {use", "  ? " + "s" * 1_900_000 + "\n  : {use"),
    "a reference of two megabytes": STUDIO.replace("to: entry-box", "to: " + "s" * 1_900_000),
    "a comment on every line": "# x\n" * (MOST_MARKS - 1),
}


@pytest.mark.parametrize("name", HUGE)
def test_a_huge_file_is_refused_in_bounds(name: str, tmp_path: Path) -> None:
    """By a process that may not take more, with messages that a person can read."""
    plan = tmp_path / "huge.plan.yaml"
    text = HUGE[name]
    plan.write_bytes(text.encode() if isinstance(text, str) else text)
    done = subprocess.run(
        [sys.executable, "-m", "precover.app", "review", str(plan)],
        capture_output=True,
        check=False,
        preexec_fn=bounded,
    )

    assert done.returncode == 2, done.stderr[-500:]
    assert b"Traceback" not in done.stderr
    assert 0 < len(done.stderr) < 40_000


def test_escapes_of_the_plan_do_not_reach_the_terminal(tmp_path: Path) -> None:
    """A value in double quotes can hold what a plain text cannot; a key and an id as well."""
    evil = '"\\e[31mred\\e[0m \\u202e \\a"'
    plan = tmp_path / "a.plan.yaml"
    plan.write_text(
        STUDIO.replace("use: dwelling", f"use: {evil}")
        .replace("title: One", f"{evil}: One")
        .replace("  studio: {use", f"  {evil}: {{use")
        .replace("cover: 18 in", f"cover: {evil}")
        .replace("raceway: PVC-80 3/4 in", f"raceway: {evil}"),
        encoding="utf-8",
    )
    for form in ("people", "lines", "json", "sarif"):
        done = subprocess.run(
            [sys.executable, "-m", "precover.app", "review", str(plan), "--form", form],
            capture_output=True,
            check=False,
        )
        assert done.returncode == 2
        assert b"red" in done.stdout + done.stderr
        for mark in (b"\x1b", b"\x07", "\u202e".encode()):
            assert mark not in done.stdout + done.stderr
