"""Which raceways may lie in the earth."""

from precover.plan import Bend, BuriedLeg, Raceway, RiseLeg, Route
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
from precover_rules.conditions import no_raceway_here
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import METALLIC

TABLE = "burial-methods"


@rule(
    looks_at=BuriedLeg,
    unless=no_raceway_here,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("burial-wiring-method-listed", "emt-burial", "corrosion-soil", "cover-concrete-encased-only-raceways"),
)
def raceway_in_the_earth(leg: BuriedLeg, look: Look) -> Answer:
    """A buried raceway is of a type that may lie in the earth."""
    return _raceway(leg, look.stated(look.trace.raceway_around(leg)), look)


@rule(
    looks_at=RiseLeg,
    unless=no_raceway_here,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("burial-wiring-method-listed", "emt-burial", "corrosion-soil"),
)
def raceway_out_of_the_earth(leg: RiseLeg, look: Look) -> Answer:
    """A raceway that rises out of the earth is of a type that may stand in it."""
    raceway = look.stated(look.trace.raceway_around(leg))
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
        f"In the earth, {raceway}: its coating suits this soil (ask whether galvanizing alone is accepted here; aluminum "
        "needs more), cut threads and scratches are touched up, and the fittings are protected as the raceway is."
    )


@inspection(looks_at=Route, stage=Stage.TRENCH, rows=("metal-raceway-continuous",))
def bonding_of_metal_raceway(route: Route, look: Look) -> str | None:
    """No piece of metal raceway is left without a way back for a fault."""
    if not any(isinstance(leg, BuriedLeg) for leg in route.legs):
        return None
    legs = [leg for leg in route.legs if not isinstance(leg, Bend)]
    around = dict.fromkeys(look.trace.raceway_around(leg) for leg in legs)
    metal = [raceway for raceway in around if isinstance(raceway, Raceway) and raceway.type in METALLIC]
    if not metal:
        return None
    named = " and ".join(raceway.text for raceway in metal)
    if len(around) == 1:
        return (
            f"The {named} is joined tight from end to end, and bonded to the box or panel at either end and to the "
            "equipment grounding conductor."
        )
    return (
        f"Each part of {named} is bonded to the equipment grounding conductor, by a bonding bushing or clamp and a jumper "
        "where plastic or cable goes on from it: a piece of metal between other wiring that nothing bonds stays live "
        "after a fault."
    )


def _rows(raceway: Raceway) -> tuple[str, ...]:
    """The requirement rows that say what becomes of a type."""
    if raceway.type == "EMT":
        return ("burial-wiring-method-listed", "emt-burial", "corrosion-soil")
    return ("burial-wiring-method-listed",)


def _raceway(leg: BuriedLeg | RiseLeg, raceway: Raceway, look: Look) -> Answer:
    answer = _in_the_earth(leg, raceway, look)
    return answer if answer.rows else answer.citing(*_rows(raceway))


def _in_the_earth(leg: BuriedLeg | RiseLeg, raceway: Raceway, look: Look) -> Answer:
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
        ways = (*_in_plastic(leg, raceway, look), encase)
        envelope = at_least("concrete around the raceway", around, enough, amend=ways)
        return envelope.citing("cover-concrete-encased-only-raceways")
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
    route = look.trace.route_of(leg)
    text = fitting("PVC-80", route, look, raceway.size)
    if text is None:
        return ()
    own = isinstance(leg.raceway, Raceway)
    change = (leg, "raceway", text) if own else (route, "raceway", text)
    return (Proposal.state(f"use {text} here instead", Effort.WIRE, change),)
