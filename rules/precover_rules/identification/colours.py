"""Colours of conductors, seen before boxes are closed."""

from precover.plan import Cable, Circuit, Conductor, Plan, Unstated, Wires
from precover.rulebook import Look, Stage, inspection
from precover_rules.circuit_conductors import hots


@inspection(
    looks_at=Plan,
    stage=Stage.ROUGH,
    rows=("conductor-colour-neutral", "conductor-colour-egc", "hot-not-white-green"),
)
def colours_of_conductors(plan: Plan, look: Look) -> str | None:
    """What colour each kind of conductor has."""
    circuits = [circuit for circuit in plan.circuits.values() if circuit.kind != "low-voltage"]
    if not circuits:
        return None
    least = look.limit("smallest wire that may be marked at its ends")
    marked = [circuit.id for circuit in circuits if any(wire.size >= least.value for wire in _wires_of(circuit, plan))]
    text = "Neutrals white or gray; equipment grounds bare, green or green with yellow; hots any other colour"
    if not marked:
        return f"{text}, each over its whole length."
    return f"{text}; {least.text} and larger ({', '.join(marked)}) may be marked at every end instead."


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("conductor-white-reidentified",))
def white_wires_that_are_hot(plan: Plan, look: Look) -> str | None:
    """Cable whose white wire is no neutral."""
    found = [
        f"{circuit.id} ({cable.text})"
        for circuit in plan.circuits.values()
        if circuit.kind != "low-voltage" and (cable := _without_neutral(circuit, plan, look)) is not None
    ]
    if not found:
        return None
    return f"The white wire is a hot, marked at both ends in a colour that is not white, gray or green: {', '.join(found)}."


def _without_neutral(circuit: Circuit, plan: Plan, look: Look) -> Cable | None:
    """The two-wire cable of a circuit with two hots."""
    if isinstance(circuit.voltage, Unstated):
        return None
    for route in plan.routes.values():
        carried = route.carries.get(circuit.id)
        cable = None if carried is None else carried.cable
        if isinstance(cable, Cable) and len(cable.insulated) == 2:
            return cable if hots(circuit, look) == 2 else None
    return None


def _wires_of(circuit: Circuit, plan: Plan) -> list[Conductor]:
    """Neutrals and equipment grounds that are wires of their own."""
    every = [route.carries[circuit.id].wires for route in plan.routes.values() if circuit.id in route.carries]
    return [wire for wires in every if isinstance(wires, Wires) for wire in (wires.neutral, wires.ground) if wire]
