"""Runs chosen tests against one mutant, in a process of its own.

Two ways. The quick one puts the mutated code into the functions of a process that has collected the tests already. The
thorough one writes the mutated file into the copy of the repository and starts from nothing; it also reaches what is
worked out at import, and it has the last word on a survivor.
"""

from __future__ import annotations

import contextlib
import functools
import gc
import os
import resource
import signal
import sys
import time
from collections.abc import Callable, Generator, Mapping, Sequence
from pathlib import Path
from types import CodeType, FrameType, FunctionType
from typing import Any, Final, NamedTuple

import pytest
from hypothesis import HealthCheck, Phase, settings

from mutation.mutants import Mutant, mutated_tree
from mutation.tables import RowsLookedUp

KILLED: Final = "killed"
STOPPED: Final = "stopped at the time limit"
SURVIVED: Final = "survived"
NOT_TRIED: Final = "not tried"
NOTICED: Final = (KILLED, STOPPED)
UNREACHED: Final = 71
"""Exit status of a quick trial that found no function to put the mutant into."""
MEMORY: Final = 6 << 30


class Trial(NamedTuple):
    """How one mutant fared, and the test that noticed it."""

    outcome: str
    by: str = ""


def apart(work: Callable[[Callable[[str], None]], int], seconds: float) -> Trial:
    """Run `work` in a forked process for so many seconds at most. It returns 0 for a survivor, 1 for a killed mutant, and
    may tell the test's name."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        code = 70
        try:
            resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))
            limit(seconds)
            code = work(lambda words: _told(writing, words))
        except BaseException as problem:
            _told(writing, f"{type(problem).__name__}: {problem}")
        finally:
            os._exit(code)
    os.close(writing)
    with os.fdopen(reading, encoding="utf-8", errors="replace") as told:
        by = told.read()
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        stopped = os.WTERMSIG(status) in (signal.SIGPROF, signal.SIGALRM)
        return Trial(STOPPED if stopped else KILLED, by)
    code = os.WEXITSTATUS(status)
    if code not in (0, 1, 2):
        return Trial(NOT_TRIED, f"{by} exit status {code}")
    return Trial(SURVIVED if code == 0 else KILLED, by)


def limit(seconds: float) -> None:
    """End this process after so much processor time from now, or ten times that of any time."""
    for timer, sign, time_left in (
        (signal.ITIMER_PROF, signal.SIGPROF, seconds),
        (signal.ITIMER_REAL, signal.SIGALRM, 10 * seconds),
    ):
        signal.signal(sign, signal.SIG_DFL)
        signal.setitimer(timer, time_left)


def limit_test(usual: float) -> None:
    """The same for one test that usually takes so long."""
    limit(2 + 4 * usual)


def _told(writing: int, words: str) -> None:
    os.write(writing, words.encode()[:4000])


def run_tests(tests: Sequence[str], folder: Path, *plugins: object) -> int:
    """pytest over tests of the copy, quietly; its exit status. `file.py[words` stands for those tests of a file whose
    parameters begin with the words."""
    parts = tuple(tests)
    files = list(dict.fromkeys(test.partition("[")[0] for test in parts))
    os.chdir(folder)
    with Path(os.devnull).open("w", encoding="utf-8") as nowhere, contextlib.redirect_stdout(nowhere):
        ways = ["-q", "-p", "no:cacheprovider", "--tb=no", f"--basetemp={folder.parent / str(os.getpid())}"]
        return int(pytest.main([*ways, *files], plugins=[_Steady(parts), *plugins]))


class _Steady:
    """Hypothesis tries the same examples every time, and does not shrink; of some files only a part is run."""

    def __init__(self, parts: Sequence[str]) -> None:
        self.words = dict(part.split("[") for part in parts if "[" in part)

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Leave out the other part."""
        items[:] = [item for item in items if self._wanted(item.nodeid)]

    def _wanted(self, name: str) -> bool:
        words = self.words.get(name.partition("::")[0])
        return words is None or f"[{words}" in name

    def pytest_configure(self) -> None:
        settings.register_profile(
            "mutation",
            derandomize=True,
            database=None,
            deadline=None,
            phases=(Phase.explicit, Phase.generate),
            suppress_health_check=list(HealthCheck),
        )
        settings.load_profile("mutation")


class Recorder:
    """Notes which lines of the files under trial each test runs (of tables: which rows it looks up), how long it takes,
    and which tests fail as it is."""

    def __init__(self, files: dict[str, str]) -> None:
        self.files = files
        self.source = any(place.endswith(".py") for place in files)
        self.tables = RowsLookedUp({place: name for place, name in files.items() if place.endswith(".csv")})
        self.lines: dict[str, dict[str, list[int]]] = {}
        self.seconds: dict[str, float] = {}
        self.failing: list[str] = []
        self._now: dict[str, set[int]] = {}

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Generator[None, object, object]:
        """Around each test."""
        self._now = {}
        started = time.perf_counter()
        sys.settrace(self._call if self.source else None)
        rows: dict[str, set[int]] = {}
        try:
            with self.tables.noted() as rows:
                return (yield)
        finally:
            sys.settrace(None)
            self.seconds[item.nodeid] = time.perf_counter() - started
            if item.nodeid not in self.failing:
                ran = {self.files[name]: sorted(lines) for name, lines in self._now.items()}
                self.lines[item.nodeid] = ran | {name: sorted(found) for name, found in rows.items()}

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A test that fails already notices nothing."""
        if report.failed:
            self.failing.append(report.nodeid)
            self.lines.pop(report.nodeid, None)

    def _call(self, frame: FrameType, event: str, argument: object) -> Any:
        if frame.f_code.co_filename not in self.files:
            return None
        lines = self._now.setdefault(frame.f_code.co_filename, set())

        def line(frame: FrameType, event: str, argument: object) -> Any:
            lines.add(frame.f_lineno)
            return line

        return line(frame, event, argument)


class Chosen:
    """Runs the tests of a list in its order, then those that nobody knew; tells which failed."""

    def __init__(self, order: Sequence[str], seconds: Mapping[str, float], tell: Callable[[str], None]) -> None:
        self.rank = {name: place for place, name in enumerate(order)}
        self.seconds = seconds
        self.tell = tell

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Leave out what is known and not in the list."""
        items[:] = [item for item in items if item.nodeid in self.rank or item.nodeid not in self.seconds]
        items.sort(key=lambda item: self.rank.get(item.nodeid, len(self.rank)))

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        """Each test has a limit of its own."""
        limit_test(self.seconds.get(nodeid, 1.0))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A failed test has noticed the mutant."""
        if report.failed:
            self.tell(report.nodeid)
            pytest.exit("noticed", returncode=1)


class Quick:
    """In place of running the tests that were collected: hands them to `each`, once for all mutants."""

    def __init__(self, each: Callable[[Quick], None]) -> None:
        self.each = each
        self.items: dict[str, pytest.Item] = {}
        self._failed: str = ""

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Instead of pytest's own loop."""
        self.items = {item.nodeid: item for item in session.items}
        self.each(self)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Remember a failure."""
        if report.failed:
            self._failed = report.nodeid

    def run(self, order: Sequence[str], seconds: Mapping[str, float], tell: Callable[[str], None]) -> int:
        """Run tests until one fails; 1 if one did."""
        chosen = [self.items[name] for name in order if name in self.items]
        for item, following in zip(chosen, [*chosen[1:], None], strict=True):
            limit_test(seconds[item.nodeid])
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if self._failed:
                tell(self._failed)
                return 1
        return 0


def functions_of(file: str) -> list[FunctionType]:
    """Every function of a file that is alive in this process."""
    return [
        thing for thing in gc.get_objects() if isinstance(thing, FunctionType) and thing.__code__.co_filename == file
    ]


def forget(file: str) -> Callable[[], None]:
    """What makes this process forget the results that functions of a file have kept."""
    kept = [thing for thing in gc.get_objects() if isinstance(thing, functools._lru_cache_wrapper)]
    own = [one for one in kept if isinstance(one.__wrapped__, FunctionType)]
    own = [one for one in own if one.__wrapped__.__code__.co_filename == file]

    def clear() -> None:
        for one in own:
            one.cache_clear()

    return clear


def get_going() -> None:
    """Work out once, before any trial, what every review needs: rules, tables, schema."""
    from support.reviews import reviewed_example

    for name in ("pottery-studio", "joinery-workshop", "orchard-pump"):
        reviewed_example(name)


def exchange_code(mutant: Mutant, text: str, file: str, functions: Sequence[FunctionType]) -> bool:
    """Put the mutant's code into the functions of this process; whether there was any to put it into."""
    before = _codes(compile(text, file, "exec"))
    after = _codes(compile(mutated_tree(text, mutant), file, "exec"))
    changed = {key: code for key, code in after.items() if key in before and before[key] != code}
    found = False
    for function in functions:
        old = function.__code__
        new = changed.get((old.co_qualname, old.co_firstlineno))
        if new is not None and new.co_freevars == old.co_freevars:
            function.__code__ = new
            found = True
    return found


def _codes(code: CodeType) -> dict[tuple[str, int], CodeType]:
    """Code by name and line; of several by one name in one line (lambdas) none, as nothing tells them apart."""
    found: dict[tuple[str, int], CodeType] = {}
    twice: set[tuple[str, int]] = set()
    waiting = [code]
    while waiting:
        at = waiting.pop()
        key = (at.co_qualname, at.co_firstlineno)
        if key in found:
            twice.add(key)
        found[key] = at
        waiting += [constant for constant in at.co_consts if isinstance(constant, CodeType)]
    return {key: at for key, at in found.items() if key not in twice}
