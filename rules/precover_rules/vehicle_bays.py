"""The receptacles of a garage that count for its vehicle bays."""

from __future__ import annotations

import re
from typing import Final

from precover.plan import Receptacle
from precover.rulebook import Look
from precover.units import Length

_APART: Final = re.compile(r"\b(opener|security|alarm|camera)", re.IGNORECASE)
"""What a receptacle that does not count serves: a door opener, or a security system."""


def is_for_a_bay(receptacle: Receptacle, look: Look) -> bool:
    """Within reach of whoever stands in a bay, as far as its height is stated, and not kept for a door opener."""
    highest = look.limit("height of a receptacle in a vehicle bay")
    if isinstance(receptacle.height, Length) and receptacle.height > highest.like(receptacle.height):
        return False
    return not _APART.search(receptacle.serves or "")
