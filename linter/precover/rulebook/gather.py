"""Collects what plugins register."""

from __future__ import annotations

import sys
from typing import Any, Final

import pluggy

from precover.rulebook import hooks
from precover.rulebook.book import Library
from precover.rulebook.installed import installed
from precover.rulebook.pack import Pack
from precover.rulebook.topic import Topic

BUILT_IN: Final = "built-in"
"""The entry that comes first: nobody's topic takes the place of one of its own unseen."""


def gather(extra: tuple[Any, ...] = ()) -> Library:
    """Every topic and pack of the installed plugins (and of `extra` plugin objects).

    A plugin that cannot be loaded is noted in the library's `failures` (name and reason) and costs only its own rules; a topic or pack
    whose id is there already costs only itself.
    """
    manager = pluggy.PluginManager(hooks.GROUP)
    manager.add_hookspecs(sys.modules[hooks.__name__])
    failures: list[tuple[str, str]] = []
    named: list[tuple[str, Any]] = []
    for entry in sorted(installed(hooks.GROUP), key=lambda entry: (entry.name != BUILT_IN, *entry)):
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
            given: list[tuple[dict[str, Any], str, Any]]
            given = [
                (topics, "topic", topic._replace(plugin=name)) for topic in _from(manager, plugin, "precover_topics")
            ]
            given += [(packs, "pack", pack) for pack in _from(manager, plugin, "precover_packs")]
        except Exception as problem:
            failures.append((name, f"{type(problem).__name__}: {problem}"))
            if manager.is_registered(plugin):
                manager.unregister(plugin)  # or each later plugin would be refused for what is pending of this one
            continue
        for known, what, item in given:
            if known.setdefault(item.id, item) is not item:
                failures.append((name, f"the {what} `{item.id}` is there already; only the first is used"))
    return Library(dict(sorted(topics.items())), dict(sorted(packs.items())), tuple(sorted(failures)))


def _from(manager: pluggy.PluginManager, plugin: Any, hook: str) -> list[Any]:
    others = [other for other in manager.get_plugins() if other is not plugin]
    given = manager.subset_hook_caller(hook, remove_plugins=others)()
    return [item for items in given for item in items]
