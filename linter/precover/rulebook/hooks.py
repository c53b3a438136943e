"""The hooks through which rules reach the engine: the built-in ones and a third party's alike.

A plugin is a module (or object) named by an entry point of the group `precover`. Both hooks are called once, at start;
what they give is sorted by id, so that the order of plugins cannot matter.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

import pluggy

from precover.rulebook.pack import Pack
from precover.rulebook.topic import Topic

GROUP: Final = "precover"
hookspec = pluggy.HookspecMarker(GROUP)
hookimpl = pluggy.HookimplMarker(GROUP)


@hookspec
def precover_topics() -> Iterable[Topic]:  # type: ignore[empty-body]
    """Topics with their rules and inspections."""


@hookspec
def precover_packs() -> Iterable[Pack]:  # type: ignore[empty-body]
    """Rule packs that a plan can name."""
