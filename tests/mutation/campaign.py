"""One copy of the repository, and the trials of mutants in it."""

from __future__ import annotations

import compileall
import hashlib
import json
import os
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from py_compile import PycInvalidationMode
from typing import Any, Final

LEFT_OUT: Final = shutil.ignore_patterns(".*", "__pycache__", "*.egg-info", "golden", "build", "dist")


class Work:
    """One copy of the repository, and the trials in it."""

    def __init__(self, root: Path, state: Path, share: tuple[int, int]) -> None:
        self.state = state
        self.share = share
        self.folder = Path(tempfile.mkdtemp(prefix="precover-mutation-"))
        self.copy = self.folder / "copy"
        shutil.copytree(root, self.copy, ignore=LEFT_OUT)
        places = [str(self.copy / name) for name in ("tests", "linter", "rules", "schemas")]
        sys.path[:0] = places
        os.environ["PYTHONPATH"] = os.pathsep.join(places)
        sys.dont_write_bytecode = True
        compileall.compile_dir(self.copy, quiet=2, invalidation_mode=PycInvalidationMode.CHECKED_HASH)
        self.known = known_outcomes(state)
        self.kills: Counter[str] = Counter()

    def group(self, files: list[str], tests: list[str]) -> None:
        """Try every mutant of files that the same tests hold."""
        from mutation import trial
        from mutation.mutants import Mutant, mutants_of

        texts = {file: (self.copy / file).read_text(encoding="utf-8") for file in files}
        suite = digest(*((self.copy / file).read_text(encoding="utf-8") for file in tests))
        own, of = self.share
        todo = [
            mutant
            for number, mutant in enumerate(m for file in files for m in mutants_of(file, texts[file]))
            if number % of == own and not self._is_known(mutant.name, digest(texts[mutant.path]), suite)
        ]
        if not todo:
            return
        lines, seconds = self._baseline(files, tests)
        done: set[str] = set()

        def chosen(mutant: Mutant) -> list[str]:
            """Tests that touch the file; those that run the line first, of them those that noticed most, then the quick."""
            touching = [
                test for test, touched in lines.items() if mutant.path in touched or mutant.path.endswith(".csv")
            ]

            def place(test: str) -> tuple[bool, int, float]:
                runs = not set(lines[test].get(mutant.path, ())).isdisjoint(mutant.lines)
                return not runs, -self.kills[test], seconds[test]

            return sorted(touching, key=place)

        def note(mutant: Mutant, tried: trial.Trial) -> None:
            self.kills[tried.by] += 1
            done.add(mutant.name)
            record = {"name": mutant.name, "text": digest(texts[mutant.path]), "suite": suite, **tried._asdict()}
            with self.state.open("a", encoding="utf-8") as out:
                out.write(json.dumps(record) + "\n")

        def quickly(quick: trial.Quick) -> None:
            alive = {file: trial.functions_of(str(self.copy / file)) for file in files}
            for mutant in todo:
                order = [
                    test
                    for test in chosen(mutant)
                    if not set(lines[test].get(mutant.path, ())).isdisjoint(mutant.lines)
                ]
                if not order:
                    continue

                def work(tell: Callable[[str], None], mutant: Mutant = mutant, order: list[str] = order) -> int:
                    file = str(self.copy / mutant.path)
                    if not trial.exchange_code(mutant, texts[mutant.path], file, alive[mutant.path]):
                        return 0
                    return quick.run(order, tell)

                tried = trial.apart(work, 10 + 4 * sum(seconds[test] for test in order))
                if tried.outcome in (trial.KILLED, trial.STOPPED):
                    note(mutant, tried)

        def all_quickly(tell: Callable[[str], None]) -> int:
            return trial.run_tests(tests, self.copy, trial.Quick(quickly))

        before = self.state.stat().st_size if self.state.exists() else 0
        trial.apart(all_quickly, 36_000)
        if self.state.exists():
            with self.state.open(encoding="utf-8") as out:
                out.seek(before)
                tried = [json.loads(line) for line in out]
            done |= {record["name"] for record in tried}
            self.kills.update(record["by"] for record in tried)
        for mutant in todo:
            if mutant.name not in done:
                note(mutant, self._thoroughly(mutant, texts[mutant.path], chosen(mutant), set(lines), seconds))

    def _baseline(self, files: list[str], tests: list[str]) -> tuple[dict[str, dict[str, list[int]]], dict[str, float]]:
        """What each test runs, and how long it takes, on the copy as it is; the tests must pass there."""
        from mutation import trial

        kept = self.folder / "baseline.json"
        recorder = trial.Recorder({str(self.copy / file): file for file in files})

        def work(tell: Callable[[str], None]) -> int:
            status = trial.run_tests(tests, self.copy, recorder)
            import precover

            if not Path(precover.__file__).is_relative_to(self.copy):
                tell(f"the tests ran {precover.__file__}, not the copy")
                return 70
            kept.write_text(json.dumps([recorder.lines, recorder.seconds]), encoding="utf-8")
            return status

        tried = trial.apart(work, 1_800)
        if tried.outcome != trial.SURVIVED:
            raise SystemExit(f"the tests do not pass as they are: {tried.outcome} {tried.by} {' '.join(tests)}")
        lines, seconds = json.loads(kept.read_text(encoding="utf-8"))
        return lines, seconds

    def _thoroughly(self, mutant: Any, text: str, order: list[str], known: set[str], seconds: dict[str, float]) -> Any:
        """The mutated file in the copy, and a fresh start."""
        from mutation import trial
        from mutation.mutants import mutated

        file = self.copy / mutant.path
        if not order:
            return trial.Trial(trial.SURVIVED, "no test runs the file")
        files = list(dict.fromkeys(test.partition("::")[0] for test in order))
        file.write_text(mutated(text, mutant), encoding="utf-8")
        try:

            def work(tell: Callable[[str], None]) -> int:
                return trial.run_tests(files, self.copy, trial.Chosen(order, known, tell))

            return trial.apart(work, 20 + 4 * sum(seconds[test] for test in order))
        finally:
            file.write_text(text, encoding="utf-8")

    def _is_known(self, name: str, text: str, suite: str) -> bool:
        record = self.known.get(name)
        return (
            record is not None
            and record["text"] == text
            and (record["outcome"] != "survived" or record["suite"] == suite)
        )

    def remove(self) -> None:
        """Take the copy away."""
        shutil.rmtree(self.folder, ignore_errors=True)


def known_outcomes(state: Path) -> dict[str, dict[str, str]]:
    """What earlier runs found, the last word on each mutant."""
    if not state.exists():
        return {}
    records = [json.loads(line) for line in state.read_text(encoding="utf-8").splitlines()]
    return {record["name"]: record for record in records}


def digest(*texts: str) -> str:
    """A short name for texts as they are now."""
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()[:16]
