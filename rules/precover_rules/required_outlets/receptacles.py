"""Receptacles that a garage or another accessory building with power must have."""

from typing import Any

from precover.plan import Box, Equipment, Plan, Receptacle, Structure
from precover.plan.thing import escaped
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.boxes.for_devices import stated_heights, takes_devices
from precover_rules.conditions import no_garage
from precover_rules.free_names import free_names
from precover_rules.premises import is_small_dwelling
from precover_rules.required_outlets.inventory import boxes_of_one_hot, placed
from precover_rules.separate_structures import not_supplied, supplies_to
from precover_rules.vehicle_bays import is_for_a_bay

NOT_A_HOME = "not of a one- or two-family dwelling"


def _no_accessory(structure: Structure, _look: Look) -> str:
    return "" if structure.use == "accessory" else "no accessory building"


def _not_a_home(_structure: Structure, look: Look) -> str:
    return "" if is_small_dwelling(look) else NOT_A_HOME


@rule(
    looks_at=Structure,
    unless=(no_garage, not_supplied, _not_a_home),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("receptacle-required-per-bay",),
)
def receptacle_in_every_bay(structure: Structure, look: Look) -> Answer:
    """A garage with power has a receptacle for general use in each vehicle bay, not too high."""
    bays = look.stated(structure.vehicle_bays)
    if bays == 0:
        return does_not_apply("no vehicle bay")
    count = len(_general(structure, bays, look))
    needs = f"at least {bays}, one in each bay"
    if count >= bays:
        return met("receptacles", count, needs)
    return not_met("receptacles", count, needs, amend=_another(structure, look) if count == bays - 1 else ())


@rule(
    looks_at=Structure,
    unless=(_no_accessory, not_supplied, _not_a_home),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("receptacle-required-accessory", "receptacle-outdoor-required"),
)
def receptacle_in_an_accessory_building(structure: Structure, look: Look) -> Answer:
    """An accessory building with power has a receptacle inside; outdoors none is asked for."""
    receptacles = _general(structure, 1, look)
    if receptacles:
        return met("receptacle", receptacles[0].id, "one or more inside")
    return not_met("receptacle", "none inside", "one or more inside", amend=_another(structure, look))


@rule(looks_at=Structure, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("receptacle-hvac-service",))
def receptacle_beside_equipment_to_be_serviced(structure: Structure, look: Look) -> Answer:
    """Where heating, cooling or refrigeration equipment stands there is a receptacle for whoever services it."""
    devices = look.trace.devices_at(structure)
    unit = next((one for one in devices if isinstance(one, Equipment) and one.hvac), None)
    if unit is None:
        return does_not_apply("no heating, cooling or refrigeration equipment")
    near = f"a 125 V receptacle within {look.limit('distance of a receptacle from equipment to be serviced').text}"
    for device in devices:
        if isinstance(device, Receptacle) and _is_common(device, look):
            return met("receptacle", f"{device.id}, its distance is for the inspector", near, at=unit.place)
    ways = (*_another(structure, look), *_another_outdoors(structure, look))
    return not_met(f"receptacle for {unit.id}", f"none at {structure.id}", near, at=unit.place, amend=ways)


@inspection(looks_at=Equipment, stage=Stage.FINAL, rows=("receptacle-hvac-service",))
def distance_to_the_receptacle(equipment: Equipment, look: Look) -> str | None:
    """Where that receptacle is."""
    if not equipment.hvac:
        return None
    far = look.limit("distance of a receptacle from equipment to be serviced").text
    return f"A receptacle within {far} of {equipment.id}, on the same level, and not fed from the load side of its disconnect."


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("receptacle-required-per-bay",))
def receptacle_in_each_bay(structure: Structure, look: Look) -> str | None:
    """How the receptacles of a garage are spread."""
    if structure.use != "garage" or not supplies_to(structure, look):
        return None
    height = look.limit("height of a receptacle in a vehicle bay").text
    return f"A receptacle in each vehicle bay, not above {height}; that of a door opener does not count."


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("receptacle-out-of-equipment-splash",))
def away_from_tub_and_shower(plan: Plan, _look: Look) -> str | None:
    """Receptacles in bathrooms."""
    for box in plan.boxes.values():
        if box.area == "bathroom" and any(isinstance(device, Receptacle) for device in box.devices.values()):
            return "No receptacle in a bathroom is within or straight above the space of a tub or shower."
    return None


def _general(structure: Structure, enough: int, look: Look) -> list[Receptacle]:
    """The receptacles inside for general use: of a common rating, low enough, and not kept for a door opener."""
    return [
        receptacle
        for _, receptacle in placed(structure, Receptacle, look, outdoors=False, enough=enough)
        if _is_common(receptacle, look) and is_for_a_bay(receptacle, look)
    ]


def _is_common(receptacle: Receptacle, look: Look) -> bool:
    """Of 125 V, and 15 or 20 A."""
    if receptacle.receptacle > look.limit("common receptacle current").value:
        return False
    return bool(look.stated(receptacle.voltage) <= look.limit("ground-fault receptacle on the market, voltage").value)


def _another(structure: Structure, look: Look) -> tuple[Proposal, ...]:
    """A receptacle in the first dry box inside that one branch circuit reaches."""
    for box, _ in boxes_of_one_hot(structure, look):
        if _is_low_enough(box, look) and box.location == "dry" and box.area != "outdoors":
            return (_receptacle_in(box),)
    return ()


def _another_outdoors(structure: Structure, look: Look) -> tuple[Proposal, ...]:
    """A receptacle for wet places in the first outdoor box that one branch circuit reaches."""
    for box, _ in boxes_of_one_hot(structure, look):
        if _is_low_enough(box, look) and box.area == "outdoors":
            return (_receptacle_in(box, {"weather-resistant": True, "cover": "in-use", "extra-duty": True}),)
    return ()


def _is_low_enough(box: Box, look: Look) -> bool:
    """It takes a receptacle, and none of its devices is higher than one may be that counts."""
    highest = look.limit("height of a receptacle in a vehicle bay")
    return takes_devices(box) and all(height <= highest.like(height) for height in stated_heights(box))


def _receptacle_in(box: Box, more: dict[str, Any] | None = None) -> Proposal:
    name = next(free_names("outlet", box.devices))
    device: dict[str, Any] = {"receptacle": "15 A", "voltage": "125 V", "ground-fault": True, "tamper-resistant": True}
    device |= {"readily-accessible": True, **(more or {})}
    edit = {"op": "add", "path": f"{box.place}/devices/{escaped(name)}", "value": device}
    return Proposal(f"put a receptacle into {box.id}", Effort.PART, (edit,))
