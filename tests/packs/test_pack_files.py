"""Pack files: what is wrong with one is told with its place and what to do; where a file may lie; order, conflicts and
where each value comes from."""

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
from precover.app import packs_command
from precover.rulebook import PackUnreadable, Rulebook
from support.reviews import EXAMPLES, library

HEAD = "format: precover-pack/1\nid: town\ntitle: Town\nextends: us-2023\n"
GOOD = (EXAMPLES / "orchard-pump.plan.yaml").read_text(encoding="utf-8")


def run(*arguments: str, at: Path | None = None, text: str | None = None) -> subprocess.CompletedProcess[str]:
    """One call of the command."""
    command = [sys.executable, "-m", "precover.app", *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=False, cwd=at, input=text or "", timeout=60)


def put(folder: Path, body: str, name: str = "town", head: str = "") -> str:
    """A pack file; its path."""
    path = folder / f"{name}.pack.yaml"
    path.write_text((head or HEAD.replace("town", name)) + body, encoding="utf-8")
    return str(path)


def book(*names: str) -> Rulebook:
    """The book of packs."""
    return library().book(names)


MISTAKES = {
    "a key that is misspelt": ("limts: {}", 5, 1, "`limts` is not a key known here", "did you mean `limits`?"),
    "a limit that is not there": (
        "limits:\n  spacing of rod: {value: 8 ft}",
        6,
        3,
        "there is no limit `spacing of rod`",
        "did you mean `spacing of rods`?",
    ),
    "a limit of another kind": (
        "limits:\n  spacing of rods: {value: 8 A}",
        6,
        3,
        "`8 A` is not a length",
        "write it like",
    ),
    "a limit without its unit": ("limits:\n  spacing of rods: {value: '8'}", 6, 3, "`8` has no unit", "write it like"),
    "a limit that is a bare number": ("limits:\n  spacing of rods: {value: 8}", 6, 28, "text belongs here", "quotes"),
    "a limit that is there already": (
        "limits:\n  spacing of rods: {value: 8 ft, adds: true, holds: length}",
        6,
        3,
        "is there already",
        "change it in place of adding it",
    ),
    "a new limit of no kind": (
        "limits:\n  depth of snow: {value: 8 ft, adds: true}",
        6,
        18,
        "does not say what it holds",
        "holds: length",
    ),
    "a table that is not there": (
        "cells:\n  - {table: minimum-covers, key: [x], value: 8 ft}",
        6,
        5,
        "there is no table `minimum-covers`",
        "did you mean `minimum-cover`?",
    ),
    "a cell that is not there": (
        "cells:\n  - {table: minimum-cover, key: [open ground, direct burial, raceways], value: 8 ft}",
        6,
        5,
        "the table `minimum-cover` has no cell `open ground, direct burial, raceways`",
        "did you mean `open ground, ",
    ),
    "a word that a table does not know": (
        "cells:\n  - {table: cable-uses, key: [NM-B, damp], value: never}",
        6,
        5,
        "`never` is not a word that the table `cable-uses` knows",
        "one of: if marked, no, yes",
    ),
    "yes or no of another word": (
        "cells:\n  - {table: ground-fault-places, key: [garage], value: nope}",
        6,
        5,
        "`nope` is not a yes or no",
        "write it like",
    ),
    "a rule that is not there": (
        "off:\n  loads/arc-falt: {because: Left out.}",
        6,
        3,
        "there is no rule or topic `loads/arc-falt`",
        "did you mean `loads/arc-fault`?",
    ),
    "a rule without its topic": (
        "severities:\n  spacing-of-rods: {severity: advice, because: So.}",
        6,
        3,
        "there is no rule or topic `spacing-of-rods`",
        "did you mean `grounding/rods/spacing-of-rods`?",
    ),
    "no such day": ("effective: 2026-13-45", 5, 12, "there is no day `2026-13-45`", "year, month and day"),
    "no such day to wait for": (
        "off:\n  loads/arc-fault: {because: Left out., until: 2027-02-30}",
        6,
        48,
        "there is no day `2027-02-30`",
        "year",
    ),
    "no reason": ("off:\n  loads/arc-fault: {until: 2027-01-01}", 6, 3, "`because` is missing", "add it"),
    "a severity that is none": (
        "severities:\n  grounding/rods: {severity: error, because: So.}",
        6,
        30,
        "`error` is not one of the words known here",
        "one of: danger, correction, query, advice",
    ),
    "on and off": (
        "on:\n  loads/surge: {because: So.}\noff:\n  loads/surge: {because: So.}",
        8,
        16,
        "`loads/surge` is put in force and out of force",
        "keep one of the two",
    ),
    "a topic that is not there": (
        "topics:\n  burial/minimum-covr: {look-up: Here}",
        6,
        3,
        "there is no rule or topic `burial/minimum-covr`",
        "did you mean `burial/minimum-cover`?",
    ),
    "a field that is not there": (
        "requirements:\n  r: {about: receptacle, require: receptacle.colour == 'red', says: So.}",
        6,
        46,
        "a receptacle has no `colour`",
        "did you mean `cover`?",
    ),
    "a field of another kind": (
        "requirements:\n  r: {about: receptacle, require: receptacle.height >= '20 A', says: So.}",
        6,
        35,
        "`20 A` is not a length",
        "write it like",
    ),
    "a word that a field does not know": (
        "requirements:\n  r: {about: receptacle, require: receptacle.cover == 'inuse', says: So.}",
        6,
        35,
        "`inuse` is not one of the words known here",
        "did you mean `in-use`?",
    ),
    "an expression that is none": (
        "requirements:\n  r: {about: receptacle, require: receptacle.cover ==, says: So.}",
        6,
        52,
        "the expression ends too soon",
        "check operators",
    ),
    "a topic of a requirement that is not there": (
        "requirements:\n  r: {about: receptacle, require: receptacle.locking, says: So., topic: grounding/rod}",
        6,
        3,
        "there is no rule or topic `grounding/rod`",
        "did you mean `grounding/rods`?",
    ),
    "a rule of that name is there": (
        "requirements:\n"
        "  spacing-of-rods: {about: receptacle, require: receptacle.locking, says: So., topic: grounding/rods}",
        6,
        3,
        "`grounding/rods/spacing-of-rods` is there already",
        "give it another name",
    ),
    "an exception of what the rule does not look at": (
        "exceptions:\n  x: {rule: grounding/rods/spacing-of-rods, about: receptacle, when: 'true', because: So.}",
        6,
        3,
        "does not look at such a thing",
        "it looks at each Electrode",
    ),
}


@pytest.mark.parametrize(("body", "line", "column", "message", "hint"), MISTAKES.values(), ids=MISTAKES)
def test_a_mistake_is_told_where_it_is(
    body: str, line: int, column: int, message: str, hint: str, tmp_path: Path
) -> None:
    """File, line, column, what is wrong, and what to write."""
    path = put(tmp_path, body)
    with pytest.raises(PackUnreadable) as raised:
        book(path)
    (problem,) = raised.value.problems
    assert (problem.file, problem.line, problem.column) == (path, line, column)
    assert message in problem.message
    assert hint in problem.hint


def test_all_mistakes_are_told_at_once(tmp_path: Path) -> None:
    """A line each, and the command ends with status 2."""
    requirement = "  {}: {{about: receptacle, require: receptacle.{}, says: So.}}\n"
    body = "requirements:\n" + requirement.format("a", "colour") + requirement.format("b", "weight")
    done = run("packs", "check", put(tmp_path, body))
    assert done.returncode == 2
    assert [line.partition(": ")[0].rpartition("yaml:")[2] for line in done.stderr.splitlines()[:2]] == ["6:46", "7:46"]
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    ("extends", "message", "hint"),
    [
        ("us-2032", "there is no rule pack `us-2032`", "did you mean"),
        ("gone.pack.yaml", "the rule pack `gone.pack.yaml` is not there", "check its path"),
        ("../outside.pack.yaml", "lies outside the folder", "put it into that folder"),
        ("town.pack.yaml", "changes itself in the end", "let it extend an edition"),
    ],
)
def test_what_it_extends_is_found(extends: str, message: str, hint: str, tmp_path: Path) -> None:
    """By name, or by path in its own folder; else the place of `extends` is told."""
    (tmp_path / "below").mkdir()
    put(tmp_path, "", "outside")
    path = put(tmp_path / "below", "", head=HEAD.replace("us-2023", extends))
    with pytest.raises(PackUnreadable) as raised:
        book(path)
    assert message in raised.value.message
    assert hint in raised.value.hint


# Where a file may lie


@pytest.fixture
def office(tmp_path: Path) -> Path:
    """A folder of plans, with packs in it, below it and outside."""
    plans = tmp_path / "plans"
    (plans / "packs").mkdir(parents=True)
    body = "cells:\n  - {table: minimum-cover, key: [open ground, small ground-fault protected branch circuit, direct], value: 20 in}\n"
    put(plans, body)
    put(plans / "packs", body, "below")
    put(tmp_path, body, "outside")
    return plans


def named(office: Path, pack: str) -> subprocess.CompletedProcess[str]:
    """The review of the pump under a pack that its plan names."""
    plan = office / "pump.plan.yaml"
    plan.write_text(GOOD.replace("rules: [us-2023]", f"rules: [us-2023, {json.dumps(pack)}]"), encoding="utf-8")
    return run("review", str(plan), "--form", "lines")


@pytest.mark.parametrize("pack", ["./town.pack.yaml", "town.pack.yaml", "packs/below.pack.yaml"])
def test_a_plan_names_a_pack_in_its_folder(office: Path, pack: str) -> None:
    """Or below it, wherever the command is called."""
    done = named(office, pack)
    assert done.returncode == 1
    assert "needed: at least 20 in" in done.stdout


@pytest.mark.parametrize(
    "pack",
    [
        "../outside.pack.yaml",
        "packs/../../outside.pack.yaml",
        "ABSOLUTE",
        "linked.pack.yaml",
        "linked/outside.pack.yaml",
    ],
)
def test_a_plan_names_no_pack_outside(office: Path, pack: str) -> None:
    """Neither by `..`, nor from the root, nor through a link."""
    (office / "linked.pack.yaml").symlink_to(office.parent / "outside.pack.yaml")
    (office / "linked").symlink_to(office.parent)
    done = named(office, str(office.parent / "outside.pack.yaml") if pack == "ABSOLUTE" else pack)
    assert done.returncode == 2
    assert "lies outside the folder of the file that names it" in done.stderr
    assert done.stderr.startswith(f"{office}/pump.plan.yaml:3:")


@pytest.mark.parametrize("pack", ["loop.pack.yaml", "packs/", "pipe.pack.yaml", "a\0b.yaml", "x" * 300 + ".yaml"])
def test_what_is_no_file_is_not_read(office: Path, pack: str) -> None:
    """A link to itself, a folder, a pipe that nobody writes to, a name that no file can have."""
    (office / "loop.pack.yaml").symlink_to(office / "loop.pack.yaml")
    os.mkfifo(office / "pipe.pack.yaml")
    with pytest.raises(PackUnreadable):
        library().book(("us-2023", pack), office)


def test_the_command_line_names_a_pack_anywhere(office: Path) -> None:
    """It is the caller's own."""
    done = run("review", "-", "--pack", str(office.parent / "outside.pack.yaml"), "--form", "lines", text=GOOD)
    assert "needed: at least 20 in" in done.stdout


def test_a_changed_file_is_read_again(tmp_path: Path) -> None:
    """As an editor needs it."""
    path = put(tmp_path, "limits:\n  spacing of rods: {value: 8 ft}\n")
    assert book(path).tables["limits"][("spacing of rods",)].text == "8 ft"
    put(tmp_path, "limits:\n  spacing of rods: {value: 12 ft}\n")
    assert book(path).tables["limits"][("spacing of rods",)].text == "12 ft"


# Order, conflicts, provenance


def rods(value: str) -> str:
    """A pack's change of the spacing of rods."""
    return f"limits:\n  spacing of rods: {{value: {value}}}\n"


def test_later_packs_win_and_keep_what_was(tmp_path: Path) -> None:
    """County, then town; each value knows the one before it, down to the edition."""
    put(tmp_path, rods("8 ft"), "county")
    town = put(tmp_path, rods("10 ft"), head=HEAD.replace("us-2023", "county.pack.yaml"))
    made = book(town)
    cell = made.tables["limits"][("spacing of rods",)]
    chain = []
    at = cell
    while at is not None:
        chain.append((at.set_by, at.text))
        at = at.was
    assert chain == [("town", "10 ft"), ("county", "8 ft"), ("us-2023", "6 ft")]
    assert [pack.id for pack in made.packs] == ["us-2023", "county", "town"]
    assert made.conflicts == ()


def test_two_packs_that_set_the_same_are_told(tmp_path: Path) -> None:
    """In the review, whichever way the sheet is read; the later has its way."""
    one, other = put(tmp_path, rods("8 ft"), "one"), put(tmp_path, rods("9 ft"), "other")
    made = book(one, other)
    (conflict,) = made.conflicts
    assert (conflict.what, conflict.first, conflict.last) == ("limits (spacing of rods)", "one", "other")
    assert (conflict.first_place.line, conflict.last_place.file) == (6, other)
    assert made.tables["limits"][("spacing of rods",)].text == "9 ft"
    workshop = str(EXAMPLES / "joinery-workshop.plan.yaml")
    assert "set twice" in run("review", workshop, "--pack", one, "--pack", other).stdout
    document = json.loads(run("review", workshop, "--pack", one, "--pack", other, "--form", "json").stdout)
    Draft202012Validator(precover_schemas.load("review")).validate(document)
    assert document["reviews"][0]["conflicts"][0]["last"]["pack"] == "other"
    log = json.loads(run("review", workshop, "--pack", one, "--pack", other, "--form", "sarif").stdout)
    notes = log["runs"][0]["invocations"][0]["toolConfigurationNotifications"]
    assert any("both set limits (spacing of rods)" in note["message"]["text"] for note in notes)


def test_packs_of_two_editions_do_not_go_together(tmp_path: Path) -> None:
    """A list has one edition."""
    old = put(tmp_path, "", "old", HEAD.replace("us-2023", "us-2017").replace("id: town", "id: old"))
    with pytest.raises(PackUnreadable, match="us-2017"):
        book("us-2023", old)
    with pytest.raises(PackUnreadable, match="us-2017"):
        book("us-2023", "us-2017")


def test_two_packs_of_one_name(tmp_path: Path) -> None:
    """Nobody could tell which of them a finding means."""
    (tmp_path / "a").mkdir()
    with pytest.raises(PackUnreadable, match="two of the rule packs are called `town`"):
        book(put(tmp_path, ""), put(tmp_path / "a", ""))


PROVENANCE = """\
look-up: Town Code 7
limits:
  spacing of rods: {value: 10 ft, because: Dry soil., look-up: Town Code 7.2}
severities:
  grounding/rods/length-of-a-rod: {severity: danger, because: So.}
off:
  loads/arc-fault: {because: Left out., until: 2027-01-01}
topics:
  grounding/electrode: {title: Electrodes in Town, look-up: Town Code 7.1}
requirements:
  long-rods: {about: electrode, require: electrode.length >= "12 ft", says: A rod is 12 ft long., hazard: shock}
"""


@pytest.fixture
def town(tmp_path: Path) -> str:
    """A town's pack with a change of each kind."""
    return put(tmp_path, PROVENANCE)


def test_a_finding_says_who_set_its_limit(town: str) -> None:
    """And what it was, by whom; for people, in JSON and in SARIF."""
    workshop = str(EXAMPLES / "joinery-workshop.plan.yaml")
    sheet = " ".join(run("review", workshop, "--pack", town).stdout.split())
    assert "set by town (Town Code 7.2), before that 6 ft by us-2023" in sheet
    assert "required by town" in sheet
    assert "less asked loads/arc-fault: out of force until 2027-01-01, was in force (Left out.)" in sheet
    assert "look up Town Code 7 required by town" in sheet
    document = json.loads(run("review", workshop, "--pack", town, "--form", "json", "--ledger").stdout)
    Draft202012Validator(precover_schemas.load("review")).validate(document)
    (review,) = document["reviews"]
    ledger = {line["rule"]: line for line in review["ledger"] if "south-rod" not in line["subject"]}
    (limit,) = [one for one in ledger["grounding/rods/spacing-of-rods"]["limits"] if one["set_by"] == "town"]
    assert (limit["value"], limit["was"]["value"], limit["was"]["set_by"]) == ("10 ft", "6 ft", "us-2023")
    assert ledger["town/long-rods"]["required_by"] == "town"
    graded = ledger["grounding/rods/length-of-a-rod"]
    assert (graded["required_by"], graded["severity_was"]) == ("town", "correction")
    (result,) = [
        one
        for one in json.loads(run("review", workshop, "--pack", town, "--form", "sarif").stdout)["runs"][0]["results"]
        if one["ruleId"] == "grounding/rods/spacing-of-rods"
    ]
    assert any(one["set_by"] == "town" and one["was"]["value"] == "6 ft" for one in result["properties"]["limits"])


def test_a_topic_shows_the_values_in_force(town: str) -> None:
    """Who set them, what they were, the text that the town put in its place, and where to look by edition."""
    shown = " ".join(run("topics", "grounding/rods", "--pack", town).stdout.split())
    assert "10 ft" in shown and "was 6 ft by us-2023" in shown
    assert "2017:" in shown and "2023:" in shown
    assert run("topics", "grounding/electrode", "--pack", town).stdout.startswith("# Electrodes in Town\n")
    assert "arc-fault-protection-of-rooms: by town, until 2027-01-01 (Left out.)" in " ".join(
        run("topics", "loads/arc-fault", "--pack", town).stdout.split()
    )
    own = json.loads(run("topics", "town", "--pack", town, "--form", "json").stdout)
    assert [rule["id"] for rule in own["rules"]] == ["town/long-rods"]
    assert own["rules"][0]["look_up"] == ["Town Code 7"]


def test_provenance_always_names_a_pack_in_force(town: str) -> None:
    """Every cell, changed or not, and what it was."""
    made = book(town)
    known = {layer.pack.id for layer in made.layers}
    for table in made.tables.values():
        for cell in table.cells.values():
            for one in (cell, cell.was, cell.earlier):
                assert one is None or (one.set_by in known and one.source)


# Commands


def test_the_draft_is_right() -> None:
    """What `packs draft` prints is a pack that passes its own tests, with comments on each section."""
    text = run("packs", "draft").stdout
    assert text == (Path(packs_command.__file__).parent / "draft.pack.yaml").read_text(encoding="utf-8")
    assert text.count("#") > 12


def test_check_runs_the_tests_of_a_pack(tmp_path: Path) -> None:
    """0 where all come out, 1 where one does not, with the place of the expectation."""
    good = tmp_path / "draft.pack.yaml"
    good.write_text(run("packs", "draft").stdout, encoding="utf-8")
    done = run("packs", "check", str(good))
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == f"{good}: 10 changes of us-2023, 3 tests passed\n"
    bad = tmp_path / "bad.pack.yaml"
    bad.write_text(good.read_text(encoding="utf-8").replace("answer: not listed", "answer: listed"), encoding="utf-8")
    done = run("packs", "check", str(bad))
    line = next(
        n for n, text in enumerate(bad.read_text(encoding="utf-8").splitlines(), 1) if "long-trench, answer" in text
    )
    assert done.returncode == 1
    assert done.stderr.startswith(f"{bad}:{line}:9: `long-trench` is not on the inspection list; did you mean")


@pytest.mark.parametrize(
    ("test", "said"),
    [
        ("{example: orchard, expect: [{rule: x, answer: met}]}", "there is no example `orchard`"),
        ("{expect: [{rule: x, answer: met}]}", "a test starts from an example or from a plan"),
        ("{plan: ../pump.plan.yaml, expect: [{rule: x, answer: met}]}", "lies outside the folder"),
        (
            "{example: orchard-pump, changes: {circuits: 3}, expect: [{rule: x, answer: met}]}",
            "the plan cannot be read",
        ),
        ("{example: orchard-pump, expect: [{rule: spacing-of-rod, answer: met}]}", "no rule `spacing-of-rod` ran"),
        ("{example: orchard-pump, expect: [{rule: cover-over-a-buried-leg, answer: not met}]}", "it answers met on"),
        (
            "{example: orchard-pump, expect: [{rule: cover-over-a-buried-leg, at: /x, answer: met}]}",
            "did not run on /x",
        ),
        ("{example: orchard-pump, expect: [{rule: loads/surge, answer: out of force}]}", "`loads/surge` is in force"),
        ("{example: orchard-pump, expect: [{rule: backfill, answer: not listed}]}", "is on the inspection list"),
    ],
)
def test_a_test_that_does_not_come_out_says_why(test: str, said: str, tmp_path: Path) -> None:
    """One line, and status 1."""
    (tmp_path / "below").mkdir()
    (tmp_path / "pump.plan.yaml").write_text(GOOD, encoding="utf-8")
    done = run("packs", "check", put(tmp_path / "below", f"tests:\n  one: {test}\n"))
    assert done.returncode == 1
    assert said in done.stderr
    assert done.stderr.count("\n") == 1


def test_a_plan_file_beside_the_pack(tmp_path: Path) -> None:
    """A test may start from one."""
    (tmp_path / "pump.plan.yaml").write_text(GOOD, encoding="utf-8")
    body = "tests:\n  one: {plan: pump.plan.yaml, expect: [{rule: cover-over-a-buried-leg, answer: met}]}\n"
    assert run("packs", "check", put(tmp_path, body)).returncode == 0


def test_list_and_show(town: str) -> None:
    """The editions with what each changes; a pack with what it does to one; the cells of a table."""
    listed = json.loads(run("packs", "list", "--form", "json").stdout)["packs"]
    assert [(pack["id"], pack["changes"]) for pack in listed] == [
        ("us-2017", None),
        ("us-2020", "us-2017"),
        ("us-2023", "us-2020"),
        ("us-2026", "us-2023"),
    ]
    shown: dict[str, Any] = json.loads(run("packs", "show", town, "--form", "json").stdout)
    assert {change["what"]: (change["was"], change["becomes"], change["direction"]) for change in shown["changes"]} == {
        "spacing of rods": ("6 ft", "10 ft", "tightens"),
        "grounding/rods/length-of-a-rod": ("correction", "danger", "tightens"),
        "loads/arc-fault": ("in force", "out of force until 2027-01-01", "loosens"),
        "town/long-rods": ("", "A rod is 12 ft long.", "adds"),
        "grounding/electrode": ("", "another title, place to look up", "restates"),
    }
    assert len(shown["tables"]) == len(book(town).tables)
    people = run("packs", "show", town, "--table", "ground-fault-places").stdout
    assert "Table ground-fault-places" in people and "accessory building, floor above grade: no" in people
    assert run("packs", "show", town, "--table", "ground-fault-place").stderr.startswith("precover: there is no table")
    assert run("packs", "list").stdout.count("us-20") >= 4
