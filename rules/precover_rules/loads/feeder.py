"""The breaker of a feeder against the load behind it."""

from precover.electrical.overcurrent import next_rating
from precover.plan import Circuit, MainBreaker, Panel, Unstated
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import ConductorSize, Current
from precover_rules.circuits import panel_behind
from precover_rules.conditions import no_feeder_to_a_panel
from precover_rules.loads.calculated import calculated_load, spread
from precover_rules.loads.drawn import amperes
from precover_rules.loads.known import known
from precover_rules.sizing.ampacity import Verdict, least_size, verdict
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.larger_ground import ground_with
from precover_rules.sizing.overcurrent import protects
from precover_rules.sizing.rewiring import Change, in_size, rewired, with_room
from precover_rules.sizing.standard import ratings


def _no_feeder_with_a_load(circuit: Circuit, look: Look) -> str:
    """Only feeders are looked at that end in a panel, or are planned for a load."""
    planned = circuit.kind == "feeder" and not isinstance(circuit.load, Unstated)
    return "" if planned else no_feeder_to_a_panel(circuit, look)


@rule(
    looks_at=Circuit,
    unless=_no_feeder_with_a_load,
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
    """The breaker of a feeder is not smaller than the calculated load behind it, nor than what it is planned for."""
    panel = look.trace.panel_fed_by(feeder)
    if isinstance(feeder.load, Unstated) and not look.trace.circuits_from(panel_behind(feeder, look)):
        return does_not_apply("nothing is planned behind it")
    rating = look.stated(feeder.breaker.rating)
    load = _load(feeder, panel, rating, look)
    if load is None:
        return does_not_apply("nothing is planned behind it")
    of, needs = "breaker of the feeder", _needs(feeder, load, look)
    if load <= rating:
        return met(of, rating, needs, at=f"{feeder.breaker.place}/rating")
    answer = not_met(of, rating, needs, at=f"{feeder.breaker.place}/rating", amend=_ways(feeder, panel, load, look))
    return answer.citing("feeder-size-calculated") if load == known(feeder.load, look) else answer


@rule(
    looks_at=Circuit,
    unless=_no_feeder_with_a_load,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("feeder-size-calculated",),
)
def conductors_carry_the_load(feeder: Circuit, look: Look) -> Answer:
    """The hots of a feeder carry the calculated load behind it, or what it is planned for, where they lie."""
    rating = look.stated(feeder.breaker.rating)
    load = _load(feeder, look.trace.panel_fed_by(feeder), rating, look)
    if load is None or load > rating:
        return does_not_apply("nothing is planned behind it, or more than its breaker carries")
    found: list[tuple[Laid, Verdict]] = []
    for part in laid_on(feeder, look):
        if isinstance(part, Answer):
            return does_not_apply("its ampacity is a finding of its own")
        one = verdict(part, lambda amps: amps >= load, look)
        if not one.holds and not protects(rating, one.amps, feeder, look):
            return does_not_apply("its breaker is too large for it already")
        found.append((part, one))
    if not found:
        return does_not_apply("its conductors are a finding of their own")
    part, weakest = min(found, key=lambda one: one[1].amps.amount)
    of, has = "conductors of the feeder", f"{weakest.amps} on {part.route.id}"
    needs = _needs(feeder, load, look)
    if weakest.holds:
        return met(of, has, needs, at=part.place)
    weak = [laid for laid, one in found if not one.holds]
    sizes = [size for laid in weak if (size := least_size(laid, lambda _, amps: amps >= load, look)) is not None]
    if len(sizes) < len(weak):
        return not_met(of, has, needs, at=part.place)
    beside = [ground_with(laid, size, rating, look) for laid, size in zip(weak, sizes, strict=True)]
    return not_met(of, has, needs, at=part.place, amend=rewired(weak, sizes, look, beside))


def _load(feeder: Circuit, panel: Panel | None, rating: Current, look: Look) -> Current | None:
    """The load of the panel at its end; of a feeder whose panel is not on the plan what it is planned for."""
    return known(feeder.load, look) if panel is None else calculated_load(panel, look, rating)


def _needs(feeder: Circuit, load: Current, look: Look) -> str:
    whose = "which it is planned for" if load == known(feeder.load, look) else "the calculated load"
    return f"at least {amperes(load.amount)}, {whose}"


def _ways(feeder: Circuit, panel: Panel | None, load: Current, look: Look) -> tuple[Proposal, ...]:
    """Its circuits spread over both legs; or a larger breaker, with conductors and a panel to match."""
    if panel is None:
        return ()
    ways: list[Proposal] = []
    moved = spread(panel, look)
    if moved:
        words = ", ".join(f"{circuit.id} on {leg}" for circuit, leg in moved)
        ways.append(Proposal.state(f"put {words}", Effort.PAPER, *((circuit, "leg", leg) for circuit, leg in moved)))
    larger = next_rating(load, ratings(look))
    if larger is not None:
        ways += _larger(feeder, panel, larger, look)
    return tuple(ways)


def _larger(feeder: Circuit, panel: Panel, larger: Current, look: Look) -> list[Proposal]:
    """A larger breaker, on all that it asks for: the hots and their ground, the main and the bus of the panel."""
    changes: list[Change] = [(feeder.breaker, "rating", larger.text)]
    sizes: dict[str, ConductorSize] = {}
    for part in laid_on(feeder, look):
        if isinstance(part, Answer):
            return []
        size = least_size(part, lambda _, amps: protects(larger, amps, feeder, look), look)
        if size is None:
            return []
        grown = max(part.size, size)
        made = in_size(part.carried, grown, look, ground_with(part, grown, larger, look), equal_only=True)
        if not made:
            return []
        changes += made
        sizes[part.route.id] = grown
    main, bus = panel.main, panel.bus
    if isinstance(main, MainBreaker) and main.rating is not None and main.rating < larger:
        changes.append((panel, "main", larger.text))
    if isinstance(bus, Current) and bus < larger:
        changes.append((panel, "bus", larger.text))
    words = f"give {feeder.id} a {larger} breaker, with conductors and a panel to match"
    return [with_room(words, changes, sizes, look)]
