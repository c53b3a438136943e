"""The commands as they are run: exit statuses, streams, files, folders, terminals."""

from __future__ import annotations

import json
import os
import pty
import signal
import subprocess
import sys
import time
from pathlib import Path

import jsonschema
import pytest

import precover_schemas
from support.reviews import EXAMPLES, library

GOOD = (EXAMPLES / "orchard-pump.plan.yaml").read_text(encoding="utf-8")
BAD = GOOD.replace("length: 60 ft, cover: 14 in", "length: 60 ft, cover: 4 in")
OPEN = GOOD.replace("length: 60 ft, cover: 14 in", "length: 60 ft")
PRECOVER = [sys.executable, "-m", "precover.app"]


def run(
    *arguments: str, text: str | None = None, at: Path | None = None, **environment: str
) -> subprocess.CompletedProcess[str]:
    """One call of the command."""
    return subprocess.run(
        [*PRECOVER, *arguments],
        input=text,
        stdin=subprocess.DEVNULL if text is None else None,
        capture_output=True,
        encoding="utf-8",
        cwd=at,
        env=os.environ | environment,
        timeout=60,
        check=False,
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Plans in a folder and in one below it, and a file that is none."""
    (tmp_path / "below").mkdir()
    (tmp_path / "b-bad.plan.yaml").write_text(BAD, encoding="utf-8")
    (tmp_path / "below" / "a-good.plan.yaml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "notes.yaml").write_text("a: [", encoding="utf-8")
    return tmp_path


def test_the_plans_used_here_are_what_they_are_named() -> None:
    """The edits of the example took hold."""
    assert BAD != GOOD and OPEN != GOOD


@pytest.mark.parametrize(
    ("text", "threshold", "status"),
    [
        (GOOD, "correction", 0),
        (GOOD, "advice", 0),
        (BAD, "correction", 1),
        (BAD, "danger", 0),
        (OPEN, "correction", 0),
        (OPEN, "query", 1),
        ("format: [", "correction", 2),
    ],
)
def test_the_exit_status(text: str, threshold: str, status: int) -> None:
    """0 below the threshold, 1 at or above it, 2 for a plan that cannot be read."""
    assert run("review", "-", "--fail-at", threshold, "--form", "lines", text=text).returncode == status


def test_a_folder_stands_for_its_plans(folder: Path) -> None:
    """All below it, sorted, each once even if it is named twice; other files are left alone."""
    done = run("review", ".", "below/a-good.plan.yaml", "--form", "json", at=folder)
    assert [made["file"] for made in json.loads(done.stdout)["reviews"]] == [
        "b-bad.plan.yaml",
        "below/a-good.plan.yaml",
    ]
    assert (done.returncode, done.stderr) == (1, "")


def test_unreadable_plans_do_not_keep_others_from_review(folder: Path) -> None:
    """Each problem is a line of stderr, all problems of the file; the other plan is reviewed all the same."""
    (folder / "c.plan.yaml").write_text("format: precover-plan/1\ncolour: blue\nstructures: 3\n", encoding="utf-8")
    done = run("review", "b-bad.plan.yaml", "c.plan.yaml", "gone.plan.yaml", "--form", "lines", at=folder)
    assert done.returncode == 2
    assert done.stdout.startswith("b-bad.plan.yaml:")
    problems = done.stderr.splitlines()
    assert "gone.plan.yaml: cannot be read: no such file or directory; check the name and the permissions" in problems
    assert any(line.startswith("c.plan.yaml:2:1: `colour` is not a key known here; ") for line in problems)
    assert any(line.startswith("c.plan.yaml:3:13: ") for line in problems)
    assert "Traceback" not in done.stderr


def test_one_document_for_all_plans(folder: Path) -> None:
    """JSON and SARIF hold every review and every file that could not be read."""
    made = json.loads(run("review", ".", "gone.plan.yaml", "--form", "json", at=folder).stdout)
    jsonschema.Draft202012Validator(precover_schemas.load("review")).validate(made)
    assert len(made["reviews"]) == 2
    assert made["unreadable"][0]["file"] == "gone.plan.yaml"
    (log,) = json.loads(run("review", ".", "gone.plan.yaml", "--form", "sarif", at=folder).stdout)["runs"]
    assert len(log["artifacts"]) == 3


@pytest.mark.parametrize("form", ["json", "sarif", "people", "lines"])
def test_the_same_bytes_in_every_process(folder: Path, form: str) -> None:
    """Whatever the seed of Python's hashes."""
    first, second = (
        run("review", ".", "--form", form, "--ledger", at=folder, PYTHONHASHSEED=seed).stdout for seed in "12"
    )
    assert first == second != ""


def test_the_peoples_form_in_a_pipe(folder: Path) -> None:
    """80 columns, no escape codes, cautions once for all plans; the summary of each plan stands on its sheet."""
    done = run("review", ".", at=folder, COLUMNS="200", FORCE_COLOR="1")
    assert "\x1b" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) == 80
    assert done.stdout.count("Before anything is done") == 1
    assert done.stdout.count("How it stands") == 2


def test_the_output_goes_to_a_file(folder: Path) -> None:
    """Nothing is written to standard output then."""
    done = run("review", "b-bad.plan.yaml", "--output", "sheet.txt", at=folder)
    assert (done.returncode, done.stdout) == (1, "")
    assert (folder / "sheet.txt").read_text(encoding="utf-8") == run("review", "b-bad.plan.yaml", at=folder).stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("review", "below", "--output", "no/such/file"), "no/such/file cannot be written: no such file or directory"),
        (("review", "below", "--pack", "us-20233"), "there is no rule pack `us-20233`; did you mean `us-2023`?"),
        (("topics", "minumum-cover"), "there is no topic minumum-cover; did you mean burial/minimum-cover?"),
        (("example", "orchard"), "there is no example orchard; did you mean orchard-pump?"),
    ],
)
def test_what_cannot_be_done_is_one_line(folder: Path, arguments: tuple[str, ...], said: str) -> None:
    """With what to do about it, and exit status 2."""
    (folder / "empty").mkdir()
    done = run(*arguments, at=folder)
    assert done.returncode == 2
    assert done.stderr.startswith(f"precover: {said}")
    assert done.stderr.count("\n") == 1


def test_a_folder_without_a_plan_does_not_stop_the_others(folder: Path) -> None:
    """It is told, and the rest is reviewed."""
    (folder / "empty").mkdir()
    done = run("review", "empty", "a-good.plan.yaml" if (folder / "a-good.plan.yaml").exists() else ".", at=folder)
    assert done.returncode == 2
    assert "empty: is a folder without a plan" in done.stderr
    assert "How it stands" in done.stdout


def test_a_plan_is_not_overwritten_by_what_is_shown_of_it(folder: Path) -> None:
    """Neither by a review nor by an amendment."""
    plan = folder / "b-bad.plan.yaml"
    before = plan.read_bytes()
    for command in ("review", "amend"):
        done = run(command, "b-bad.plan.yaml", "--output", "b-bad.plan.yaml", at=folder)
        assert done.returncode == 2
        assert "is the plan itself" in done.stderr
        assert plan.read_bytes() == before


PACK = "format: precover-pack/1\nid: hill-county\ntitle: Hill County\nextends: us-2023\n"


@pytest.mark.parametrize(
    "arguments",
    [
        ("review", "b-bad.plan.yaml", "--pack", "hill.pack.yaml"),
        ("review", "named.plan.yaml"),
        ("amend", "named.plan.yaml"),
        ("amend", "b-bad.plan.yaml", "--pack", "hill.pack.yaml"),
        ("impact", "b-bad.plan.yaml", "--from", "us-2023", "--to", "hill.pack.yaml"),
    ],
    ids=" ".join,
)
def test_a_pack_in_use_is_not_overwritten_by_what_is_shown(folder: Path, arguments: tuple[str, ...]) -> None:
    """Named on the command line, or by the plan."""
    (folder / "hill.pack.yaml").write_text(PACK, encoding="utf-8")
    named = BAD.replace("rules: [us-2023]", "rules: [us-2023, ./hill.pack.yaml]")
    assert named != BAD
    (folder / "named.plan.yaml").write_text(named, encoding="utf-8")
    done = run(*arguments, "--output", "hill.pack.yaml", at=folder)
    assert done.returncode == 2
    assert "hill.pack.yaml is a rule pack in use itself" in done.stderr
    assert (folder / "hill.pack.yaml").read_text(encoding="utf-8") == PACK


@pytest.mark.parametrize("name", ["/dev/stdin", "/dev/fd/0", "/proc/self/fd/0"])
def test_what_stands_behind_standard_input_is_not_amended(folder: Path, name: str) -> None:
    """However it is named: the file is only lent to be read."""
    plan = folder / "b-bad.plan.yaml"
    with plan.open(encoding="utf-8") as lent:
        done = subprocess.run(
            [*PRECOVER, "amend", name, "--write", "--least"], stdin=lent, capture_output=True, text=True, check=False
        )
    assert done.returncode == 2
    assert "standard input cannot be written" in done.stderr
    assert plan.read_text(encoding="utf-8") == BAD


def test_that_a_plan_was_written_is_told_whatever_becomes_of_the_sheet(folder: Path) -> None:
    done = run("amend", "b-bad.plan.yaml", "--write", "--least", "--keep-previous", "--output", "nowhere/x", at=folder)
    assert done.returncode == 2
    told, refused = done.stderr.splitlines()
    assert told.startswith("b-bad.plan.yaml: written, with 1 changes; before: ")
    assert "nowhere/x cannot be written" in refused
    assert (folder / "b-bad.plan.yaml").read_text(encoding="utf-8") != BAD


@pytest.mark.parametrize("form", ["people", "json", "sarif", "lines"])
def test_a_file_name_that_is_no_text_is_no_reason_to_stop(folder: Path, form: str) -> None:
    name = os.fsencode(folder) + b"/x\xff.plan.yaml"
    try:
        with open(name, "w", encoding="utf-8") as file:  # noqa: PTH123 - a name in bytes
            file.write(BAD)
    except OSError:
        pytest.skip("this file system takes names in UTF-8 only")
    done = subprocess.run([*PRECOVER, "review", "--form", form, name], capture_output=True, check=False, timeout=60)
    assert done.returncode == 1
    assert done.stdout
    assert b"fault of precover" not in done.stderr


def test_a_pack_that_the_plan_names_wrongly_is_a_problem_of_the_plan(folder: Path) -> None:
    """It is pointed at in the plan."""
    (folder / "d.plan.yaml").write_text(GOOD.replace("us-2023", "us-1923"), encoding="utf-8")
    done = run("review", "d.plan.yaml", at=folder)
    line = GOOD[: GOOD.index("rules: ")].count("\n") + 1
    assert done.returncode == 2
    assert done.stderr.startswith(f"d.plan.yaml:{line}:8: there is no rule pack `us-1923`")


def test_an_encoding_that_lacks_characters_is_no_reason_to_stop(folder: Path) -> None:
    """What it cannot show is written out."""
    title = GOOD.splitlines()[1]
    (folder / "e.plan.yaml").write_text(GOOD.replace(title, "title: Caseta de cerámica"), encoding="utf-8")
    done = run("review", "e.plan.yaml", at=folder, PYTHONIOENCODING="ascii", LC_ALL="C")
    assert r"Caseta de cer\xe1mica" in done.stdout
    assert done.returncode == 0


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
def test_a_full_disk_is_one_line() -> None:
    """No traceback, also not when Python ends."""
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [*PRECOVER, "example"], stdout=full, stderr=subprocess.PIPE, encoding="utf-8", timeout=60, check=False
        )
    assert done.returncode == 2
    assert (
        done.stderr
        == "precover: standard output cannot be written: no space left on device; write elsewhere with --output\n"
    )


def test_a_reader_that_has_seen_enough() -> None:
    """A closed pipe ends the command without a word."""
    ends = os.pipe()
    os.close(ends[0])
    done = subprocess.run(
        [*PRECOVER, "review", str(EXAMPLES), "--form", "json", "--ledger"],
        stdout=ends[1],
        stderr=subprocess.PIPE,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    os.close(ends[1])
    assert (done.returncode, done.stderr) == (141, "")


def test_an_interrupted_command() -> None:
    """One line, and the status that shells expect."""
    with subprocess.Popen(
        [*PRECOVER, "review", "-"], stdin=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8"
    ) as waiting:
        time.sleep(2)
        waiting.send_signal(signal.SIGINT)
        assert waiting.stderr is not None
        said = waiting.stderr.read()
    assert (waiting.returncode, said) == (130, "precover: stopped\n")


def _on_a_terminal(*arguments: str, **environment: str) -> str:
    main, other = pty.openpty()
    with subprocess.Popen(
        [*PRECOVER, *arguments], stdout=other, env=os.environ | {"TERM": "xterm-256color"} | environment
    ) as running:
        os.close(other)
        parts = []
        try:
            while part := os.read(main, 65536):
                parts.append(part)
        except OSError:
            pass  # Linux reports the end of a terminal as an error
        finally:
            os.close(main)
    assert running.returncode == 0
    return b"".join(parts).decode()


def test_on_a_terminal() -> None:
    """Weight and one colour; with NO_COLOR no colour, and with a dumb terminal nothing but text."""
    plan = str(EXAMPLES / "orchard-pump.plan.yaml")
    assert "\x1b[1;34m" in _on_a_terminal("review", plan)
    plain = _on_a_terminal("review", plan, NO_COLOR="1")
    assert "\x1b[1m" in plain and "34m" not in plain
    assert "\x1b" not in _on_a_terminal("review", plan, TERM="dumb")
    assert "\x1b[" in _on_a_terminal("topics", "minimum-cover")


def test_topics() -> None:
    """The list names every topic; one is shown with its document whole and what is in force under it."""
    listed = run("topics").stdout
    assert all(topic in listed for topic in library().topics)
    shown = run("topics", "burial/minimum-cover").stdout
    assert shown.startswith(library().topics["burial/minimum-cover"].text())
    assert "24 in (600 mm)" in shown and "from memory: verify it in the adopted code" in shown
    assert run("topics", "minimum-cover").stdout == shown


def test_topics_as_json() -> None:
    """The same data for programs."""
    assert [topic["id"] for topic in json.loads(run("topics", "--form", "json").stdout)["topics"]] == list(
        library().topics
    )
    record = json.loads(run("topics", "minimum-cover", "--form", "json").stdout)
    assert record["values"][0]["set_by"] == "us-2023"


def test_schemas_and_examples_are_printed_as_they_are() -> None:
    """To be written to a file by whoever asks."""
    for name in ("plan", "review"):
        assert run("schema", name).stdout == precover_schemas.text(name)
    assert run("example", "orchard-pump").stdout == GOOD
    assert [line.split()[0] for line in run("example").stdout.splitlines()] == sorted(
        path.name.split(".")[0] for path in EXAMPLES.glob("*.plan.yaml")
    )


def test_help_and_version() -> None:
    """Every command is in the help; a call without one is no success."""
    shown = run("--help")
    assert shown.returncode == 0
    assert all(name in shown.stdout for name in ("review", "topics", "schema", "example"))
    assert run("--version").stdout == "precover 0.1.0\n"
    assert run().returncode == 2
    assert run("review").returncode == 2
    assert run("review", "-", "--fail-at", "worry").returncode == 2


def test_a_review_loads_only_what_it_needs() -> None:
    """Start-up is most of a small review: what a form or a bad plan needs is not loaded for a good one in a pipe."""
    script = "import sys; from precover.app.__main__ import main; main(sys.argv[1:]); print(sorted(sys.modules), file=sys.stderr)"
    done = subprocess.run(
        [sys.executable, "-c", script, "review", str(EXAMPLES / "orchard-pump.plan.yaml")],
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=True,
    )
    loaded = set(done.stderr.replace("'", "").strip("[]\n").split(", "))
    assert "precover.showing.people" in loaded
    assert not loaded & {
        "rich.console",
        "rich.markdown",
        "jsonschema",
        "precover.showing.sarif",
        "precover.showing.record",
        "hashlib",
    }
