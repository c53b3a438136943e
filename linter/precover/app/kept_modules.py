"""The compiled modules of packages, kept in one file.

Python keeps one file for each module, and to find, check and read three hundred of them takes a tenth of the command's
time. As with those, a module is taken from what is kept only as long as its source has the time and size that it had, and
nothing is kept where the folder cannot be written to, or where Python is told to write no compiled code, or elsewhere.

The file begins with lines: the interpreter, then of each package its name, the checksum of its modules and their length. What
is damaged counts as not kept.
"""

from __future__ import annotations

import marshal
import os
import sys
from binascii import crc32
from collections.abc import Mapping, Sequence
from importlib.machinery import ModuleSpec, SourceFileLoader
from pathlib import Path
from types import CodeType, ModuleType
from typing import Final

_PYTHON: Final = " ".join(f"{sys.version} {sys.flags.optimize}".split())
"""Code is for the very interpreter that compiled it."""

_OF_PACKAGE: Final = f"{os.sep}__init__.py"

_Module = tuple[str, str, str, int, int, CodeType] | None
"""The folder that its package has its modules in, its source file, the file that Python keeps its compiled code in, the
time (ns) and size of the source, and the code; None for a module that is no Python source."""


class KeptModules:
    """Finds modules inside packages, and loads them from what is kept. A package itself is found as ever, and so is the
    folder that it has its modules in."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self._packages = _read(file)
        self._kept: dict[str, dict[str, _Module]] = {}
        self._lacks = False

    def find_spec(self, name: str, path: Sequence[str] | None, _target: ModuleType | None = None) -> ModuleSpec | None:
        """How to load a module of a package that has its modules in `path`; None where Python has to find it."""
        if path is None:
            return None
        module = self._of_package(name.partition(".")[0]).get(name, ())
        if not module:
            self._lacks |= module is not None
            return None
        folder, source, cached, time, size, code = module
        if folder not in path or _time_and_size(source) != (time, size):
            self._lacks = True
            return None
        spec = ModuleSpec(name, _Loader(name, source, code), origin=source)
        spec.has_location = True
        spec.cached = cached  # Python would work it out
        if source.endswith(_OF_PACKAGE):
            spec.submodule_search_locations = [source.removesuffix(_OF_PACKAGE)]
        return spec

    def keep(self) -> None:
        """Keep what was loaded too, if any of it was not kept yet. The command does not fail for it."""
        if not self._lacks or sys.dont_write_bytecode or sys.pycache_prefix is not None:
            return
        beside = self.file.with_name(f"{self.file.name}.{os.getpid()}")
        try:
            with beside.open("wb") as file:
                for package, modules in _loaded().items():
                    self._packages[package] = marshal.dumps({**self._of_package(package), **modules})
                file.write(_written(self._packages))
            beside.replace(self.file)
        except Exception:  # a folder that is not ours, or full, or a source that is being written just now
            _remove(beside)

    def _of_package(self, package: str) -> dict[str, _Module]:
        kept = self._kept.get(package)
        if kept is None:
            kept = self._kept[package] = _unpacked(self._packages[package]) if package in self._packages else {}
        return kept


class _Loader(SourceFileLoader):
    """Loads a module that is kept."""

    def __init__(self, name: str, source: str, code: CodeType) -> None:
        super().__init__(name, source)
        self._code = code

    def get_code(self, _name: str) -> CodeType:
        """Its code."""
        return self._code


def _read(file: Path) -> dict[str, bytes | memoryview]:
    """What is kept of each package; nothing where nothing is kept yet, or by another interpreter."""
    if sys.pycache_prefix is not None:
        return {}
    try:
        raw = file.read_bytes()
    except OSError:
        return {}
    head, _, _ = raw.partition(b"\n\n")
    python, *lines = head.decode(errors="replace").split("\n")
    if python != _PYTHON:
        return {}
    found: dict[str, bytes | memoryview] = {}
    at = len(head) + 2
    for name, checksum, length in (line.split(" ") for line in lines if line.count(" ") == 2):
        if not length.isdecimal():
            break
        package = memoryview(raw)[at : at + int(length)]
        if str(crc32(package)) == checksum:
            found[name] = package
        at += int(length)
    return found


def _written(packages: Mapping[str, bytes | memoryview]) -> bytes:
    lines = [_PYTHON, *(f"{name} {crc32(modules)} {len(modules)}" for name, modules in packages.items())]
    return b"".join(["\n".join(lines).encode(), b"\n\n", *packages.values()])


def _unpacked(package: bytes | memoryview) -> dict[str, _Module]:
    modules: dict[str, _Module] = marshal.loads(package)  # noqa: S302  # code, as Python's own files are
    return modules


def _time_and_size(source: str) -> tuple[int, int] | None:
    try:
        stated = os.stat(source)  # noqa: PTH116  # a Path for every module would take longer
    except OSError:
        return None
    return stated.st_mtime_ns, stated.st_size


def _loaded() -> dict[str, dict[str, _Module]]:
    """By package, the modules that Python has found itself."""
    found: dict[str, dict[str, _Module]] = {}
    for name, module in sys.modules.items():
        spec = getattr(module, "__spec__", None)
        folders = getattr(sys.modules.get(name.rpartition(".")[0]), "__path__", None)
        if spec is None or not folders or isinstance(spec.loader, _Loader):
            continue
        loader, source, cached = spec.loader, spec.origin, spec.cached
        is_source = type(loader) is SourceFileLoader and spec.name == name and source and cached
        stated = _time_and_size(source) if is_source else None
        kept = stated and (folders[0], source, cached, *stated, loader.get_code(name))
        found.setdefault(name.partition(".")[0], {})[name] = kept
    return found


def _remove(file: Path) -> None:
    from contextlib import suppress

    with suppress(OSError):
        file.unlink(missing_ok=True)
