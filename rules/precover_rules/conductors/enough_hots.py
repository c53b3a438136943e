"""That a circuit has the hots, and the neutral, that its voltage needs."""

from collections.abc import Sequence

from precover.plan import Cable, Carried, Circuit, Conductor, Route, Unstated
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.bringing_a_neutral import one_conductor_more, with_a_neutral
from precover_rules.circuit_conductors import carried_on, hots, one_hot, uses_neutral
from precover_rules.conditions import low_voltage, no_branch_circuit
from precover_rules.sizing.own_circuit import outlets_on
from precover_rules.sizing.rewiring import with_room

NEUTRAL = "a neutral all the way to what it feeds"


def _between_two_hots(circuit: Circuit, look: Look) -> str:
    return "" if uses_neutral(circuit, look) else "it runs between two hots"


@rule(
    looks_at=Circuit,
    unless=(low_voltage, one_hot),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("circuit-conductors-together",),
)
def hots_for_the_voltage(circuit: Circuit, look: Look) -> Answer:
    """Every part of a circuit of two hots (240 V, 120/240 V or multiwire) has wires for both."""
    shared = circuit.multiwire is True
    least = 3 if shared else 2
    stated = [
        (route, carried, count)
        for route, carried in carried_on(circuit, look)
        if (count := _stated(carried)) is not None
    ]
    short = [(route, carried, count) for route, carried, count in stated if count < _needed(carried, least)]
    if short:
        route, carried, count = short[0]
        of = "hot wires" if carried.wires is not None else "insulated conductors"
        return not_met(
            f"{of} on {route.id}",
            count,
            _needed(carried, least),
            why=f"the plan contradicts itself: {'multiwire' if shared else circuit.voltage} has two hots",
            at=carried.place,
            amend=_second(circuit, [part for _, part, _ in short], look),
        )
    if not stated:
        return does_not_apply("the plan does not say what carries it")
    return met("hots", "two in every part that is stated", "two")


@rule(
    looks_at=Circuit,
    unless=(no_branch_circuit, _between_two_hots),
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    rows=("circuit-conductors-together",),
)
def neutral_for_the_voltage(circuit: Circuit, look: Look) -> Answer:
    """A branch circuit of 120 V, or of both voltages, has a neutral all the way to what it feeds."""
    ways = [route for route in _that_feed(circuit, look) if _says_what_it_carries(route.carries[circuit.id])]
    if not ways:
        return does_not_apply("nothing that it feeds is reached by wiring of a stated kind")
    least = 2 if hots(circuit, look) == 1 else 3
    without = [route for route in ways if not _has_neutral(route.carries[circuit.id], least)]
    if not without:
        return met("neutral", "all the way", NEUTRAL)
    first = without[0]
    if first.carries[circuit.id].wires is None and circuit.multiwire is True:
        return does_not_apply("a conductor too few for a shared neutral: told with its hots")
    return not_met(
        f"neutral on {first.id}",
        "none",
        NEUTRAL,
        why="whoever wires it would have to make the ground carry the current",
        at=first.carries[circuit.id].place,
        amend=with_a_neutral([route.carries[circuit.id] for route in without], look),
    )


def _that_feed(circuit: Circuit, look: Look) -> list[Route]:
    """The routes that lead to something that takes current; one that leads to a switch alone needs no neutral for it."""
    reached = {look.trace.box_of(outlet).id for outlet in outlets_on(circuit, look)}
    found: list[Route] = []
    for route in reversed(look.trace.tree.routes[circuit.id]):
        if route.to in reached:
            reached.add(route.from_)
            found.append(route)
    return found[::-1]


def _says_what_it_carries(carried: Carried) -> bool:
    return carried.wires is not None or isinstance(carried.cable, Cable)


def _has_neutral(carried: Carried, least: int) -> bool:
    if carried.wires is not None:
        return carried.wires.neutral is not None
    return isinstance(carried.cable, Cable) and len(carried.cable.insulated) >= least


def _needed(carried: Carried, least: int) -> int:
    return 2 if carried.wires is not None else least


def _stated(carried: Carried) -> int | None:
    """Hot wires, or the insulated conductors of a cable; None where the plan does not say."""
    if carried.wires is not None:
        hot = carried.wires.hot
        return hot.count if isinstance(hot, Conductor) else None
    return len(carried.cable.insulated) if isinstance(carried.cable, Cable) else None


def _second(circuit: Circuit, short: Sequence[Carried], look: Look) -> tuple[Proposal, ...]:
    """A second hot like the first, a cable with one conductor more, in every part that has too few; or a circuit that is
    not multiwire after all."""
    changes = [one_conductor_more(carried, "hot", "2 × ") for carried in short]
    known = [change for change in changes if change is not None]
    ways: list[Proposal] = []
    if len(known) == len(changes):
        texts = dict.fromkeys(text for _, _, text in known)
        ways.append(with_room(f"pull a second hot: {', '.join(texts)}", known, {}, look))
    voltage = circuit.voltage
    if circuit.multiwire is True and not isinstance(voltage, Unstated) and "/" not in voltage.text:
        words = f"state {circuit.id} as a circuit of one hot"
        ways.append(Proposal.state(words, Effort.PAPER, (circuit, "multiwire", False)))
    return tuple(ways)
