"""What the county adds to the rules."""

from collections.abc import Iterable

import hill_county
from precover.rulebook import Topic, topics_below
from precover.rulebook.hooks import hookimpl


@hookimpl
def precover_topics() -> Iterable[Topic]:
    """Every topic of this package."""
    return topics_below(hill_county)
