"""Where a receptacle needs ground-fault protection, and how sure that is."""

from collections.abc import Iterator

from precover.plan import Box, Device, GroundFaultDevice, Receptacle, Structure, Switch, Unstated
from precover.rulebook import Look
from precover.units import Current
from precover_rules.circuits import devices_on
from precover_rules.location import location_of
from precover_rules.premises import is_dwelling

TABLE = "ground-fault-places"
OUTDOORS = ("outdoors", "ground")
STANDS_OUTDOORS = ("post", "lighting pole")
REQUIREMENT_OF = {
    "garage": "gfci-garage",
    "accessory building, floor at or below grade": "gfci-accessory-building",
    "accessory building, floor above grade": "gfci-accessory-building",
    "outdoors": "gfci-outdoor-receptacle",
    "outdoors, de-icing out of reach": "gfci-outdoor-receptacle",
    "basement": "gfci-basement-crawl",
    "crawl space": "gfci-basement-crawl",
    "indoor damp or wet": "gfci-indoor-damp",
    "near a sink": "gfci-sink-six-feet",
}
"""The requirement behind a row of the table, where the map has one of its own."""
BY_NAME = ("garage", "basement", "crawl space", "kitchen", "laundry", "bathroom")
"""Areas that are rows of the table by their own name."""


def is_outdoors(box: Box, look: Look) -> bool:
    """The box is outdoors: by its area, or because it is on a post or pole."""
    return look.plan.structures[box.at].use in STANDS_OUTDOORS or look.stated(box.area) in OUTDOORS


def rows_of(receptacle: Receptacle, look: Look) -> Iterator[str]:
    """The rows of the table that describe where a receptacle is, those that are told from fewer facts first."""
    box = look.trace.box_of(receptacle)
    if is_outdoors(box, look):
        yield "outdoors, de-icing out of reach" if _deicing(receptacle, look) else "outdoors"
        return
    area = look.stated(box.area)
    if area in BY_NAME:
        yield area
    yield from _outbuilding(look.plan.structures[box.at], look)
    if location_of(box, look) != "dry":
        yield "indoor damp or wet"
    distance = receptacle.sink_distance
    if distance is not None and distance <= look.limit("sink distance for ground-fault protection").like(distance):
        yield "near a sink"


def doubt_about(structure: Structure, look: Look) -> str:
    """Why it is not sure that the list for dwellings holds at a structure; empty where it is."""
    if structure.use == "dwelling":
        return ""
    if not is_dwelling(look):
        return "premises other than dwellings have a list of their own, which this rulebook does not hold"
    if structure.use in ("agricultural", "commercial"):
        return f"whether a building in {structure.use} use counts as one of the dwelling's is for the authority to say"
    return ""


def _outbuilding(structure: Structure, look: Look) -> Iterator[str]:
    """The whole of a garage or accessory building is a storage or work place, unless it is made to live in."""
    if structure.use not in ("garage", "accessory", "agricultural"):
        return
    if look.stated(structure.habitable):
        return
    if structure.use == "garage":
        yield "garage"
    else:
        yield f"accessory building, floor {look.stated(structure.floor)}"


def _deicing(receptacle: Receptacle, look: Look) -> bool:
    """A claimed de-icing receptacle that is out of reach, with nothing but its like on the circuit."""
    if not receptacle.deicing:
        return False
    if look.stated(receptacle.readily_accessible):
        look.because("within reach: the de-icing exception does not hold", f"{receptacle.place}/readily-accessible")
        return False
    circuit = look.trace.circuit_of(receptacle)
    other = next((device for device in devices_on(circuit, look) if not _serves_deicing(device)), None)
    if other is not None:
        look.because("the circuit feeds something else too: the de-icing exception does not hold", other.place)
    return other is None


def _serves_deicing(device: Device) -> bool:
    return isinstance(device, Switch | GroundFaultDevice) or (isinstance(device, Receptacle) and bool(device.deicing))


def voltage_covered(receptacle: Receptacle, look: Look) -> bool:
    """The receptacle's ratings and its circuit's voltage to ground are among those that the list covers.

    Where the rating is not stated, the voltage of its circuit stands for it. Only the upper end is compared: no
    receptacle of a branch circuit is made for less than 125 V (common practice).
    """
    largest = look.limit("ground-fault protected receptacle current").text
    if largest != "any" and receptacle.receptacle > Current.parse(largest):
        return False
    circuit = look.trace.circuit_of(receptacle)
    highest = look.limit("ground-fault protected receptacle rating").value
    if isinstance(receptacle.voltage, Unstated):
        if look.stated(circuit.voltage).line_to_line > highest.amount:
            return False
    elif receptacle.voltage > highest:
        return False
    to_ground = look.limit("ground-fault protected circuit voltage to ground").value
    return bool(look.stated(circuit.voltage).line_to_ground <= to_ground.amount)
