"""The built-in rules, registered as any third party registers its own."""

from collections.abc import Iterable

import precover_rules
from precover.rulebook import Pack, Topic, topics_below
from precover.rulebook.hooks import hookimpl
from precover_rules.packs import EDITIONS


@hookimpl
def precover_topics() -> Iterable[Topic]:
    """Every topic of this package."""
    return topics_below(precover_rules)


@hookimpl
def precover_packs() -> Iterable[Pack]:
    """The packs of this package."""
    return EDITIONS
