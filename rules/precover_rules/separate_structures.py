"""Buildings and other structures that get their power from another."""

from precover.plan import Circuit, Luminaire, Structure
from precover.rulebook import Look, once
from precover.tracing import Supply

NOT_SUPPLIED = "no branch circuit or feeder comes here from another structure"


def has_service(structure: Structure, look: Look) -> bool:
    """The service is at this structure."""
    return any(panel.duty == "service equipment" for panel in look.trace.panels_at(structure))


def power_into(structure: Structure, look: Look) -> list[Supply]:
    """The branch circuits and feeders that come into a structure from another. Low-voltage circuits bring no power in
    the sense of the requirements for separate structures."""
    return [supply for supply in look.trace.supplies(structure) if supply.circuit.kind != "low-voltage"]


@once
def supplies_to(structure: Structure, look: Look) -> list[Supply]:
    """What supplies a separate structure; nothing where the service is, or where it is part of the dwelling."""
    supplies = power_into(structure, look)
    if not supplies or has_service(structure, look) or not look.stated(structure.detached):
        return []
    return supplies


def not_supplied(structure: Structure, look: Look) -> str:
    """A condition of rules: only separate structures that something supplies are looked at."""
    return "" if supplies_to(structure, look) else NOT_SUPPLIED


@once
def leaves_its_structure(circuit: Circuit, look: Look) -> bool:
    """It goes to another structure than the one it begins in."""
    origin = look.trace.node(circuit.from_.partition("/")[0]).at
    return any(look.trace.node(name).at != origin for name in look.trace.tree.arrival[circuit.id])


def is_lighting_pole(structure: Structure, look: Look) -> bool:
    """A pole with nothing on it but luminaires."""
    return structure.use == "lighting pole" and all(
        isinstance(device, Luminaire) for device in look.trace.devices_at(structure)
    )
