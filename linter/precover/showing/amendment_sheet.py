"""The people's form of amendments: what each changes, what it leaves, and what only the plan's author can state."""

from __future__ import annotations

from collections.abc import Sequence

from precover.amending.amendment import Amendment
from precover.amending.rewriting import why_not
from precover.amending.scalars import flow
from precover.reviewing import Review
from precover.rulebook import Outcome, Proposal
from precover.showing.asking import Query, to_settle
from precover.showing.changes import Change, changes
from precover.showing.sentences import EFFORTS, command_name, line_number, sentence, where
from precover.showing.sheet import INDENT, Sheet


def put_amendments(sheet: Sheet, review: Review, offered: Sequence[Amendment]) -> None:
    """Put every amendment offered on the sheet, and how to take one."""
    name = review.document.source.name
    sheet.heading("Amendments")
    sheet.entry("file", name, indent=0)
    if review.trace.plan.title:
        sheet.entry("plan", review.trace.plan.title, indent=0)
    wanting = review.tally[Outcome.NOT_MET]
    if not wanting:
        sheet.entry("found", "nothing that a change would settle", indent=0)
    elif not offered:
        sheet.entry("found", f"{wanting} not met, and no change tried on this plan settles any of it", indent=0)
    by_number = {number: why_not(review.document, one.patch) for number, one in enumerate(offered, start=1)}
    for (number, by_hand), amendment in zip(by_number.items(), offered, strict=True):
        _put_one(sheet, review, number, amendment, by_hand)
    _put_questions(sheet, review)
    if offered:
        _put_how_to_take_one(sheet, name, [number for number, one in by_number.items() if not one])


def _put_how_to_take_one(sheet: Sheet, name: str, writable: Sequence[int]) -> None:
    sheet.heading("To take one")
    if not writable:
        sheet.text("Make its changes in the file yourself.", indent=INDENT)
    elif name == "stdin":
        sheet.text(f"Name a file instead of standard input, with --write --choose {writable[0]}.", indent=INDENT)
    else:
        sheet.text(f"precover amend {command_name(name)} --write --choose {writable[0]}", indent=INDENT)
    stays = "The file is edited in place; comments and layout stay." if writable else ""
    sheet.text(f"Each was tried on this plan and reviewed again. {stays}".strip(), indent=INDENT)


def _put_one(sheet: Sheet, review: Review, number: int, amendment: Amendment, by_hand: str) -> None:
    sheet.heading(f"{number}. {amendment.name}")
    words = list(dict.fromkeys(_done(review, proposal) for proposal in amendment.proposals))
    efforts = sorted({proposal.effort for proposal in amendment.proposals})
    sheet.entry("costs", ", ".join(EFFORTS[effort] for effort in efforts))
    for label, line in zip(("does", *[""] * len(words)), words, strict=False):
        sheet.entry(label, line)
    for label, change in zip(("in the plan", *[""] * 999), changes(review.document, amendment), strict=False):
        sheet.entry(label, in_words(review, change), style="strong")
    if by_hand:
        sheet.entry("by hand", f"this cannot be written into the file for you: {by_hand}")
    asked = {finding.line.place for finding in review.findings}
    brought = [finding for finding in amendment.ask if finding.line.place not in asked]
    for label, finding in zip(("then state", *[""] * 999), brought, strict=False):
        sheet.entry(label, f"{where(review, finding.line.place)}: {finding.line.answer.of}")
    for label, finding in zip(("still open", *[""] * 999), amendment.left, strict=False):
        sheet.entry(label, f"{where(review, finding.line.place)}: {sentence(finding.line)}")


def _done(review: Review, proposal: Proposal) -> str:
    return f"{where(review, proposal.patch[0]['path'].rpartition('/')[0])}: {proposal.words}"


def in_words(review: Review, change: Change) -> str:
    """A change as a person reads it: place, key, what it was and what it becomes."""
    parent, _, key = change.place.rpartition("/")
    becomes = "removed" if change.becomes is None else flow(change.becomes)
    was = f"{flow(change.was)} -> " if change.was is not None else ""
    return f"{where(review, parent)}, {key}: {was}{becomes} (line {line_number(review, change.place)})"


def _put_questions(sheet: Sheet, review: Review) -> None:
    asked = [item for item in to_settle(review) if isinstance(item, Query)]
    if not asked:
        return
    sheet.heading("Only you can state")
    sheet.text("No change settles what the plan does not say.", indent=INDENT)
    for query in asked:
        sheet.text(f"{where(review, query.place)}: {query.title.lower()}, written like {query.written}", mark="  - ")
