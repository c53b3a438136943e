"""Collects what plugins register."""

from __future__ import annotations

import sys
from importlib.metadata import entry_points
from typing import Any

import pluggy

from precover.rulebook import hooks
from precover.rulebook.book import Library
from precover.rulebook.pack import Pack
from precover.rulebook.topic import Topic


def gather(extra: tuple[Any, ...] = ()) -> Library:
    """Every topic and pack of the installed plugins (and of `extra` plugin objects).

    A plugin that cannot be loaded is noted in the library's `failures` (name and reason) and costs only its own rules.
    """
    manager = pluggy.PluginManager(hooks.GROUP)
    manager.add_hookspecs(sys.modules[hooks.__name__])
    failures: list[tuple[str, str]] = []
    named: list[tuple[str, Any]] = []
    for entry in sorted(entry_points(group=hooks.GROUP), key=lambda entry: (entry.name, entry.value)):
        try:
            named.append((entry.name, entry.load()))
        except Exception as problem:  # a plugin may fail in any way; it must not take the review with it
            failures.append((entry.name, f"{type(problem).__name__}: {problem}"))
    named += [(getattr(plugin, "__name__", type(plugin).__name__), plugin) for plugin in extra]
    topics: dict[str, Topic] = {}
    packs: dict[str, Pack] = {}
    for name, plugin in named:
        try:
            manager.register(plugin, name=name)
            manager.check_pending()
            for topic in _from(manager, plugin, "precover_topics"):
                _once(topics, topic.id, topic._replace(plugin=name), "topic")
            for pack in _from(manager, plugin, "precover_packs"):
                _once(packs, pack.id, pack, "pack")
        except Exception as problem:
            failures.append((name, f"{type(problem).__name__}: {problem}"))
    return Library(dict(sorted(topics.items())), dict(sorted(packs.items())), tuple(sorted(failures)))


def _from(manager: pluggy.PluginManager, plugin: Any, hook: str) -> list[Any]:
    others = [other for other in manager.get_plugins() if other is not plugin]
    given = manager.subset_hook_caller(hook, remove_plugins=others)()
    return [item for items in given for item in items]


def _once(known: dict[str, Any], name: str, item: Any, what: str) -> None:
    if name in known:
        raise ValueError(f"the {what} `{name}` is there already")
    known[name] = item
