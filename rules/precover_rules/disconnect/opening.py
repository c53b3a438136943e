"""That the disconnecting means opens what it must, and shows it."""

from precover.plan import DisconnectSwitch, Panel, Structure, Switch
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.circuit_conductors import hots
from precover_rules.disconnect.means import Means, for_each_means, means_of, no_means
from precover_rules.separate_structures import supplies_to

EVERY_HOT = "every hot conductor of the supply, together"


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.DANGER,
    stage=Stage.ENERGIZE,
    rows=("disconnect-required", "disconnect-single-circuit-switch", "disconnect-indicating"),
)
def opens_every_hot(structure: Structure, look: Look) -> Answer:
    """The disconnecting means opens every ungrounded conductor, and all of them together."""
    return for_each_means(structure, look, lambda means: _opens(means, look))


@rule(looks_at=DisconnectSwitch, severity=Severity.CORRECTION, stage=Stage.FINAL, rows=("disconnect-indicating",))
def shows_open_or_closed(device: DisconnectSwitch, look: Look) -> Answer:
    """A disconnect switch shows plainly whether it is open or closed."""
    if device.type == "breaker":
        return met("position", "a breaker's handle shows it", "shown plainly")
    if look.stated(device.indicating):
        return met("position", "shown", "shown plainly", at=f"{device.place}/indicating")
    return not_met(
        "position",
        "not shown",
        "shown plainly",
        at=f"{device.place}/indicating",
        amend=(Proposal.state("use a switch that shows its position", Effort.PART, (device, "indicating", True)),),
    )


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("disconnect-indicating", "disconnect-single-circuit-switch"))
def snap_switch_shows_its_position(structure: Structure, look: Look) -> str | None:
    """A snap switch shows its position only if it is not one of several that control the same thing."""
    for supply in supplies_to(structure, look):
        means = means_of(structure, supply, look)
        if means is not None and isinstance(means.thing, Switch):
            return (
                f"{means.name} is marked on and off: a three-way or four-way switch does not show whether it is open."
            )
    return None


def _opens(means: Means, look: Look) -> Answer:
    circuit = means.supply.circuit
    if isinstance(means.thing, Panel):
        if not means.breakers:
            return met("opens", f"{means.name}, both buses", EVERY_HOT, at=means.thing.place)
        return _breakers_open(means, look)
    opens = look.stated(means.thing.opens)
    at = f"{means.thing.place}/opens"
    if opens == "all hots":
        return met("opens", opens, EVERY_HOT, at=at)
    if opens == "one hot" and hots(circuit, look) == 1:
        look.because(f"{circuit.id} has one hot", f"{circuit.place}/voltage")
        return met("opens", opens, EVERY_HOT, at=at)
    words = "use a switch with a pole for every hot, and none for the neutral alone"
    return not_met(
        "opens",
        opens,
        EVERY_HOT,
        at=at,
        amend=(Proposal.state(words, Effort.PART, (means.thing, "opens", "all hots")),),
    )


def _breakers_open(means: Means, look: Look) -> Answer:
    for circuit in means.breakers:
        breaker = circuit.breaker
        if hots(circuit, look) == 1:
            continue
        if look.stated(breaker.poles) != 2 or not look.stated(breaker.common_trip):
            return not_met(
                f"breaker of {circuit.id}",
                "poles that open one by one",
                EVERY_HOT,
                at=breaker.place,
                amend=(
                    Proposal.state(
                        "use a 2-pole breaker with common trip",
                        Effort.PART,
                        (breaker, "poles", 2),
                        (breaker, "common-trip", True),
                    ),
                ),
            )
    return met("opens", f"{means.name}, each all hots of its circuit", EVERY_HOT, at=means.thing.place)
