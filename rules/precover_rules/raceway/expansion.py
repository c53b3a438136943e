"""PVC grows and shrinks with the heat."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TypeGuard

from precover.electrical.raceway_run import length_change, swing
from precover.plan import Leg, RiseLeg, Route, SurfaceLeg
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Outcome,
    Proposal,
    Severity,
    Stage,
    met,
    not_met,
    rule,
)
from precover.units import Length, TemperatureDifference
from precover_rules.location import OUTDOOR_SURFACES
from precover_rules.raceways import no_raceway_along
from precover_rules.worst import worst

PVC = ("PVC-40", "PVC-80")
OUTDOORS = (*OUTDOOR_SURFACES, "post")
Straight = SurfaceLeg | RiseLeg


def _no_straight_run(route: Route, look: Look) -> str:
    fastened = any(_is_fastened(leg) for leg in route.legs)
    return "" if fastened and any(_runs(route, look)) else "no straight run of PVC fastened outdoors"


@rule(
    looks_at=Route,
    unless=(no_raceway_along, _no_straight_run),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("raceway-expansion",),
)
def expansion_of_a_straight_run(route: Route, look: Look) -> Answer:
    """A straight run of PVC outdoors that heat moves by 1/4 in or more has an expansion fitting."""
    runs = sorted(_runs(route, look), key=_length, reverse=True)
    answers = [_of_a_run(run, look) for run in runs]
    moving = [answer for answer in answers if answer.outcome is Outcome.NOT_MET]
    if len(moving) < 2:
        return worst(answers)
    patch = tuple(edit for answer in moving for edit in answer.proposals[0].patch)
    fit = Proposal(f"put an expansion fitting in each of these {len(moving)} runs", Effort.PART, patch)
    others = "as does another run" if len(moving) == 2 else f"as do {len(moving) - 1} more runs"
    return moving[0]._replace(why=f"{others} of this route", proposals=(fit,))


def _of_a_run(run: list[Straight], look: Look) -> Answer:
    surface = next(leg for leg in run if isinstance(leg, SurfaceLeg))
    at = f"{surface.place}/expansion-fitting"
    limit = look.limit("length change that needs an expansion fitting")
    needs = f"under {limit.text}, or an expansion fitting"
    if any(_gives_way(leg) for leg in run):
        return met("straight run of PVC", "with an expansion fitting", needs, at=at)
    whole = Length(sum((_measured(leg, look).amount for leg in run), Fraction(0)), "the run")
    change = swing(look.stated(look.plan.site.design_low), look.stated(look.plan.site.design_high))
    if any(leg.sunlight is True for leg in run):
        sun = look.limit("heat of sun on a raceway")
        change = TemperatureDifference(change.amount + sun.value.amount, f"{change} and {sun.text} of sun")
    worked = length_change(Length.of(whole.in_unit("ft"), "ft"), change, look.cell("thermal-expansion", "PVC").value)
    for step in worked.steps:
        look.because(step, surface.place)
    moved = worked.value
    if moved < limit.like(_measured(surface, look)):
        return met("straight run of PVC", f"moves {moved}", needs, at=at)
    if look.stated(surface.expansion_fitting):
        return met("straight run of PVC", "with an expansion fitting", needs, at=at)
    fit = Proposal.state("put an expansion fitting in this run", Effort.PART, (surface, "expansion-fitting", True))
    return not_met("straight run of PVC", f"moves {moved}, no fitting", needs, at=at, amend=(fit,))


def _runs(route: Route, look: Look) -> Iterator[list[Straight]]:
    """Straight runs of PVC outdoors: legs on a surface, with a rise that goes on in them, between bends and passages."""
    run: list[Straight] = []
    for leg in (*route.legs, None):
        if _is_straight(leg, look):
            run.append(leg)
            continue
        if any(isinstance(part, SurfaceLeg) for part in run):
            yield run
        run = []


def _is_fastened(leg: Leg | None) -> TypeGuard[SurfaceLeg]:
    return isinstance(leg, SurfaceLeg) and leg.on in OUTDOORS


def _is_straight(leg: Leg | None, look: Look) -> TypeGuard[Straight]:
    if not isinstance(leg, RiseLeg) and not _is_fastened(leg):
        return False
    return look.stated(look.trace.raceway_around(leg)).type in PVC


def _gives_way(leg: Straight) -> bool:
    return (leg.slip_fitting if isinstance(leg, RiseLeg) else leg.expansion_fitting) is True


def _measured(leg: Straight, look: Look) -> Length:
    return leg.rise if isinstance(leg, RiseLeg) else look.stated(leg.length)


def _length(run: list[Straight]) -> Fraction | int:
    """As far as it is stated."""
    lengths = [leg.rise if isinstance(leg, RiseLeg) else leg.length for leg in run]
    return sum(length.amount for length in lengths if isinstance(length, Length))
