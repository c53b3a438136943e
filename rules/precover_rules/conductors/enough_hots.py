"""That a circuit has the hots that its voltage needs."""

from precover.plan import Cable, Carried, Circuit, Conductor, Unstated
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
    seen = False
    for route, carried in carried_on(circuit, look):
        count = _stated(carried)
        if count is None:
            continue
        seen = True
        needed, of = (2, "hot wires") if carried.wires is not None else (least, "insulated conductors")
        if count < needed:
            return not_met(
                f"{of} on {route.id}",
                count,
                needed,
                why=f"the plan contradicts itself: {'multiwire' if shared else circuit.voltage} has two hots",
                at=carried.place,
                amend=_second(circuit, carried),
            )
    if not seen:
        return does_not_apply("the plan does not say what carries it")
    return met("hots", "two in every part that is stated", "two")


def _stated(carried: Carried) -> int | None:
    """Hot wires, or the insulated conductors of a cable; None where the plan does not say."""
    if carried.wires is not None:
        hot = carried.wires.hot
        return hot.count if isinstance(hot, Conductor) else None
    return len(carried.cable.insulated) if isinstance(carried.cable, Cable) else None


def _second(circuit: Circuit, carried: Carried) -> tuple[Proposal, ...]:
    """A second hot like the first, a cable with one conductor more, or a circuit that is not multiwire after all."""
    ways: list[Proposal] = []
    if carried.wires is not None:
        hot = carried.wires.hot
        if isinstance(hot, Conductor):
            text = f"2 × {hot.size} {hot.material} {hot.insulation}"
            ways.append(Proposal.state(f"pull {text}", Effort.WIRE, (carried.wires, "hot", text)))
    elif isinstance(carried.cable, Cable) and "/2" in carried.cable.text:
        text = carried.cable.text.replace("/2", "/3")
        ways.append(Proposal.state(f"use {text}", Effort.WIRE, (carried, "cable", text)))
    voltage = circuit.voltage
    if circuit.multiwire is True and not isinstance(voltage, Unstated) and "/" not in voltage.text:
        words = f"state {circuit.id} as a circuit of one hot"
        ways.append(Proposal.state(words, Effort.PAPER, (circuit, "multiwire", False)))
    return tuple(ways)
