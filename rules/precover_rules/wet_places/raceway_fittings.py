"""Fittings of metal raceways in wet places."""

from precover.plan import Raceway, RiseLeg, SurfaceLeg
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, met, not_met, rule
from precover_rules.location import location_of_leg

WITH_FITTINGS = ("EMT", "RMC", "IMC")


def _not_in_a_wet_place(leg: SurfaceLeg, look: Look) -> str:
    return "" if location_of_leg(leg, look) == "wet" else "not a wet place"


def _without_fittings(leg: RiseLeg | SurfaceLeg, look: Look) -> str:
    return "" if _raceway(leg, look).type in WITH_FITTINGS else "no EMT, RMC or IMC"


def _raceway(leg: RiseLeg | SurfaceLeg, look: Look) -> Raceway:
    return look.stated(look.trace.raceway_around(leg))


@rule(
    looks_at=SurfaceLeg,
    unless=(_not_in_a_wet_place, _without_fittings),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("wet-fittings-raintight",),
)
def fittings_for_wet_places(leg: SurfaceLeg, look: Look) -> Answer:
    """Metal raceway in a wet place is put together with fittings listed for wet places."""
    return _fittings(leg, look)


@rule(
    looks_at=RiseLeg,
    unless=_without_fittings,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("wet-fittings-raintight",),
)
def fittings_of_a_rising_raceway(leg: RiseLeg, look: Look) -> Answer:
    """Metal raceway that rises out of the ground is put together with fittings listed for wet places."""
    return _fittings(leg, look)


def _fittings(leg: RiseLeg | SurfaceLeg, look: Look) -> Answer:
    at = f"{leg.place}/wet-fittings"
    look.because(f"in a wet place: {_raceway(leg, look)}", leg.place)
    if look.stated(leg.wet_fittings):
        return met("fittings", "for wet places", "listed for wet places", at=at)
    other = Proposal.state("use fittings listed for wet places (raintight)", Effort.PART, (leg, "wet-fittings", True))
    return not_met("fittings", "not for wet places", "listed for wet places", at=at, amend=(other,))
