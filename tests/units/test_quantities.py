"""Quantities: exact, in every way that people write them, and the same as an independent library says."""

from __future__ import annotations

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from precover.units import (
    Angle,
    Apparent,
    Area,
    ConductorArea,
    Current,
    Horsepower,
    Length,
    Mass,
    Power,
    Quantity,
    QuantityError,
    Resistance,
    ResistancePerLength,
    Temperature,
    TemperatureDifference,
    Voltage,
    Volume,
    number,
    plain,
    total,
)

KINDS: list[type[Quantity]] = [
    Angle,
    Apparent,
    Area,
    ConductorArea,
    Current,
    Horsepower,
    Length,
    Mass,
    Power,
    Resistance,
    ResistancePerLength,
    Temperature,
    TemperatureDifference,
    Voltage,
    Volume,
]
SCALES = [kind for kind in KINDS if kind is not Temperature]
"""Dimensions whose zero is nothing at all."""

REGISTRY = pint.UnitRegistry(non_int_type=Fraction)

PINT = {
    '"': "inch",
    "'": "foot",
    "a": "ampere",
    "amp": "ampere",
    "amps": "ampere",
    "v": "volt",
    "kv": "kilovolt",
    "w": "watt",
    "kw": "kilowatt",
    "va": "volt*ampere",
    "kva": "kilovolt*ampere",
    "hp": "hp",
    "in²": "inch**2",
    "in2": "inch**2",
    "sq in": "inch**2",
    "ft²": "foot**2",
    "ft2": "foot**2",
    "sq ft": "foot**2",
    "mm²": "mm**2",
    "mm2": "mm**2",
    "cm²": "cm**2",
    "cm2": "cm**2",
    "m²": "m**2",
    "m2": "m**2",
    "in³": "inch**3",
    "in3": "inch**3",
    "cu in": "inch**3",
    "cm³": "cm**3",
    "cm3": "cm**3",
    "ml": "milliliter",
    "lbs": "lb",
    "ω": "ohm",
    "Ω": "ohm",
    "\u2126": "ohm",
    "ohms": "ohm",
    "ohm/kft": "ohm/kilofoot",
    "ohm/km": "ohm/kilometer",
    "kcmil": "kilocircular_mil",
    "cmil": "circular_mil",
    "°": "degree",
    "deg": "degree",
}
BASES = {
    "mm²": "mm**2",
    "mm³": "mm**3",
    "VA": "volt*ampere",
    "°": "degree",
    "cmil": "circular_mil",
    "ohm/km": "ohm/kilometer",
    "A": "ampere",
}

WRITTEN = st.one_of(
    st.integers(0, 999_999_999).map(str),
    st.decimals(0, 99_999, places=4, allow_nan=False).map(lambda value: f"{value:f}"),
    st.tuples(st.integers(0, 9999), st.integers(1, 9999)).map(lambda pair: f"{pair[0]}/{pair[1]}"),
    st.tuples(st.integers(0, 9999), st.integers(0, 999), st.integers(1, 999)).map(lambda n: f"{n[0]} {n[1]}/{n[2]}"),
)


def exactly(text: str) -> Fraction:
    """A written number, worked out here by itself."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


@pytest.mark.parametrize("kind", [kind for kind in SCALES if kind is not TemperatureDifference])
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_an_amount_is_what_pint_makes_of_it(kind: type[Quantity], data: st.DataObject) -> None:
    """Exactly: no conversion goes through a float."""
    unit, text = data.draw(st.sampled_from([*kind.factors])), data.draw(WRITTEN)
    found = kind.parse(f"{text} {unit}")
    amount = REGISTRY.Quantity(exactly(text), PINT.get(unit, unit)).to(BASES.get(kind.base, kind.base)).magnitude
    if kind is ConductorArea or kind is Angle or isinstance(amount, float):
        assert math.isclose(found.amount, amount, rel_tol=1e-12)
    else:
        assert found.amount == amount


@settings(max_examples=100, deadline=None)
@given(st.integers(-459, 9999), st.sampled_from(["°F", "f", "°C", "C"]), st.sampled_from(["-", "−", "- "]))
def test_a_temperature_is_what_pint_makes_of_it(degrees: int, unit: str, sign: str) -> None:
    """With the offset of its scale, and any minus sign."""
    text = f"{sign}{-degrees} {unit}" if degrees < 0 else f"{degrees} {unit}"
    scale = "degree_Fahrenheit" if unit.lower().endswith("f") else "degree_Celsius"
    celsius = REGISTRY.Quantity(Fraction(degrees), scale).to("degree_Celsius").magnitude
    found = Temperature.parse(text)
    assert math.isclose(found.amount, celsius, abs_tol=1e-9)
    assert found.metric is scale.endswith("Celsius")
    assert found.in_unit(unit) == degrees
    assert Temperature.of(degrees, unit) == found


def test_temperatures_by_hand() -> None:
    """Where the scales meet, and where water freezes and boils."""
    assert Temperature.parse("-40 °F") == Temperature.parse("-40 °C")
    assert Temperature.parse("32 °F").amount == 0
    assert Temperature.parse("212 F").amount == 100
    assert Temperature.parse("86 °F").in_unit("°C") == 30
    assert TemperatureDifference.parse("9 °F").amount == 5


@settings(max_examples=150, deadline=None)
@given(
    st.integers(0, 9999),
    WRITTEN,
    st.sampled_from(["ft", "FT", "'", "feet", "foot"]),
    st.sampled_from(["in", '"', "inches"]),
)
def test_feet_and_inches_are_their_sum(feet: int, inches: str, foot: str, inch: str) -> None:
    """Compound lengths, with and without spaces."""
    gap = " " if inches[:1] == "." or foot[-1:] != "'" else ""
    text = f"{feet} {foot}{gap or ' '}{inches} {inch}"
    assume(len(text) <= 40)
    found = Length.parse(text)
    assert found.amount == (feet * 12 + exactly(inches)) * Fraction(254, 10)
    assert not found.metric


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("18 in", "457.2"),
        ("18in", "457.2"),
        ('18"', "457.2"),
        ("12 ft 6 in", "3810"),
        ("5' 6\"", "1676.4"),
        ("5'6\"", "1676.4"),
        ("1 1/2 ft 3 in", "533.4"),
        ("3/4 in", "19.05"),
        (".5 in", "12.7"),
        ("1 m 50 cm", "1500"),
        ("1 ft 30 in", "1066.8"),
        ("0 in", "0"),
        ("007 in", "177.8"),
        (" 2  FEET ", "609.6"),
        ("1\t1/2\tin", "38.1"),
        ("18\u00a0in", "457.2"),
        ("1\u202fm", "1000"),
        ("1 ft 1 mm", "305.8"),
    ],
)
def test_lengths_by_hand(text: str, millimetres: str) -> None:
    """As the trade writes them, with any space that a keyboard has."""
    assert Length.parse(text).amount == Fraction(millimetres)


@pytest.mark.parametrize(
    ("text", "metric"),
    [
        ("450 mm", True),
        ("1 m 50 cm", True),
        ("0.5 M", True),
        ("18 in", False),
        ("1 m 2 in", False),
        ("1 ft 1 mm", False),
    ],
)
def test_a_length_is_metric_if_all_of_it_is(text: str, metric: bool) -> None:
    """It decides which of a limit's twins holds."""
    assert Length.parse(text).metric is metric


@pytest.mark.parametrize("kind", KINDS)
def test_a_dimension_knows_its_own_words(kind: type[Quantity]) -> None:
    """Its example, both ends of what is tried, each unit as people write it, and which of them are metric."""
    low, high = kind.probes()
    assert low < high
    assert kind.parse(kind.example).text == kind.example
    for unit in kind.units.split(", "):
        assert kind.parse(f"1 {unit}").amount == kind.of(1, unit).amount
    assert kind.metric_units <= set(kind.factors)
    assert all(unit == unit.lower() or unit in ("mL", "Ω", "\u2126") for unit in kind.factors)


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_what_is_written_can_be_read_again(kind: type[Quantity], data: st.DataObject) -> None:
    """The text of a quantity, in any case and with other spaces, is the same quantity."""
    unit, text = data.draw(st.sampled_from([*kind.factors])), data.draw(WRITTEN)
    found = kind.parse(f"{text} {unit}")
    again = kind.parse(f"  {found.text.replace(' ', '   ')} "[:40]) if len(found.text) < 20 else kind.parse(found.text)
    assert again == found
    assert hash(again) == hash(found)
    assert again.text == found.text
    assert again.metric is found.metric
    assert found.in_unit(unit) == exactly(text)


@given(st.lists(st.tuples(WRITTEN, st.sampled_from(["in", "ft", "mm", "m"])), min_size=2, max_size=2))
def test_order_is_the_order_of_amounts(pair: list[tuple[str, str]]) -> None:
    """Across units."""
    one, other = (Length.parse(f"{text} {unit}") for text, unit in pair)
    assert (one < other) == (one.amount < other.amount)
    assert (one <= other) == (one.amount <= other.amount)
    assert (one > other) == (other < one)
    assert (one >= other) == (other <= one)
    assert (one == other) == (one.amount == other.amount)


def test_dimensions_do_not_mix() -> None:
    """A watt is no volt-ampere, and a length no current: they are unlike, and cannot be compared."""
    assert Power.parse("100 W") != Apparent.parse("100 VA")
    assert len({Power.parse("100 W"), Apparent.parse("100 VA")}) == 2
    for compare in ("__lt__", "__le__", "__gt__", "__ge__"):
        assert getattr(Power.parse("100 W"), compare)(Apparent.parse("100 VA")) is NotImplemented
    with pytest.raises(TypeError):
        _ = Length.parse("1 in") < Current.parse("1 A")  # type: ignore[operator]


@pytest.mark.parametrize(
    ("kind", "text", "says"),
    [
        (Length, "", "missing"),
        (Length, "   ", "missing"),
        (Length, "18", "has no unit"),
        (Length, "1 1/2", "has no unit"),
        (Length, "in", "is not a length"),
        (Length, "18 inn", "is not a length"),
        (Length, "18 in²", "is not a length"),
        (Length, "18 A", "is not a length"),
        (Length, "-18 in", "is not a length"),
        (Length, "1,5 m", "is not a length"),
        (Length, "1e3 mm", "is not a length"),
        (Length, "5. in", "is not a length"),
        (Length, "1/2/3 in", "is not a length"),
        (Length, "12 ft 6", "is not a length"),
        (Length, "12 ft and 6 in", "is not a length"),
        (Length, "١٨ in", "is not a length"),
        (Length, "5 ın", "is not a length"),
        (Length, "1234567890 in", "is not a length"),
        (Length, "6 in 1 ft", "puts a smaller unit first"),
        (Length, "6 in 6 in", "puts a unit twice"),
        (Length, '6 in 6"', "puts a unit twice"),
        (Length, "1/0 in", "divides by zero"),
        (Length, "1 in" + " " * 40, "44 characters long"),
        (Length, "1 in " * 2000, "10,000 characters long"),
        (Length, "9" * 10_000 + " in", "10,003 characters long"),
        (Current, "20 ampſ", "is not a current"),
        (Current, "20 A 10 A", "is not a current"),
        (Current, "20/0 A", "divides by zero"),
        (Apparent, "5 W", "is not an apparent power"),
        (Area, "", "an area is missing"),
        (Temperature, "95", "has no unit"),
        (Temperature, "--5 °F", "is not a temperature"),
        (Temperature, "-", "is missing"),
        (Temperature, "5 ℉", "is not a temperature"),
        (Volume, "18 in", "is not a volume"),
        (Horsepower, "1 1/0 hp", "divides by zero"),
    ],
)
def test_what_is_no_quantity_is_refused_with_a_way_out(kind: type[Quantity], text: str, says: str) -> None:
    """What is wrong, and how to write it."""
    with pytest.raises(QuantityError) as refused:
        kind.parse(text)
    assert says in refused.value.message
    assert len(refused.value.message) < 100
    assert kind.example in refused.value.hint


@given(st.text(max_size=45), st.sampled_from(KINDS))
def test_no_text_does_anything_but_be_read_or_refused(text: str, kind: type[Quantity]) -> None:
    """Any text at all."""
    try:
        assert kind.parse(text).text == " ".join(text.split())
    except QuantityError as refused:
        assert refused.message and refused.hint


@given(st.text("0123456789 /.\"'inftmINFTMſıK²³°Ω", max_size=40), st.sampled_from(KINDS))
def test_no_text_that_is_nearly_one_does_either(text: str, kind: type[Quantity]) -> None:
    """Texts made of what quantities are made of, with letters that fold to others."""
    try:
        assert kind.parse(text).amount >= 0 or kind is Temperature
    except QuantityError as refused:
        assert refused.message and refused.hint


@pytest.mark.parametrize(
    ("text", "value"), [("12", 12), ("0.75", Fraction(3, 4)), ("3/4", Fraction(3, 4)), ("1 1/2", Fraction(3, 2))]
)
def test_a_number_is_exact(text: str, value: Fraction) -> None:
    """Whole, decimal, fraction, mixed."""
    assert number(text) == value


@pytest.mark.parametrize(
    ("amount", "text"),
    [(Fraction(3), "3"), (Fraction(3, 2), "1.5"), (Fraction(1, 3), "0.333"), (Fraction(2, 3), "0.667"), (40, "40")],
)
def test_a_number_is_shown_short(amount: Fraction | int, text: str) -> None:
    """Three decimals at most, and no zeros at the end."""
    assert plain(amount) == text


@given(st.lists(st.fractions(max_denominator=5000)))
def test_a_total_is_the_exact_sum(amounts: list[Fraction]) -> None:
    """Whatever the denominators, and in lowest terms."""
    found = total(amounts)
    assert found == sum(amounts, Fraction(0))
    assert math.gcd(found.numerator, found.denominator) == 1


def test_a_computed_quantity() -> None:
    """With its unit, its text and its system."""
    half = Length.of(Fraction(1, 2), "in")
    assert (half.amount, half.text, half.metric) == (Fraction(127, 10), "0.5 in", False)
    assert Volume.of(18, "mL").metric
    assert repr(half) == "Length('0.5 in')"
