"""`precover packs`: what rule packs there are, what they change, whether a pack file is right, and a start for one."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Final

from precover.app.output import new_sheet, put, put_sheet, tell
from precover.app.packs import book_of, library
from precover.app.refused import Refused

_DRAFT: Final = Path(__file__).parent / "draft.pack.yaml"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    does = parser.add_subparsers(metavar="WHAT", dest="what", required=True)
    listing = does.add_parser("list", help="the packs that are installed", allow_abbrev=False)
    _form(listing)
    show = does.add_parser("show", help="the values in force, and what was changed", allow_abbrev=False)
    show.add_argument("packs", nargs="+", metavar="PACK", help="packs by name or path, base first")
    show.add_argument("--table", metavar="TABLE", help="every cell of a table, instead of the limits")
    _form(show)
    check = does.add_parser("check", help="whether a pack file is right, by its own tests too", allow_abbrev=False)
    check.add_argument("file", nargs="+", metavar="FILE", help="a pack file")
    does.add_parser("draft", help="print a pack file to start from", allow_abbrev=False)


def _form(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--form", choices=("people", "json"), default="people", help="people (default) or json")


def run(chosen: argparse.Namespace) -> int:
    """Do what was asked; for `check` 1 if a test fails, 2 if a file cannot be used."""
    if chosen.what == "draft":
        put(_DRAFT.read_text(encoding="utf-8"))
        return 0
    if chosen.what == "list":
        _list(chosen)
        return 0
    if chosen.what == "show":
        _show(chosen)
        return 0
    return max(_check(name) for name in chosen.file)


def _list(chosen: argparse.Namespace) -> None:
    from precover.showing.packs import pack_list, put_pack_list

    packs = pack_list(list(library().packs.values()))
    if chosen.form == "json":
        from precover.showing.as_json import dumped

        put(dumped({"packs": packs}))
        return
    sheet = new_sheet()
    put_pack_list(sheet, packs)
    put_sheet(sheet)


def _show(chosen: argparse.Namespace) -> None:
    from precover.showing.packs import book_record, put_book

    book = book_of(tuple(chosen.packs))
    if chosen.table is not None and chosen.table not in book.tables:
        from difflib import get_close_matches

        near = get_close_matches(chosen.table, list(book.tables), n=1, cutoff=0.4)
        hint = f"did you mean {near[0]}?" if near else f"tables: {', '.join(sorted(book.tables))}"
        raise Refused(f"there is no table {chosen.table}; {hint}")
    if chosen.form == "json":
        from precover.showing.as_json import dumped

        put(dumped(book_record(book, chosen.table)))
        return
    sheet = new_sheet()
    put_book(sheet, book_record(book, chosen.table or "limits"))
    put_sheet(sheet)


def _check(name: str) -> int:
    from precover.reviewing.pack_tests import try_pack
    from precover.rulebook.packs.local_file import read_pack
    from precover.showing.error_lines import problem_lines

    if not Path(name).is_file():
        raise Refused(f"{name} is no file; name a pack file (`precover packs show` shows an installed pack)")
    path = name if "/" in name or name.endswith((".yaml", ".yml")) else f"./{name}"
    book = book_of((path,))
    tried = list(try_pack(read_pack(path), path, library()))
    for one in tried:
        for line in problem_lines(one.failed):
            tell(f"{line} (test `{one.name}`)")
    failed = sum(bool(one.failed) for one in tried)
    count = f"{len(tried)} {'test' if len(tried) == 1 else 'tests'}"
    told = f"{count}, {failed} of them failed" if failed else f"{count} passed"
    changes = sum(effect.pack == book.packs[-1].id for effect in book.effects)
    put(
        f"{name}: {changes} {'change' if changes == 1 else 'changes'} of {book.packs[-1].changes}, {told if tried else 'no tests'}\n"
    )
    return int(failed > 0)
