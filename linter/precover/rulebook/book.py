"""The rulebook in force for one plan: the packs it names, and the rules that read them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.requirement import Requirement, read_requirements
from precover.rulebook.rule import Inspection, Rule
from precover.rulebook.table import Table
from precover.rulebook.topic import Topic

DEFAULT_PACK = "us-2023"


class Rulebook:
    """Rules, inspections and tables in force."""

    def __init__(self, packs: tuple[Pack, ...], topics: Mapping[str, Topic], tables: Mapping[str, Table]) -> None:
        self.packs = packs
        self.topics = topics
        self.tables = tables

    @cached_property
    def rules(self) -> tuple[Rule, ...]:
        """Every rule, by id."""
        return tuple(rule for topic in self.topics.values() for rule in topic.rules)

    @cached_property
    def inspections(self) -> tuple[Inspection, ...]:
        """Every entry of the inspection list, by id."""
        return tuple(item for topic in self.topics.values() for item in topic.inspections)

    def about(self, kind: type) -> tuple[tuple[Rule, ...], tuple[Inspection, ...]]:
        """The rules and inspections that look at subjects of a class."""
        parts = self._about.get(kind)
        if parts is None:
            parts = self._about[kind] = (
                tuple(rule for rule in self.rules if issubclass(kind, rule.looks_at)),
                tuple(item for item in self.inspections if issubclass(kind, item.looks_at)),
            )
        return parts

    @cached_property
    def _about(self) -> dict[type, tuple[tuple[Rule, ...], tuple[Inspection, ...]]]:
        return {}

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

    def look_up(self, part: Rule | Inspection, rows: tuple[str, ...] = ()) -> tuple[str, ...]:
        """Where to look it up: section numbers in the edition in force."""
        own = (part.look_up,) if isinstance(part, Rule) and part.look_up else ()
        found = (
            self.requirements[row].locators.get(self.edition, "")
            for row in rows or part.rows
            if row in self.requirements
        )
        return tuple(dict.fromkeys(locator for locator in (*own, *found) if locator))

    def hazard(self, rule: Rule) -> str:
        """What can happen: the first hazard of its rows."""
        rows = (self.requirements[row].hazard for row in rule.rows if row in self.requirements)
        return rule.hazard or next((hazard for hazard in rows if hazard and hazard != "none"), "")


class Library:
    """Everything that plugins gave, and the plugins that could not be loaded (name and reason)."""

    def __init__(
        self, topics: Mapping[str, Topic], packs: Mapping[str, Pack], failures: tuple[tuple[str, str], ...] = ()
    ) -> None:
        self.topics = topics
        self.packs = packs
        self.failures = failures

    def book(self, names: Sequence[str] = (DEFAULT_PACK,)) -> Rulebook:
        """The rulebook of packs named in order, base first; PackUnreadable for a name that is not there."""
        for name in names:
            if list(names).count(name) > 1:
                raise PackUnreadable(f"the rule pack `{name}` is named twice", "name it once")
        packs = tuple(self._pack(name) for name in names)
        key = tuple(pack.id for pack in packs)
        made = self._books.get(key)
        if made is None:
            made = self._books[key] = Rulebook(packs, self.topics, _tables_of(packs))
        return made

    @cached_property
    def _books(self) -> dict[tuple[str, ...], Rulebook]:
        return {}

    def _pack(self, name: str) -> Pack:
        if name not in self.packs:
            from difflib import get_close_matches  # only for a name that is wrong

            near = get_close_matches(name, list(self.packs), n=1, cutoff=0.5)
            hint = f"did you mean `{near[0]}`?" if near else f"packs installed: {', '.join(self.packs) or 'none'}"
            raise PackUnreadable(f"there is no rule pack `{name}`", hint)
        return self.packs[name]


def _tables_of(packs: Sequence[Pack]) -> dict[str, Table]:
    found: dict[str, Table] = {}
    for pack in packs:
        for path in sorted(pack.tables.glob("*.csv")):
            table = Table.unread(path, pack.id)
            if table.name in found:
                raise PackUnreadable(f"pack `{pack.id}` brings the table `{table.name}` again", "name a table once")
            found[table.name] = table
    return found
