"""How many supplies a structure has."""

from precover.plan import Luminaire, Structure, Switch
from precover.rulebook import (
    Answer,
    Look,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.tracing import Supply
from precover_rules.circuits import devices_on
from precover_rules.separate_structures import NOT_SUPPLIED, has_service, power_into

NEEDS = "one feeder or branch circuit"


@rule(
    looks_at=Structure,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("supplies-one-only", "mwbc-counts-one", "supply-back-other-direction", "supply-different-use-lighting"),
)
def one_supply(structure: Structure, look: Look) -> Answer:
    """A structure has one feeder or branch circuit from another; a multiwire circuit counts as one."""
    supplies = power_into(structure, look)
    if not supplies:
        return does_not_apply(NOT_SUPPLIED)
    names = " and ".join(supply.circuit.id for supply in supplies)
    if has_service(structure, look):
        if any(_service_of(supply, look) != structure.id for supply in supplies):
            why = f"{structure.id} has a service of its own: whether {names} may supply it as well is disputed"
            return authority_decides("supplies", f"a service, and {names}", NEEDS, why=why)
    elif not look.stated(structure.detached):
        return does_not_apply("it is part of the dwelling")
    if len(supplies) == 1:
        return met("supplies", names, NEEDS)
    return _several(structure, supplies, names, look)


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("supply-plaque-multiple",))
def plaque_at_each_disconnect(structure: Structure, look: Look) -> str | None:
    """A structure with several supplies."""
    supplies = power_into(structure, look)
    if len(supplies) + has_service(structure, look) < 2:
        return None
    return (
        f"A lasting plaque or directory at each disconnect of {structure.id} names all its supplies and what each serves"
        " (branch circuits from a dwelling may be exempt; from memory)."
    )


def _several(structure: Structure, supplies: list[Supply], names: str, look: Look) -> Answer:
    power = [supply for supply in supplies if not _lights_only(supply, structure, look)]
    if len(power) <= 1:
        why = "a circuit for controlling a light from both buildings counts as another use: is that what it is for?"
        return authority_decides("supplies", names, NEEDS, why=why)
    voltages = {look.stated(supply.circuit.voltage) for supply in power}
    if len(voltages) == len(power) == len(supplies):
        why = "circuits of different voltage may each supply a structure: the authority says whether these do differ"
        return authority_decides("supplies", names, NEEDS, why=why)
    return not_met("supplies", names, NEEDS, why="bring one feeder to a panel there instead")


def _lights_only(supply: Supply, structure: Structure, look: Look) -> bool:
    """It reaches nothing there but switches and luminaires."""
    here = [device for device in devices_on(supply.circuit, look) if look.trace.structure_of(device) is structure]
    return (
        supply.circuit.kind == "branch circuit"
        and any(isinstance(device, Luminaire) for device in here)
        and all(isinstance(device, Luminaire | Switch) for device in here)
    )


def _service_of(supply: Supply, look: Look) -> str:
    """The structure where the supply's service is."""
    circuit = supply.circuit
    while (feeder := look.trace.tree.fed_by.get(circuit.from_)) is not None:
        circuit = feeder
    return look.trace.node(circuit.from_).at
