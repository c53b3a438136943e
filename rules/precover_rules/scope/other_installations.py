"""Installations that these rules do not reach."""

from precover.plan import Motor, Panel, Plan, Structure, Unstated
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
from precover_rules.scope.kinds import is_called, named_as

WITHIN = "nothing outside what these rules check"
ASK = "ask the authority; nothing here says that it is right"


def _no_farm(structure: Structure, _look: Look) -> str:
    farm = structure.use == "agricultural" or is_called("farm", structure.id)
    return "" if farm else "not called a farm building"


def _no_business(structure: Structure, _look: Look) -> str:
    return "" if structure.use in ("garage", "commercial") else "no garage"


@rule(looks_at=Plan, severity=Severity.QUERY, stage=Stage.PLAN, rows=("pool-spa-flag",))
def no_pool_or_hot_tub(_plan: Plan, look: Look) -> Answer:
    """No pool, hot tub or fountain is on the plan: what is near them has requirements of its own."""
    return _outside("pool or hot tub", "bonding, distances and protection near water are not checked", look)


@rule(looks_at=Plan, severity=Severity.QUERY, stage=Stage.PLAN, rows=("ev-flag",))
def no_vehicle_charger(_plan: Plan, look: Look) -> Answer:
    """No charger of electric vehicles is on the plan: it has requirements of its own, and is a continuous load."""
    return _outside(
        "vehicle charger", "its load is continuous, and its protection and disconnect are not checked", look
    )


@rule(looks_at=Plan, severity=Severity.QUERY, stage=Stage.PLAN, rows=("generator-transfer-flag",))
def no_generator(_plan: Plan, look: Look) -> Answer:
    """No generator is on the plan: power from two sides needs transfer equipment."""
    return _outside("generator", "transfer equipment that keeps two sources apart is not checked", look)


@rule(looks_at=Plan, severity=Severity.QUERY, stage=Stage.PLAN, rows=("pv-flag",))
def no_solar_power_or_battery(_plan: Plan, look: Look) -> Answer:
    """No solar power, wind power or storage battery is on the plan: each has requirements of its own."""
    return _outside("solar power or battery", "what feeds back into the wiring is not checked", look)


@rule(looks_at=Plan, severity=Severity.QUERY, stage=Stage.PLAN, rows=("woodwork-dust-flag",))
def no_place_where_air_can_burn(_plan: Plan, look: Look) -> Answer:
    """No store of fuel, spray booth or grain store is on the plan: there the air itself can burn."""
    return _outside("classified place", "whether it is a classified place decides on all wiring in it", look)


@rule(looks_at=Plan, severity=Severity.QUERY, stage=Stage.PLAN, rows=("temporary-power-flag",))
def no_temporary_power(_plan: Plan, look: Look) -> Answer:
    """No temporary power is on the plan: while something is built, other requirements hold."""
    return _outside("temporary power", "ground-fault protection on a building site is not checked", look)


@rule(
    looks_at=Structure,
    unless=_no_farm,
    severity=Severity.QUERY,
    stage=Stage.PLAN,
    rows=("agricultural-flag", "outbuilding-agric-not"),
)
def no_farm_conditions(structure: Structure, look: Look) -> Answer:
    """No building on the plan has livestock, poultry, or a farm's dust, damp or vapor in it."""
    at = f"{structure.place}/farm-conditions"
    if not look.stated(structure.farm_conditions):
        return met("farm conditions", "none", WITHIN, at=at)
    why = f"wiring and equipotential planes for animals are not checked; {ASK}"
    return not_met("farm conditions", f"in {structure.id}", WITHIN, why=why, at=at)


@rule(
    looks_at=Structure, unless=_no_business, severity=Severity.QUERY, stage=Stage.PLAN, rows=("commercial-garage-flag",)
)
def no_repair_garage(structure: Structure, look: Look) -> Answer:
    """No garage on the plan is a business where vehicles are repaired."""
    if is_called("repair", structure.id) or (
        structure.use == "garage" and look.stated(look.plan.site.premises) == "commercial"
    ):
        why = f"a place for repairing vehicles can be a classified one; {ASK}"
        return not_met("garage", f"{structure.id}, of a business", WITHIN, why=why)
    return met("garage", "not named as a repair business", WITHIN)


@rule(
    looks_at=Panel,
    severity=Severity.QUERY,
    stage=Stage.PLAN,
    look_up="220.61 and 310.15 on neutrals of three-phase systems, in 2017, 2020 and 2023 (from memory)",
    hazard="fire",
)
def single_phase(panel: Panel, look: Look) -> Answer:
    """Every panel is on a single-phase system."""
    system = panel.system
    if isinstance(system, Unstated) or system.line_to_line == system.line_to_ground:
        return does_not_apply("its system is not stated with two voltages")
    at = f"{panel.place}/system"
    if system.line_to_line >= system.line_to_ground * look.limit("voltages of a single-phase system").value:
        return met("system", system.text, "single-phase", at=at)
    why = f"these voltages come from a three-phase system, whose neutral and loads are not checked; {ASK}"
    return not_met("system", system.text, "single-phase", why=why, at=at)


@inspection(looks_at=Plan, stage=Stage.PLAN, rows=("pump-flag",))
def pumps(plan: Plan, look: Look) -> str | None:
    """Pumps have requirements beyond those checked."""
    motors = any(isinstance(device, Motor) for box in plan.boxes.values() for device in box.devices.values())
    if not motors and named_as("pump", look) is None:
        return None
    return (
        "A pump in a well, pond or basin has requirements of its own beyond those checked here: ask the office, and follow "
        "its instructions."
    )


@inspection(looks_at=Plan, stage=Stage.PLAN, rows=("woodwork-dust-flag",))
def wood_dust(_plan: Plan, look: Look) -> str | None:
    """Woodworking, where dust can gather."""
    if named_as("woodwork", look) is None:
        return None
    return (
        "Woodworking: ask the office whether dust, or finishing with sprays, makes any part of it a classified place."
    )


@inspection(looks_at=Structure, stage=Stage.PLAN, rows=("smoke-alarm-note",))
def smoke_alarms(structure: Structure, _look: Look) -> str | None:
    """Rooms to sleep in."""
    if structure.habitable is not True:
        return None
    return f"Ask what the building code wants of smoke and carbon-monoxide alarms in {structure.id}, above all if anybody sleeps there."


def _outside(kind: str, not_checked: str, look: Look) -> Answer:
    found = named_as(kind, look)
    if found is None:
        return met(kind, "none named", WITHIN)
    name, place = found
    return not_met(kind, f"named ({name})", WITHIN, why=f"{not_checked}; {ASK}", at=place)
