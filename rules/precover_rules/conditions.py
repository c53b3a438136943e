"""What many rules are not about: the conditions that rules of several subjects share."""

from precover.plan import Bend, BuriedLeg, Carried, Circuit, Device, Leg, Structure, Unstated
from precover.rulebook import Look


def low_voltage(circuit: Circuit, _look: Look) -> str:
    """Only power circuits are looked at."""
    return "low voltage" if circuit.kind == "low-voltage" else ""


def no_branch_circuit(circuit: Circuit, _look: Look) -> str:
    """Only branch circuits are looked at."""
    return "" if circuit.kind == "branch circuit" else "no branch circuit"


def on_no_branch_circuit(device: Device, look: Look) -> str:
    """Only devices on branch circuits are looked at."""
    return no_branch_circuit(look.trace.circuit_of(device), look)


def no_feeder_to_a_panel(circuit: Circuit, look: Look) -> str:
    """Only feeders that end in a panel are looked at."""
    feeds = circuit.kind == "feeder" and look.trace.panel_fed_by(circuit) is not None
    return "" if feeds else "no feeder to a panel"


def no_new_branch_circuit(circuit: Circuit, _look: Look) -> str:
    """Only branch circuits that are new are looked at."""
    return "" if circuit.kind == "branch circuit" and circuit.existing is not True else "no new branch circuit"


def individual_wires(carried: Carried, _look: Look) -> str:
    """Only cable is looked at."""
    return "" if carried.wires is None else "individual wires"


def no_individual_wires(carried: Carried, _look: Look) -> str:
    """Only individual wires are looked at."""
    return "no individual wires" if carried.wires is None else ""


def nowhere_buried(carried: Carried, look: Look) -> str:
    """Only what lies in the ground somewhere is looked at."""
    buried = any(isinstance(lying.leg, BuriedLeg) for lying in look.trace.lying(carried))
    return "" if buried else "nowhere in the ground"


def no_radius(bend: Bend, _look: Look) -> str:
    """Only bends whose radius the plan states are looked at."""
    return "no radius stated: it is on the inspection list" if isinstance(bend.radius, Unstated) else ""


def no_raceway_here(leg: Leg, look: Look) -> str:
    """Only legs in a raceway are looked at."""
    return "no raceway" if look.stated(look.trace.raceway_around(leg)).absent else ""


def no_garage(structure: Structure, _look: Look) -> str:
    """Only garages are looked at."""
    return "" if structure.use == "garage" else "no garage"
