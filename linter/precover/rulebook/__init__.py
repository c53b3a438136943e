"""The rule contract, and the book in force: topics, rules, tables and packs, with where each value comes from."""

from precover.rulebook.answer import (
    Answer,
    Outcome,
    at_least,
    at_most,
    authority_decides,
    does_not_apply,
    met,
    not_met,
)
from precover.rulebook.book import Rulebook
from precover.rulebook.gather import gather
from precover.rulebook.look import Look, Missing
from precover.rulebook.once import once
from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.proposal import Effort, Proposal
from precover.rulebook.rule import Inspection, Rule, Stage, inspection, rule
from precover.rulebook.severity import Severity
from precover.rulebook.table import Cell, Table
from precover.rulebook.topic import Topic, topics_below

__all__ = [
    "Answer",
    "Cell",
    "Effort",
    "Inspection",
    "Look",
    "Missing",
    "Outcome",
    "Pack",
    "PackUnreadable",
    "Proposal",
    "Rule",
    "Rulebook",
    "Severity",
    "Stage",
    "Table",
    "Topic",
    "at_least",
    "at_most",
    "authority_decides",
    "does_not_apply",
    "gather",
    "inspection",
    "met",
    "not_met",
    "once",
    "rule",
    "topics_below",
]
