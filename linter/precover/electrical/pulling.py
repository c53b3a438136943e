"""Pulling tension and sidewall pressure along a raceway.

Straight: the tension grows by weight times friction; bend: by the capstan formula, e^(w · f · angle). Sources: a cable
maker's technical guide, https://iewc-preview.insitesofthosting.com/resources/technical-guide/pulling-tensions; weight
correction and sidewall formulas, http://www.cabledatasheet.com/faq-about-cable/what-is-the-sidewall-pressure-for-cable-installation/.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from precover.record import Record


class Straight(Record):
    """A straight stretch of `feet`, rising `slope` radians in the direction of the pull (negative: falling)."""

    feet: float
    slope: float = 0.0


class Turn(Record):
    """A bend of `radians` with the inside radius `feet`."""

    radians: float
    feet: float


class Bundle(Record):
    """What is pulled: weight of all of it in lb/ft, friction (about 0.5 dry, less with lubricant), the weight
    correction factor, and whether three single conductors lie cradled."""

    weight: float
    friction: float
    correction: float = 1.0
    cradled: bool = False


class Pull(Record):
    """`tension` after each stretch, in lb; `pressure` on the wall of each stretch, in lb/ft (0 where straight)."""

    tension: tuple[float, ...]
    pressure: tuple[float, ...]

    @property
    def end(self) -> float:
        """The tension at the pulling end, in lb."""
        return self.tension[-1] if self.tension else 0.0


_STEEPEST, _MOST = 100.0, 1e30
"""Far beyond what any wire stands: there the tension only has to stay a number, however many turns a plan writes."""


def pull(bundle: Bundle, stretches: Sequence[Straight | Turn], back_tension: float = 0.0) -> Pull:
    """Tension and pressure along the stretches in the order that the wire passes them."""
    now, tension, pressure = back_tension, [], []
    drag = bundle.correction * bundle.friction
    for stretch in stretches:
        if isinstance(stretch, Turn):
            now = min(now * math.exp(min(drag * stretch.radians, _STEEPEST)), _MOST)
            pressure.append(sidewall_pressure(bundle, now, stretch.feet))
        else:
            along = math.sin(stretch.slope) + drag * math.cos(stretch.slope)
            now = max(0.0, now + bundle.weight * stretch.feet * along)
            pressure.append(0.0)
        tension.append(now)
    return Pull(tuple(tension), tuple(pressure))


def backwards(stretches: Sequence[Straight | Turn]) -> tuple[Straight | Turn, ...]:
    """The same way pulled from the other end, which often needs less force."""
    return tuple(
        Straight(stretch.feet, -stretch.slope) if isinstance(stretch, Straight) else stretch
        for stretch in reversed(stretches)
    )


def sidewall_pressure(bundle: Bundle, tension: float, radius: float) -> float:
    """Pressure on the hardest-pressed conductor, in lb/ft, from the tension out of the bend and its radius in feet."""
    if bundle.cradled:
        return (3 * bundle.correction - 2) * tension / (3 * radius)
    return tension / radius


def most_tension(circular_mils: float, conductors: int, pounds_per_circular_mil: float) -> float:
    """The largest tension on a pulling eye, in lb: 0.008 lb per circular mil of copper."""
    return circular_mils * conductors * pounds_per_circular_mil


def weight_correction(inside: float, wire: float, *, cradled: bool) -> float:
    """The weight correction factor of three equal wires, from diameters in one unit: cradled (drawn in from separate
    reels) or triangular (lashed together). Infinite where they fill the raceway."""
    if inside <= 2 * wire:
        return math.inf
    ratio = (wire / (inside - wire)) ** 2
    return 1 + 4 / 3 * ratio if cradled else 1 / math.sqrt(1 - ratio)
