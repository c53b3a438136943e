"""Worked examples on conductors, devices, grounding, motors and loads."""

from __future__ import annotations

from fractions import Fraction

from electrical.computing import Given, Result, computes
from electrical.lookups import (
    ONE,
    amps,
    area,
    breakers,
    column,
    derated,
    electrode_conductor,
    ground_by_table,
    ground_upsized,
    sizes,
    small_conductor,
    smallest_conductor,
)
from electrical.tables import keys, limit, value
from precover.electrical.bands import smallest
from precover.electrical.loads import Connected, feeder_load
from precover.electrical.motors import motor_circuit
from precover.electrical.overcurrent import largest_device, most_continuous, needed, next_rating
from precover.units import Apparent, ConductorArea, ConductorSize, Current

NONE = amps(0)


def total_area(written: str) -> ConductorArea:
    """The area of `600` or of parallel `2 x 400`."""
    count, _, size = written.rpartition(" x ")
    return ConductorArea.of(area(size).amount * int(count or 1), "cmil")


@computes("ground upsized")
def upsized_ground(given: Given) -> Result:
    """The grounding conductor of a circuit with larger hots."""
    device = amps(given["device_a"])
    base, grown = total_area(given["needed"]), total_area(given["installed"])
    size = ground_upsized(device, "Cu", base, grown).value
    table = ground_by_table(device, "Cu")
    assert size is not None
    return {
        "ratio": grown.amount / base.amount,
        "cmil": area(table.designation).amount * grown.amount / base.amount,
        "size": size.designation,
        "grows": size > table,
        "enough": ConductorSize.parse(given.get("ground", "14")) >= size,
    }


@computes("ground size")
def ground_size(given: Given) -> Result:
    """The grounding conductor by table."""
    return {"size": ground_by_table(amps(given["device_a"]), given["metal"], given.get("circuit")).designation}


@computes("neutral")
def neutral(given: Given) -> Result:
    """A feeder's neutral: by its load, but not below the grounding conductor by table."""
    by_load = smallest_conductor(amps(given["unbalanced_a"]), "Cu", given["column"])
    assert by_load is not None
    return {"size": max(ConductorSize.parse(by_load), ground_by_table(amps(given["device_a"]), "Cu")).designation}


@computes("electrode conductor")
def electrode(given: Given) -> Result:
    """The grounding electrode conductor by table."""
    supply = ConductorArea.of(area(given["supply"]).amount * given.get("sets", 1), "cmil")
    return {"size": electrode_conductor(supply, given["supply_metal"], given["metal"]).designation}


@computes("motor")
def motor(given: Given) -> Result:
    """A motor's circuit."""
    by_table = "hp" in given
    full_load = (
        value("motor-current", f"{given['hp']} hp", f"{given['volts']} V") if by_table else amps(given["full_load_a"])
    )
    factor = limit(f"motor {given.get('device', 'breaker')} factor")
    circuit = motor_circuit(full_load, limit("motor conductor factor"), factor, breakers()).value
    assert circuit.device is not None
    return {
        "full_load_a": full_load.amount,
        "ampacity_a": circuit.ampacity.amount,
        "device_a": circuit.device.amount,
        "size": smallest_conductor(circuit.ampacity, "Cu", given.get("column", 75)),
        "ground": ground_by_table(circuit.device, "Cu").designation,
    }


@computes("ampacity")
def ampacity_of(given: Given) -> Result:
    """Ampacity where the conductor lies, and the device for it."""
    metal, size = given["metal"], given["size"]
    limits = {"terminals": column(metal, size, given["held_to"])} if "held_to" in given else {}
    found = derated(metal, size, given["column"], given.get("ambient"), given["count"], limits).value
    device = largest_device(found, breakers(), round_up=True, small_conductor=small_conductor(metal, size)).value
    return {
        "amps": found.amount,
        "device_a": device and device.amount,
        "claim_holds": found.amount >= given.get("claimed_a", 0),
    }


@computes("smallest derated")
def smallest_derated(given: Given) -> Result:
    """The smallest conductor that carries a load where it lies."""

    def carries(size: str) -> bool:
        limits = {"cable": column(given["metal"], size, given["held_to"])}
        found = derated(given["metal"], size, given["column"], given["ambient"], given["count"], limits)
        return found.value >= amps(given["needed_a"])

    return {"size": smallest(sizes(), carries)}


@computes("smallest conductor")
def smallest_by_table(given: Given) -> Result:
    """The smallest conductor by table."""
    return {"size": smallest_conductor(amps(given["needed_a"]), given["metal"], given["column"])}


def for_continuous(load: float) -> Current:
    """What a continuous load needs."""
    return needed(NONE, amps(load), limit("continuous load factor")).value


@computes("continuous load")
def continuous_load(given: Given) -> Result:
    """Conductor and device of a continuous load."""
    wanted = for_continuous(given["continuous_a"])
    device = next_rating(wanted, breakers())
    size, celsius = given.get("test", ["14", 60])
    return {
        "needed_a": wanted.amount,
        "size": smallest_conductor(wanted, "Cu", given["column"]),
        "device_a": device and device.amount,
        "test_carries": column("Cu", size, celsius) >= wanted,
    }


@computes("most continuous")
def most(given: Given) -> Result:
    """The largest continuous load on a device."""
    return {"va": most_continuous(amps(given["device_a"]), limit("continuous load factor")).amount * given["volts"]}


@computes("devices for continuous loads")
def devices(given: Given) -> Result:
    """The devices of several continuous loads."""
    found = [next_rating(for_continuous(load), breakers()) for load in given["continuous_a"]]
    return {"device_a": [rating.amount for rating in found if rating]}


@computes("three sizes")
def three_sizes(given: Given) -> Result:
    """By the device's terminals, by the load alone, and by the 60 °C terminals of the load."""
    load, wanted = amps(given["continuous_a"]), for_continuous(given["continuous_a"])
    device = next_rating(wanted, breakers())
    return {
        "needed_a": wanted.amount,
        "device_a": device and device.amount,
        "by_device": smallest_conductor(wanted, "Cu", 75),
        "by_load": smallest_conductor(load, "Cu", 75),
        "by_terminal": smallest_conductor(load, "Cu", 60),
    }


@computes("store")
def store(given: Given) -> Result:
    """Sums of a store: receptacles beyond 10 kVA at half, the rest continuous."""
    receptacles = given["receptacles"] * limit("load of a receptacle").amount
    demand = min(receptacles, 10000) + max(receptacles - 10000, 0) / 2
    loads = [Connected("receptacles", Apparent.of(demand, "VA"), "both")]
    loads += [Connected("other", Apparent.of(va, "VA"), "both", continuous=True) for va in given["continuous_va"]]
    found = feeder_load(loads, Fraction(240), limit("continuous load factor"), limit("largest motor factor")).value
    extra = (found.calculated.amount - found.connected.amount) / (limit("continuous load factor") - ONE)
    return {
        "noncontinuous_va": found.connected.amount - extra,
        "continuous_va": extra,
        "connected_va": found.connected.amount,
    }


@computes("panel load")
def panel_load(given: Given) -> Result:
    """The load of a panel."""
    loads = [
        Connected(
            f"load {n}",
            Apparent.of(load["va"], "VA"),
            load["legs"],
            load.get("continuous", False),
            load.get("motor", False),
        )
        for n, load in enumerate(given["loads"])
    ]
    found = feeder_load(loads, Fraction(240), limit("continuous load factor"), limit("largest motor factor")).value
    return {"amps": found.amps.amount, "enough": found.amps.amount <= given.get("panel_a", 0)}


@computes("standard rating")
def standard_rating(given: Given) -> Result:
    """Whether a rating is standard."""
    return {"standard": next_rating(amps(given["amps"]), breakers()) == amps(given["amps"])}


@computes("device for a load")
def device_for_load(given: Given) -> Result:
    """The smallest device for a load."""
    wanted = for_continuous(given["amps"]) if given["continuous"] else amps(given["amps"])
    device = next_rating(wanted, breakers())
    return {"needed_a": wanted.amount, "device_a": device and device.amount}


@computes("device for an ampacity")
def device_for_ampacity(given: Given) -> Result:
    """The largest device for an ampacity, rounding up."""
    device = largest_device(amps(given["amps"]), breakers(), round_up=True).value
    return {"device_a": device and device.amount}


@computes("device for a conductor")
def device_for_conductor(given: Given) -> Result:
    """Whether a device may protect a conductor."""
    metal, size = given["metal"], given["size"]
    device = largest_device(
        column(metal, size, given["column"]), breakers(), round_up=True, small_conductor=small_conductor(metal, size)
    ).value
    return {"allowed": device is not None and amps(given["device_a"]) <= device}


@computes("small conductors")
def small_conductors(given: Given) -> Result:
    """The limits of small conductors."""
    return {
        " ".join(key): value("small-conductor-overcurrent", *key).amount for key in keys("small-conductor-overcurrent")
    }
