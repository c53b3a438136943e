"""Where a process of the command starts: without the collector, and with the modules that are kept, before it loads any."""

import gc
import sys
from typing import NoReturn

gc.disable()

from pathlib import Path  # noqa: E402

from precover.app.kept_modules import KeptModules  # noqa: E402


def process() -> NoReturn:
    """The command as a process of its own."""
    optimized = f".opt-{sys.flags.optimize}" if sys.flags.optimize else ""
    modules = KeptModules(Path(__file__).parent / "__pycache__" / f"modules.{sys.implementation.cache_tag}{optimized}")
    sys.meta_path.insert(0, modules)
    from precover.app.__main__ import process as command

    command(modules.keep)
