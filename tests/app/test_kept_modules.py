"""The compiled modules that are kept in one file: never another module than Python itself would load."""

from __future__ import annotations

import importlib
import marshal
import os
import subprocess
import sys
from collections.abc import Iterator
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import ModuleType

import pytest

import precover
import precover_rules
import precover_schemas
from precover.app.kept_modules import KeptModules

START = "import sys; sys.argv[0] = 'precover'; from precover.app.start import process; process()"


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A folder on the path with a package of two modules, one of them in a package inside; what it loads is let go after."""
    inside = tmp_path / "meadow" / "shed"
    inside.mkdir(parents=True)
    (inside.parent / "__init__.py").write_text("")
    (inside.parent / "gate.py").write_text("IS = 'open'\n")
    (inside / "__init__.py").write_text("from meadow.gate import IS\n")
    (inside / "door.py").write_text("IS = 'ajar'\n")
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "meta_path", list(sys.meta_path))
    yield tmp_path
    forget()


def forget() -> None:
    for name in [name for name in sys.modules if name.partition(".")[0] == "meadow"]:
        del sys.modules[name]
    importlib.invalidate_caches()


def loaded(place: Path) -> tuple[KeptModules, ModuleType, ModuleType]:
    """As a new process would: what finds, and the two modules."""
    forget()
    modules = KeptModules(place / "kept")
    sys.meta_path[:] = [modules, *(finder for finder in sys.meta_path if not isinstance(finder, KeptModules))]
    return modules, importlib.import_module("meadow.gate"), importlib.import_module("meadow.shed.door")


def is_kept(module: ModuleType) -> bool:
    assert module.__spec__ is not None
    return type(module.__spec__.loader).__module__ == KeptModules.__module__


def seen(module: ModuleType) -> tuple[object, ...]:
    """What can be seen of a module from outside."""
    spec = module.__spec__
    assert spec is not None
    assert isinstance(spec.loader, SourceFileLoader)
    names = (module.__name__, module.__package__, module.__file__, module.__cached__)
    return (*names, module.IS, spec.origin, spec.cached, spec.has_location, spec.loader.get_source(module.__name__))


def test_a_module_that_is_kept_is_the_one_that_python_loads(place: Path) -> None:
    modules, *by_python = loaded(place)
    assert not any(map(is_kept, by_python))
    modules.keep()
    _, *kept = loaded(place)
    assert all(map(is_kept, kept))
    expected = [seen(module) for module in by_python]
    assert [seen(module) for module in kept] == expected
    shed = sys.modules["meadow.shed"]
    assert is_kept(shed)
    assert list(shed.__path__) == [str(place / "meadow" / "shed")]


def test_what_is_kept_is_not_written_again(place: Path) -> None:
    loaded(place)[0].keep()
    before = (place / "kept").stat()
    loaded(place)[0].keep()
    after = (place / "kept").stat()
    assert (before.st_ino, before.st_mtime_ns) == (after.st_ino, after.st_mtime_ns)


@pytest.mark.parametrize("text", ["IS = 'shut'\n", "IS = 'tied up'\n"], ids=["of the same size", "longer"])
def test_a_changed_source_is_compiled_again(place: Path, text: str) -> None:
    loaded(place)[0].keep()
    gate = place / "meadow" / "gate.py"
    stated = gate.stat()
    gate.write_text(text)
    os.utime(gate, ns=(stated.st_atime_ns, stated.st_mtime_ns + 2_000_000_000))
    modules, changed, door = loaded(place)
    assert (changed.IS, is_kept(changed), is_kept(door)) == (text[6:-2], False, True)
    modules.keep()
    again = loaded(place)[1]
    assert (again.IS, is_kept(again)) == (text[6:-2], True)


def test_a_source_that_is_gone_is_gone(place: Path) -> None:
    loaded(place)[0].keep()
    (place / "meadow" / "gate.py").unlink()
    with pytest.raises(ModuleNotFoundError, match=r"meadow\.gate"):
        loaded(place)


def test_a_package_that_lies_elsewhere_now_has_its_own_modules(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    loaded(place)[0].keep()
    other = place / "other" / "meadow"
    (other / "shed").mkdir(parents=True)
    for name in ("__init__.py", "shed/__init__.py", "shed/door.py"):
        (other / name).write_text("IS = 'elsewhere'\n")
    (other / "gate.py").write_text("IS = 'there'\n")
    monkeypatch.syspath_prepend(str(other.parent))
    _, gate, door = loaded(place)
    assert (gate.IS, door.IS) == ("there", "elsewhere")


@pytest.mark.parametrize(
    "raw",
    [b"", b"?", b"3.9.0 another interpreter 0\nmeadow 0 5\n\nabcde", b"\xff\n\n", marshal.dumps(7)],
    ids=["empty", "no such thing", "of another interpreter", "no text", "something else"],
)
def test_a_file_that_cannot_be_used_is_replaced(place: Path, raw: bytes) -> None:
    (place / "kept").write_bytes(raw)
    modules, gate, _ = loaded(place)
    assert (gate.IS, is_kept(gate)) == ("open", False)
    modules.keep()
    assert is_kept(loaded(place)[1])


def test_a_file_that_was_cut_off_is_replaced(place: Path) -> None:
    loaded(place)[0].keep()
    raw = (place / "kept").read_bytes()
    (place / "kept").write_bytes(raw[: len(raw) // 2])
    modules, gate, _ = loaded(place)
    assert (gate.IS, is_kept(gate)) == ("open", False)
    modules.keep()
    assert (place / "kept").read_bytes()[:40] == raw[:40]


def test_what_is_damaged_counts_as_not_kept(place: Path) -> None:
    """Any byte of it; and it is mended by the next run."""
    loaded(place)[0].keep()
    whole = (place / "kept").read_bytes()
    head = whole.index(b"\n\n")
    lengths = {line.split()[0]: int(line.split()[2]) for line in whole[:head].decode().split("\n")[1:]}
    begin = head + 2 + sum(lengths[name] for name in list(lengths)[: list(lengths).index("meadow")])
    for at in (*range(0, head, 31), *range(begin, begin + lengths["meadow"], 7)):
        (place / "kept").write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        modules, gate, door = loaded(place)
        assert (gate.IS, door.IS) == ("open", "ajar")
        assert at < begin or not is_kept(gate)
        modules.keep()
        assert all(map(is_kept, loaded(place)[1:]))


def test_a_source_that_is_half_written_costs_nothing_else(place: Path) -> None:
    """It is not kept, nothing else is lost, and nothing is left beside the file."""
    modules, _, _ = loaded(place)
    (place / "meadow" / "gate.py").write_text("def (")
    modules.keep()
    assert [path.name for path in place.iterdir() if path.name.startswith("kept")] == []


def test_nothing_is_kept_where_compiled_code_goes_elsewhere(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    loaded(place)[0].keep()
    monkeypatch.setattr(sys, "pycache_prefix", str(place / "elsewhere"))
    modules, gate, _ = loaded(place)
    assert not is_kept(gate)
    (place / "kept").unlink()
    modules.keep()
    assert not (place / "kept").exists()


def test_nothing_is_kept_where_no_compiled_code_is_to_be_written(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    loaded(place)[0].keep()
    assert not (place / "kept").exists()


def test_where_it_cannot_be_written_all_goes_without(place: Path) -> None:
    forget()
    modules = KeptModules(place / "no such folder" / "kept")
    sys.meta_path.insert(0, modules)
    assert importlib.import_module("meadow.gate").IS == "open"
    modules.keep()
    (place / "kept").mkdir()
    KeptModules(place / "kept")
    modules = loaded(place)[0]
    modules.keep()  # the place is taken
    assert [path.name for path in place.iterdir() if path.name.startswith("kept")] == ["kept"]


def test_the_command_loads_what_it_kept_and_says_the_same(tmp_path: Path) -> None:
    """A copy of the product, as it is installed: the first run keeps its modules, the second loads them."""
    for package in (precover, precover_rules, precover_schemas):
        root = Path(str(package.__file__)).parent
        for source in root.rglob("*"):
            if source.is_file() and "__pycache__" not in source.parts:
                target = tmp_path / root.name / source.relative_to(root)
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(source.read_bytes())
    (tmp_path / "precover" / "app" / "__pycache__").mkdir()
    (tmp_path / "precover-0.1.0.dist-info").mkdir()
    points = "[precover]\nbuilt-in = precover_rules.plugin\n"
    (tmp_path / "precover-0.1.0.dist-info" / "entry_points.txt").write_text(points)
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}

    def said(*arguments: str) -> tuple[int, bytes, bytes]:
        command = [sys.executable, "-c", f"import sys; sys.path.insert(0, {str(tmp_path)!r}); {START}", *arguments]
        done = subprocess.run(command, env=environment, capture_output=True, check=False)
        return done.returncode, done.stdout, done.stderr

    plan = str(tmp_path / "precover" / "examples" / "orchard-pump-uncorrected.plan.yaml")
    first = said("review", plan)
    kept = list((tmp_path / "precover" / "app" / "__pycache__").glob("modules.*"))
    assert len(kept) == 1
    assert b"precover_rules.burial.minimum_cover" in kept[0].read_bytes()
    assert said("review", plan) == first
    assert first[0] == 1
    rule = tmp_path / "precover_rules" / "burial" / "minimum_cover.py"
    rule.write_text(rule.read_text().replace('"cover"', '"depth of cover"'))
    assert b"depth of cover: 8 in" in said("review", plan)[1]
