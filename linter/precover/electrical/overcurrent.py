"""The overcurrent device for a load and a conductor."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from precover.electrical.bands import smallest
from precover.electrical.working import Worked
from precover.units import Current, plain


def needed(noncontinuous: Current, continuous: Current, factor: Fraction) -> Worked[Current]:
    """The rating and ampacity that a load needs: the part that runs three hours or more is counted `factor` (125 %)."""
    amps = noncontinuous.amount + continuous.amount * factor
    total = Current.of(amps, "A")
    if not continuous.amount:
        return Worked(total, (f"{noncontinuous}, none of it continuous",))
    parts = f"{continuous} × {plain(factor)}"
    return Worked(total, (f"{f'{noncontinuous} + ' if noncontinuous.amount else ''}{parts} = {total}",))


def most_continuous(rating: Current, factor: Fraction) -> Current:
    """The largest continuous load that a device of this rating may carry."""
    return Current.of(rating.amount / factor, "A")


def next_rating(amps: Current, ratings: Iterable[Current]) -> Current | None:
    """The smallest standard rating that is not below `amps`; None above the largest. `ratings` ascend."""
    return smallest(ratings, lambda rating: rating >= amps)


def largest_device(
    ampacity: Current, ratings: Iterable[Current], *, round_up: bool, small_conductor: Current | None = None
) -> Worked[Current | None]:
    """The largest standard device that protects a conductor of this ampacity; None where no standard rating serves.

    `round_up`: the next standard rating above the ampacity may be used, as 240.4(B) lets conductors that do not feed
    several receptacles, up to 800 A. `small_conductor` is the limit for 14, 12 and 10 AWG, which holds after all else.
    """
    made = list(ratings)
    below = next((rating for rating in reversed(made) if rating <= ampacity), None)
    device = next_rating(ampacity, made) if round_up else below
    steps = [f"{'next' if round_up else 'largest'} standard rating for {ampacity}: {device or 'none'}"]
    if small_conductor is not None and device is not None and device > small_conductor:
        device = next((rating for rating in reversed(made) if rating <= small_conductor), None)
        steps.append(f"held to {small_conductor} for this size")
    return Worked(device, tuple(steps))
