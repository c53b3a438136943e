"""What a structure has in its boxes, inside or outdoors."""

from collections.abc import Iterator
from typing import TypeVar

from precover.plan import Box, Device, Structure
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


def _at(structure: Structure, kind: type[D], look: Look) -> Iterator[tuple[Box, D]]:
    for box in look.plan.boxes.values():
        if box.at == structure.id:
            for device in box.devices.values():
                if isinstance(device, kind):
                    yield box, device
