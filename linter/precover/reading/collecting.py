"""Keeps Python's garbage collection out of work that only builds."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def nothing_is_garbage() -> Iterator[None]:
    """No collection while a tree or a review grows: going through all of it again and again would take most of the time.

    Nor of it once it is there: neither has cycles, so that counting their references frees them.
    """
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            if not gc.get_freeze_count():  # else they are somebody's, and would be let go with ours
                gc.freeze()
                gc.unfreeze()  # among the old now, which the next collections do not go through
            gc.enable()
