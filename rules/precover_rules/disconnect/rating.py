"""How large the disconnecting means of a structure is."""

from precover.electrical.overcurrent import next_rating
from precover.plan import Circuit, DisconnectSwitch, Panel, Structure, Switch
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover.units import Current
from precover_rules.circuit_conductors import is_multiwire
from precover_rules.circuits import devices_on
from precover_rules.disconnect.means import Means, for_each_means, no_means
from precover_rules.loads.calculated import branch_circuit_load, calculated_load
from precover_rules.loads.drawn import amperes
from precover_rules.loads.known import known
from precover_rules.sizing.standard import ratings

TABLE = "building-disconnect-rating"
ROW_OF = {
    "limited load on one branch circuit": "disconnect-rating-one-circuit",
    "not more than two 2-wire circuits": "disconnect-rating-two-circuit",
    "one-family dwelling": "disconnect-rating-dwelling",
    "any other": "disconnect-rating-other",
}
"""The requirement behind each cell of the table."""
OWN_PROTECTION = ("breaker", "fused switch")


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=(
        "disconnect-rating-one-circuit",
        "disconnect-rating-two-circuit",
        "disconnect-rating-dwelling",
        "disconnect-rating-other",
    ),
)
def rating_for_the_structure(structure: Structure, look: Look) -> Answer:
    """The rating of the disconnecting means is not below the least for the number of circuits it opens."""
    return for_each_means(structure, look, lambda means: _for_the_circuits(means, structure, look))


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("disconnect-rating-other",),
)
def rating_for_the_breaker_ahead(structure: Structure, look: Look) -> Answer:
    """A switch without overcurrent protection of its own is not rated below the breaker ahead of it."""
    return for_each_means(structure, look, lambda means: _for_the_breaker(means, look))


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("disconnect-rating-load",),
)
def rating_for_the_load(structure: Structure, look: Look) -> Answer:
    """A breaker or fused switch that disconnects a structure is not rated below the calculated load behind it."""
    return for_each_means(structure, look, lambda means: _for_the_load(means, structure, look))


def _for_the_circuits(means: Means, structure: Structure, look: Look) -> Answer:
    has = _rating(means, look)
    least = _least(means, structure, look)
    look.because(f"{means.name}: {least.key[0]}", means.thing.place)
    larger = () if has >= least.like(has) else _larger(means, least.text)
    answer = at_least("rating of the disconnect", has, least, at=_place(means), amend=larger)
    return answer.citing(ROW_OF[least.key[0]])


def _for_the_breaker(means: Means, look: Look) -> Answer:
    switch = means.thing
    if isinstance(switch, Panel):
        return does_not_apply("a breaker protects itself")
    has = switch.switch if isinstance(switch, Switch) else switch.disconnect
    ahead = look.stated(means.supply.circuit.breaker.rating)
    needs = f"at least {ahead}, unless the load is shown to stay below"
    if has >= ahead:
        return met("rating of the switch", has, needs, at=_place(means))
    if isinstance(switch, DisconnectSwitch) and look.stated(switch.type) in OWN_PROTECTION:
        return does_not_apply("it has overcurrent protection of its own")
    return not_met("rating of the switch", has, needs, at=_place(means), amend=_larger(means, ahead.text))


def _for_the_load(means: Means, structure: Structure, look: Look) -> Answer:
    device, supply = means.thing, means.supply.circuit
    if isinstance(device, Panel) and not means.breakers:
        return does_not_apply("the main of a panel is compared with its load as such")
    if isinstance(device, Switch):
        return does_not_apply("it is compared with the breaker ahead")
    has, ahead = _rating(means, look), look.stated(supply.breaker.rating)
    of, at = "rating of the disconnect", _place(means)
    if has >= ahead:
        return met(of, has, f"at least {ahead}: the load is compared with the breaker ahead", at=at)
    if isinstance(device, DisconnectSwitch) and look.stated(device.type) not in OWN_PROTECTION:
        return does_not_apply("it is compared with the breaker ahead")
    load = _load(supply, structure, has, look)
    if load is None:
        return does_not_apply("no load is planned behind it, or not all of the circuit's is")
    needs = f"at least {amperes(load.amount)}, the calculated load"
    if has >= load:
        return met(of, has, needs, at=at)
    larger = next_rating(max(load, ahead), ratings(look))
    return not_met(of, has, needs, at=at, amend=() if larger is None else _larger(means, larger.text))


def _load(supply: Circuit, structure: Structure, allowed: Current, look: Look) -> Current | None:
    """What is behind a disconnect; None for a branch circuit that serves more than its structure."""
    if supply.kind == "branch circuit":
        elsewhere = any(look.trace.structure_of(device) is not structure for device in devices_on(supply, look))
        return None if elsewhere else branch_circuit_load(supply, look, allowed)
    panel = look.trace.panel_fed_by(supply)
    return known(supply.load, look) if panel is None else calculated_load(panel, look, allowed)


def _rating(means: Means, look: Look) -> Current:
    """Rating of a switch or main; several breakers count together (from memory)."""
    if isinstance(means.thing, Switch):
        return means.thing.switch
    if isinstance(means.thing, DisconnectSwitch):
        return means.thing.disconnect
    if means.breakers:
        together = sum(look.stated(circuit.breaker.rating).in_unit("A") for circuit in means.breakers)
        look.because("ratings of the breakers that serve together, added (from memory)", means.thing.place)
        return Current.of(together, "A")
    main = look.stated(means.thing.main).rating
    assert main is not None  # noqa: S101 - a panel without a main serves through its breakers only
    return main


def _least(means: Means, structure: Structure, look: Look) -> Cell:
    if structure.use == "dwelling":
        return look.cell(TABLE, "one-family dwelling")
    supply = means.supply.circuit
    if supply.kind == "branch circuit":
        if look.stated(supply.limited_load):
            return look.cell(TABLE, "limited load on one branch circuit")
        two_wire = _two_wire_circuits([supply], look)
    else:
        two_wire = _two_wire_circuits(_behind(means, look), look)
    return look.cell(TABLE, "any other" if two_wire is None else "not more than two 2-wire circuits")


def _behind(means: Means, look: Look) -> list[Circuit]:
    """What begins in the panels at the structure that the feeder ends in."""
    reached = look.trace.tree.arrival[means.supply.circuit.id]
    return [
        circuit
        for name in reached
        if (panel := look.plan.panels.get(name)) is not None
        for circuit in look.trace.circuits_from(panel)
    ]


def _two_wire_circuits(circuits: list[Circuit], look: Look) -> int | None:
    """One or two where that is all there is; None for more, for none, and for circuits of another kind. A multiwire
    circuit counts as two; a feeder onward, and a circuit of three wires, are of another kind."""
    if not 1 <= len(circuits) <= 2:
        return None
    count = 0
    for circuit in circuits:
        if circuit.kind == "feeder":
            return None
        if is_multiwire(circuit, look):
            count += 2
        elif "/" in look.stated(circuit.voltage).text:
            return None
        else:
            count += 1
    return count if count <= 2 else None


def _place(means: Means) -> str:
    if isinstance(means.thing, Panel):
        return f"{means.thing.place}/main"
    return f"{means.thing.place}/{'switch' if isinstance(means.thing, Switch) else 'disconnect'}"


def _larger(means: Means, rating: str) -> tuple[Proposal, ...]:
    if isinstance(means.thing, Panel):
        words = f"fit {means.thing.id} with a {rating} main breaker"
        return (Proposal.state(words, Effort.PART, (means.thing, "main", rating)),)
    if isinstance(means.thing, DisconnectSwitch):
        what = "an enclosed breaker" if means.thing.type == "breaker" else "a disconnect"
        words = f"use {what} of {rating}"
        return (Proposal.state(words, Effort.PART, (means.thing, "disconnect", rating)),)
    return (Proposal.state(f"use a switch of {rating}", Effort.PART, (means.thing, "switch", rating)),)
