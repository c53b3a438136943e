"""That a separately supplied structure can be cut off where it stands."""

from precover.plan import Box, Panel, Structure
from precover.rulebook import (
    Answer,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.tracing import Supply
from precover_rules.circuits import devices_on
from precover_rules.disconnect.means import Means, for_each_means, means_of, no_means, no_means_needed
from precover_rules.disconnect.ways import ways_to_disconnect
from precover_rules.separate_structures import supplies_to
from precover_rules.worst import worst


@rule(
    looks_at=Structure,
    unless=no_means_needed,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("disconnect-required",),
)
def disconnect_at_the_structure(structure: Structure, look: Look) -> Answer:
    """A structure supplied from another has a disconnecting means of its own."""
    return worst([_for_supply(structure, supply, look) for supply in supplies_to(structure, look)])


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("disconnect-required",),
)
def disconnect_comes_first(structure: Structure, look: Look) -> Answer:
    """Everything that the supply feeds at the structure lies behind its disconnecting means."""
    return for_each_means(structure, look, lambda means: _everything_behind(means, structure, look))


@inspection(looks_at=Structure, stage=Stage.ROUGH, rows=("disconnect-required",))
def disconnect_first_in_its_box(structure: Structure, look: Look) -> str | None:
    """The order of devices within one box."""
    for supply in supplies_to(structure, look):
        means = means_of(structure, supply, look)
        if means is not None and isinstance(means.node, Box) and len(means.node.devices) > 1:
            return f"In {means.node.id} the supply goes to {means.thing.id} first: nothing is fed from ahead of it."
    return None


def _for_supply(structure: Structure, supply: Supply, look: Look) -> Answer:
    of = f"disconnect for {supply.circuit.id}"
    needs = "a disconnecting means at the structure"
    means = means_of(structure, supply, look)
    if means is None:
        look.because(f"the breaker of {supply.circuit.id} is at another structure", supply.circuit.place)
        return not_met(of, "none", needs, amend=ways_to_disconnect(structure, supply, look))
    if not isinstance(means.thing, Panel) and means.thing.opens == "neutral":
        return does_not_apply(f"{means.name} is called its disconnect, but opens the neutral only")
    return met(of, means.name, needs, at=means.thing.place)


def _ahead_of_it(means: Means, structure: Structure, look: Look) -> tuple[Proposal, ...]:
    """A disconnecting means where the supply comes in, if all that it feeds at the structure lies behind that."""
    supply, tree = means.supply, look.trace.tree
    if supply.route.to == means.node.id:
        return ()
    here = (name for name in tree.arrival[supply.circuit.id] if look.trace.node(name).at == structure.id)
    if not all(supply.route in tree.way_to(supply.circuit.id, name) for name in here):
        return ()
    return ways_to_disconnect(structure, supply, look)


def _everything_behind(means: Means, structure: Structure, look: Look) -> Answer:
    circuit = means.supply.circuit
    tree = look.trace.tree
    fed = {look.trace.box_of(device).id for device in devices_on(circuit, look)}
    for name in tree.arrival[circuit.id]:
        node = look.trace.node(name)
        if node.at != structure.id or node is means.node or (isinstance(node, Box) and node.id not in fed):
            continue
        if means.node.id not in {route.to for route in tree.way_to(circuit.id, name)}:
            return not_met(
                "fed ahead of the disconnect",
                name,
                f"everything on {circuit.id} here behind {means.name}",
                at=node.place,
                amend=_ahead_of_it(means, structure, look),
            )
    return met("behind the disconnect", f"everything on {circuit.id} here", at=means.thing.place)
