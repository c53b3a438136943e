"""The breaker of a feeder against the load behind it."""

from precover.plan import Circuit
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Current
from precover_rules.loads.calculated import calculated_load
from precover_rules.loads.drawn import amperes
from precover_rules.loads.standard import next_standard


@rule(
    looks_at=Circuit,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=(
        "feeder-size-calculated",
        "load-calc-article",
        "load-general-receptacle-va",
        "load-largest-motor",
        "load-noncoincident",
        "load-receptacle-fixed-known",
        "heater-continuous",
    ),
)
def breaker_carries_the_load(feeder: Circuit, look: Look) -> Answer:
    """The breaker of a feeder is not smaller than the calculated load behind it."""
    panel = look.trace.panel_fed_by(feeder) if feeder.kind == "feeder" else None
    if panel is None:
        return does_not_apply("no feeder to a panel")
    if not look.trace.circuits_from(panel):
        return does_not_apply("nothing is planned behind it")
    rating = look.stated(feeder.breaker.rating)
    load = calculated_load(panel, look, rating)
    if load is None:
        return does_not_apply("nothing is planned behind it")
    of, needs = "breaker of the feeder", f"at least {amperes(load.amps.amount)}, the calculated load"
    if load.amps <= rating:
        return met(of, rating, needs, at=f"{feeder.breaker.place}/rating")
    return not_met(of, rating, needs, at=f"{feeder.breaker.place}/rating", amend=_ways(feeder, load.amps, look))


def _ways(feeder: Circuit, load: Current, look: Look) -> tuple[Proposal, ...]:
    larger = next_standard(load, look)
    if larger is None:
        return ()
    words = f"give {feeder.id} a {larger} breaker, with conductors and a panel to match"
    return (Proposal.state(words, Effort.WIRE, (feeder.breaker, "rating", larger.text)),)
