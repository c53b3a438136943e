"""Topics: what a finding cites. A module of rules with a document beside it."""

from __future__ import annotations

import importlib
import os
from collections.abc import Callable, Iterator
from operator import attrgetter
from pathlib import Path
from types import ModuleType

from precover.record import Record
from precover.rulebook.rule import Inspection, Rule


class Topic(Record):
    """A topic with its rules and inspections, sorted by id. Its id is its path below the package it comes from.

    `written` is its text where a pack brought or replaced it, `look_up` the place to look up that a pack gives for all
    of it, `set_by` that pack.
    """

    id: str
    document: Path
    rules: tuple[Rule, ...]
    inspections: tuple[Inspection, ...]
    plugin: str = ""
    written: str = ""
    look_up: str = ""
    set_by: str = ""

    def text(self) -> str:
        """The topic's document, in Markdown."""
        return self.written or self.document.read_text(encoding="utf-8")

    @property
    def title(self) -> str:
        """The document's first heading."""
        if self.written:
            return self.written.partition("\n")[0].removeprefix("#").strip()
        with self.document.open(encoding="utf-8") as lines:
            return lines.readline().removeprefix("#").strip()

    def rewritten(self, title: str, text: str, look_up: str, set_by: str) -> Topic:
        """The topic with what a pack puts in place of its title, its text and where to look it up ("" leaves it)."""
        body = text or self.text().partition("\n")[2].strip()
        written = f"# {title or self.title}\n\n{body}\n" if title or text else self.written
        return self._replace(written=written, look_up=look_up or self.look_up, set_by=set_by)

    @property
    def rows(self) -> tuple[str, ...]:
        """The requirement rows that its rules and inspections cover."""
        parts: tuple[Rule | Inspection, ...] = (*self.rules, *self.inspections)
        return tuple(dict.fromkeys(row for part in parts for row in part.rows))


def topics_below(package: ModuleType) -> Iterator[Topic]:
    """Every topic of a package: each module that has a document of the same name beside it."""
    root = Path(str(package.__file__)).parent
    for inside in sorted(_documented(str(root))):
        dotted = inside.replace("/", ".")
        yield _topic(importlib.import_module(f"{package.__name__}.{dotted}"), root / f"{inside}.md", dotted)


def _documented(folder: str, inside: str = "") -> Iterator[str]:
    """The paths of the modules that have a document beside them, from the folder and without their ending."""
    with os.scandir(folder) as entries:
        here = {entry.name: entry.is_dir() for entry in entries}
    for name, is_folder in here.items():
        if name.endswith(".md") and f"{name[:-3]}.py" in here:
            yield f"{inside}{name[:-3]}"
        elif is_folder and name != "__pycache__":
            yield from _documented(f"{folder}/{name}", f"{inside}{name}/")


def _topic(module: ModuleType, document: Path, dotted: str) -> Topic:
    name = dotted.replace(".", "/").replace("_", "-")
    rules: list[Rule] = []
    inspections: list[Inspection] = []
    for key, part in vars(module).items():
        kind = type(part)
        if kind is Rule:
            rules.append(part.named(name, key))
        elif kind is Inspection:
            inspections.append(part.named(name, key))
    by_id: Callable[[Rule | Inspection], str] = attrgetter("id")
    return Topic(name, document, tuple(sorted(rules, key=by_id)), tuple(sorted(inspections, key=by_id)))
