"""Lights that an outbuilding with power must have, and where lights may be."""

from precover.plan import Equipment, Heater, Luminaire, Motor, Plan, Structure
from precover.rulebook import (
    Answer,
    Look,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.premises import is_dwelling
from precover_rules.required_outlets.adding_a_light import adding_a_light
from precover_rules.required_outlets.inventory import placed
from precover_rules.separate_structures import NOT_SUPPLIED, supplies_to

INSIDE = "a light inside, switched at the wall"
OUTSIDE = "a light outside the entrance, switched at the wall"
OUT_OF_THE_WAY = ("attic", "crawl space", "basement")


def _no_light_needed(structure: Structure, look: Look) -> str:
    if structure.use != "garage":
        return "no garage"
    if not supplies_to(structure, look):
        return NOT_SUPPLIED
    return "" if is_dwelling(look) else "not of a dwelling"


@rule(
    looks_at=Structure,
    unless=_no_light_needed,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("light-required-garage-entry", "light-switch-by-door"),
)
def light_inside_a_garage(structure: Structure, look: Look) -> Answer:
    """A garage with power has a light inside that a wall switch controls."""
    lights = [light for _, light in placed(structure, Luminaire, look, outdoors=False)]
    if lights:
        return _switched(lights, INSIDE, look)
    return not_met("light", "none inside", INSIDE, amend=adding_a_light(structure, look, outdoors=False))


@rule(
    looks_at=Structure,
    unless=_no_light_needed,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("light-required-garage-entry", "light-switch-by-door"),
)
def light_outside_a_garage_entrance(structure: Structure, look: Look) -> Answer:
    """Outside the entrance of a garage with power is a light that a wall switch controls."""
    lights = [light for _, light in placed(structure, Luminaire, look, outdoors=True)]
    if lights:
        return _switched(lights, OUTSIDE, look)
    if not look.stated(structure.entrance):
        return does_not_apply("no entrance for people, reached from grade")
    return not_met("light", "none outdoors", OUTSIDE, amend=adding_a_light(structure, look, outdoors=True))


@inspection(
    looks_at=Structure,
    stage=Stage.PLAN,
    rows=("light-required-accessory", "light-switch-by-door", "light-required-garage-entry"),
)
def lights_of_an_outbuilding(structure: Structure, look: Look) -> str | None:
    """Lights of a building that is no garage, and where their switches are."""
    if structure.use not in ("garage", "accessory") or not supplies_to(structure, look) or not is_dwelling(look):
        return None
    if structure.use == "garage":
        return f"Switch the lights of {structure.id} at its usual entrance; outside each entrance for people is one."
    return (
        f"Ask the office whether {structure.id} needs a switched light inside and at its entrance, as a garage does: the "
        "editions differ. A switch at the usual entrance is good practice."
    )


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("light-required-storage-space",))
def light_where_equipment_is_serviced(plan: Plan, _look: Look) -> str | None:
    """Equipment in an attic, crawl space or basement."""
    there = [
        box.id
        for box in plan.boxes.values()
        if box.area in OUT_OF_THE_WAY
        and any(isinstance(device, Equipment | Motor | Heater) for device in box.devices.values())
    ]
    if not there:
        return None
    return f"A light near the equipment at {', '.join(there)}, with its switch at the usual way in."


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("luminaire-closet", "luminaire-support"))
def luminaires_held_and_clear(plan: Plan, look: Look) -> str | None:
    """How luminaires hang, and how far they are from clothes."""
    boxes = [box for box in plan.boxes.values() if any(isinstance(one, Luminaire) for one in box.devices.values())]
    if not boxes:
        return None
    weight, size = look.limit("weight on a lampholder").text, look.limit("size on a lampholder").text
    text = f"No luminaire over {weight} or {size} hangs from a lampholder's screw shell"
    if all(box.area != "closet" for box in boxes):
        return f"{text}."
    surface = look.limit("closet storage to a light on the surface").text
    recessed = look.limit("closet storage to a fluorescent or recessed light").text
    return (
        f"{text}; in a clothes closet {surface} from the storage space ({recessed} if fluorescent or recessed), no open or "
        "hanging lamp."
    )


def _switched(lights: list[Luminaire], needs: str, look: Look) -> Answer:
    """One of them has a wall switch; asked of the first where none says so."""
    light = next((light for light in lights if isinstance(light.switched_by, str)), lights[0])
    return met("light", f"{light.id}, switched by {look.stated(light.switched_by)}", needs)
