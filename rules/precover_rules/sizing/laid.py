"""The hot conductors of a circuit as they are laid, route by route."""

from collections.abc import Iterator
from typing import NamedTuple

from precover.plan import Carried, Circuit, Route
from precover.rulebook import Answer, Look, authority_decides, once
from precover.units import ConductorSize

LARGEST_IN_TABLE = ConductorSize.parse("900 kcmil")
"""Where the ampacity table of the pack ends."""


class Laid(NamedTuple):
    """One circuit's hots on one route: their size and metal, and the insulation or kind of cable."""

    circuit: Circuit
    route: Route
    carried: Carried
    size: ConductorSize
    metal: str
    kind: str

    @property
    def place(self) -> str:
        """JSON Pointer of what the plan says of them."""
        return f"{self.carried.place}/{'cable' if self.carried.wires is None else 'wires/hot'}"

    @property
    def named(self) -> str:
        """In words: `12 AWG Cu on yard`."""
        return f"{self.size} {self.metal} on {self.route.id}"


@once
def laid_on(circuit: Circuit, look: Look) -> tuple[Laid | Answer, ...]:
    """The hots of a power circuit on each of its routes, nearest its origin first; an answer where no table holds for
    them. Flexible cord, which is no fixed wiring anywhere, and wire smaller than is made for buildings are passed over:
    each is a finding of its own."""
    return tuple(_laid_on(circuit, look))


def _laid_on(circuit: Circuit, look: Look) -> Iterator[Laid | Answer]:
    for route in look.trace.tree.routes[circuit.id]:
        carried = route.carries[circuit.id]
        if carried.wires is None:
            cable = look.stated(carried.cable)
            if cable.type not in ("cord", "low-voltage"):
                yield from _made(Laid(circuit, route, carried, cable.size, cable.material, cable.type), look)
            continue
        hot = look.stated(carried.wires.hot)
        laid = Laid(circuit, route, carried, hot.size, hot.material, hot.insulation)
        if hot.count > 2:
            yield _beyond(
                laid, f"{hot.count} hot conductors", "conductors in parallel share the current if alike in all"
            )
        elif hot.insulation == "bare":
            yield _beyond(laid, "bare hot conductors", "bare spans have an ampacity of their own")
        else:
            yield from _made(laid, look)


def smallest_made(metal: str, look: Look) -> ConductorSize:
    """The smallest building wire of a metal."""
    name = "smallest copper conductor" if metal == "Cu" else "smallest aluminum conductor"
    size: ConductorSize = look.limit(name).value
    return size


def _made(laid: Laid, look: Look) -> Iterator[Laid | Answer]:
    if laid.size.rank > LARGEST_IN_TABLE.rank:
        yield _beyond(laid, str(laid.size), "the ampacity table here ends below this size")
    elif laid.size.rank >= smallest_made(laid.metal, look).rank:
        yield laid


def _beyond(laid: Laid, has: str, why: str) -> Answer:
    return authority_decides(
        "ampacity", f"{has} on {laid.route.id}", "an ampacity by the table", why=why, at=laid.place
    )
