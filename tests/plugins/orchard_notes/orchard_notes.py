"""A third party's plugin: one topic with a rule about receptacles, and a small pack of its own."""

from collections.abc import Iterable
from pathlib import Path

import orchard_notes_topics

from precover.rulebook import Pack, Topic, topics_below
from precover.rulebook.hooks import hookimpl

HERE = Path(__file__).parent


@hookimpl
def precover_topics() -> Iterable[Topic]:
    """The topics of this distribution."""
    return topics_below(orchard_notes_topics)


@hookimpl
def precover_packs() -> Iterable[Pack]:
    """A pack that comes after the base pack and adds a table."""
    return (Pack("orchard-valley", "Orchard Valley notes (invented)", "", HERE / "orchard_notes_topics" / "tables"),)
