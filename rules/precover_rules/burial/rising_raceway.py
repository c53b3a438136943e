"""The raceway where wiring comes out of the ground: strong enough, with a smooth end, and free to move."""

from precover.plan import BuriedLeg, Leg, Raceway, RiseLeg, SurfaceLeg
from precover.plan.thing import Thing
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.burial.way import beside, buried_part
from precover_rules.conditions import no_raceway_here
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import METALLIC

TABLE = "raceways-against-damage"
STRONG = "a raceway for places where it can be hit"


def _out_of_harm(leg: RiseLeg | SurfaceLeg, look: Look) -> str:
    return "" if look.stated(leg.physical_damage) else "it cannot be hit here"


def _no_raceway_below(leg: RiseLeg, look: Look) -> str:
    ground = buried_part(leg, look.trace.route_of(leg))
    ends = ground is not None and look.stated(look.trace.raceway_around(ground)).absent
    return "" if ends else "no raceway ends in the ground here"


@rule(
    looks_at=RiseLeg,
    unless=(no_raceway_here, _out_of_harm),
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("emerge-raceway-damage-type", "pvc-above-grade-damage"),
)
def raceway_where_it_can_be_hit(leg: RiseLeg, look: Look) -> Answer:
    """Where it can be hit, a raceway that rises out of the ground is of a type that stands it."""
    raceway = look.stated(look.trace.raceway_around(leg))
    answer = _where_it_can_be_hit(leg, raceway, look)
    if raceway.type.startswith("PVC"):
        return answer
    return answer.citing("emerge-raceway-damage-type")


@rule(
    looks_at=SurfaceLeg,
    unless=(no_raceway_here, _out_of_harm),
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("pvc-above-grade-damage", "raceway-above-grade-damage"),
)
def exposed_raceway_where_it_can_be_hit(leg: SurfaceLeg, look: Look) -> Answer:
    """Where it can be hit, exposed raceway is of a type that stands it."""
    raceway = look.stated(look.trace.raceway_around(leg))
    row = "pvc-above-grade-damage" if raceway.type.startswith("PVC") else "raceway-above-grade-damage"
    return _where_it_can_be_hit(leg, raceway, look).citing(row)


@rule(
    looks_at=RiseLeg,
    unless=(_no_raceway_below, no_raceway_here),
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("bushing-burial-end",),
)
def bushing_at_the_buried_end(leg: RiseLeg, look: Look) -> Answer:
    """Where cable laid without raceway enters one in the ground, its end has a bushing or a fitting that guards it."""
    if look.stated(leg.bushing):
        return met("end of the raceway", "bushing")
    amend = Proposal.state("fit a bushing on the buried end", Effort.PART, (leg, "bushing", True))
    return not_met("end of the raceway", "bare", "a bushing or fitting that guards the cable", amend=(amend,))


@rule(looks_at=RiseLeg, severity=Severity.CORRECTION, stage=Stage.TRENCH, rows=("movement-frost-settlement",))
def room_for_movement(leg: RiseLeg, look: Look) -> Answer:
    """Where frost or settling moves the ground, what rises out of it can give way."""
    if not look.stated(look.plan.site.frost):
        return does_not_apply("the ground does not move")
    if look.stated(leg.slip_fitting):
        return met("room for movement", "slip or expansion fitting, loop or flexible end")
    amend = Proposal.state("let it move: a slip fitting, or a loop of slack", Effort.PART, (leg, "slip-fitting", True))
    return not_met("room for movement", "none", "slip or expansion fitting, loop or flexible end", amend=(amend,))


@inspection(looks_at=BuriedLeg, stage=Stage.TRENCH, rows=("bushing-burial-end",))
def ends_of_a_sleeve_in_the_ground(leg: BuriedLeg, look: Look) -> str | None:
    """Bushings on a sleeve that begins or ends within the trench."""
    raceway = look.trace.raceway_around(leg)
    if not isinstance(raceway, Raceway) or raceway.absent:
        return None
    sides = beside(leg, look.trace.route_of(leg))
    open_ends = sum(_lies_open(other, look) for other in sides)
    if open_ends == 0:
        return None
    ends = "both ends" if open_ends == 2 else "the end"
    return f"A bushing or smooth fitting on {ends} of the {raceway} where the cable leaves it in the ground."


def _lies_open(other: Leg | None, look: Look) -> bool:
    if not isinstance(other, BuriedLeg):
        return False
    raceway = look.trace.raceway_around(other)
    return isinstance(raceway, Raceway) and raceway.absent


def _where_it_can_be_hit(leg: RiseLeg | SurfaceLeg, raceway: Raceway, look: Look) -> Answer:
    if look.cell(TABLE, raceway.type).value:
        if raceway.type == "EMT" and isinstance(leg, SurfaceLeg):
            why = "thin-walled tubing stands knocks, not severe ones such as a vehicle's: ask which these are"
            amend = _stronger(leg, raceway, look)
            return authority_decides("raceway", raceway.text, STRONG, why=why, amend=amend)
        return met("raceway", raceway.text, STRONG)
    return not_met("raceway", raceway.text, STRONG, amend=_stronger(leg, raceway, look))


def _stronger(leg: RiseLeg | SurfaceLeg, raceway: Raceway, look: Look) -> tuple[Proposal, ...]:
    """Thick-walled plastic; rigid metal only in place of metal, which is bonded already."""
    kinds = ("RMC", "PVC-80") if raceway.type in METALLIC else ("PVC-80",)
    texts = [fitting(kind, look.trace.route_of(leg), look, raceway.size) for kind in kinds]
    return tuple(
        Proposal.state(f"use {text} here", Effort.WIRE, (leg, "raceway", text), *_with_fittings(leg, text))
        for text in texts
        if text is not None
    )


def _with_fittings(leg: RiseLeg | SurfaceLeg, text: str) -> list[tuple[Thing, str, object]]:
    return [(leg, "wet-fittings", True)] if text.startswith(METALLIC) else []
