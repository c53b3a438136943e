"""`precover impact`: many plans under two sets of rules, and what changes between them."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from typing import Final

from precover.app.files import not_an_input, plans_named, read
from precover.app.output import new_sheet, put, put_sheet
from precover.app.packs import book_of, library, not_a_pack
from precover.reading import Located, PlanUnreadable
from precover.reviewing import open_plan, review
from precover.reviewing.impact import Impact, impact
from precover.rulebook import PackUnreadable, Severity

FEW: Final = 24
"""Plans that one process reviews faster than several that have to be started."""
AT_ONCE: Final = 16
"""Plans that a process is handed together."""
_SEVERITIES: Final = {severity.word: severity for severity in sorted(Severity, reverse=True)}

Row = Impact | tuple[Located, ...]
"""What became of a plan, or what keeps it from being read."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("plans", nargs="+", metavar="PLAN", help="a plan file, or a folder of *.plan.yaml")
    for name, what in (("from", "in force now"), ("to", "to compare with")):
        parser.add_argument(
            f"--{name}",
            action="append",
            required=True,
            metavar="PACK",
            dest=f"{name}_packs",
            help=f"rule pack {what}, by name or path of its file, base first (repeatable)",
        )
    parser.add_argument(
        "--fail-at",
        choices=tuple(_SEVERITIES),
        default="correction",
        help="lowest severity that makes a plan fail (default: correction)",
    )
    parser.add_argument("--form", choices=("people", "json"), default="people", help="people (default) or json")
    parser.add_argument("--output", metavar="FILE", help="write to a file instead of standard output")


def run(chosen: argparse.Namespace) -> int:
    """Review every plan twice: 0 if none newly fails, 1 if one does, 2 if one could not be reviewed."""
    before, after = tuple(chosen.from_packs), tuple(chosen.to_packs)
    books = book_of(before), book_of(after)
    names = list(plans_named(chosen.plans))
    not_an_input(chosen.output, names)
    not_a_pack(chosen.output, *books)
    rows = list(_told(_rows(names, before, after), len(names)))
    threshold = _SEVERITIES[chosen.fail_at]
    if chosen.form == "json":
        from precover.showing.impact_json import impact_json

        put(impact_json(books, rows, threshold), chosen.output)
    else:
        from precover.showing.impact_sheet import put_impact

        sheet = new_sheet(chosen.output)
        put_impact(sheet, books, rows, threshold)
        put_sheet(sheet, chosen.output)
    if any(not isinstance(row, Impact) or row.failures for row in rows):
        return 2
    return int(any(isinstance(row, Impact) and row.newly_fails(threshold) for row in rows))


def _rows(names: Sequence[str], before: tuple[str, ...], after: tuple[str, ...]) -> Iterator[Row]:
    """What becomes of each plan, in their order, on all cores where there are many."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    if len(names) <= FEW or cores == 1:
        yield from (_row(name, before, after) for name in names)
        return
    with ProcessPoolExecutor(cores) as pool:
        yield from pool.map(partial(_row, before=before, after=after), names, chunksize=AT_ONCE)


def _row(name: str, before: tuple[str, ...], after: tuple[str, ...]) -> Row:
    """One plan; what keeps it from being reviewed is a row too."""
    try:
        opened = open_plan(*read(name))
        return impact(review(opened, library(), before), review(opened, library(), after))
    except PlanUnreadable as problem:
        return problem.problems
    except PackUnreadable as problem:
        return (Located(name, 0, 0, problem.message, problem.hint),)


def _told(rows: Iterator[Row], count: int) -> Iterator[Row]:
    """The rows as they come, with how far it is told to the person who waits."""
    watched = count > FEW and sys.stderr is not None and sys.stderr.isatty()
    for number, row in enumerate(rows, start=1):
        if watched and (number % 10 == 0 or number == count):
            sys.stderr.write(f"\r{number} of {count} plans" + ("\n" if number == count else ""))
            sys.stderr.flush()
        yield row
