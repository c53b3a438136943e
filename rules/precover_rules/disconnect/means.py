"""What serves as the disconnecting means of a structure: a switch on its supply, its panel's main, or the panel's breakers."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from precover.plan import Box, Circuit, DisconnectSwitch, Panel, Structure, Switch
from precover.rulebook import Answer, Look, once
from precover.tracing import Supply
from precover_rules.separate_structures import NOT_SUPPLIED, is_lighting_pole, supplies_to
from precover_rules.worst import worst

_SWITCHES = (Switch, DisconnectSwitch)


class Means(NamedTuple):
    """The disconnecting means for one supply.

    `thing` is the switch or panel; `breakers` are the circuits whose breakers together serve, where a panel has no main.
    """

    supply: Supply
    node: Panel | Box
    thing: Switch | DisconnectSwitch | Panel
    breakers: tuple[Circuit, ...] = ()

    @property
    def name(self) -> str:
        """What it is, in words."""
        if isinstance(self.thing, Panel):
            return f"the breakers of {self.thing.id}" if self.breakers else f"the main of {self.thing.id}"
        return f"{self.thing.id} in {self.node.id}"


@once
def means_of(structure: Structure, supply: Supply, look: Look) -> Means | None:
    """What disconnects a supply at the structure, or None. Of several, the one that the supply comes to first.

    A switch is taken where the plan calls it a disconnect; one whose role is not stated only where there is nothing else.
    """
    switches = list(_switches_on(structure, supply, look))
    for box, switch in switches:
        if isinstance(switch, DisconnectSwitch) or switch.role == "disconnect":
            return Means(supply, box, switch)
    panel = panel_on(structure, supply, look)
    if panel is not None:
        return _at_panel(panel, supply, look)
    for box, switch in switches:
        if isinstance(switch, Switch) and look.stated(switch.role) == "disconnect":
            return Means(supply, box, switch)
    return None


def panel_on(structure: Structure, supply: Supply, look: Look) -> Panel | None:
    """The panel at the structure in which a supply ends."""
    reached = look.trace.tree.arrival[supply.circuit.id]
    return next((panel for panel in look.trace.panels_at(structure) if panel.id in reached), None)


@once
def means_at(structure: Structure, look: Look) -> list[Means]:
    """The disconnecting means of a structure's supplies."""
    found = (means_of(structure, supply, look) for supply in supplies_to(structure, look))
    return [means for means in found if means is not None]


def no_means_needed(structure: Structure, look: Look) -> str:
    """A condition of rules: only structures that need a disconnecting means are looked at."""
    if not supplies_to(structure, look):
        return NOT_SUPPLIED
    on_pole = is_lighting_pole(structure, look)
    return "a pole with luminaires only may have its disconnect elsewhere" if on_pole else ""


def no_means(structure: Structure, look: Look) -> str:
    """A condition of rules: only structures that need a disconnecting means, and have one, are looked at."""
    why = no_means_needed(structure, look)
    return why or ("" if means_at(structure, look) else "there is no disconnecting means to look at")


def for_each_means(structure: Structure, look: Look, judge: Callable[[Means], Answer]) -> Answer:
    """The worst answer over the disconnecting means of a structure's supplies."""
    return worst([judge(means) for means in means_at(structure, look)])


def _switches_on(structure: Structure, supply: Supply, look: Look) -> Iterator[tuple[Box, Switch | DisconnectSwitch]]:
    """Switches on the supply at the structure, those nearer its entry first; of one box by their ids, for a plan does not
    tell more."""
    for node in look.trace.tree.arrival[supply.circuit.id]:
        box = look.plan.boxes.get(node)
        if box is not None and box.at == structure.id:
            switches = (device for device in box.devices.values() if isinstance(device, _SWITCHES))
            for device in sorted(switches, key=lambda one: one.id):
                if look.trace.circuit_of(device) is supply.circuit:
                    yield box, device


def _at_panel(panel: Panel, supply: Supply, look: Look) -> Means | None:
    if look.stated(panel.main).rating is not None:
        return Means(supply, panel, panel)
    breakers = tuple(look.trace.circuits_from(panel))
    return Means(supply, panel, panel, breakers) if breakers else None
