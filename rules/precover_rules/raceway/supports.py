"""Supports of raceways."""

from __future__ import annotations

from precover.plan import FramingLeg, Raceway, Route, SurfaceLeg
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_most,
    does_not_apply,
    inspection,
    rule,
)
from precover_rules.raceways import FLEXIBLE, holds_nothing, naming_a_raceway, trade_size

TABLE, GENERAL = "support-spacing", "general"
BETWEEN, FROM_A_BOX = "between supports", "from a box"


@rule(looks_at=SurfaceLeg, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("raceway-support",))
def spacing_of_supports(leg: SurfaceLeg, look: Look) -> Answer:
    """Supports of a raceway are no farther apart than its type and size allow."""
    spacing = leg.support_spacing
    if spacing is None:
        return does_not_apply("no spacing stated: it is on the inspection list")
    raceway = look.stated(look.trace.raceway_around(leg))
    most = _spacing(raceway, BETWEEN, look)
    if most is None:
        return does_not_apply("no raceway with a spacing of its own")
    look.because(f"{raceway}", leg.place)
    return at_most("support spacing", spacing, most, at=f"{leg.place}/support-spacing",
                   amend=(_closer(leg, "support-spacing", most),))  # fmt: skip


@rule(
    looks_at=SurfaceLeg,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("raceway-support", "liquidtight-flex-length"),
)
def support_near_the_end(leg: SurfaceLeg, look: Look) -> Answer:
    """A raceway is fastened near every box, panel and fitting."""
    distance = leg.support_from_end
    if distance is None:
        return does_not_apply("no distance stated: it is on the inspection list")
    raceway = look.stated(look.trace.raceway_around(leg))
    most = _spacing(raceway, FROM_A_BOX, look)
    if most is None:
        return does_not_apply("no raceway with a distance of its own")
    look.because(f"{raceway}", leg.place)
    row = "liquidtight-flex-length" if raceway.type in FLEXIBLE else "raceway-support"
    way = _closer(leg, "support-from-end", most)
    return at_most("support from the end", distance, most, at=f"{leg.place}/support-from-end", amend=(way,)).citing(row)


@inspection(looks_at=Route, stage=Stage.ROUGH, rows=("raceway-support",))
def supports_as_built(route: Route, look: Look) -> str | None:
    """How often a raceway above ground is fastened."""
    held: dict[Raceway, None] = {}
    for leg in _above_ground(route):
        raceway = look.trace.raceway_around(leg)
        stated = isinstance(leg, SurfaceLeg) and leg.support_spacing is not None and leg.support_from_end is not None
        if isinstance(raceway, Raceway) and not stated:
            held[raceway] = None
    said = []
    for raceway in held:
        between, end = _spacing(raceway, BETWEEN, look), _spacing(raceway, FROM_A_BOX, look)
        if between is not None and end is not None:
            said.append(f"{raceway} is fastened within {end.text} of each box or panel and every {between.text}")
    return f"{'; '.join(said)}." if said else None


@inspection(looks_at=Route, stage=Stage.ROUGH, rows=("liquidtight-flex-length",))
def flexible_ends(route: Route, look: Look) -> str | None:
    """Flexible raceway may hang free only where it has to."""
    free = look.limit("free flexible raceway at equipment").text
    kinds = {thing.raceway for thing in naming_a_raceway(route) if isinstance(thing.raceway, Raceway)}
    flexible = sorted(kind.text for kind in kinds if kind.type in FLEXIBLE)
    if not flexible:
        return None
    return f"{', '.join(flexible)}: loose over no more than {free}, and only where equipment moves or is adjusted."


def _above_ground(route: Route) -> list[SurfaceLeg | FramingLeg]:
    return [] if holds_nothing(route) else [leg for leg in route.legs if isinstance(leg, SurfaceLeg | FramingLeg)]


def _spacing(raceway: Raceway, distance: str, look: Look) -> Cell | None:
    by_size = look.find(TABLE, raceway.type, trade_size(raceway), GENERAL, distance)
    return by_size or look.find(TABLE, raceway.type, "any", GENERAL, distance)


def _closer(leg: SurfaceLeg, key: str, most: Cell) -> Proposal:
    words = {
        "support-spacing": f"fasten it every {most.text}",
        "support-from-end": f"fasten it within {most.text} of each end",
    }
    return Proposal.state(words[key], Effort.PART, (leg, key, most.text))
