"""Rulebooks that are the installed one but for one thing, to look at what that thing does."""

from __future__ import annotations

from functools import cache

from precover.reviewing import Review, open_plan, review
from precover.rulebook import Rulebook
from precover.rulebook.book import Library
from precover.rulebook.table import Cell, Table
from support.reviews import library, written

Outcomes = dict[tuple[str, str], str]


class Shelf(Library):
    """A library with one book, whatever pack a plan names."""

    def __init__(self, only: Rulebook) -> None:
        super().__init__(only.topics, {})
        self.only = only

    def book(self, _names: object = (), _folder: object = None) -> Rulebook:
        """That book."""
        return self.only


@cache
def one_rule(rule: str) -> Shelf:
    """The installed book with one rule, named by its id, and nothing else to run."""
    book = library().book()
    (topic,) = (topic for topic in book.topics.values() for part in topic.rules if part.id == rule)
    (part,) = (part for part in topic.rules if part.id == rule)
    alone = topic._replace(rules=(part,), inspections=())
    return Shelf(Rulebook(book.packs, {topic.id: alone}, book.tables, book.layers))


@cache
def without_metric_twins() -> Shelf:
    """The installed book with every limit the same length in inches and in millimetres."""
    book = library().book()
    return Shelf(
        Rulebook(book.packs, book.topics, {name: _untwinned(table) for name, table in book.tables.items()}, book.layers)
    )


def _untwinned(table: Table) -> Table:
    cells = {
        key: Cell(cell.table, key, (cell.holds, cell.text, "", cell.source, cell.confidence, cell.note), cell.set_by)
        for key, cell in table.cells.items()
    }
    return Table(table.name, table.columns, cells)


def review_with(shelf: Shelf, data: dict[str, object]) -> Review:
    """The review of plan data under a narrowed book."""
    return review(open_plan("test.plan.yaml", written(data)), shelf)


def outcomes(of: Review) -> Outcomes:
    """What each rule answered for each subject. A rule that looks at circuits in a leg answers once a circuit."""
    found: Outcomes = {}
    for line in of.ran:
        key = (line.rule.id, line.subject)
        said = line.answer.outcome.value
        found[key] = said if key not in found else "; ".join(sorted([*found[key].split("; "), said]))
    return found
