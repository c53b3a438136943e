"""Standard ratings of breakers."""

from precover.rulebook import Look
from precover.units import Current

TABLE = "standard-overcurrent"


def next_standard(amps: Current, look: Look) -> Current | None:
    """The smallest standard rating that is not below a current; None above the largest."""
    for device, rating in look.keys(TABLE):
        larger: Current = Current.parse(f"{rating} A")
        if device == "fuse or breaker" and larger >= amps:
            return larger
    return None
