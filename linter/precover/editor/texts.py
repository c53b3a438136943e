"""One open text: what the editor shows now, and what the last look at it gave."""

from __future__ import annotations

import os
from collections.abc import Callable
from functools import cached_property
from pathlib import Path
from typing import Any

from pygls import uris

from precover.amending.prover import Prover
from precover.amending.way import Mark, Way
from precover.editor.kinds import Kind, kind_of
from precover.editor.packs import problems_of
from precover.editor.positions import Positions
from precover.reading import Located, PlanUnreadable, decode
from precover.reading.pieces import Pieces
from precover.reviewing import OpenPlan, Review, book_for, open_data, review
from precover.reviewing.again import review_since
from precover.rulebook import PackUnreadable
from precover.rulebook.book import Library


class Stale(Exception):
    """What was being worked out is of a version that is not there any more."""


class Reviewed:
    """A version of a text that could be reviewed, with its review."""

    def __init__(self, positions: Positions, opened: OpenPlan, made: Review) -> None:
        self.positions = positions
        self.opened = opened
        self.review = made
        self.ways: dict[Mark, Way | None] = {}
        """Ways out that were looked for, by the finding."""

    @cached_property
    def prover(self) -> Prover:
        """Tries edits of this version."""
        return Prover(self.opened, self.review)


Examined = tuple[Reviewed | None, tuple[Located, ...]]
"""A version with its review, or with what keeps it from being reviewed."""


class OpenText:
    """A text that an editor has open.

    `turn` counts the versions that there were of it and of what it is reviewed by; `seen` is the last turn looked at,
    with `problems` as what keeps it from being reviewed, and `last` the last version that could be.
    """

    def __init__(self, uri: str, text: str, version: int | None, encoding: str, language: str = "") -> None:
        self.uri = uri
        self.language = language
        self.name = name_of(uri)
        self.turn = 0
        self.seen = -1
        self.problems: tuple[Located, ...] = ()
        self.last: Reviewed | None = None
        self._encoding = encoding
        self._pieces = Pieces()
        self.take(text, version)

    def take(self, text: str, version: int | None) -> None:
        """The editor has another version."""
        self.text = text
        self.version = version
        self.positions = Positions(text, self._encoding)
        self.kind = kind_of(self.uri, self.language, text)
        self.turn += 1

    @property
    def now(self) -> Reviewed | None:
        """The review of the version that the editor shows; None while that cannot be reviewed, or is not yet."""
        return self.last if self.last is not None and self.last.positions is self.positions else None

    @property
    def data(self) -> Any:
        """Plain data of the last version that could be reviewed."""
        return self.last.opened.document.data if self.last is not None else {}

    def examined(self, library: Library, packs: tuple[str, ...], wanted: Callable[[], bool]) -> Examined:
        """The version that is there when this is called, reviewed, or why it cannot be; Stale as soon as it is not
        `wanted` any more. Changes nothing that the editor's side reads."""
        positions, before, kind = self.positions, self.last, self.kind
        raw = positions.text.encode("utf-8", "surrogatepass")
        if kind is not Kind.PLAN:
            return None, problems_of(self.name, raw, library) if kind is Kind.PACK else ()
        try:
            document = self._pieces.read(decode(self.name, raw))
            _check(wanted)
            opened = open_data(document, document.data)
            _check(wanted)
        except PlanUnreadable as problem:
            return None, problem.problems
        try:
            book = book_for(opened, library, packs)
            made = (
                review_since(before.review, opened, library, packs)
                if before is not None and before.review.book is book
                else review(opened, library, packs)
            )
        except PackUnreadable as problem:
            return None, (document.locate("/rules", problem.message, problem.hint),)
        made.findings  # noqa: B018 - sorted here, beside the editor's side
        _check(wanted)
        return Reviewed(positions, opened, made), ()


def name_of(uri: str) -> str:
    """A document as a path from where the server runs, where it is a file below; else its path, or its address."""
    path = uris.to_fs_path(uri) if uri.startswith("file:") else None
    if path is None:
        return uri
    relative = os.path.relpath(path) if Path(path).drive == Path.cwd().drive else path
    return path if relative.startswith("..") else relative


def _check(wanted: Callable[[], bool]) -> None:
    if not wanted():
        raise Stale
