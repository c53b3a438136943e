"""Which kinds of device may disconnect a structure."""

from precover.plan import Structure, Switch
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.circuit_conductors import kept_three_wire
from precover_rules.disconnect.means import Means, for_each_means, no_means
from precover_rules.disconnect.ways import enclosed_switch

SERVICE_RATED = "marked suitable for use as service equipment"


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.QUERY,
    stage=Stage.PLAN,
    rows=("disconnect-type", "disconnect-single-circuit-switch"),
)
def snap_switch_for_a_small_circuit(structure: Structure, look: Look) -> Answer:
    """A snap switch disconnects a structure only where one 15 or 20 A branch circuit supplies it."""
    return for_each_means(structure, look, lambda means: _snap_switch(means, look))


@rule(looks_at=Structure, unless=no_means, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("disconnect-type",))
def service_rated_where_the_neutral_is_bonded(structure: Structure, look: Look) -> Answer:
    """Where an old three-wire feeder has its neutral bonded at the structure, the disconnect is suitable as service equipment."""
    return for_each_means(structure, look, lambda means: _service_rated(means, look, three_wire=True))


@rule(looks_at=Structure, unless=no_means, severity=Severity.ADVICE, stage=Stage.PLAN, rows=("disconnect-type",))
def service_rated_for_other_feeders(structure: Structure, look: Look) -> Answer:
    """The disconnect of a structure with a feeder is suitable as service equipment, which some offices still ask for."""
    return for_each_means(structure, look, lambda means: _service_rated(means, look, three_wire=False))


def _snap_switch(means: Means, look: Look) -> Answer:
    if not isinstance(means.thing, Switch):
        return does_not_apply("no snap switch serves as the disconnect")
    circuit = means.supply.circuit
    most = look.limit("circuit behind a snap switch")
    needs = f"one branch circuit of {most.text} or less"
    if circuit.kind != "branch circuit":
        has = f"for the feeder {circuit.id}"
        return not_met("snap switch", has, needs, at=means.thing.place, amend=(_enclosed(means, look),))
    rating = look.stated(circuit.breaker.rating)
    if rating > most.value:
        has = f"for {circuit.id} of {rating}"
        return not_met("snap switch", has, needs, at=means.thing.place, amend=(_enclosed(means, look),))
    return met("snap switch", f"for {circuit.id} of {rating}", needs, at=means.thing.place)


def _service_rated(means: Means, look: Look, *, three_wire: bool) -> Answer:
    feeder = means.supply.circuit
    if feeder.kind != "feeder":
        return does_not_apply("no feeder")
    if kept_three_wire(feeder, look) is not three_wire:
        return does_not_apply("not that kind of feeder")
    if isinstance(means.thing, Switch):
        return not_met("disconnect", "a snap switch", SERVICE_RATED, at=means.thing.place)
    at = f"{means.thing.place}/service-rated"
    if look.stated(means.thing.service_rated):
        return met("disconnect", "so marked", SERVICE_RATED, at=at)
    words = f"use equipment {SERVICE_RATED}"
    return not_met(
        "disconnect",
        "not so marked",
        SERVICE_RATED,
        at=at,
        amend=(Proposal.state(words, Effort.PART, (means.thing, "service-rated", True)),),
    )


def _enclosed(means: Means, look: Look) -> Proposal:
    """An enclosed switch in the place of the snap switch."""
    device = enclosed_switch(means.supply, look)
    if means.thing.at_entry is True:
        device["at-entry"] = True
    if isinstance(means.thing, Switch) and means.thing.circuit is not None:
        device["circuit"] = means.thing.circuit
    words = f"use an enclosed switch of {device['disconnect']} instead"
    return Proposal(words, Effort.PART, ({"op": "add", "path": means.thing.place, "value": device},))
