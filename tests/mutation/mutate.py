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

from mutation.campaign import Work, digest, known_outcomes
from mutation.mutants import mutants_of

ROOT: Final = Path(__file__).resolve().parents[2]
TESTS: Final = {
    "linter/precover/electrical": ("tests/electrical/test_*.py",),
    "rules/precover_rules/packs": ("tests/electrical/test_published_tables.py", "tests/rules/test_*.py"),
    "rules/precover_rules/burial": ("tests/rules/test_burial_*.py", "tests/rules/test_minimum_cover*.py"),
}
"""The tests that must hold a folder; those of any other folder of rules are named for it."""
DOCUMENTS: Final = "tests/rules/test_topic_documents.py"
SURVIVORS: Final = Path(__file__).parent / "survivors.md"


def tests_for(path: str, root: Path) -> list[str]:
    """Test files for a mutated file, both relative to the repository."""
    patterns = next((found for folder, found in TESTS.items() if path.startswith(f"{folder}/")), None)
    if patterns is None:
        folder = path.removeprefix("rules/precover_rules/").partition("/")[0].removesuffix(".py")
        patterns = (f"tests/rules/test_{folder}*.py",)
    if path.startswith("rules/") and path.endswith(".py"):
        patterns = (*patterns, DOCUMENTS)
    found = sorted({file.relative_to(root).as_posix() for pattern in patterns for file in root.glob(pattern)})
    own = [file for file in found if file != DOCUMENTS]
    return found if own else [DOCUMENTS, *sorted(f.relative_to(root).as_posix() for f in root.glob("tests/rules/*.py"))]


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


def run(files: list[str], state: Path, share: tuple[int, int]) -> None:
    """Try the share of this process: files that the same tests hold go together."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for file in files:
        groups.setdefault(tuple(tests_for(file, ROOT)), []).append(file)
    work = Work(ROOT, state, share)
    try:
        for tests, together in groups.items():
            work.group(together, list(tests))
    finally:
        work.remove()


def report(files: list[str], state: Path) -> int:
    """Print the score by file and the survivors; 1 if one of them is not accepted."""
    known, fine = known_outcomes(state), accepted()
    total: Counter[str] = Counter()
    survivors = []
    for file in files:
        text = (ROOT / file).read_text(encoding="utf-8")
        names = [mutant.name for mutant in mutants_of(file, text)]
        outcomes = {
            name: known[name]["outcome"] if name in known and known[name]["text"] == digest(text) else "not tried"
            for name in names
        }
        counts = Counter(outcomes.values())
        total += counts
        survivors += [name for name in names if outcomes[name] not in ("killed", "stopped at the time limit")]
        print(
            f"{file}: {', '.join(f'{count} {word}' for word, count in sorted(counts.items())) or 'nothing to change'}"
        )
    for name in survivors:
        print(f"  {'accepted' if name in fine else 'SURVIVED' if name in known else 'NOT TRIED'}  {name}")
    noticed = total["killed"] + total["stopped at the time limit"]
    open_ones = [name for name in survivors if name not in fine]
    print(
        f"{noticed} of {total.total()} noticed ({noticed / max(total.total(), 1):.1%}), {len(open_ones)} not accepted"
    )
    return 1 if open_ones else 0


def main() -> int:
    """The command."""
    parser = argparse.ArgumentParser(description="Mutation testing of parts of the repository.")
    parser.add_argument("paths", nargs="+", help="files or folders, relative to the repository")
    parser.add_argument("--cores", type=int, default=1)
    parser.add_argument("--state", type=Path, default=Path(tempfile.gettempdir()) / "precover-mutation.jsonl")
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
                    run(files, chosen.state, (number, chosen.cores))
                    status = 0
                finally:
                    sys.stdout.flush()
                    os._exit(status)
            workers.append(child)
        if any([os.waitpid(child, 0)[1] for child in workers]):
            print("a run did not end well; what it found until then is kept")
    return report(files, chosen.state)


if __name__ == "__main__":
    sys.exit(main())
