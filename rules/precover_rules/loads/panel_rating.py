"""What a panel may carry, and what protects it."""

from precover.electrical.overcurrent import next_rating
from precover.plan import Circuit, Panel, Unstated
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
from precover_rules.loads.calculated import calculated_load
from precover_rules.loads.drawn import amperes
from precover_rules.loads.known import known
from precover_rules.sizing.standard import ratings


def _no_new_panel(panel: Panel, look: Look) -> str:
    new = panel.id in look.trace.tree.fed_by and panel.existing is not True
    return "" if new else "no new panel on a feeder"


@rule(
    looks_at=Panel,
    unless=_no_new_panel,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("panel-main-needed", "main-may-exceed-feeder"),
)
def bus_is_protected(panel: Panel, look: Look) -> Answer:
    """The breaker ahead of a panel, or its main, is not larger than the rating of its bus."""
    feeder = look.trace.tree.fed_by[panel.id]
    ahead, bus = look.stated(feeder.breaker.rating), look.stated(panel.bus)
    of, at = "bus rating", f"{panel.place}/bus"
    if ahead <= bus:
        look.because(
            f"the feeder's {ahead} breaker protects the bus, whatever the main is", f"{feeder.breaker.place}/rating"
        )
        return met(of, bus, f"at least {ahead}, the breaker of the feeder", at=at)
    main = look.stated(panel.main).rating
    if main is not None and main <= bus:
        return met(of, bus, f"at least {main}, its main breaker", at=at)
    needs = f"at least {ahead}, or a main breaker of no more than the bus rating"
    ways = (
        Proposal.state(f"give {panel.id} a main breaker of {bus}", Effort.PART, (panel, "main", bus.text)),
        Proposal.state(f"use a panel with a bus of {ahead} for {panel.id}", Effort.PART, (panel, "bus", ahead.text)),
    )
    return not_met(of, bus, needs, at=at, amend=ways)


@rule(
    looks_at=Panel,
    severity=Severity.CORRECTION,
    stage=Stage.PLAN,
    rows=("feeder-min-for-panel", "load-not-over-supply"),
)
def panel_carries_the_load(panel: Panel, look: Look) -> Answer:
    """Neither the bus nor the main of a panel is rated below the calculated load of the circuits in it."""
    feeder = look.trace.tree.fed_by.get(panel.id)
    if feeder is None and not _feeds_a_panel(panel, look):
        return does_not_apply("no feeder begins or ends here")
    part = _weakest(panel, feeder, look)
    if part is None:
        return does_not_apply("the feeder's breaker alone decides")
    key, has = part
    load = calculated_load(panel, look, has)
    if load is None:
        return does_not_apply("nothing begins in it")
    if feeder is not None and load > look.stated(feeder.breaker.rating):
        return does_not_apply("the breaker of its feeder is too small already")
    of = "bus rating" if key == "bus" else "main breaker"
    needs, at = f"at least {amperes(load.amount)}, the load of what is planned", f"{panel.place}/{key}"
    if load <= has:
        return met(of, has, needs, at=at)
    larger = next_rating(load, ratings(look))
    words = f"give {panel.id} a {of} of {larger}"
    amend = () if larger is None else (Proposal.state(words, Effort.PART, (panel, key, larger.text)),)
    return not_met(of, has, needs, at=at, amend=amend)


@inspection(looks_at=Panel, stage=Stage.PLAN, rows=("load-not-over-supply",))
def service_has_room(panel: Panel, look: Look) -> str | None:
    """What else the service supplies is no part of a small plan."""
    if panel.duty != "service equipment" or not _feeds_a_panel(panel, look):
        return None
    added = [c for c in look.trace.circuits_from(panel) if c.kind == "feeder" and not c.existing]
    named = ", ".join(
        f"{circuit.id} ({circuit.breaker.rating})"
        for circuit in added
        if not isinstance(circuit.breaker.rating, Unstated)
    )
    return (
        f"Show that the service at {panel.id} carries {named or 'the new feeder'} on top of what it supplies already: a load "
        "calculation, or its highest demand of the last year."
    )


def _weakest(panel: Panel, feeder: Circuit | None, look: Look) -> tuple[str, Current] | None:
    """The key and the rating of what in a panel carries least, of what is known; asked for only at the service."""
    main = known(panel.main, look) if feeder is not None else look.stated(panel.main)
    bus = known(panel.bus, look)
    ratings = {"bus": bus, "main": None if main is None else main.rating}
    if feeder is not None and bus is not None and bus < look.stated(feeder.breaker.rating):
        ratings.pop("bus")  # then the main protects it, or its protection is a finding of its own
    stated = [(key, rating) for key, rating in ratings.items() if rating is not None]
    return min(stated, key=lambda part: part[1].amount, default=None)


def _feeds_a_panel(panel: Panel, look: Look) -> bool:
    return any(circuit.kind == "feeder" for circuit in look.trace.circuits_from(panel))
