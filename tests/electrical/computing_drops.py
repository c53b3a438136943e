"""Worked examples on voltage drop, each through the exact solution of a small network."""

from __future__ import annotations

import cmath
import itertools
import math
from collections.abc import Sequence

from electrical.computing import Given, Result, computes
from electrical.lookups import area, sizes
from electrical.tables import limit, value
from precover.electrical.bands import smallest
from precover.electrical.network import Load, Solution, Stretch, solve
from precover.electrical.voltage_drop import longest_length, smallest_wire

FT_PER_KM = 1000 / 0.3048


def solved(volts: float, amps: float, ohms: Sequence[float], phases: int = 1) -> Solution:
    """A line of stretches with so many ohms in each wire, and a resistive load of `amps` at its end."""
    if phases == 3:
        supply = {name: cmath.rect(volts / math.sqrt(3), -n * 2 * math.pi / 3) for n, name in enumerate("ABC")}
        pairs, each = [("A", "B"), ("B", "C"), ("C", "A")], amps / math.sqrt(3)
    else:
        supply, pairs, each = {"A": volts + 0j, "B": 0j}, [("A", "B")], amps
    names = [str(n) for n in range(len(ohms) + 1)]
    stretches = [
        Stretch(start, end, dict.fromkeys(supply, part + 0j))
        for start, end, part in zip(names, names[1:], ohms, strict=False)
    ]
    return solve(names[0], supply, stretches, [Load(names[-1], pair, each, "current") for pair in pairs])


def ohms_per_foot(given: Given, size: str | None = None) -> float:
    """The resistance of one wire: given, from the constant K, or by table at 75 °C."""
    size = size or given.get("size")
    if "ohm_per_kft" in given:
        return float(given["ohm_per_kft"]) / 1000
    assert size is not None
    if "k" in given:
        return float(given["k"]) / float(area(size).amount)
    found = value(
        "conductor-properties", size, given.get("stranding", "stranded"), f"resistance {given.get('metal', 'Cu')}"
    )
    return float(found.amount) / FT_PER_KM


@computes("drop")
def drop(given: Given) -> Result:
    """The drop of one run."""
    found = solved(given["volts"], given["amps"], [ohms_per_foot(given) * given["ft"]], given.get("phases", 1))
    left = found.volts("1", ("A", "B"))
    return {"drop_v": given["volts"] - left, "left_v": left, "percent": 100 * found.drop("1", ("A", "B"))}


@computes("drop in series")
def drop_in_series(given: Given) -> Result:
    """The drop of a run of several sizes."""
    parts = given["parts"]
    found = solved(given["volts"], given["amps"], [ohms_per_foot(given, part["size"]) * part["ft"] for part in parts])
    at = [found.volts(str(n), ("A", "B")) for n in range(len(parts) + 1)]
    return {
        "drop_v": [before - after for before, after in itertools.pairwise(at)],
        "left_v": at[-1],
        "percent": 100 * found.drop(str(len(parts)), ("A", "B")),
    }


@computes("wire within")
def wire_within(given: Given) -> Result:
    """The smallest wire within a drop, and the area just enough."""
    volts, phases = given["volts"], given.get("phases", 1)
    allowed = given.get("max_drop_v", volts * given.get("percent", 0) / 100)

    def lost(ohms: float) -> float:
        return volts - solved(volts, given["amps"], [ohms], phases).volts("1", ("A", "B"))

    made = sorted(given["choices"], key=list(sizes()).index) if "choices" in given else sizes()
    size = smallest_wire(made, lambda size: lost(ohms_per_foot(given, size) * given["ft"]), allowed)
    most = longest_length(lost, allowed, volts / given["amps"] / 4)
    return {"size": size, "cmil": given["k"] * given["ft"] / most}


@computes("reach")
def reach(given: Given) -> Result:
    """The longest run within a drop."""
    each = ohms_per_foot(given)

    def lost(feet: float) -> float:
        return solved(given["volts"], given["amps"], [each * feet]).drop("1", ("A", "B"))

    return {"ft": longest_length(lost, given["percent"] / 100, 10000)}


@computes("percent lost")
def percent_lost(given: Given) -> Result:
    """The part that is lost between two voltages."""
    between = Solution(
        "source", {"source": {"A": given["source_v"], "B": 0}, "load": {"A": given["load_v"], "B": 0}}, {}
    )
    return {"percent": 100 * between.drop("load", ("A", "B"))}


@computes("lowest voltage")
def lowest_voltage(given: Given) -> Result:
    """What is left at the advised limit."""
    return {"left_v": given["source_v"] * (1 - limit("voltage drop advised for feeder and branch circuit"))}


@computes("left for the branch")
def left_for_the_branch(given: Given) -> Result:
    """What a feeder leaves of the advised drop."""
    together = limit("voltage drop advised for feeder and branch circuit")
    return {"percent": 100 * together - given["feeder_percent"]}


@computes("sizes for an area")
def sizes_for_an_area(given: Given) -> Result:
    """Copper and aluminum sizes for an area."""

    def least(cmil: float) -> str | None:
        return smallest(sizes(), lambda size: area(size).amount >= cmil)

    return {"cu": least(given["cmil"]), "al": least(given["cmil"] * given["aluminum_factor"])}
