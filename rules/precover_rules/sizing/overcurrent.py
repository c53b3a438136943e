"""The breaker against the ampacity of the conductors behind it."""

from __future__ import annotations

from precover.electrical.overcurrent import next_rating
from precover.plan import Circuit, FramingLeg, MainBreaker, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import Current
from precover_rules.conditions import low_voltage
from precover_rules.sizing.ampacity import Verdict, least_size, only_steps_of, verdicts
from precover_rules.sizing.company import kept_apart
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.own_circuit import asks_for_more, by_its_equipment
from precover_rules.sizing.rewiring import rewired
from precover_rules.sizing.small_wire import cap, is_capped
from precover_rules.sizing.standard import largest_up_to, may_round_up, ratings
from precover_rules.worst import worst

NO_WIRE = "no conductors of a building wire's size"


@rule(
    looks_at=Circuit,
    unless=(low_voltage, by_its_equipment),
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    rows=("small-conductor-ocpd",),
)
def breaker_for_small_wire(circuit: Circuit, look: Look) -> Answer:
    """14, 12 and 10 AWG wire is behind a breaker no larger than is set for its size, whatever its ampacity."""
    small = [part for part in laid_on(circuit, look) if isinstance(part, Laid) and cap(part, look) is not None]
    if not small:
        return does_not_apply("larger wire")
    rating = look.stated(circuit.breaker.rating)
    answers = [_against_cap(part, rating, small, look) for part in small]
    return worst(answers)


@rule(
    looks_at=Circuit,
    unless=(low_voltage, by_its_equipment),
    severity=Severity.DANGER,
    stage=Stage.PLAN,
    rows=(
        "branch-ocpd-vs-ampacity",
        "ampacity-table-locator",
        "terminal-temp-60-75",
        "nm-uf-60c",
        "ambient-correction",
        "adjustment-more-than-three",
        "se-cable-feeder-inside",
        "feeder-not-dwelling-83",
        "feeder-breaker-at-source",
        "tap-10ft",
    ),
)
def breaker_for_the_ampacity(circuit: Circuit, look: Look) -> Answer:
    """The breaker at a circuit's origin is not larger than the ampacity of its conductors allows, all along its way."""
    parts = list(laid_on(circuit, look))
    if not parts:
        return does_not_apply(NO_WIRE)
    rating = look.stated(circuit.breaker.rating)
    stated = not isinstance(circuit.breaker.rating, Unstated)  # else nothing is a finding of its own yet
    laid = [part for part in parts if isinstance(part, Laid) and not (stated and is_capped(part, rating, look))]
    found = verdicts(laid, lambda amps: protects(rating, amps, circuit, look), look)
    weak = [(part, one) for part, one in zip(laid, found, strict=True) if not one.holds]
    if weak:
        return _too_large(rating, weak, laid[0], look)
    beyond = [part for part in parts if isinstance(part, Answer)]
    if beyond:
        return beyond[0]
    if not found:
        return does_not_apply("its wire is too small for the breaker by its size alone")
    part, least = min(zip(laid, found, strict=True), key=lambda pair: pair[1].amps)
    return met("breaker", rating, f"for the {least.amps} of {part.named}", at=f"{circuit.breaker.place}/rating")


@inspection(looks_at=FramingLeg, stage=Stage.ROUGH, rows=("ambient-correction",))
def heat_in_an_attic(leg: FramingLeg, look: Look) -> str | None:
    """How hot an attic gets is not on the plan."""
    if leg.in_ != "attic" or not look.trace.route_of(leg).carries:
        return None
    route = look.trace.route_of(leg)
    return (
        f"{route.id}: where it crosses the attic, it is not hotter than the site's design temperature it was sized for."
    )


def protects(rating: Current, amps: Current, circuit: Circuit, look: Look) -> bool:
    """Whether a breaker is small enough for an ampacity: not above it, or where that is allowed the next standard rating.
    None is for wire that has no ampacity, because it is too hot for it."""
    if rating <= amps:
        return True
    if not amps.amount:
        return False
    above = next_rating(amps, ratings(look))
    highest = look.limit("next standard rating up to").value
    return above is not None and rating <= above and rating <= highest and may_round_up(circuit, look)


def _against_cap(part: Laid, rating: Current, small: list[Laid], look: Look) -> Answer:
    most = cap(part, look)
    needs, at = f"at most {most} for {part.named}", f"{part.circuit.breaker.place}/rating"
    if not is_capped(part, rating, look):
        return met("breaker", rating, needs, at=at)
    wrong = [other for other in small if is_capped(other, rating, look)]
    lowest = min(limit for other in wrong if (limit := cap(other, look)) is not None)
    return not_met("breaker", rating, needs, at=at, amend=_ways(part.circuit, rating, wrong, lowest, look))


def _too_large(rating: Current, weak: list[tuple[Laid, Verdict]], first: Laid, look: Look) -> Answer:
    part, one = min(weak, key=lambda pair: pair[1].amps)
    only_steps_of(part, look)
    circuit = part.circuit
    lower = largest_up_to(one.amps, look)
    above = next_rating(one.amps, ratings(look))
    if above is not None and above < rating and protects(above, one.amps, circuit, look):
        lower = above
    needs = f"at most {lower or one.amps} for the {one.amps} of {part.named}"
    rows, why = list(one.rows), ""
    if part.size < first.size:
        rows.append("tap-10ft")
        why = (
            f"The wire gets smaller on the way, on {part.route.id}, and is protected by the breaker at the origin only."
        )
    panel = look.trace.panel_fed_by(circuit) if circuit.kind == "feeder" else None
    if panel is not None and isinstance(panel.main, MainBreaker) and panel.main.rating is not None:
        rows.append("feeder-breaker-at-source")
        why = f"The main of {panel.id} does not protect the wire ahead of it."
    marked = isinstance(circuit.terminals, Unstated) and "terminal-temp-60-75" in one.rows
    ways = _ways(circuit, rating, [weak_part for weak_part, _ in weak], lower, look, on_marked=marked)
    if "adjustment-more-than-three" in one.rows:
        ways = (*kept_apart([weak_part.route for weak_part, _ in weak]), *ways)
    at = f"{circuit.breaker.place}/rating"
    return not_met("breaker", rating, needs, why=why, at=at, amend=ways).citing("branch-ocpd-vs-ampacity", *rows)


def _ways(
    circuit: Circuit,
    rating: Current,
    wrong: list[Laid],
    lower: Current | None,
    look: Look,
    *,
    on_marked: bool = False,
) -> tuple[Proposal, ...]:
    """A smaller breaker, `on_marked` terminals if need be, or larger conductors wherever they are too small."""
    ways: list[Proposal] = []
    if lower is not None and not asks_for_more(circuit, lower, look):
        words = f"use a {lower} breaker for {circuit.id}" + (", on terminals marked 75 °C" if on_marked else "")
        terminals = ((circuit, "terminals", "75 °C"),) if on_marked else ()
        ways.append(Proposal.state(words, Effort.PART, (circuit.breaker, "rating", lower.text), *terminals))

    def does(laid: Laid, amps: Current) -> bool:
        return not is_capped(laid, rating, look) and protects(rating, amps, circuit, look)

    sizes = [least_size(part, does, look, larger=True) for part in wrong]
    known = [size for size in sizes if size is not None]
    if len(known) == len(wrong):
        ways.extend(rewired(wrong, known, look))
    return tuple(ways)
