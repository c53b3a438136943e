"""The receptacle circuit of a garage."""

from precover.plan import Circuit, Device, DisconnectSwitch, GroundFaultDevice, Receptacle, Structure, Switch
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.another_circuit import on_another_circuit
from precover_rules.circuits import devices_on
from precover_rules.conditions import no_garage
from precover_rules.loads.drawn import is_general
from precover_rules.premises import is_dwelling
from precover_rules.vehicle_bays import is_for_a_bay

NO_OUTLET = (Switch, DisconnectSwitch, GroundFaultDevice)
RATING = "garage receptacle circuit"
OF_THE_BAYS = "garage receptacle circuit feeds the vehicle bays"


@rule(
    looks_at=Structure,
    unless=no_garage,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("garage-circuit-20a-required",),
)
def garage_has_its_receptacle_circuit(structure: Structure, look: Look) -> Answer:
    """A garage of a dwelling with power has a 120 V, 20 A circuit for its receptacles and nothing else."""
    receptacles = [
        one for one in look.trace.devices_at(structure) if isinstance(one, Receptacle) and _inside(one, look)
    ]
    general = [one for one in receptacles if is_general(one, look.trace.circuit_of(one), look)]
    if look.limit(OF_THE_BAYS).value:
        general = [one for one in general if is_for_a_bay(one, look)]
    circuits = {circuit.id: circuit for circuit in map(look.trace.circuit_of, general)}
    if not circuits:
        return does_not_apply("it has no receptacle for a bay, which is a finding of its own where it has power")
    if not is_dwelling(look):
        return does_not_apply("not on the premises of a dwelling")
    of, needs = "receptacle circuit of the garage", "120 V, 20 A, for its receptacles and nothing else"
    whole = [circuit for circuit in circuits.values() if _is_20_amperes(circuit, look)]
    for circuit in whole:
        others = _others(circuit, structure, look)
        if not others:
            return met(of, circuit.id, needs)
        if _all_in_its_one_bay(others, structure, look):
            return met(of, circuit.id, f"{needs}; a one-bay garage may have its other outlets on it")
    if not whole:
        circuit = next(iter(circuits.values()))
        words = f"make {circuit.id} a {look.limit(RATING).text} circuit, with 12 AWG copper or larger"
        change = (circuit.breaker, "rating", look.limit(RATING).text)
        would_do = not (others := _others(circuit, structure, look)) or _all_in_its_one_bay(others, structure, look)
        amend = (Proposal.state(words, Effort.WIRE, change),) if would_do else ()
        return not_met(of, f"{circuit.id}, {look.stated(circuit.breaker.rating)}", needs, at=circuit.place, amend=amend)
    others = _others(whole[0], structure, look)
    has = f"{whole[0].id} also feeds {others[0].id} in {look.trace.box_of(others[0]).id}"
    return not_met(of, has, needs, at=others[0].place, amend=on_another_circuit(others, look))


def _others(circuit: Circuit, structure: Structure, look: Look) -> list[Device]:
    """Outlets on a circuit that are neither receptacles of the garage nor receptacles outdoors."""
    return [
        device
        for device in devices_on(circuit, look)
        if not isinstance(device, NO_OUTLET)
        and not (isinstance(device, Receptacle) and _may_be_on_it(device, structure, look))
    ]


def _all_in_its_one_bay(others: list[Device], structure: Structure, look: Look) -> bool:
    """All of a garage for one vehicle, whose other outlets may be on the circuit."""
    bays = look.limit("bays of a garage whose circuit may feed its other outlets").value
    if bays == 0 or not all(look.trace.structure_of(one) is structure for one in others):
        return False
    return bool(look.stated(structure.vehicle_bays) <= bays)


def _may_be_on_it(device: Receptacle, structure: Structure, look: Look) -> bool:
    return look.trace.structure_of(device) is structure or look.stated(look.trace.box_of(device).area) == "outdoors"


def _inside(device: Receptacle, look: Look) -> bool:
    return look.stated(look.trace.box_of(device).area) != "outdoors"


def _is_20_amperes(circuit: Circuit, look: Look) -> bool:
    rating = look.limit(RATING).value
    return bool(circuit.kind == "branch circuit" and look.stated(circuit.breaker.rating) == rating)
