"""One copy of the repository, and the trials of mutants in it."""

from __future__ import annotations

import compileall
import gc
import hashlib
import json
import os
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, nullcontext
from pathlib import Path
from py_compile import PycInvalidationMode
from typing import Final

from mutation import trial
from mutation.mutants import Mutant, mutants_of, mutated
from mutation.tables import read_again

LEFT_OUT: Final = shutil.ignore_patterns(".*", "__pycache__", "*.egg-info", "golden", "build", "dist")
LONG: Final = 36_000.0
"""Seconds for all quick trials together."""


class Copy:
    """A copy of the repository in a temporary folder, which this process imports from. Enter it once per process."""

    def __init__(self, root: Path) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="precover-mutation-"))
        self.at = self.folder / "copy"
        shutil.copytree(root, self.at, ignore=LEFT_OUT)

    def __enter__(self) -> Copy:
        places = [str(self.at / name) for name in ("tests", "linter", "rules", "schemas")]
        sys.path[:0] = places
        os.environ["PYTHONPATH"] = os.pathsep.join(places)
        # Compiled files that are checked by content: a mutant of the same second and length is noticed too.
        compileall.compile_dir(self.at, quiet=2, invalidation_mode=PycInvalidationMode.CHECKED_HASH)
        sys.dont_write_bytecode = True
        return self

    def __exit__(self, *problem: object) -> None:
        shutil.rmtree(self.folder, ignore_errors=True)

    def text(self, file: str) -> str:
        """A file as it is in the copy."""
        return (self.at / file).read_text(encoding="utf-8")


class State:
    """What is known of mutants, one line of JSON each, written as soon as it is known."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.known: dict[str, dict[str, str]] = {}
        if path.exists():
            records = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
            self.known = {record["name"]: record for record in records}

    def outcome(self, name: str, text: str, suite: str = "") -> str:
        """The outcome that still holds for this text of the file; for a survivor also for these tests, if given."""
        record = self.known.get(name)
        if record is None or record["text"] != text:
            return trial.NOT_TRIED
        stale = suite and record["outcome"] not in trial.NOTICED and record["suite"] != suite
        return trial.NOT_TRIED if stale else record["outcome"]

    def note(self, name: str, text: str, suite: str, tried: trial.Trial) -> None:
        """Write down an outcome."""
        record = {"name": name, "text": text, "suite": suite, **tried._asdict()}
        with self.path.open("a", encoding="utf-8") as out:
            out.write(json.dumps(record) + "\n")


class Group:
    """Files that the same tests hold, with what each of these tests runs."""

    def __init__(self, copy: Copy, state: State, files: Sequence[str], tests: Sequence[str]) -> None:
        self.copy = copy
        self.state = state
        self.tests = tests
        self.texts = {file: copy.text(file) for file in files}
        self.digests = {file: digest(text) for file, text in self.texts.items()}
        self.suite = digest(*(copy.text(test.partition("[")[0]) for test in tests))
        self.lines: dict[str, dict[str, list[int]]] = {}
        self.seconds: dict[str, float] = {}
        self.kills: Counter[tuple[str, str]] = Counter()

    def run(self, own: int, of: int, *, quickly: bool) -> None:
        """Try every `of`-th mutant that is not known, from the `own`-th on: quickly, and if that shows nothing, thoroughly.

        Only `quickly`: a survivor of that counts as one, and what runs at import is not tried.
        """
        everything = [mutant for file, text in self.texts.items() for mutant in mutants_of(file, text)]
        todo = [mutant for mutant in everything[own::of] if not self._is_known(mutant)]
        if not todo:
            return
        self._measure()
        quick = trial.Quick(lambda quick: self._quickly(todo, quick, final=quickly))
        ended = trial.apart(lambda _: trial.run_tests(self.tests, self.copy.at, quick), LONG)
        if ended.outcome != trial.SURVIVED:
            raise SystemExit(f"the quick trials broke off: {ended.by}")
        self.state = State(self.state.path)
        for mutant in todo:
            if not quickly and not self._is_known(mutant):
                self._note(mutant, self._thoroughly(mutant))

    def _is_known(self, mutant: Mutant) -> bool:
        found = self.state.outcome(mutant.name, self.digests[mutant.path], self.suite)
        return found != trial.NOT_TRIED

    def _note(self, mutant: Mutant, tried: trial.Trial) -> None:
        if tried.outcome in trial.NOTICED:
            self.kills.update([("", tried.by), (f"{mutant.path} {mutant.where}", tried.by)])
        self.state.note(mutant.name, self.digests[mutant.path], self.suite, tried)

    def _measure(self) -> None:
        """What each test runs, and how long it takes, on the copy as it is. Tests that fail there are named and left out."""
        recorder = trial.Recorder({str(self.copy.at / file): file for file in self.texts})
        kept = self.copy.folder / "measured.json"

        def work(tell: Callable[[str], None]) -> int:
            trial.run_tests(self.tests, self.copy.at, recorder)
            used = Path(str(sys.modules["precover"].__file__))
            if not used.is_relative_to(self.copy.at):
                tell(f"{used} was tested, not the copy")
                return 1
            kept.write_text(json.dumps([recorder.lines, recorder.seconds]), encoding="utf-8")
            tell(" ".join(recorder.failing))
            return 0

        tried = trial.apart(work, LONG)
        if tried.outcome != trial.SURVIVED:
            raise SystemExit(f"the tests cannot be run: {tried.by} in {' '.join(self.tests)}")
        if tried.by:
            print(f"left out, as they fail as it is: {tried.by}", flush=True)
        self.lines, self.seconds = json.loads(kept.read_text(encoding="utf-8"))

    def _order(self, tests: Sequence[str], mutant: Mutant) -> list[str]:
        """Those that noticed most mutants of the same function first, then of any, then the quick ones."""
        own = f"{mutant.path} {mutant.where}"
        return sorted(
            tests, key=lambda test: (-self.kills[own, test], self.seconds[test] / (1 + self.kills["", test]), test)
        )

    def _running(self, mutant: Mutant) -> list[str]:
        """Tests that run a mutant's lines."""
        found = [t for t, ran in self.lines.items() if not set(ran.get(mutant.path, ())).isdisjoint(mutant.lines)]
        return self._order(found, mutant)

    def _touching(self, mutant: Mutant) -> list[str]:
        """Tests that run anything of its file, those that run its lines first."""
        first = self._running(mutant)
        return list(
            dict.fromkeys([*first, *self._order([t for t, ran in self.lines.items() if mutant.path in ran], mutant)])
        )

    def _quickly(self, mutants: Sequence[Mutant], quick: trial.Quick, *, final: bool) -> None:
        trial.get_going()
        source = [file for file in self.texts if file.endswith(".py")]
        alive = {file: trial.functions_of(str(self.copy.at / file)) for file in source}
        forget = {file: trial.forget(str(self.copy.at / file)) for file in source}
        gc.freeze()  # after looking for the functions: what is frozen is not listed
        for mutant in mutants:
            order = self._running(mutant)

            def work(tell: Callable[[str], None], mutant: Mutant = mutant, order: list[str] = order) -> int:
                file, text = self.copy.at / mutant.path, self.texts[mutant.path]
                if mutant.path.endswith(".csv"):
                    read_again()
                elif not trial.exchange_code(mutant, text, str(file), alive[mutant.path]):
                    return trial.UNREACHED
                else:
                    forget[mutant.path]()
                return quick.run(order, self.seconds, tell)

            with self._written(mutant) if mutant.path.endswith(".csv") else nullcontext():
                tried = trial.apart(work, LONG) if order else trial.Trial(trial.NOT_TRIED)
            if tried.outcome in trial.NOTICED or (final and tried.outcome == trial.SURVIVED):
                self._note(mutant, tried)

    def _thoroughly(self, mutant: Mutant) -> trial.Trial:
        """The mutated file in the copy, and a fresh start."""
        order = self._touching(mutant)
        if not order:
            return trial.Trial(trial.SURVIVED, "no test runs the file")
        needed = {test.partition("::")[0] for test in order}
        tests = [test for test in self.tests if test.partition("[")[0] in needed]
        with self._written(mutant):
            return trial.apart(
                lambda tell: trial.run_tests(tests, self.copy.at, trial.Chosen(order, self.seconds, tell)), 60
            )

    @contextmanager
    def _written(self, mutant: Mutant) -> Iterator[None]:
        file, text = self.copy.at / mutant.path, self.texts[mutant.path]
        file.write_text(mutated(text, mutant), encoding="utf-8")
        try:
            yield
        finally:
            file.write_text(text, encoding="utf-8")


def digest(*texts: str) -> str:
    """A short name for texts as they are now."""
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()[:16]
