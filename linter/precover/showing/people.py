"""The people's form: an inspector's field sheet of one review."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import groupby

from precover.amending.way import Mark, Way
from precover.reviewing import Finding, Review, ToInspect
from precover.rulebook import Outcome, Stage
from precover.showing.asking import Query, to_settle
from precover.showing.cautions import CAUTIONS
from precover.showing.sentences import command_name, counted, counts, pack_in_words, stop_of, where
from precover.showing.sheet import INDENT, Sheet

BOX = "[ ] "
_STAGE = max(len(stage.value) for stage in Stage) + 2
NO_WAYS: Mapping[Mark, Way] = {}


def put_review(
    sheet: Sheet,
    review: Review,
    ways: Mapping[Mark, Way] = NO_WAYS,
    *,
    ledger: bool = False,
    inspections: bool = False,
) -> None:
    """Put a whole review on the sheet, with the proved way out of each finding that has one; the inspection list in
    full only with `inspections`."""
    _head(sheet, review)
    items = to_settle(review)
    _items(sheet, review, items, ways)
    _failures(sheet, review)
    if ledger:
        from precover.showing.ledger import put_ledger

        put_ledger(sheet, review)
    _outcome(sheet, review, items)
    if inspections:
        _inspections_in_full(sheet, review)
    else:
        _inspections(sheet, review)


def put_cautions(sheet: Sheet) -> None:
    """Put the cautions on the sheet: once, below the last review."""
    sheet.heading("Before anything is done")
    for caution in CAUTIONS:
        sheet.text(caution, mark="  - ")
    sheet.gap()


def _head(sheet: Sheet, review: Review) -> None:
    sheet.heading("Plan review")
    sheet.entry("file", review.document.source.name, indent=0)
    title = review.trace.plan.title
    if title:
        sheet.entry("plan", title, indent=0)
    packs = review.book.packs
    said = "the plan names no rules: the default is used" if review.rules_defaulted else ""
    for number, pack in enumerate(packs):
        note = f"; {said}" if said else ""
        sheet.entry("rules" if number == 0 else "", f"{pack_in_words(pack)}{note}", indent=0)
    if review.book.on_top:
        from precover.showing.in_force import put_changes

        put_changes(sheet, review.book)


def _items(sheet: Sheet, review: Review, items: list[Finding | Query], ways: Mapping[Mark, Way]) -> None:
    """What is to be settled, stop by stop in the order of the walk."""
    if not items:
        return
    from precover.showing.items import put_finding, put_query

    number = 0
    for stop, here in groupby(items, key=lambda item: stop_of(_place(item))):
        sheet.heading(_capital(where(review, stop)))
        for item in here:
            number += 1
            sheet.gap()
            if isinstance(item, Query):
                put_query(sheet, review, number, item)
            else:
                put_finding(sheet, review, number, item, ways)


def _place(item: Finding | Query) -> str:
    return item.place if isinstance(item, Query) else item.line.place


def _failures(sheet: Sheet, review: Review) -> None:
    if not review.failures:
        return
    sheet.heading("Rules that could not be loaded")
    sheet.text("Nothing that they check was checked.", indent=INDENT)
    for name, reason in review.failures:
        sheet.text(f"{name}: {reason}", mark="  - ")


def _outcome(sheet: Sheet, review: Review, items: list[Finding | Query]) -> None:
    tally = review.tally
    ran = sum(tally.values()) - tally[Outcome.DOES_NOT_APPLY]
    sheet.heading("How it stands")
    found = counts(item.severity for item in items)
    if found:
        sheet.entry("to settle", counted(found), indent=INDENT)
    else:
        sheet.entry("to settle", "nothing found by these checks", indent=INDENT)
    told = f"{tally[Outcome.MET]} met, {tally[Outcome.NOT_MET]} not met, {tally[Outcome.CANNOT_TELL]} could not be told"
    sheet.entry("checks", f"of {sum(tally.values())} made, {ran} apply to this plan: {told}", indent=INDENT)
    if tally[Outcome.NOT_MET]:
        name = command_name(review.document.source.name)
        sheet.entry("", f"`precover amend {name}` looks for the least changes that settle what is not met")
    if not found:
        sheet.entry("", "what no check covers was not looked at; `precover topics` lists what is", indent=INDENT)


def _inspections(sheet: Sheet, review: Review) -> None:
    """What a person on site looks at, by stage, in a few words each."""
    if not review.inspect:
        return
    sheet.heading("To be seen on site")
    for stage in Stage:
        names = [_in_words(entry) for entry in review.inspect if entry.item.stage is stage]
        if names:
            sheet.entry(stage.value, "; ".join(dict.fromkeys(names)), column=_STAGE)
    name = command_name(review.document.source.name)
    sheet.text(f"`precover review {name} --inspections` says of each what to look for, and where", indent=INDENT)


def _in_words(entry: ToInspect) -> str:
    return entry.item.id.rpartition("/")[2].replace("-", " ")


def _inspections_in_full(sheet: Sheet, review: Review) -> None:
    """The same as a list to tick off, with the plan's numbers; one sentence about several things is said once."""
    if not review.inspect:
        return
    sheet.heading("To be seen on site")
    for stage in Stage:
        places: dict[str, list[str]] = {}
        for entry in review.inspect:
            if entry.item.stage is stage:
                places.setdefault(entry.says, []).append(where(review, entry.subject))
        if places:
            sheet.gap()
            sheet.text(stage.value, indent=INDENT, style="label")
        for says, things in places.items():
            sheet.text(f"{says} ({_listed(things)})", mark=BOX, indent=INDENT)


def _listed(things: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(things))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
