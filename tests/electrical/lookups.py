"""Lookups and chains of computations as rules make them: tables of the base pack handed to `precover.electrical`."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from electrical.tables import keys, limit, table, value
from precover.electrical.ampacity import ampacity
from precover.electrical.bands import band, smallest
from precover.electrical.box_fill import ALL_AS_ONE, GroundsRule
from precover.electrical.grounding import held_to_circuit, upsized
from precover.electrical.raceway_fill import Filling, case_of, occupied
from precover.electrical.working import Worked
from precover.units import Area, ConductorArea, ConductorSize, Current, Temperature

ONE = Fraction(1)


def amps(number: Any) -> Current:
    """A current from a number of amperes."""
    return Current.of(Fraction(str(number)), "A")


def breakers() -> list[Current]:
    """The standard ratings of breakers, ascending."""
    return [value("standard-overcurrent", *key) for key in keys("standard-overcurrent", "fuse or breaker")]


def column(metal: str, size: str, celsius: int) -> Current:
    """An ampacity by table."""
    found = value("ampacity", metal, size, f"{celsius} °C")
    assert isinstance(found, Current)
    return found


def correction(ambient: Temperature, celsius: int) -> Fraction:
    """The correction factor for a temperature, found in the bands of its own unit."""
    bands = ((_end(key, ambient), key[0]) for key in keys("ambient-bands"))
    where = band(ambient, bands)
    assert where is not None
    found = value("ambient-correction", where, f"{celsius} °C")
    assert isinstance(found, Fraction)
    return found


def adjustment(count: int) -> Fraction:
    """The adjustment factor for a number of current-carrying conductors."""
    bands = ((int(key[0]), key[0]) for key in keys("bundling-adjustment") if key[0] != "more")
    found = value("bundling-adjustment", band(count, bands, "more") or "more")
    assert isinstance(found, Fraction)
    return found


def small_conductor(metal: str, size: str) -> Current | None:
    """The overcurrent limit of a small conductor; None for the larger ones."""
    return (
        value("small-conductor-overcurrent", metal, size)
        if (metal, size) in set(keys("small-conductor-overcurrent"))
        else None
    )


def area(size: str) -> ConductorArea:
    """A conductor's area in circular mils: by table, or as a kcmil size itself says."""
    if ConductorSize.parse(size).text.endswith("kcmil"):
        return ConductorArea.parse(f"{size} kcmil")
    stranding = "stranded" if (size, "stranded", "conductor area") in set(keys("conductor-properties")) else "solid"
    found = value("conductor-properties", size, stranding, "conductor area")
    assert isinstance(found, ConductorArea)
    return found


def sizes(least: str = "14") -> Iterator[str]:
    """The sizes of building wire from `least` up, as far as their properties are known."""
    made = dict.fromkeys(key[0] for key in keys("conductor-properties"))
    floor = ConductorSize.parse(least)
    return (size for size in made if ConductorSize.parse(size) >= floor)


def smallest_conductor(needed: Current, metal: str, celsius: int) -> str | None:
    """The smallest size whose table ampacity suffices."""
    known = set(keys("ampacity"))
    made = (size for size in sizes() if (metal, size, f"{celsius} °C") in known)
    return smallest(made, lambda size: column(metal, size, celsius) >= needed)


def ground_by_table(device: Current, metal: str, circuit: str | None = None) -> ConductorSize:
    """The equipment grounding conductor for a device, not larger than the circuit's conductors."""
    bands = ((Current.parse(key[0]), key) for key in keys("equipment-grounding-conductor") if key[1] == metal)
    key = band(device, bands)
    assert key is not None
    found = value("equipment-grounding-conductor", *key)
    assert isinstance(found, ConductorSize)
    return found if circuit is None else held_to_circuit(found, ConductorSize.parse(circuit))


def ground_upsized(
    device: Current, metal: str, needed: ConductorArea, installed: ConductorArea
) -> Worked[ConductorSize | None]:
    """The equipment grounding conductor for hots larger than they need be."""
    by_table = area(ground_by_table(device, metal).designation)
    return upsized(by_table, needed, installed, ((ConductorSize.parse(size), area(size)) for size in sizes()))


def electrode_conductor(supply: ConductorArea, supply_metal: str, metal: str) -> ConductorSize:
    """The grounding electrode conductor for a supply conductor, parallel sets added."""
    rows = [key for key in keys("grounding-electrode-conductor", supply_metal) if key[2] == metal]
    bands = ((_reach(key[1]), key) for key in rows if key[1] != "larger")
    found = value("grounding-electrode-conductor", *(band(supply, bands, rows[-1]) or rows[-1]))
    assert isinstance(found, ConductorSize)
    return found


def wire_area(insulation: str, size: str) -> Area:
    """The printed cross-section of an insulated or bare conductor."""
    found = value("conductor-dimensions", insulation, size, "area")
    assert isinstance(found, Area)
    return found


def fillings(wires: dict[str, int]) -> list[Filling]:
    """Equal wires from `{"THHN/THWN-2 12": 3}`."""
    return [Filling(name, count, wire_area(*name.rsplit(" ", 1))) for name, count in wires.items()]


PERCENT = {
    "one conductor or cable": "53 %",
    "two conductors or cables": "31 %",
    "more than two": "40 %",
    "nipple": "60 %",
}
"""Row of the fill table -> the column of the raceway table that holds the area for it."""


def smallest_raceway(raceway: str, wires: dict[str, int], *, nipple: bool = False) -> tuple[Area, str | None]:
    """What wires take, and the smallest trade size that may hold them."""
    inside = fillings(wires)
    taken = occupied(inside).value
    percent = PERCENT[case_of(inside, nipple=nipple)]
    made = dict.fromkeys(key[1] for key in keys("raceway-dimensions", raceway))
    fits = smallest(made, lambda size: taken <= value("raceway-dimensions", raceway, size, percent))
    return taken, fits


def grounds_rule(edition: int) -> GroundsRule:
    """How grounds count in a box under an edition."""
    if edition < 2020:
        return ALL_AS_ONE
    return GroundsRule(limit("grounds counted as one in a box"), limit("share of each further ground in a box"))


def derated(
    metal: str, size: str, celsius: int, ambient: str | None, count: int, limits: dict[str, Current]
) -> Worked[Current]:
    """Ampacity with correction, adjustment and limits, from their tables."""
    factor = ONE if ambient is None else correction(Temperature.parse(ambient), celsius)
    return ampacity(column(metal, size, celsius), factor, adjustment(count), limits)


def _end(key: tuple[str, ...], like: Temperature) -> Temperature:
    found = table("ambient-bands")[key].like(like)
    assert isinstance(found, Temperature)
    return found


def _reach(size: str) -> ConductorArea:
    """The upper end of a row in circular mils; the row printed as 1100 kcmil is held under the largest size in it."""
    if size == "1000 kcmil":
        return ConductorArea.parse("1100 kcmil")
    return ConductorArea.parse(size) if size.endswith("kcmil") else area(size.removesuffix(" AWG"))
