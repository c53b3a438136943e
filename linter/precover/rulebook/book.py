"""The rulebook in force for one plan: the packs it names, and the rules that read them."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.requirement import Requirement, read_requirements
from precover.rulebook.rule import Inspection, Rule
from precover.rulebook.table import Table, read_table
from precover.rulebook.topic import Topic

DEFAULT_PACK = "us-2023"


@dataclass(frozen=True)
class Rulebook:
    """Rules, inspections and tables in force."""

    packs: tuple[Pack, ...]
    topics: Mapping[str, Topic]
    tables: Mapping[str, Table]

    @cached_property
    def rules(self) -> tuple[Rule, ...]:
        """Every rule, by id."""
        return tuple(rule for topic in self.topics.values() for rule in topic.rules)

    @cached_property
    def inspections(self) -> tuple[Inspection, ...]:
        """Every entry of the inspection list, by id."""
        return tuple(item for topic in self.topics.values() for item in topic.inspections)

    @cached_property
    def requirements(self) -> Mapping[str, Requirement]:
        """The requirement map, by row id."""
        return {
            name: row
            for pack in self.packs
            if pack.requirements
            for name, row in read_requirements(pack.requirements).items()
        }

    @property
    def edition(self) -> str:
        """The edition whose locators are cited."""
        return self.packs[0].edition

    def look_up(self, part: Rule | Inspection) -> tuple[str, ...]:
        """Where to look it up: section numbers in the edition in force."""
        own = (part.look_up,) if isinstance(part, Rule) and part.look_up else ()
        found = (self.requirements[row].locators.get(self.edition, "") for row in part.rows if row in self.requirements)
        return tuple(dict.fromkeys(locator for locator in (*own, *found) if locator))

    def hazard(self, rule: Rule) -> str:
        """What can happen: the first hazard of its rows."""
        rows = (self.requirements[row].hazard for row in rule.rows if row in self.requirements)
        return rule.hazard or next((hazard for hazard in rows if hazard and hazard != "none"), "")


@dataclass(frozen=True)
class Library:
    """Everything that plugins gave, and the plugins that could not be loaded."""

    topics: Mapping[str, Topic]
    packs: Mapping[str, Pack]
    failures: tuple[tuple[str, str], ...]

    def book(self, names: Sequence[str] = (DEFAULT_PACK,)) -> Rulebook:
        """The rulebook of packs named in order, base first; PackUnreadable for a name that is not there."""
        packs = tuple(self._pack(name) for name in names)
        key = tuple(pack.id for pack in packs)
        made = self._books.get(key)
        if made is None:
            made = self._books[key] = Rulebook(packs, self.topics, _tables(packs))
        return made

    @cached_property
    def _books(self) -> dict[tuple[str, ...], Rulebook]:
        return {}

    def _pack(self, name: str) -> Pack:
        if name not in self.packs:
            near = difflib.get_close_matches(name, list(self.packs), n=1, cutoff=0.5)
            hint = f"did you mean `{near[0]}`?" if near else f"packs installed: {', '.join(self.packs) or 'none'}"
            raise PackUnreadable(f"there is no rule pack `{name}`", hint)
        return self.packs[name]


def _tables(packs: Sequence[Pack]) -> dict[str, Table]:
    tables: dict[str, Table] = {}
    for pack in packs:
        for path in sorted(pack.tables.glob("*.csv")):
            try:
                table = read_table(path, pack.id)
            except ValueError as problem:
                raise PackUnreadable(f"pack `{pack.id}`: {problem}", "correct the table") from None
            if table.name in tables:
                raise PackUnreadable(f"pack `{pack.id}` brings the table `{table.name}` again", "name a table once")
            tables[table.name] = table
    return tables
