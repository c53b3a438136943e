"""Voltage drop at the outlets."""

from precover.plan import Circuit
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover_rules.circuits import panel_behind
from precover_rules.conditions import low_voltage, no_feeder_to_a_panel
from precover_rules.voltage_drop.branch import Drop, drop_of_branch, drop_of_feeder
from precover_rules.voltage_drop.larger import larger_wire

ALONE = "voltage drop advised for one circuit"
METRES_IN_A_FOOT = 0.3048
TOGETHER = "voltage drop advised for feeder and branch circuit"


def _in_place_already(circuit: Circuit, _look: Look) -> str:
    return "no new branch circuit or feeder" if circuit.existing is True else ""


@rule(
    looks_at=Circuit,
    unless=(low_voltage, _in_place_already),
    severity=Severity.ADVICE,
    stage=Stage.PLAN,
    rows=("voltage-drop-advice",),
)
def drop_of_one_circuit(circuit: Circuit, look: Look) -> Answer:
    """A branch circuit or feeder loses no more than is advised for it alone."""
    drop = drop_of_feeder(circuit, look) if circuit.kind == "feeder" else drop_of_branch(circuit, look)
    if isinstance(drop, str):
        return does_not_apply(drop)
    limit = look.limit(ALONE)
    look.because(drop.how, circuit.place)
    of, needs = f"voltage drop of {circuit.id}", f"no more than {limit.text}, as advised"
    if not _within(drop.lost.share, limit):
        drop = drop.exactly(look)
    if _within(drop.lost.share, limit):
        return met(of, f"up to {_percent(drop.lost.share)} at {drop.lost.at}", needs)
    ways = (
        *_planned_lower(circuit, drop, limit),
        *larger_wire(circuit, drop.pieces, drop.with_pieces, limit.value, look),
    )
    return not_met(of, f"{_percent(drop.lost.share)} at {drop.lost.at}", needs, why=_why(drop, limit), amend=ways)


@rule(
    looks_at=Circuit,
    unless=no_feeder_to_a_panel,
    severity=Severity.ADVICE,
    stage=Stage.PLAN,
    rows=("voltage-drop-advice",),
)
def drop_of_feeder_and_branch(feeder: Circuit, look: Look) -> Answer:
    """A feeder and the branch circuits behind it together lose no more than is advised."""
    panel = panel_behind(feeder, look)
    ahead = _of_feeders(feeder, look)
    if isinstance(ahead, str):
        return does_not_apply(ahead)
    alone, together = look.limit(ALONE), look.limit(TOGETHER)
    worst: tuple[float, Circuit, Drop] | None = None
    for circuit in look.trace.circuits_from(panel):
        drop = drop_of_branch(circuit, look) if circuit.kind == "branch circuit" else "no branch circuit"
        if isinstance(drop, str):
            continue
        total = ahead + drop.lost.share
        if _within(drop.lost.share, alone) and (worst is None or total > worst[0]):
            worst = total, circuit, drop
    if not _within(ahead, alone) or worst is None:
        return does_not_apply("the drop of one circuit alone is too large already, or there is none to add")
    total, circuit, drop = worst
    if not _within(total, together):
        drop = drop.exactly(look)
        ahead = _of_feeders(feeder, look, exactly=True)
        assert isinstance(ahead, float)  # noqa: S101 - it was one before
        total = ahead + drop.lost.share
    look.because(f"{feeder.id}: up to {_percent(ahead)}", feeder.place)
    look.because(f"{circuit.id}: up to {_percent(drop.lost.share)}, {drop.how}", circuit.place)
    of, needs = (
        f"voltage drop at {drop.lost.at}",
        f"no more than {together.text} over feeder and branch circuit, as advised",
    )
    if _within(total, together):
        return met(of, f"up to {_percent(total)}", needs)
    left = float(together.value) - ahead
    ways = larger_wire(circuit, drop.pieces, drop.with_pieces, left, look)
    return not_met(
        of,
        _percent(total),
        needs,
        why=f"{_percent(ahead)} on {feeder.id}, and {drop.how}",
        at=circuit.place,
        amend=ways,
    )


def _of_feeders(feeder: Circuit, look: Look, *, exactly: bool = False) -> float | str:
    """What is lost over a feeder and those ahead of it: an upper bound, or `exactly`."""
    total = 0.0
    at: Circuit | None = feeder
    while at is not None:
        drop = drop_of_feeder(at, look)
        if isinstance(drop, str):
            return drop
        total += (drop.exactly(look) if exactly else drop).lost.share
        at = look.trace.tree.fed_by.get(at.from_)
    return total


def _planned_lower(circuit: Circuit, drop: Drop, limit: Cell) -> tuple[Proposal, ...]:
    """With no load planned: the load up to which the drop is within the limit."""
    amps = 0 if drop.assumed is None else int(drop.assumed * float(limit.value) / drop.lost.share)
    if amps < 1:
        return ()
    return (
        Proposal.state(f"plan {circuit.id} for no more than {amps} A", Effort.PAPER, (circuit, "load", f"{amps} A")),
    )


def _why(drop: Drop, limit: Cell) -> str:
    """The load, and how far the same wire would reach with it."""
    feet = sum(piece.metres for piece in drop.pieces) / METRES_IN_A_FOOT
    return f"{drop.how}; of {feet:.0f} ft the same wire reaches about {feet * float(limit.value) / drop.lost.share:.0f} ft with it"


def _within(share: float, limit: Cell) -> bool:
    """No more than the limit, to a hundredth of a percent: the resistances are not better known than that."""
    return round(share, 4) <= float(limit.value)


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"
