"""`precover amend`: the least changes that settle a plan's findings, shown or written."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from precover.amending.amendment import Amendment, amendments
from precover.amending.prover import Prover
from precover.amending.rewriting import Unwritable, rewritten
from precover.amending.writing import FileChanged, write
from precover.app.files import STDIN, not_an_input, read
from precover.app.output import new_sheet, put, put_sheet, reason, tell
from precover.app.packs import checked, not_a_pack, reviewed
from precover.app.refused import Refused
from precover.reading import PlanUnreadable
from precover.reviewing import OpenPlan, Review, open_plan
from precover.rulebook import Outcome


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("plan", metavar="PLAN", help="a plan file, or - for standard input")
    parser.add_argument("--form", choices=("people", "json"), default="people", help="people (default) or json")
    parser.add_argument("--write", action="store_true", help="edit the plan file in place")
    which = parser.add_mutually_exclusive_group()
    which.add_argument("--choose", type=int, metavar="N", help="with --write: the amendment of that number")
    which.add_argument("--least", action="store_true", help="with --write: the amendment of the least effort")
    parser.add_argument("--keep-previous", action="store_true", help="with --write: keep the file as it was beside it")
    parser.add_argument(
        "--pack",
        action="append",
        default=[],
        metavar="PACK",
        help="rule pack in force, by name or path of its file, base first, instead of the plan's own (repeatable)",
    )
    parser.add_argument("--output", metavar="FILE", help="write what is shown to a file instead of standard output")


def run(chosen: argparse.Namespace) -> int:
    """Find amendments, and show or write them: 0 if nothing is left that is not met, else 1."""
    _check(chosen)
    packs = checked(tuple(chosen.pack))
    not_an_input(chosen.output, [chosen.plan])
    try:
        shown, raw = read(chosen.plan)
        opened = open_plan(shown, raw)
        made = reviewed(opened, packs)
    except PlanUnreadable as problem:
        from precover.showing.error_lines import problem_lines

        for line in problem_lines(problem.problems):
            tell(line)
        return 2
    not_a_pack(chosen.output, made.book)
    offered = amendments(Prover(opened, made))
    if chosen.write:
        return _write(chosen, opened, raw, made, offered)
    _show(chosen, made, offered)
    settled = not made.tally[Outcome.NOT_MET] or any(not amendment.left for amendment in offered)
    return 0 if settled else 1


def _check(chosen: argparse.Namespace) -> None:
    if chosen.write and (chosen.plan == STDIN or Path(chosen.plan).absolute().parts[1:2] in (("dev",), ("proc",))):
        raise Refused("standard input cannot be written; name a file, or leave --write out")
    if chosen.write and chosen.choose is None and not chosen.least:
        raise Refused("--write does not say which amendment; add --least, or --choose with its number")
    if not chosen.write and (chosen.choose is not None or chosen.least or chosen.keep_previous):
        raise Refused("--choose, --least and --keep-previous go with --write; add it, or leave them out")


def _show(chosen: argparse.Namespace, made: Review, offered: Sequence[Amendment]) -> None:
    if chosen.form == "json":
        from precover.showing.amendment_json import amendments_json

        put(amendments_json(made, offered), chosen.output)
        return
    from precover.showing.amendment_sheet import put_amendments
    from precover.showing.people import put_cautions

    sheet = new_sheet(chosen.output)
    put_amendments(sheet, made, offered)
    put_cautions(sheet)
    put_sheet(sheet, chosen.output)


def _write(chosen: argparse.Namespace, opened: OpenPlan, raw: bytes, made: Review, offered: Sequence[Amendment]) -> int:
    if not made.tally[Outcome.NOT_MET]:
        tell(f"{chosen.plan}: nothing that a change would settle; the file stays as it is")
        return 0
    number = 1 if chosen.least else chosen.choose
    if not 1 <= number <= len(offered):
        raise Refused(
            f"there is no amendment {number} of {chosen.plan}; {len(offered)} offered, the file stays as it is"
        )
    amendment = offered[number - 1]
    try:
        kept = write(Path(chosen.plan), raw, rewritten(opened.document, amendment.patch), keep=chosen.keep_previous)
    except Unwritable as problem:
        raise Refused(f"{chosen.plan} stays as it is: {problem}") from None
    except FileChanged as problem:
        raise Refused(f"{problem}; nothing was written, review it again") from None
    except OSError as problem:
        raise Refused(f"{chosen.plan} cannot be written: {reason(problem)}; it stays as it is") from None
    # Told first: whatever becomes of the sheet, the file is not what it was.
    tell(f"{chosen.plan}: written, with {len(amendment.proposals)} changes" + (f"; before: {kept}" if kept else ""))
    _show(chosen, made, [amendment])
    return 1 if amendment.left else 0
