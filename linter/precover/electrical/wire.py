"""Wire by formula: what the AWG scale, the metals and temperature say, without a table.

AWG: diameter 0.005 in × 92^((36 − n) / 39), n = 0, −1, −2, −3 for 1/0 to 4/0 (ASTM B258). Copper: 58 MS/m at 20 °C
(International Annealed Copper Standard), 0.00393 per °C; aluminum: 61 % of that conductivity, 0.00403 per °C
(Industrial Power Engineering and Applications Handbook, p. 970). Stranding adds about 2 % (from memory; within 1 % of
published resistances).
"""

from __future__ import annotations

import math
from typing import Final, Literal

from precover.units import ConductorSize

Metal = Literal["Cu", "Al"]

RESISTIVITY: Final[dict[Metal, float]] = {"Cu": 1 / 58, "Al": 1 / (58 * 0.61)}
"""Metal -> resistivity at 20 °C, ohm mm²/m."""

COEFFICIENT_AT_20: Final[dict[Metal, float]] = {"Cu": 0.00393, "Al": 0.00403}
"""Metal -> temperature coefficient of resistance at 20 °C, per °C."""

STRANDING: Final = 1.02
"""Resistance of a stranded conductor over a solid one of the same area."""

MM_PER_MIL: Final = 0.0254


def diameter(size: ConductorSize) -> float:
    """Diameter of a solid conductor, in inches."""
    if size.text.endswith("kcmil"):
        return math.sqrt(float(size.designation) * 1000) / 1000
    whole, _, zeros = size.designation.partition("/")
    number = 1 - int(whole) if zeros else int(whole)
    return float(0.005 * 92 ** ((36 - number) / 39))


def circular_mils(size: ConductorSize) -> float:
    """Cross-section in circular mils: the square of the diameter in mils."""
    return (1000 * diameter(size)) ** 2


def square_millimetres(size: ConductorSize) -> float:
    """Cross-section in mm²."""
    return math.pi / 4 * circular_mils(size) * MM_PER_MIL**2


def resistance(size: ConductorSize, metal: Metal, celsius: float, *, stranded: bool) -> float:
    """Direct-current resistance at a conductor temperature, in ohm/km."""
    at_20 = 1000 * RESISTIVITY[metal] / square_millimetres(size) * (STRANDING if stranded else 1)
    return at_20 * temperature_factor(metal, 20, celsius)


def temperature_coefficient(metal: Metal, celsius: float) -> float:
    """Temperature coefficient of resistance referred to a temperature, per °C: 0.00323 for copper at 75 °C."""
    at_20 = COEFFICIENT_AT_20[metal]
    return at_20 / (1 + at_20 * (celsius - 20))


def temperature_factor(metal: Metal, known_at: float, wanted_at: float) -> float:
    """What a resistance known at one temperature (°C) is multiplied by to hold at another."""
    return 1 + temperature_coefficient(metal, known_at) * (wanted_at - known_at)
