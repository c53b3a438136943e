"""One finding, or one query, as an item of the field sheet."""

from __future__ import annotations

from collections.abc import Mapping

from precover.amending.way import Mark, Way, mark
from precover.reviewing import Finding, Review
from precover.showing.asking import Query
from precover.showing.sentences import (
    AUTHORITY,
    EFFORTS,
    deciding,
    line_number,
    needed,
    open_to_authority,
    planned,
    provenance,
    required_by,
    where,
    within,
)
from precover.showing.sheet import Sheet


def put_finding(sheet: Sheet, review: Review, number: int, finding: Finding, ways: Mapping[Mark, Way]) -> None:
    """A requirement that is not met: planned and needed side by side, then why, and what to do."""
    line = finding.line
    answer = line.answer
    about = within(review, line.place) or where(review, line.place)
    _first_line(sheet, review, number, finding.severity.word, about, line.place)
    sheet.entry("planned", planned(line))
    if str(answer.needs):
        sheet.entry("needed", needed(line), style="strong")
    label = "because"
    further = (step for step in line.steps if step[0] not in answer.why)  # what is told is not told again
    for step, place in ((answer.why, None), *further):
        if step:
            sheet.entry(label, f"{step} (line {line_number(review, place)})" if place is not None else step)
            label = ""
    if open_to_authority(line):
        sheet.entry("open", AUTHORITY, style="strong")
    hazard = review.book.hazard(line.rule)
    if hazard:
        sheet.entry("hazard", hazard)
    for label, cell in zip(("limit", *[""] * 9), deciding(line), strict=False):
        sheet.entry(label, provenance(cell), style="quiet")
    _look_up(sheet, review, finding)
    way = ways.get(mark(finding))
    if way is not None:
        sheet.entry("way out", f"{way.words} ({EFFORTS[way.effort]})", style="strong")
    elif answer.proposals:
        sheet.entry("way out", "none by itself; `precover amend` looks for changes that work together")


def put_query(sheet: Sheet, review: Review, number: int, query: Query) -> None:
    """A fact that the plan leaves out, with every check that waits for it."""
    thing = within(review, query.place.rpartition("/")[0])
    about = f"{thing}: {query.title.lower()}" if thing else query.title.lower()
    _first_line(sheet, review, number, query.severity.word, about, query.place)
    sheet.entry("not stated", str(query.field.get("description", query.title)))
    sheet.entry("state it as", query.written, style="strong")
    label = "needed for"
    for waiting in dict.fromkeys(map(_waiting, query.findings)):
        sheet.entry(label, waiting)
        label = ""


def _waiting(finding: Finding) -> str:
    rule, why = finding.line.rule, finding.line.answer.why
    return f"{rule.asks} ({rule.topic}{f'; {why}' if why else ''})"


def _first_line(sheet: Sheet, review: Review, number: int, word: str, about: str, place: str) -> None:
    sheet.item(f"{number}.", word.upper(), about, f"line {line_number(review, place)}")


def _look_up(sheet: Sheet, review: Review, finding: Finding) -> None:
    rule = finding.line.rule
    own = review.book.look_up_in_packs(rule)
    locators = [place for place in review.book.look_up(rule, finding.line.answer.rows) if place not in own]
    label = "look up"
    for place in (*own, f"{'; '.join(locators)} ({review.book.edition} edition)" if locators else ""):
        if place:
            sheet.entry(label, place)
            label = ""
    if rule.set_by:
        sheet.entry("required by", required_by(rule), style="quiet")
    sheet.entry("topic", rule.topic, style="quiet")
