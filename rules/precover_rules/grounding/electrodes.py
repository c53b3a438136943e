"""Which structures need grounding electrodes, and which of what they have counts as one."""

from precover.plan import Circuit, Electrode, Structure
from precover.rulebook import Look
from precover_rules.circuit_conductors import grounding_path
from precover_rules.separate_structures import NOT_SUPPLIED, supplies_to

DRIVEN = ("rod", "pipe", "plate")
"""Electrodes of which one alone is enough only if its resistance is low."""


def no_system_needed(structure: Structure, look: Look) -> str:
    """Why a structure needs no grounding electrode system; empty where it does need one."""
    supplies = supplies_to(structure, look)
    if not supplies:
        return NOT_SUPPLIED
    if len(supplies) == 1 and supplies[0].circuit.kind == "branch circuit":
        circuit = supplies[0].circuit
        way = look.trace.tree.way_to(circuit.id, supplies[0].route.to)
        if grounding_path(way, circuit, look)[0] == "yes":
            return "one branch circuit with an equipment grounding conductor supplies it"
        look.because(f"{circuit.id} brings no equipment grounding conductor", circuit.place)
        return ""
    look.because(
        f"supplied by {' and '.join(f'a {supply.circuit.kind}: {supply.circuit.id}' for supply in supplies)}",
        structure.place,
    )
    return ""


def lone_ungrounded_circuit(structure: Structure, look: Look) -> Circuit | None:
    """The one branch circuit that supplies a structure without an equipment grounding conductor: with the conductor,
    which it needs in any case, no electrode is asked for."""
    supplies = supplies_to(structure, look)
    if len(supplies) != 1 or supplies[0].circuit.kind != "branch circuit":
        return None
    circuit = supplies[0].circuit
    way = look.trace.tree.way_to(circuit.id, supplies[0].route.to)
    return None if grounding_path(way, circuit, look)[0] == "yes" else circuit


def is_permitted(electrode: Electrode, look: Look) -> bool:
    """Its kind may serve as a grounding electrode."""
    return bool(look.cell("grounding-electrodes", electrode.kind, "permitted").value)


def counts(electrode: Electrode, look: Look) -> bool:
    """It is an electrode: of a permitted kind, and, if it was not made to be one, with enough of it in the earth."""
    if not is_permitted(electrode, look):
        return False
    if electrode.kind in DRIVEN:
        return True
    length = look.stated(electrode.length)
    return bool(length >= look.cell("grounding-electrodes", electrode.kind, "least length").like(length))


def electrodes_of(structure: Structure, look: Look) -> list[Electrode]:
    """What counts as an electrode at a structure. The electrodes of the house do not serve it."""
    return [electrode for electrode in structure.grounding.electrodes.values() if counts(electrode, look)]
