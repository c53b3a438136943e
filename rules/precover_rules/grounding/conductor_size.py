"""The least size of a grounding electrode conductor: by the supply conductors, and by what it goes to."""

from collections.abc import Sequence

from precover.plan import Electrode, Structure
from precover.rulebook import Answer, Cell, Look, authority_decides
from precover.units import ConductorSize
from precover_rules.circuit_conductors import hot_wire
from precover_rules.separate_structures import supplies_to

TABLE = "grounding-electrode-conductor"
CAPS = "grounding-electrode-conductor-caps"
LARGER = "larger"


def least_size(structure: Structure, electrodes: Sequence[Electrode], metal: str, look: Look) -> Cell | Answer:
    """The cell that decides, or an answer where the table cannot be entered.

    One conductor goes to all electrodes here, so the electrode that asks for most decides. A rod, pipe, plate or
    concrete-encased electrode asks for no more than its cap; any other for the whole table size.
    """
    by_supply: list[Cell] = []
    for supply in supplies_to(structure, look):
        size, supply_metal, count = hot_wire(supply.route.carries[supply.circuit.id], look)
        if count > 2:
            return authority_decides(
                "electrode conductor",
                f"for {count} hot conductors",
                "a size by the table",
                why="for conductors in parallel the table is entered with their areas added",
                at=structure.grounding.conductor.place,
            )
        look.because(f"supplied by {size} {supply_metal}", supply.route.place)
        by_supply.append(_cell_for(size, supply_metal, metal, look))
    full = max(by_supply, key=lambda cell: cell.value)
    return max((_capped(full, electrode, metal, look) for electrode in electrodes), key=lambda cell: cell.value)


def _cell_for(size: ConductorSize, supply_metal: str, metal: str, look: Look) -> Cell:
    for key in look.keys(TABLE):
        of_supply, up_to, of_conductor = key
        if (of_supply, of_conductor) == (supply_metal, metal) and (
            up_to == LARGER or size <= ConductorSize.parse(up_to)
        ):
            return look.cell(TABLE, *key)
    return look.cell(TABLE, supply_metal, LARGER, metal)


def _capped(full: Cell, electrode: Electrode, metal: str, look: Look) -> Cell:
    if not look.has(CAPS, electrode.kind, metal):
        return full
    cap = look.cell(CAPS, electrode.kind, metal)
    if cap.value >= full.value:
        return full
    look.because(f"to a {electrode.kind} no larger than {cap.text} {metal} is asked for", electrode.place)
    return cap
