"""`precover review`: plans in, field sheets or documents out."""

from __future__ import annotations

import argparse
from typing import Final

from precover.amending.way import Proved
from precover.app.files import STDIN, not_an_input, plans_named, read
from precover.app.output import new_sheet, put, put_sheet, tell
from precover.app.packs import checked, not_a_pack, reviewed
from precover.app.refused import Refused
from precover.reading import Located, PlanUnreadable
from precover.reviewing import open_plan
from precover.rulebook import Outcome, Severity

FORMS: Final = ("people", "json", "sarif", "lines")
_SEVERITIES: Final = {severity.word: severity for severity in sorted(Severity, reverse=True)}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "plans", nargs="+", metavar="PLAN", help="a plan file, a folder of *.plan.yaml, or - for standard input"
    )
    parser.add_argument(
        "--form", choices=FORMS, default="people", help="people (default), json, sarif, or one line a finding"
    )
    parser.add_argument("--ledger", action="store_true", help="show every check that ran, met ones too")
    parser.add_argument(
        "--inspections", action="store_true", help="show the inspection list in full, to tick off on site"
    )
    parser.add_argument(
        "--fail-at",
        choices=tuple(_SEVERITIES),
        default="correction",
        help="lowest severity that makes the exit status 1 (default: correction)",
    )
    parser.add_argument(
        "--pack",
        action="append",
        default=[],
        metavar="PACK",
        help="rule pack in force, by name or path of its file, base first, instead of the plan's own (repeatable)",
    )
    parser.add_argument("--watch", action="store_true", help="review again whenever a file is saved, until Ctrl-C")
    parser.add_argument("--output", metavar="FILE", help="write to a file instead of standard output")


def run(chosen: argparse.Namespace) -> int:
    """Review every plan; the worst exit status."""
    packs = checked(tuple(chosen.pack))
    if not chosen.watch:
        return _run(chosen, packs)
    if STDIN in chosen.plans:
        raise Refused("standard input cannot be watched; name a file or a folder")
    from precover.app.watching import watch

    return watch(chosen.plans, lambda: _run(chosen, packs))


def _run(chosen: argparse.Namespace, packs: tuple[str, ...]) -> int:
    names = list(plans_named(chosen.plans))
    not_an_input(chosen.output, names)
    reviews: list[Proved] = []
    unreadable: list[tuple[Located, ...]] = []
    for name in names:
        try:
            reviews.append(_reviewed(name, packs))
        except PlanUnreadable as problem:
            unreadable.append(problem.problems)
    not_a_pack(chosen.output, *(made.review.book for made in reviews))
    _show(chosen, reviews, unreadable)
    if unreadable or any(made.review.failures for made in reviews):
        return 2
    threshold = _SEVERITIES[chosen.fail_at]
    worst = [found for made in reviews if (found := made.review.worst()) is not None]
    return int(any(found >= threshold for found in worst))


def _reviewed(name: str, packs: tuple[str, ...]) -> Proved:
    shown, raw = read(name)
    opened = open_plan(shown, raw)
    made = reviewed(opened, packs)
    if not made.tally[Outcome.NOT_MET]:
        return Proved(made, {})
    from precover.amending.prover import ways_out  # a good plan does not wait for it

    return Proved(made, ways_out(made, opened))


def _show(chosen: argparse.Namespace, reviews: list[Proved], unreadable: list[tuple[Located, ...]]) -> None:
    if chosen.form == "json":
        from precover.showing.as_json import review_json

        put(review_json(reviews, unreadable, ledger=chosen.ledger), chosen.output)
    elif chosen.form == "sarif":
        from precover.showing.sarif import sarif_log

        put(sarif_log(reviews, unreadable, ledger=chosen.ledger), chosen.output)
    else:
        (_lines if chosen.form == "lines" else _sheets)(chosen, reviews)
        if unreadable:
            from precover.showing.error_lines import problem_lines

            for line in (line for problems in unreadable for line in problem_lines(problems)):
                tell(line)


def _lines(chosen: argparse.Namespace, reviews: list[Proved]) -> None:
    from precover.showing.cautions import CAUTIONS
    from precover.showing.error_lines import review_lines

    lines = [line for made in reviews for line in review_lines(made.review, ledger=chosen.ledger)]
    put("".join(f"{line}\n" for line in lines), chosen.output)
    if reviews:
        tell(f"precover: {CAUTIONS[0]}")


def _sheets(chosen: argparse.Namespace, reviews: list[Proved]) -> None:
    from precover.showing.people import put_cautions, put_review

    if not reviews:
        return
    sheet = new_sheet(chosen.output)
    for made in reviews:
        put_review(sheet, made.review, made.ways, ledger=chosen.ledger, inspections=chosen.inspections)
    put_cautions(sheet)
    put_sheet(sheet, chosen.output)
