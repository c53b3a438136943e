"""The people's form of an impact: how many plans it changes, what, and which."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from precover.reading import Located
from precover.reviewing.impact import Impact
from precover.rulebook import Rulebook, Severity
from precover.showing.cautions import CAUTIONS
from precover.showing.error_lines import problem_lines
from precover.showing.impact_json import moved, topics
from precover.showing.sentences import pack_in_words
from precover.showing.sheet import Sheet

MOST_PLANS: Final = 20
"""Plans that a list names before it says how many more there are."""


def put_impact(
    sheet: Sheet, books: tuple[Rulebook, Rulebook], rows: Sequence[Impact | tuple[Located, ...]], threshold: Severity
) -> None:
    """Put the whole of it on the sheet."""
    read = [row for row in rows if isinstance(row, Impact)]
    unreadable = [row for row in rows if not isinstance(row, Impact)]
    fails = [row for row in read if row.newly_fails(threshold)]
    passes = [row for row in read if row.newly_passes(threshold)]
    others = [row for row in read if row not in fails and row not in passes and (row.gained or row.lost)]
    sheet.heading("Impact")
    for label, book in zip(("from", "to"), books, strict=True):
        for pack in book.packs:
            sheet.entry(label, pack_in_words(pack), indent=0)
            label = ""
    sheet.entry("plans", f"{len(read):,} reviewed twice, {len(unreadable):,} could not be read", indent=0)
    sheet.entry("fails", f"a plan with a finding of severity {threshold.word} or worse", indent=0)
    sheet.heading("How many change")
    for label, found in (("newly fail", fails), ("newly pass", passes), ("other", others)):
        more = " with other findings, failing or passing as before" if label == "other" else ""
        sheet.entry(label, f"{_plans(len(found))}{more}", indent=4)
    sheet.entry("as before", _plans(len(read) - len(fails) - len(passes) - len(others)), indent=4)
    _put_topics(sheet, read)
    _put_moved(sheet, read)
    _put_plans(sheet, "Newly fail", fails)
    _put_plans(sheet, "Newly pass", passes)
    _put_plans(sheet, "Other findings", others)
    if unreadable:
        sheet.heading("Could not be read")
        for problems in unreadable[:MOST_PLANS]:
            sheet.text(problem_lines(problems)[0], mark="  - ")
        _more(sheet, len(unreadable))
    sheet.heading("Before anything is concluded")
    for caution in CAUTIONS[:2]:
        sheet.text(caution, mark="  - ")
    sheet.gap()


def _put_topics(sheet: Sheet, read: Sequence[Impact]) -> None:
    found = topics(read)
    if not found:
        return
    sheet.heading("Findings by topic")
    for one in found:
        told = f"{one['gained']:,} gained, {one['lost']:,} lost, in {_plans(one['plans'])}"
        sheet.text(f"{one['topic']}: {told}", mark="  - ")


def _put_moved(sheet: Sheet, read: Sequence[Impact]) -> None:
    found = moved(read)
    if not found:
        return
    sheet.heading("Values that moved", "of those that plans were measured by")
    for one in found:
        told = f"{one['was']} -> {one['becomes']}, in {_plans(one['plans'])}"
        sheet.text(f"{one['table']} ({', '.join(one['key'])}): {told}", mark="  - ")


def _put_plans(sheet: Sheet, heading: str, found: Sequence[Impact]) -> None:
    if not found:
        return
    sheet.heading(heading, _plans(len(found)))
    for row in found[:MOST_PLANS]:
        sheet.text(row.file, mark="  - ")
        for label, findings in (("gained", row.gained), ("lost", row.lost)):
            for one in findings[:4]:
                sheet.entry(label, f"{one.severity.word}: {one.rule}, {one.subject or 'the plan'}", indent=4)
                label = ""
            if len(findings) > 4:
                sheet.entry("", f"and {len(findings) - 4} more", indent=4)
    _more(sheet, len(found))


def _more(sheet: Sheet, count: int) -> None:
    if count > MOST_PLANS:
        sheet.text(f"and {count - MOST_PLANS:,} more; --form json lists all", indent=4)


def _plans(count: int) -> str:
    return f"{count:,} {'plan' if count == 1 else 'plans'}"
