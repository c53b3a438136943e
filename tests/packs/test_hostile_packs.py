"""Packs made to hang the tool, to fill its memory, to read what they should not, or to command a terminal."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

import pytest

from precover.rulebook import PackUnreadable
from precover.rulebook.cel.running import MOST_STEPS
from support.reviews import EXAMPLES, example, library, reviewed, written

HEAD = "format: precover-pack/1\nid: town\ntitle: Town\nextends: us-2023\n"
SECONDS = 8


def put(folder: Path, body: str | bytes, name: str = "town") -> str:
    """A pack file; its path."""
    path = folder / f"{name}.pack.yaml"
    path.write_bytes(body.encode() if isinstance(body, str) else body)
    return str(path)


def requirement(require: str, about: str = "plan") -> str:
    """A pack of one requirement."""
    return f"{HEAD}requirements:\n  one:\n    about: {about}\n    require: {json.dumps(require)}\n    says: So.\n"


NESTED = "[" * 2_000 + "]" * 2_000
BOMB = "a: &a [x, x]\n" + "".join(
    f"{chr(98 + n)}: &{chr(98 + n)} [*{chr(97 + n)}, *{chr(97 + n)}]\n" for n in range(20)
)
BAD = {
    "deep nesting": HEAD + f"limits: {NESTED}",
    "deep mappings": HEAD + "".join(f"{' ' * n}a:\n" for n in range(200)),
    "an alias bomb": HEAD + BOMB,
    "a merge key": HEAD + "limits: {<<: {a: {value: 1 ft}}}",
    "a tag": HEAD + "title: !!python/object/apply:os.system ['true']",
    "a file that is too large": HEAD + "notes: " + "x" * 3_000_000,
    "very many values": HEAD + "cells: [" + "{a: 1}," * 150_000 + "]",
    "very many limits": HEAD + "limits:\n" + "".join(f"  l{n}: {{value: 1 ft}}\n" for n in range(1_200)),
    "very many requirements": HEAD
    + "requirements:\n"
    + "".join(f"  r{n}: {{about: plan, require: 'true', says: So.}}\n" for n in range(1_200)),
    "no text": b"\xff\xfe" + HEAD.encode("utf-16-le"),
    "not UTF-8": HEAD.encode() + b"notes: \xff",
    "a control character": HEAD + "notes: 'a\x1bb'",
    "two documents": HEAD + "---\n" + HEAD,
    "a list": "- a\n",
    "nothing": "",
    "a number of many digits": HEAD + f"limits: {{spacing of rods: {{value: {'9' * 5_000}}}}}",
    "a quantity of many digits": HEAD + f"limits: {{spacing of rods: {{value: '{'9' * 100} ft'}}}}",
    "a huge exponent": HEAD + "limits: {continuous load factor: {value: '1e999999999 %'}}",
    "a count of many digits": HEAD + f"limits: {{handles of a disconnecting means: {{value: '{'9' * 110}'}}}}",
    "a huge regular expression": requirement("plan.title.matches('" + "(a+)+" * 300 + "$')"),
    "a long expression": requirement("true" + " && true" * 1_000),
    "a deep expression": requirement("(" * 900 + "true" + ")" * 900),
    "a chain of conditions": requirement("true ? " * 200 + "true" + " : true" * 200),
    "an endless string": requirement("plan.title == '" + "x" * 1_900),
    "a call of Python": requirement("__import__('os').system('true')"),
    "a hidden attribute": requirement("plan.__class__.__bases__.size() == 0"),
    "an attribute that is no fact": requirement("plan.facts.size() == 0"),
    "a number that overflows": requirement(
        "plan.circuits.size() * " + " * ".join(["999999999999"] * 100) + " > 0 * 1e9"
    ),
}


@pytest.mark.parametrize("body", BAD.values(), ids=BAD)
def test_a_hostile_pack_is_refused_soon(body: str | bytes, tmp_path: Path) -> None:
    """With a place or a reason, in seconds, and without an error of Python's own."""
    path = put(tmp_path, body)
    start = time.monotonic()
    with pytest.raises(PackUnreadable) as raised:
        library().book((path,))
    assert time.monotonic() - start < SECONDS
    assert raised.value.message and raised.value.hint
    assert len(raised.value.problems) <= 51


def test_the_command_says_so_in_lines(tmp_path: Path) -> None:
    """Status 2, and no traceback."""
    path = put(tmp_path, BAD["an alias bomb"])
    command = [sys.executable, "-m", "precover.app", "packs", "check", path]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False, stdin=subprocess.DEVNULL)
    assert done.returncode == 2
    assert f"{path}:6:" in done.stderr
    assert "Traceback" not in done.stderr


def big_plan(boxes: int) -> bytes:
    """A plan of very many boxes on one long circuit."""
    data = example("orchard-pump")
    for number in range(boxes):
        data["boxes"][f"b{number}"] = {"at": "farmhouse", "area": "indoors", "box": {"kind": "box"}}
        data["routes"][f"r{number}"] = {
            "from": "farmhouse-panel" if number == 0 else f"b{number - 1}",
            "to": f"b{number}",
            "raceway": "none",
            "carries": {"pump": {"cable": "NM-B 12/2"}},
            "legs": [{"in": "wall framing", "length": "1 ft"}],
        }
    return written(data)


LOOP = "plan.boxes.all(a, plan.boxes.all(b, plan.boxes.all(c, a.id != 'x' || b.id != 'x' || c.id != 'x')))"


def test_a_huge_loop_is_stopped(tmp_path: Path) -> None:
    """It costs only itself: the review says that the requirement failed, and every other rule runs."""
    path = put(tmp_path, requirement(LOOP))
    plan = big_plan(60)
    start = time.monotonic()
    made = reviewed(plan, (path,))
    assert time.monotonic() - start < SECONDS
    ((name, why),) = made.failures
    assert name == "town/one"
    assert f"more than {MOST_STEPS:,} things" in why
    assert len(made.ran) == len(reviewed(plan).ran)


def test_many_loops_are_stopped_together(tmp_path: Path) -> None:
    """Each within its bound, all of them together beyond theirs."""
    loop = "plan.boxes.all(a, plan.boxes.all(b, a.id != 'x' || b.id != 'x'))"
    names = [f"  r{n}: {{about: box, require: {json.dumps(loop)}, says: So.}}\n" for n in range(12)]
    path = put(tmp_path, f"{HEAD}requirements:\n{''.join(names)}")
    start = time.monotonic()
    made = reviewed(big_plan(100), (path,))
    assert time.monotonic() - start < 4 * SECONDS
    assert made.failures
    assert all("of the plan" in why for _, why in made.failures)


ESCAPES = "\\e[2J\\e]0;owned\\a\\u202e"


def test_texts_of_a_pack_command_no_terminal(tmp_path: Path) -> None:
    """Whatever is said of a pack is made visible first, in every form and command."""
    body = (
        "format: precover-pack/1\nid: town\nextends: us-2023\n"
        f'title: "Town {ESCAPES}"\nadopted-by: "Board {ESCAPES}"\nnotes: "Note {ESCAPES}"\nlook-up: "Code {ESCAPES}"\n'
        f'limits:\n  spacing of rods: {{value: 10 ft, because: "So {ESCAPES}"}}\n'
        f'off:\n  loads/surge: {{because: "So {ESCAPES}"}}\n'
        f'topics:\n  grounding/rods: {{title: "Rods {ESCAPES}", text: "Text {ESCAPES}", look-up: "Code {ESCAPES}"}}\n'
        f'statements:\n  s: {{asks: "Asks {ESCAPES}", answer: yes or no}}\n'
        f'requirements:\n  r: {{about: plan, require: "!statements.s", says: "So {ESCAPES}"}}\n'
        f'inspections:\n  i: {{stage: final, says: "See {ESCAPES}"}}\n'
        f'tests:\n  "t {ESCAPES}": {{example: orchard-pump, expect: [{{rule: "x {ESCAPES}", answer: met}}]}}\n'
    )
    path = put(tmp_path, body)
    plan = str(EXAMPLES / "joinery-workshop.plan.yaml")
    calls = [
        ("review", plan, "--pack", path, "--ledger"),
        ("review", plan, "--pack", path, "--form", "lines"),
        ("review", plan, "--pack", path, "--form", "sarif"),
        ("review", plan, "--pack", path, "--form", "json"),
        ("packs", "show", path),
        ("packs", "check", path),
        ("topics", "town", "--pack", path),
        ("topics", "grounding/rods", "--pack", path),
        ("impact", "--from", "us-2023", "--to", path, plan),
        ("amend", plan, "--pack", path),
    ]
    for call in calls:
        command = [sys.executable, "-m", "precover.app", *call]
        done = subprocess.run(command, capture_output=True, timeout=60, check=False, stdin=subprocess.DEVNULL)
        shown = (done.stdout + done.stderr).decode()
        assert not any(mark in shown for mark in "\x1b\a\u202e"), call
        assert "Traceback" not in shown, call


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="this system has no such devices")
@pytest.mark.parametrize("path", ["/dev/zero", "/dev/stdin", "/dev/tty"])
def test_a_device_is_no_pack(path: str, tmp_path: Path) -> None:
    """It would never end, or wait for ever."""
    link = tmp_path / "device.pack.yaml"
    link.symlink_to(path)
    with pytest.raises(PackUnreadable, match=r"is no file|is not there"):
        library().book((str(link),))


def test_a_pack_does_not_read_through_its_tests(tmp_path: Path) -> None:
    """A plan that a test names lies in the folder of the pack."""
    (tmp_path / "below").mkdir()
    secret = tmp_path / "secret.plan.yaml"
    secret.write_text("format: secret\n", encoding="utf-8")
    (tmp_path / "below" / "linked.plan.yaml").symlink_to(secret)
    body = HEAD + "tests:\n  t: {plan: linked.plan.yaml, expect: [{rule: x, answer: met}]}\n"
    command = [sys.executable, "-m", "precover.app", "packs", "check", put(tmp_path / "below", body)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False, stdin=subprocess.DEVNULL)
    assert "lies outside the folder" in done.stderr
