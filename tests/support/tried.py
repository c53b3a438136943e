"""How many plans the properties try, and that they are the same ones in every run."""

from __future__ import annotations

import os
from typing import Final

from hypothesis import HealthCheck, settings

TIMES: Final = int(os.environ.get("PRECOVER_EXAMPLES", "1"))
"""What multiplies the number of plans. More than 1 tries other plans in every run too."""


def tried(times: int) -> settings:
    """About so many plans; the same in every run, unless more than that are asked for."""
    usual = TIMES == 1
    return settings(
        max_examples=times * TIMES,
        deadline=None,
        derandomize=usual,
        database=None,
        suppress_health_check=list(HealthCheck),
        print_blob=not usual,
    )
