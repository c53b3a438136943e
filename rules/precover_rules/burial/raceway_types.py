"""Which raceways may lie in the earth."""

from precover.plan import BuriedLeg, Raceway, RiseLeg
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    authority_decides,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.burial.way import buried_part
from precover_rules.raceways import METALLIC

TABLE = "burial-methods"


@rule(
    looks_at=BuriedLeg,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("burial-wiring-method-listed", "emt-burial", "corrosion-soil", "cover-concrete-encased-only-raceways"),
)
def raceway_in_the_earth(leg: BuriedLeg, look: Look) -> Answer:
    """A buried raceway is of a type that may lie in the earth."""
    raceway = look.stated(look.trace.raceway_around(leg))
    return does_not_apply("no raceway") if raceway.absent else _raceway(leg, raceway, look)


@rule(
    looks_at=RiseLeg,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("burial-wiring-method-listed", "emt-burial", "corrosion-soil"),
)
def raceway_out_of_the_earth(leg: RiseLeg, look: Look) -> Answer:
    """A raceway that rises out of the earth is of a type that may stand in it."""
    raceway = look.stated(look.trace.raceway_around(leg))
    if raceway.absent:
        return does_not_apply("no raceway")
    ground = buried_part(leg, look.trace.route_of(leg))
    if ground is not None and look.stated(look.trace.raceway_around(ground)).type == raceway.type:
        return does_not_apply("the raceway of the buried part, looked at there")
    return _raceway(leg, raceway, look)


@inspection(looks_at=BuriedLeg, stage=Stage.TRENCH, rows=("corrosion-soil",))
def coating_of_metal_raceway(leg: BuriedLeg, look: Look) -> str | None:
    """The coating of metal raceway against the soil."""
    raceway = look.trace.raceway_around(leg)
    if not isinstance(raceway, Raceway) or raceway.type not in METALLIC:
        return None
    return (
        f"{raceway} in the earth: its coating suits this soil (ask whether galvanizing alone is accepted here; aluminum "
        "needs more), cut threads and scratches are touched up, and the fittings are protected as the raceway is."
    )


def _raceway(leg: BuriedLeg | RiseLeg, raceway: Raceway, look: Look) -> Answer:
    may = look.cell(TABLE, "raceway", raceway.type)
    needs = "a raceway made to lie in the earth"
    if may.value == "yes":
        return met("raceway", raceway.text, needs)
    if may.value == "if marked for burial":
        if look.stated(leg.marked_for_burial):
            return met("raceway", f"{raceway}, marked for burial", needs)
        marked = Proposal.state("use a raceway marked for burial", Effort.WIRE, (leg, "marked-for-burial", True))
        return not_met(
            "raceway", f"{raceway}, not marked for burial", needs, amend=(marked, *_in_plastic(leg, raceway, look))
        )
    if may.value == "encased in concrete" and isinstance(leg, BuriedLeg) and leg.concrete_envelope is not None:
        enough = look.limit("concrete around a raceway that must be encased")
        words = f"encase it in {enough.text} of concrete"
        encase = Proposal.state(words, Effort.DIGGING, (leg, "concrete-envelope", enough.text))
        around = leg.concrete_envelope
        return at_least("concrete around the raceway", around, enough, amend=(*_in_plastic(leg, raceway, look), encase))
    if may.value == "where accepted" and look.stated(leg.corrosion_protection):
        return authority_decides(
            "raceway",
            f"{raceway}, protected against corrosion",
            needs,
            why=f"ask whether {raceway.type} in the earth is accepted here: some offices refuse it",
            amend=_in_plastic(leg, raceway, look),
        )
    return not_met("raceway", raceway.text, needs, amend=_in_plastic(leg, raceway, look))


def _in_plastic(leg: BuriedLeg | RiseLeg, raceway: Raceway, look: Look) -> tuple[Proposal, ...]:
    """Plastic conduit: of this leg if it has a raceway of its own, else of the whole route, whose raceway it is."""
    text = f"PVC-80 {raceway.size}"
    own = isinstance(leg.raceway, Raceway)
    change = (leg, "raceway", text) if own else (look.trace.route_of(leg), "raceway", text)
    return (Proposal.state(f"use {text} here instead", Effort.WIRE, change),)
