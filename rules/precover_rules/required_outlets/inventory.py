"""What a structure has in its boxes, inside or outdoors."""

from collections.abc import Iterator
from typing import TypeVar

from precover.plan import Box, Circuit, Device, Structure, Unstated
from precover.rulebook import Look

D = TypeVar("D", bound=Device)


def placed(structure: Structure, kind: type[D], look: Look, *, outdoors: bool, enough: int = 1) -> list[tuple[Box, D]]:
    """The devices of a kind at a structure, inside it or outdoors, with their boxes. A box that does not say where it is
    counts, and is asked about, only where the others have not enough of them."""
    found = list(_at(structure, kind, look))
    sure = [
        (box, device) for box, device in found if isinstance(box.area, str) and (box.area == "outdoors") is outdoors
    ]
    if len(sure) >= enough:
        return sure
    return [(box, device) for box, device in found if (look.stated(box.area) == "outdoors") is outdoors]


def boxes_of_one_hot(structure: Structure, look: Look) -> Iterator[tuple[Box, Circuit]]:
    """The boxes at a structure that one branch circuit reaches, between one hot and the neutral, with that circuit: what is
    added there is on it."""
    for box in look.plan.boxes.values():
        arriving = look.trace.tree.circuits_in.get(box.id, ())
        if box.at == structure.id and len(arriving) == 1 and _is_of_one_hot(look.plan.circuits[arriving[0]]):
            yield box, look.plan.circuits[arriving[0]]


def _is_of_one_hot(circuit: Circuit) -> bool:
    voltage = circuit.voltage
    if circuit.kind != "branch circuit" or isinstance(voltage, Unstated):
        return False
    return voltage.line_to_line == voltage.line_to_ground


def _at(structure: Structure, kind: type[D], look: Look) -> Iterator[tuple[Box, D]]:
    for box in look.plan.boxes.values():
        if box.at == structure.id:
            for device in box.devices.values():
                if isinstance(device, kind):
                    yield box, device
