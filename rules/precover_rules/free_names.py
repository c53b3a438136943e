"""Names for what a proposal adds to a plan."""

from collections.abc import Container, Iterator
from itertools import count


def free_names(stem: str, taken: Container[str], *, numbered: bool = False) -> Iterator[str]:
    """Names that nothing has yet: `outlet`, `outlet-2`, `outlet-3`; with `numbered` also the first has its number, as things
    have that come in pairs (`rod-1`, `rod-2`)."""
    for number in count(1):
        name = f"{stem}-{number}" if numbered or number > 1 else stem
        if name not in taken:
            yield name
