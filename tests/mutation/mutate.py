"""Mutation testing: `python tests/mutation/mutate.py linter/precover/electrical [more paths] [--cores 2]`.

Puts one small fault after another into a copy of the repository (never into the repository itself), runs the tests that
touch the faulty line, and lists the faults that no test noticed. A run that was stopped goes on where it was; what was
found stays good until the mutated file (for a survivor: or a test) changes. Survivors that do no harm are accepted in
`survivors.md`, with the reason. Exit status 1: a survivor is not accepted.
"""

from __future__ import annotations

import argparse
import os
import re
import sys
import tempfile
from collections import Counter
from pathlib import Path
from typing import Final

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from mutation.campaign import Copy, Group, State, digest
from mutation.mutants import mutants_of
from mutation.trial import NOTICED

ROOT: Final = Path(__file__).resolve().parents[2]
TESTS: Final = {
    "linter/precover/electrical": ("tests/electrical/test_*.py",),
    "rules/precover_rules/packs": (
        "tests/electrical/test_published_tables.py",
        "tests/electrical/test_bend_radii.py",
        "tests/rules/test_*.py",
    ),
    "rules/precover_rules/burial": ("tests/rules/test_burial_*.py", "tests/rules/test_minimum_cover*.py"),
    "rules/precover_rules/grounding": ("tests/rules/test_*grounding*.py", "tests/rules/test_equipment_ground_*.py"),
    "rules/precover_rules/conductors": (
        "tests/rules/test_conductors_*.py",
        "tests/rules/test_wires_for_the_voltage.py",
    ),
    "rules/precover_rules/sizing": ("tests/rules/test_sizing_*.py", "tests/rules/test_rewiring.py"),
    "rules/precover_rules/identification": ("tests/rules/test_scope_and_colours.py",),
    "rules/precover_rules/voltage_drop": (
        "tests/rules/test_voltage_drop_*.py",
        "tests/rules/test_loads_and_drop_ways.py",
    ),
}
"""The tests that must hold a folder; those of any other folder of rules have its name in theirs."""
ACROSS: Final = "tests/rules/test_said_once.py"
OF_EVERY_TOPIC: Final = ("tests/rules/test_topic_documents.py", "tests/rules/test_*_ways.py")
"""Tests with the topics as parameters: those of its own topics hold a folder too."""
SURVIVORS: Final = Path(__file__).parent / "survivors.md"


def tests_for(path: str) -> list[str]:
    """The tests that must hold a file, as `run_tests` takes them."""
    folder, _, module = path.removeprefix("rules/precover_rules/").partition("/")
    patterns = next((found for start, found in TESTS.items() if path.startswith(f"{start}/")), None)
    if patterns is None:
        patterns = (f"tests/rules/test_*{folder}*.py",) if module else ("tests/rules/test_*.py",)
    found = _files((*patterns, ACROSS) if path.startswith("rules/") else patterns)
    if path.startswith("rules/") and module and path.endswith(".py"):
        topics = f"[{folder.replace('_', '-')}/"
        found += [f"{file}{topics}" for file in _files(OF_EVERY_TOPIC) if file not in found]
    return found


def _files(patterns: tuple[str, ...]) -> list[str]:
    return sorted({file.relative_to(ROOT).as_posix() for pattern in patterns for file in ROOT.glob(pattern)})


def files_in(paths: list[str]) -> list[str]:
    """Every Python file and table below the paths given, relative to the repository."""
    found = []
    for path in paths:
        at = (ROOT / path).resolve()
        inside = [at] if at.is_file() else sorted([*at.rglob("*.py"), *at.rglob("tables/*.csv")])
        found += [file.relative_to(ROOT).as_posix() for file in inside if file.name != "__init__.py"]
    return list(dict.fromkeys(found))


def accepted() -> set[str]:
    """Names of the survivors that the list accepts."""
    text = SURVIVORS.read_text(encoding="utf-8") if SURVIVORS.exists() else ""
    return set(re.findall(r"^- ``(.+?)``", text, re.MULTILINE))


def run(files: list[str], path: Path, own: int, of: int, *, quickly: bool) -> None:
    """Try every `of`-th mutant: files that the same tests hold go together."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for file in files:
        groups.setdefault(tuple(tests_for(file)), []).append(file)
    with Copy(ROOT) as copy:
        for tests, together in groups.items():
            Group(copy, State(path), together, tests).run(own, of, quickly=quickly)


def report(files: list[str], path: Path) -> int:
    """Print the score by file and what was not noticed; 1 if any of that is not accepted."""
    state, fine = State(path), accepted()
    total: Counter[str] = Counter()
    unnoticed: list[str] = []
    for file in files:
        text = (ROOT / file).read_text(encoding="utf-8")
        found = {mutant.name: state.outcome(mutant.name, digest(text)) for mutant in mutants_of(file, text)}
        counts = Counter(found.values())
        total += counts
        unnoticed += [name for name, outcome in found.items() if outcome not in NOTICED]
        print(
            f"{file}: {', '.join(f'{count} {word}' for word, count in sorted(counts.items())) or 'nothing to change'}"
        )
        for name, outcome in found.items():
            if outcome not in NOTICED:
                print(f"  {'accepted' if name in fine else outcome.upper()}: {name.removeprefix(file).strip()}")
    noticed = sum(total[outcome] for outcome in NOTICED)
    left = [name for name in unnoticed if name not in fine]
    print(f"{noticed} of {total.total()} noticed ({noticed / max(total.total(), 1):.1%}), {len(left)} not accepted")
    return 1 if left else 0


def main() -> int:
    """The command."""
    parser = argparse.ArgumentParser(description="Mutation testing of parts of the repository.")
    parser.add_argument("paths", nargs="+", help="files or folders, relative to the repository")
    parser.add_argument("--cores", type=int, default=1)
    parser.add_argument("--state", type=Path, default=Path(tempfile.gettempdir()) / "precover-mutation.jsonl")
    parser.add_argument("--quick", action="store_true", help="only what can be tried without a fresh start for each")
    parser.add_argument("--report", action="store_true", help="only print what is known")
    chosen = parser.parse_args()
    files = files_in(chosen.paths)
    if not chosen.report:
        workers = []
        for number in range(chosen.cores):
            child = os.fork()
            if child == 0:
                status = 1
                try:
                    run(files, chosen.state, number, chosen.cores, quickly=chosen.quick)
                    status = 0
                except SystemExit as problem:
                    print(problem)
                finally:
                    sys.stdout.flush()
                    os._exit(status)
            workers.append(child)
        ends = [os.waitpid(child, 0)[1] for child in workers]
        if any(ends):
            print("a run did not end well; what it found until then is kept")
    return report(files, chosen.state)


if __name__ == "__main__":
    sys.exit(main())
