"""A pack from one YAML file: bytes to positions, against the schema, to typed changes. It runs no code."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from precover.reading import Document, Located, PlanUnreadable, against_schema, decode, parse
from precover.reading.source import LARGEST_FILE
from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.packs.file_changes import FileChanges, unreadable
from precover.rulebook.packs.paths import found


def read_pack(name: str, at: Path | None = None) -> Pack:
    """The pack in a file, by the rules of `paths.found`; PackUnreadable with every place that is wrong."""
    path = found(name, at)
    try:
        told = path.stat()
        return _read(path, name, told.st_mtime_ns, told.st_size)
    except OSError as problem:
        why = (problem.strerror or str(problem)).lower()
        raise PackUnreadable(f"the rule pack `{name}` cannot be read: {why}", "check its permissions") from None


@lru_cache(maxsize=64)
def _read(path: Path, name: str, _changed: int, _size: int) -> Pack:
    """Read once for as long as the file stays as it is."""
    with path.open("rb") as file:
        document = document_of(name, file.read(LARGEST_FILE + 1))
    return pack_of(document)._replace(file=path)


def document_of(name: str, raw: bytes) -> Document:
    """The document in a pack file's bytes, valid against the schema."""
    try:
        document = parse(decode(name, raw))
    except PlanUnreadable as problem:
        raise unreadable(name, [_of_a_pack(one) for one in problem.problems]) from None
    problems = against_schema(document.data, "pack")
    if problems:
        located = [document.locate(one.place, one.message, one.hint, key=one.key) for one in problems]
        raise unreadable(name, [_of_a_pack(one) for one in PlanUnreadable(located).problems])
    return document


def pack_of(document: Document) -> Pack:
    """The pack that a valid document describes."""
    data = document.data
    changes = FileChanges(document)
    if changes.problems:
        raise unreadable(document.source.name, PlanUnreadable(changes.problems).problems)
    return Pack(
        id=data["id"],
        title=data["title"],
        edition="",
        notes=data.get("notes", ""),
        changes=data["extends"],
        read=changes,
        adopted_by=data.get("adopted-by", ""),
        effective=data.get("effective", ""),
    )


def _of_a_pack(problem: Located) -> Located:
    """A sentence of the reading floor, which speaks of plans, said of a pack."""
    return problem._replace(message=_words(problem.message), hint=_words(problem.hint))


def _words(text: str) -> str:
    return (
        text.replace("`format: precover-plan/1`", "`format: precover-pack/1`")
        .replace("a plan", "a pack")
        .replace("the plan", "the pack")
    )
