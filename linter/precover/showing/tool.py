"""The tool itself, as its output names it."""

from functools import cache
from importlib.metadata import version as _installed

NAME = "precover"


@cache
def version() -> str:
    """The installed version."""
    return _installed(NAME)
