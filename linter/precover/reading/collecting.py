"""Keeps Python's garbage collection out of work that only builds."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def nothing_is_garbage() -> Iterator[None]:
    """No collection while a tree or a review grows: going through all of it again and again would take most of the time."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()
