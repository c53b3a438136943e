"""The dimensions a plan speaks of, each with its units.

Conversion factors are exact by definition: the inch is 25.4 mm (international yard and pound agreement, 1959; NIST
SP 811, appendix B); the avoirdupois pound is 0.45359237 kg.
"""

from __future__ import annotations

from fractions import Fraction
from typing import ClassVar, Self

from precover.units.quantity import Quantity, plain

_INCH = Fraction(254, 10)
_FREEZING = Fraction(160, 9)
"""Celsius degrees from 0 °F to the freezing of water at 32 °F."""


class Length(Quantity):
    """A length; base unit millimetre."""

    __slots__ = ()
    name = "length"
    base = "mm"
    factors: ClassVar[dict[str, Fraction]] = {
        "in": _INCH,
        "inch": _INCH,
        "inches": _INCH,
        '"': _INCH,
        "ft": 12 * _INCH,
        "foot": 12 * _INCH,
        "feet": 12 * _INCH,
        "'": 12 * _INCH,
        "mm": Fraction(1),
        "cm": Fraction(10),
        "m": Fraction(1000),
    }
    metric_units = frozenset({"mm", "cm", "m"})
    units = "in, ft, mm, cm, m"
    example = "12 ft 6 in"
    compound = True
    lowest = "0 in"
    highest = "10000 ft"


class Current(Quantity):
    """An electric current or current rating; base unit ampere."""

    __slots__ = ()
    name = "current"
    base = "A"
    factors: ClassVar[dict[str, Fraction]] = {"a": Fraction(1), "amp": Fraction(1), "amps": Fraction(1)}
    units = "A"
    example = "20 A"
    lowest = "1 A"
    highest = "6000 A"


class Voltage(Quantity):
    """A voltage or voltage rating; base unit volt."""

    __slots__ = ()
    name = "voltage"
    base = "V"
    factors: ClassVar[dict[str, Fraction]] = {"v": Fraction(1), "kv": Fraction(1000)}
    units = "V, kV"
    example = "125 V"
    lowest = "1 V"
    highest = "1000 V"


class Power(Quantity):
    """Real power; base unit watt."""

    __slots__ = ()
    name = "power"
    base = "W"
    factors: ClassVar[dict[str, Fraction]] = {"w": Fraction(1), "kw": Fraction(1000)}
    units = "W, kW"
    example = "1500 W"
    lowest = "1 W"
    highest = "100 kW"


class Apparent(Quantity):
    """Apparent power; base unit volt-ampere."""

    __slots__ = ()
    name = "apparent power"
    base = "VA"
    factors: ClassVar[dict[str, Fraction]] = {"va": Fraction(1), "kva": Fraction(1000)}
    units = "VA, kVA"
    example = "600 VA"
    lowest = "1 VA"
    highest = "100 kVA"


class Horsepower(Quantity):
    """A motor's rated output; base unit horsepower. Not converted to watts: motor tables are entered by horsepower."""

    __slots__ = ()
    name = "motor rating"
    base = "hp"
    factors: ClassVar[dict[str, Fraction]] = {"hp": Fraction(1)}
    units = "hp"
    example = "1 1/2 hp"
    lowest = "1/6 hp"
    highest = "100 hp"


class Area(Quantity):
    """A cross-section or floor area; base unit square millimetre."""

    __slots__ = ()
    name = "area"
    base = "mm²"
    factors: ClassVar[dict[str, Fraction]] = {
        "in²": _INCH**2,
        "in2": _INCH**2,
        "sq in": _INCH**2,
        "ft²": 144 * _INCH**2,
        "ft2": 144 * _INCH**2,
        "sq ft": 144 * _INCH**2,
        "mm²": Fraction(1),
        "mm2": Fraction(1),
        "cm²": Fraction(100),
        "cm2": Fraction(100),
        "m²": Fraction(1_000_000),
        "m2": Fraction(1_000_000),
    }
    metric_units = frozenset({"mm²", "mm2", "cm²", "cm2", "m²", "m2"})
    units = "in², ft², mm², cm², m²"
    example = "120 ft²"
    lowest = "0 in²"
    highest = "100000 ft²"


class Volume(Quantity):
    """An enclosure's volume; base unit cubic millimetre."""

    __slots__ = ()
    name = "volume"
    base = "mm³"
    factors: ClassVar[dict[str, Fraction]] = {
        "in³": _INCH**3,
        "in3": _INCH**3,
        "cu in": _INCH**3,
        "cm³": Fraction(1000),
        "cm3": Fraction(1000),
        "mL": Fraction(1000),
        "ml": Fraction(1000),
    }
    metric_units = frozenset({"cm³", "cm3", "mL", "ml"})
    units = "in³, cu in, cm³, mL"
    example = "18 in³"
    lowest = "0 in³"
    highest = "10000 in³"


class Mass(Quantity):
    """A weight to be held up; base unit gram."""

    __slots__ = ()
    name = "weight"
    base = "g"
    factors: ClassVar[dict[str, Fraction]] = {
        "lb": Fraction(45359237, 100000),
        "lbs": Fraction(45359237, 100000),
        "kg": Fraction(1000),
        "g": Fraction(1),
    }
    metric_units = frozenset({"kg", "g"})
    units = "lb, kg, g"
    example = "6 lb"
    lowest = "0 lb"
    highest = "1000 lb"


class Resistance(Quantity):
    """An electrode's measured resistance to earth; base unit ohm."""

    __slots__ = ()
    name = "resistance"
    base = "ohm"
    factors: ClassVar[dict[str, Fraction]] = {
        "ohm": Fraction(1),
        "ohms": Fraction(1),
        "Ω": Fraction(1),
        "ω": Fraction(1),
        "\u2126": Fraction(1),  # the ohm sign, which is not the Greek letter
    }
    units = "ohm, Ω"
    example = "25 ohm"
    lowest = "0 ohm"
    highest = "10000 ohm"


class ResistancePerLength(Quantity):
    """Resistance or reactance of a conductor per length; base unit ohm per kilometre. Exact: 1000 ft is 0.3048 km."""

    __slots__ = ()
    name = "resistance per length"
    base = "ohm/km"
    factors: ClassVar[dict[str, Fraction]] = {"ohm/kft": Fraction(10000, 3048), "ohm/km": Fraction(1)}
    metric_units = frozenset({"ohm/km"})
    units = "ohm/kft, ohm/km"
    example = "1.98 ohm/kft"
    lowest = "0.01 ohm/kft"
    highest = "10 ohm/kft"


class ConductorArea(Quantity):
    """A conductor's cross-section as wire tables give it; base unit circular mil, the square of a diameter in mils."""

    __slots__ = ()
    name = "conductor area"
    base = "cmil"
    factors: ClassVar[dict[str, Fraction]] = {"cmil": Fraction(1), "kcmil": Fraction(1000)}
    units = "cmil, kcmil"
    example = "6530 cmil"
    lowest = "1620 cmil"
    highest = "2000 kcmil"


class Angle(Quantity):
    """The angle of a bend; base unit degree."""

    __slots__ = ()
    name = "angle"
    base = "°"
    factors: ClassVar[dict[str, Fraction]] = {"°": Fraction(1), "deg": Fraction(1)}
    units = "°, deg"
    example = "90°"
    lowest = "1°"
    highest = "180°"


class Temperature(Quantity):
    """A temperature; base unit degree Celsius. Exact: °C = (°F − 32) × 5/9."""

    __slots__ = ()
    name = "temperature"
    base = "°C"
    factors: ClassVar[dict[str, Fraction]] = {
        "°f": Fraction(5, 9),
        "°c": Fraction(1),
        "f": Fraction(5, 9),
        "c": Fraction(1),
    }
    metric_units = frozenset({"°c", "c"})
    units = "°F, °C"
    example = "95 °F"
    lowest = "-60 °F"
    highest = "140 °F"

    @classmethod
    def parse(cls, text: str) -> Self:
        """As other quantities, with a sign allowed and the offset of the Fahrenheit scale."""
        sign = text.strip()[:1]
        negative = sign in ("-", "−")
        size = super().parse(text.replace(sign, " ", 1) if negative else text)
        degrees = -size.amount if negative else size.amount
        return cls(degrees if size.metric else degrees - _FREEZING, " ".join(text.split()), size.metric)

    @classmethod
    def of(cls, amount: Fraction | int, unit: str) -> Self:
        """A computed temperature, `amount` in `unit`."""
        metric = unit.lower() in cls.metric_units
        degrees = Fraction(amount) * cls.factors[unit.lower()]
        return cls(degrees if metric else degrees - _FREEZING, f"{plain(amount)} {unit}", metric)

    def in_unit(self, unit: str) -> Fraction:
        """The temperature on the scale of a unit."""
        offset = 0 if unit.lower() in self.metric_units else _FREEZING
        return (self.amount + offset) / self.factors[unit.lower()]


class TemperatureDifference(Quantity):
    """A difference of two temperatures; base unit Celsius degree. Exact: a Fahrenheit degree is 5/9 of one."""

    __slots__ = ()
    name = "temperature difference"
    base = "°C"
    factors: ClassVar[dict[str, Fraction]] = {
        "°f": Fraction(5, 9),
        "°c": Fraction(1),
        "f": Fraction(5, 9),
        "c": Fraction(1),
    }
    metric_units = frozenset({"°c", "c"})
    units = "°F, °C"
    example = "60 °F"
    lowest = "0 °F"
    highest = "200 °F"
