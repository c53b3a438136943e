"""That a circuit has the hots that its voltage needs."""

from collections.abc import Sequence

from precover.plan import Cable, Carried, Circuit, Conductor, Unstated
from precover.plan.thing import Thing
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.circuit_conductors import carried_on, hots


@rule(looks_at=Circuit, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("circuit-conductors-together",))
def hots_for_the_voltage(circuit: Circuit, look: Look) -> Answer:
    """Every part of a circuit of two hots (240 V, 120/240 V or multiwire) has wires for both."""
    if circuit.kind == "low-voltage":
        return does_not_apply("low voltage")
    if hots(circuit, look) == 1:
        return does_not_apply("one hot")
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
            amend=_second(circuit, [part for _, part, _ in short]),
        )
    if not stated:
        return does_not_apply("the plan does not say what carries it")
    return met("hots", "two in every part that is stated", "two")


def _needed(carried: Carried, least: int) -> int:
    return 2 if carried.wires is not None else least


def _stated(carried: Carried) -> int | None:
    """Hot wires, or the insulated conductors of a cable; None where the plan does not say."""
    if carried.wires is not None:
        hot = carried.wires.hot
        return hot.count if isinstance(hot, Conductor) else None
    return len(carried.cable.insulated) if isinstance(carried.cable, Cable) else None


def _second(circuit: Circuit, short: Sequence[Carried]) -> tuple[Proposal, ...]:
    """A second hot like the first, a cable with one conductor more, in every part that has too few; or a circuit that is
    not multiwire after all."""
    changes = [_change(carried) for carried in short]
    known = [change for change in changes if change is not None]
    ways: list[Proposal] = []
    if known and len(known) == len(changes):
        texts = dict.fromkeys(text for _, _, text in known)
        ways.append(Proposal.state(f"pull a second hot: {', '.join(texts)}", Effort.WIRE, *known))
    voltage = circuit.voltage
    if circuit.multiwire is True and not isinstance(voltage, Unstated) and "/" not in voltage.text:
        words = f"state {circuit.id} as a circuit of one hot"
        ways.append(Proposal.state(words, Effort.PAPER, (circuit, "multiwire", False)))
    return tuple(ways)


def _change(carried: Carried) -> tuple[Thing, str, str] | None:
    if carried.wires is not None:
        hot = carried.wires.hot
        return (
            (carried.wires, "hot", f"2 × {hot.size} {hot.material} {hot.insulation}")
            if isinstance(hot, Conductor)
            else None
        )
    if isinstance(carried.cable, Cable) and "/2" in carried.cable.text:
        return carried, "cable", carried.cable.text.replace("/2", "/3")
    return None
