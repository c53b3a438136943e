"""Fittings of metal raceways in wet places."""

from precover.plan import Raceway, RiseLeg, SurfaceLeg
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover_rules.location import location_of_leg

WITH_FITTINGS = ("EMT", "RMC", "IMC")


@rule(looks_at=SurfaceLeg, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("wet-fittings-raintight",))
def fittings_for_wet_places(leg: SurfaceLeg, look: Look) -> Answer:
    """Metal raceway in a wet place is put together with fittings listed for wet places."""
    if location_of_leg(leg, look) != "wet":
        return does_not_apply("not a wet place")
    return _fittings(leg, look.stated(look.trace.raceway_around(leg)), look)


@rule(looks_at=RiseLeg, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("wet-fittings-raintight",))
def fittings_of_a_rising_raceway(leg: RiseLeg, look: Look) -> Answer:
    """Metal raceway that rises out of the ground is put together with fittings listed for wet places."""
    return _fittings(leg, look.stated(look.trace.raceway_around(leg)), look)


def _fittings(leg: RiseLeg | SurfaceLeg, raceway: Raceway, look: Look) -> Answer:
    if raceway.type not in WITH_FITTINGS:
        return does_not_apply("no EMT, RMC or IMC")
    at = f"{leg.place}/wet-fittings"
    look.because(f"in a wet place: {raceway}", leg.place)
    if look.stated(leg.wet_fittings):
        return met("fittings", "for wet places", "listed for wet places", at=at)
    other = Proposal.state("use fittings listed for wet places (raintight)", Effort.PART, (leg, "wet-fittings", True))
    return not_met("fittings", "not for wet places", "listed for wet places", at=at, amend=(other,))
