"""Worked examples on raceways and boxes."""

from __future__ import annotations

from fractions import Fraction

from electrical.computing import Given, Result, computes
from electrical.lookups import PERCENT, fillings, grounds_rule, smallest_raceway
from electrical.tables import keys, limit, value
from precover.electrical.bands import smallest
from precover.electrical.box_fill import Yoke, box_fill, room_for
from precover.electrical.raceway_fill import Filling, case_of, equal_conductors, most_conductors
from precover.electrical.raceway_run import (
    bends_between_pull_points,
    length_change,
    longest_without_fitting,
    piston_setting,
    swing,
)
from precover.units import Angle, Area, Length, Temperature, TemperatureDifference, Volume

PERCENTS = tuple(
    value("raceway-fill", case) for case in ("one conductor or cable", "two conductors or cables", "more than two")
)


@computes("raceway for wires")
def raceway_for_wires(given: Given) -> Result:
    """The smallest trade size."""
    taken, size = smallest_raceway(given["raceway"], given["wires"], nipple=given.get("nipple", False))
    return {"area_in2": taken.in_unit("in²"), "trade_size": size}


@computes("fill area")
def fill_area(given: Given) -> Result:
    """The area that may be filled."""
    case = case_of([Filling("wire", given["count"], Area.of(0, "in²"))], nipple=given["nipple"])
    area = value("raceway-dimensions", given["raceway"], given["size"], PERCENT[case])
    return {"area_in2": area.in_unit("in²")}


@computes("fill percent")
def fill_percent(given: Given) -> Result:
    """The share that may be filled."""
    case = case_of([Filling("wire", given["count"], Area.of(0, "in²"))], nipple=False)
    return {"percent": 100 * value("raceway-fill", case)}


@computes("equal conductors")
def equal(given: Given) -> Result:
    """The most equal conductors in each of several raceways."""
    each = area_of(given)
    round_up = limit("fraction of a conductor that rounds up")
    one, two, more = PERCENTS
    return {
        raceway: most_conductors(
            value("raceway-dimensions", raceway, given["size"], "internal diameter"), each, (one, two, more), round_up
        )
        for raceway in given["raceways"]
    }


@computes("whole conductors")
def whole_conductors(given: Given) -> Result:
    """The most equal conductors in a given area."""
    allowed = Area.of(Fraction(str(given["allowed_in2"])), "in²")
    return {"count": equal_conductors(allowed, area_of(given), limit("fraction of a conductor that rounds up"))}


@computes("conductors in a nipple")
def in_a_nipple(given: Given) -> Result:
    """The most equal conductors in a nipple."""
    allowed = value("raceway-dimensions", given["raceway"], given["size"], PERCENT["nipple"])
    return {"count": equal_conductors(allowed, area_of(given), limit("fraction of a conductor that rounds up"))}


def area_of(given: Given) -> Area:
    """The area of one conductor, given or by table."""
    if "each_in2" in given:
        return Area.of(Fraction(str(given["each_in2"])), "in²")
    return fillings({given["wire"]: 1})[0].each


@computes("box volume")
def box_volume(given: Given) -> Result:
    """The volume needed, whether it is there, and the smallest box of a kind."""
    allowance = {size: value("box-allowance", size) for (size,) in keys("box-allowance")}
    conductors = [allowance[size] for size, count in given["conductors"].items() for _ in range(count)]
    grounds = [allowance[size] for size in given["grounds"]]
    yokes = [Yoke(allowance[size], gangs) for size, gangs in given["yokes"]]
    needed = box_fill(
        conductors,
        grounds,
        yokes,
        internal_clamps=given["clamps"],
        fittings=given["fittings"],
        rule=grounds_rule(given["edition"]),
    ).value
    boxes = keys("box-volume", given["kind"]) if "kind" in given else ()
    box = smallest(boxes, lambda key: value("box-volume", *key) >= needed)
    return {
        "in3": needed.in_unit("in³"),
        "allowances": needed.amount / conductors[0].amount,
        "counted": len(conductors) + bool(grounds) + 2 * len(yokes) + given["fittings"] + given["clamps"],
        "fits": needed.in_unit("in³") <= Fraction(str(given.get("volume", 0))),
        "box": box and box[1],
    }


@computes("conductors in a box")
def in_a_box(given: Given) -> Result:
    """How many more conductors of a size a box holds."""
    whole = value("box-volume", *given["box"]) if "box" in given else Volume.of(given["volume"], "in³")
    used = sum(count * value("box-allowance", size).amount for size, count in given.get("already", {}).items())
    left = Volume(whole.amount - used, "what is left")
    return {"count": room_for(left, value("box-allowance", given["size"]))}


@computes("grounds in a box")
def grounds_in_a_box(given: Given) -> Result:
    """How grounds count."""
    rule = grounds_rule(2023)
    return {"together": rule.together, "share": rule.share}


@computes("expansion")
def expansion(given: Given) -> Result:
    """The change of length, and whether it needs a fitting."""
    if "cold" in given:
        change = swing(Temperature.parse(given["cold"]), Temperature.parse(given["hot"]))
    else:
        change = TemperatureDifference.of(given["change_f"], "°F")
    moved = length_change(Length.of(given["ft"], "ft"), change, value("thermal-expansion", "PVC")).value
    return {
        "in": moved.in_unit("in"),
        "fitting": moved >= limit("length change that needs an expansion fitting"),
    }


@computes("piston")
def piston(given: Given) -> Result:
    """Where to set an expansion fitting."""
    cold, hot, installed = (Temperature.parse(given[name]) for name in ("cold", "hot", "installed"))
    return {"in": piston_setting(cold, hot, installed, Length.of(given["travel_in"], "in")).in_unit("in")}


@computes("fitting from")
def fitting_from(given: Given) -> Result:
    """The change of length that needs a fitting."""
    return {"in": limit("length change that needs an expansion fitting").in_unit("in")}


@computes("change that needs a fitting")
def change_that_needs_a_fitting(given: Given) -> Result:
    """The change of temperature, from the length that one degree would allow."""
    one = longest_without_fitting(
        TemperatureDifference.of(1, "°F"),
        value("thermal-expansion", "PVC"),
        limit("length change that needs an expansion fitting"),
    )
    return {"change_f": one.in_unit("ft") / given["ft"]}


@computes("bends")
def bends(given: Given) -> Result:
    """The bends of one stretch."""
    (total,) = bends_between_pull_points([Angle.of(bend, "°") for bend in given["bends"]])
    most = limit("bends between pull points")
    return {"degrees": total.amount, "limit": most.amount, "allowed": total <= most}


@computes("support")
def support(given: Given) -> Result:
    """Distances of supports."""
    return {
        "ft": value("support-spacing", *given["key"], "between supports").in_unit("ft"),
        "box_in": value("support-spacing", *given["key"], "from a box").in_unit("in"),
    }


@computes("clearance")
def clearance(given: Given) -> Result:
    """A clearance of overhead conductors."""
    return {"ft": value("overhead-clearance", given["where"], given["voltage"]).in_unit("ft")}


@computes("clearances")
def clearances(given: Given) -> Result:
    """Several clearances of overhead conductors."""
    cells = {
        "pedestrian": ("over walks for pedestrians only", "150 V to ground"),
        "residential": ("over residential property and driveways", "300 V to ground"),
        "over_300_v": ("over residential property and driveways", "over 300 V to ground"),
        "rail": ("over railroad tracks", "any"),
        "roof": ("over a roof", "any"),
        "steep_roof": ("over a roof of 4 in 12 or steeper", "300 V between conductors"),
        "past_roof_edge": ("past a roof edge", "any"),
    }
    return {name: value("overhead-clearance", *key).in_unit("ft") for name, key in cells.items()}


@computes("span")
def span(given: Given) -> Result:
    """The longest span of open conductors of the least size."""
    assert value("overhead-span", "open conductors", "Cu").designation == given["size"]
    return {"ft": value("overhead-span", "open conductors", "longest").in_unit("ft")}
