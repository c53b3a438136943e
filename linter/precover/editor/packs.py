"""Rule packs in an editor: what is wrong with the text of one, by itself and as a change of what it extends."""

from __future__ import annotations

from pathlib import Path

from precover.reading import Located
from precover.rulebook import PackUnreadable
from precover.rulebook.book import Library
from precover.rulebook.packs.local_file import document_of, pack_of


def problems_of(name: str, raw: bytes, library: Library) -> tuple[Located, ...]:
    """Everything that keeps a pack file from being used, each with its place in it. Its own tests are not run: they read
    what is saved (`precover packs check`)."""
    try:
        document = document_of(name, raw)
    except PackUnreadable as problem:
        return tuple(problem.problems)
    try:
        library.over(pack_of(document)._replace(file=Path(name).resolve()))
    except PackUnreadable as problem:
        here = tuple(one for one in problem.problems if one.file == name)
        return here or (document.locate("/extends", problem.message, problem.hint),)
    return ()
