"""The rulebook in force for one plan: the packs it names, and the rules that read them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.packs.applying import Off, apply
from precover.rulebook.packs.change import Except
from precover.rulebook.packs.choosing import layers_of, shown
from precover.rulebook.packs.tables import Layer, Tables, layer_problem
from precover.rulebook.rule import Condition, Inspection, Rule, Together
from precover.rulebook.table import Table
from precover.rulebook.topic import Topic

if TYPE_CHECKING:
    from precover.rulebook.packs.conflicts import Conflict
    from precover.rulebook.packs.weighing import Effect
    from precover.rulebook.requirement import Requirement

DEFAULT_PACK = "us-2023"


class Rulebook:
    """Rules, inspections and tables in force.

    `packs` are the packs as people name them, base first; `layers` all of them with what each changes; `off` the parts
    that are out of force; `statements` what packs ask plans to state besides, in words, by name;
    `excepted` the exceptions that packs make, with their ids.
    """

    def __init__(
        self,
        packs: tuple[Pack, ...],
        topics: Mapping[str, Topic],
        tables: Mapping[str, Table],
        layers: tuple[Layer, ...] = (),
        off: tuple[Off, ...] = (),
        statements: Mapping[str, str] | None = None,
        excepted: tuple[tuple[str, Except], ...] = (),
    ) -> None:
        self.packs = packs
        self.topics = topics
        self.tables = tables
        self.layers = layers
        self.off = off
        self.statements = statements or {}
        self.excepted = excepted

    @cached_property
    def rules(self) -> tuple[Rule, ...]:
        """Every rule, by id."""
        return tuple(rule for topic in self.topics.values() for rule in topic.rules)

    @cached_property
    def inspections(self) -> tuple[Inspection, ...]:
        """Every entry of the inspection list, by id."""
        return tuple(item for topic in self.topics.values() for item in topic.inspections)

    def about(self, kind: type) -> tuple[tuple[Together, ...], tuple[Inspection, ...]]:
        """The rules, those of the same conditions together, and the inspections that look at subjects of a class."""
        parts = self._about.get(kind)
        if parts is None:
            together: dict[tuple[Condition, ...], list[Rule]] = {}
            here = {place: part for base in kind.__mro__ for place, part in self._by_class.get(base, ())}
            for _, part in sorted(here.items()):
                if isinstance(part, Rule):
                    together.setdefault(part.unless, []).append(part)
            parts = self._about[kind] = (
                tuple(Together(unless, tuple(rules)) for unless, rules in together.items()),
                tuple(part for _, part in sorted(here.items()) if isinstance(part, Inspection)),
            )
        return parts

    @cached_property
    def _by_class(self) -> dict[type, list[tuple[int, Rule | Inspection]]]:
        """What looks at just this class of the plan, each with its place among all."""
        found: dict[type, list[tuple[int, Rule | Inspection]]] = {}
        parts: tuple[Rule | Inspection, ...] = (*self.rules, *self.inspections)
        for place, part in enumerate(parts):
            for kind in part.kinds if isinstance(part, Rule) else (part.looks_at,):
                found.setdefault(kind, []).append((place, part))
        return found

    @cached_property
    def _about(self) -> dict[type, tuple[tuple[Together, ...], tuple[Inspection, ...]]]:
        return {}

    @cached_property
    def requirements(self) -> Mapping[str, Requirement]:
        """The requirement map, by row id."""
        from precover.rulebook.requirement import read_requirements  # a plan without findings cites nothing

        return {
            name: row
            for pack in (layer.pack for layer in self.layers)
            if pack.requirements
            for name, row in read_requirements(pack.requirements).items()
        }

    @cached_property
    def conflicts(self) -> tuple[Conflict, ...]:
        """What two packs of the list set side by side."""
        from precover.rulebook.packs.conflicts import conflicts  # with local packs only

        return conflicts(self.layers)

    @cached_property
    def effects(self) -> tuple[Effect, ...]:
        """What packs on top of the edition change, and whether that asks more or less."""
        from precover.rulebook.packs.weighing import effects  # with local packs only

        return effects(self.layers, self.tables, self.rules, self.inspections, self.excepted)

    @property
    def on_top(self) -> tuple[Layer, ...]:
        """The packs on top of the edition."""
        return tuple(layer for layer in self.layers if not layer.edition)

    @property
    def edition(self) -> str:
        """The edition whose locators are cited."""
        return self.packs[0].edition

    def look_up(self, part: Rule | Inspection, rows: tuple[str, ...] = ()) -> tuple[str, ...]:
        """Where to look it up: what a pack says of it, then section numbers in the edition in force."""
        own = self.look_up_in_packs(part)
        found = (
            self.requirements[row].locators.get(self.edition, "")
            for row in rows or part.rows
            if row in self.requirements
        )
        return tuple(dict.fromkeys(locator for locator in (*own, *found) if locator))

    def look_up_in_packs(self, part: Rule | Inspection) -> tuple[str, ...]:
        """The places to look up that are not of the edition: of the rule itself, and of its topic."""
        topic = self.topics.get(part.topic)
        found = (part.look_up, topic.look_up if topic is not None else "")
        return tuple(dict.fromkeys(place for place in found if place))

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

    def book(self, names: Sequence[str] = (DEFAULT_PACK,), at: Path | None = None) -> Rulebook:
        """The rulebook of packs named in order, base first; PackUnreadable for one that is not there or cannot be used.

        A name may be the path of a pack file: from the folder `at`, and then inside it, or, without `at`, from anywhere.
        """
        for name in names:
            if list(names).count(name) > 1:
                raise PackUnreadable(f"the rule pack `{name}` is named twice", "name it once")
        named = [self._named(name, at) for name in names]
        key = tuple(named)
        made = self._books.get(key)
        if made is None:
            made = self._books[key] = self._made(layers_of(named, self._below))
        return made

    def over(self, pack: Pack) -> Rulebook:
        """The rulebook of a pack that is at hand, on what it extends; PackUnreadable where it cannot be used."""
        return self._made(layers_of([pack], self._below))

    def _made(self, layers: tuple[Layer, ...]) -> Rulebook:
        tables = Tables(layers)
        tables.check([layer for layer in layers if layer.pack.read is not None])
        made = apply(self.topics, layers, tables)
        return Rulebook(shown(layers), made.topics, tables, layers, made.off, made.statements, made.excepted)

    @cached_property
    def _books(self) -> dict[tuple[Pack, ...], Rulebook]:
        return {}

    def _named(self, name: str, at: Path | None) -> Pack:
        if name in self.packs or not is_path(name):
            return self._pack(name)
        from precover.rulebook.packs.local_file import read_pack  # only for a pack file: it needs a good part of YAML

        return read_pack(name, at)

    def _below(self, name: str, above: Pack | None) -> Pack:
        """The pack that another changes; where it is a file, it lies in the folder of that other's file."""
        try:
            return self._named(name, above.file.parent if above is not None and above.file is not None else None)
        except PackUnreadable as problem:
            if above is None or above.read is None:
                raise
            raise layer_problem(above, above.read.extends, problem.message, problem.hint) from None

    def _pack(self, name: str) -> Pack:
        if name not in self.packs:
            from difflib import get_close_matches  # only for a name that is wrong

            near = get_close_matches(name, list(self.packs), n=1, cutoff=0.5)
            hint = f"did you mean `{near[0]}`?" if near else f"packs installed: {', '.join(self.packs) or 'none'}"
            raise PackUnreadable(f"there is no rule pack `{name}`", hint)
        return self.packs[name]


def is_path(name: str) -> bool:
    """Whether a pack is named by the path of its file."""
    return "/" in name or name.endswith((".yaml", ".yml"))
