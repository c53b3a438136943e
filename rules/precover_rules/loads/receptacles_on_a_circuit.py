"""How many receptacles a circuit may have."""

from fractions import Fraction

from precover.electrical.overcurrent import next_rating
from precover.plan import Circuit, Receptacle
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Current
from precover_rules.circuits import devices_on
from precover_rules.conditions import no_branch_circuit
from precover_rules.loads.drawn import is_general, voltage_and_hots
from precover_rules.premises import DWELLINGS, is_dwelling
from precover_rules.sizing.standard import ratings

NO_LIMIT = "a dwelling has no limit on receptacles of a circuit; some local codes have"


def _no_receptacle(circuit: Circuit, look: Look) -> str:
    found = any(isinstance(device, Receptacle) for device in devices_on(circuit, look))
    return "" if found else "no receptacle on it"


def _no_limit(_circuit: Circuit, look: Look) -> str:
    return NO_LIMIT if look.plan.site.premises in DWELLINGS else ""


@rule(
    looks_at=Circuit,
    unless=(no_branch_circuit, _no_receptacle, _no_limit),
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("receptacle-count-per-circuit-none", "load-general-receptacle-va"),
)
def receptacles_within_the_circuit(circuit: Circuit, look: Look) -> Answer:
    """Outside dwellings, the receptacles of a circuit count for no more than it carries; a dwelling has no such limit."""
    receptacles = [device for device in devices_on(circuit, look) if isinstance(device, Receptacle)]
    volts, _ = voltage_and_hots(circuit, look)
    count = sum(is_general(receptacle, circuit, look) for receptacle in receptacles)
    rating, each = look.stated(circuit.breaker.rating), look.limit("load of a receptacle").value
    most = int(rating.amount * volts / each.amount)
    look.because(f"{rating} × {volts} V / {each} = {most}", circuit.breaker.place)
    of, needs = "receptacles on the circuit", f"at most {most}"
    if count <= most:
        return met(of, count, needs)
    if is_dwelling(look):
        return does_not_apply(NO_LIMIT)
    return not_met(
        of, count, needs, why=f"{count - most} too many", amend=_ways(circuit, count, each.amount / volts, look)
    )


def _ways(circuit: Circuit, count: int, each: Fraction, look: Look) -> tuple[Proposal, ...]:
    """A larger breaker, where a general circuit may have one."""
    needed = next_rating(Current.of(count * each, "A"), ratings(look))
    if needed is None or needed > look.limit("common receptacle current").value:
        return ()
    words = f"make {circuit.id} a {needed} circuit, with wire to match"
    return (Proposal.state(words, Effort.WIRE, (circuit.breaker, "rating", needed.text)),)
