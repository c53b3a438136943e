"""Routes: how circuits get from one panel or box to the next."""

from collections.abc import Mapping

from precover.plan.conductors import Cable, Raceway, Wires
from precover.plan.devices import Listing
from precover.plan.legs import Leg
from precover.plan.thing import Thing, Unstated
from precover.units import Length


class Carried(Thing):
    """One circuit on a route, in a cable or as individual conductors."""

    id: str
    """The circuit's id."""
    cable: Cable | Unstated
    wires: Wires | None
    listed_for: Listing | Unstated
    """The wettest place that the cable's marking allows, where its type alone does not tell (MC, TC-ER, low-voltage)."""
    marked_for_burial: bool | Unstated
    """Cable marked for direct burial, where its type alone does not tell (MC, MI, TC-ER, low-voltage)."""
    sunlight_resistant: bool | Unstated
    """Cable marked as resistant to sunlight, where its type alone does not tell (UF-B, MC, low-voltage)."""
    building_wire: bool | Unstated
    """Conductors of a burial assembly (MHF) that are marked as building wire too."""
    width: Length | Unstated
    """Major width of the cable over its jacket, by its maker; the diameter of a round one."""


class Route(Thing):
    """One run of cable or raceway from the supply side (`from`) to the load side (`to`)."""

    id: str
    from_: str
    to: str
    raceway: Raceway | Unstated
    """The raceway along the whole route, `none` where there is none."""
    carries: Mapping[str, Carried]
    legs: tuple[Leg, ...]
    spaced: bool | Unstated
    """Its cables are kept apart from each other, not bundled or pulled in together."""
    complete_before_pull: bool | Unstated
    seal_at_from: bool | Unstated
    seal_at_to: bool | Unstated
    """Raceway sealed against moisture at either end."""
