"""Where a process of the command starts: without the collector, before anything is loaded that it would go through."""

import gc

gc.disable()

from precover.app.__main__ import process  # noqa: E402

__all__ = ["process"]
