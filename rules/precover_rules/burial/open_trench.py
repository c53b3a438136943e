"""What a person at the open trench sees better than any plan can say."""

from precover.plan import BuriedLeg, Plan, Raceway, Route, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import Length


def _no_raceway_in_the_ground(route: Route, look: Look) -> str:
    if not _is_buried(route) or not route.carries or look.stated(route.raceway).absent:
        return "no raceway in the ground along the route"
    return "not stated: it is on the inspection list" if isinstance(route.complete_before_pull, Unstated) else ""


@inspection(looks_at=Plan, stage=Stage.PLAN, rows=("call-before-dig",))
def utilities_located(plan: Plan, look: Look) -> str | None:
    """Buried utilities are located before anyone digs."""
    trenches = [trench for route in plan.routes.values() if (trench := _trench(route))]
    if not trenches:
        return None
    near = look.limit("hand digging beside a marked line").text
    return (
        f"Before digging {' and '.join(trenches)}: notify the one-call center (811 in the United States) a few days "
        f"ahead, wait for the marks, and dig by hand within {near} of a mark. Lines that belong to the owner (a gas line "
        "to a grill, sprinklers, another outbuilding's supply) are not marked by it."
    )


@inspection(looks_at=BuriedLeg, stage=Stage.TRENCH, rows=("inspect-before-backfill", "cover-measured-to-top"))
def trench_left_open(leg: BuriedLeg, _look: Look) -> str | None:
    """The trench stays open until it has been seen, with the wiring in it."""
    cover = f"{leg.cover} from the top of the wiring to finished grade" if isinstance(leg.cover, Length) else ""
    planned = f": planned cover {cover}" if cover else ""
    return (
        f"Open over its whole length{_length(leg)} with the wiring in place, until it has been inspected{planned}. The "
        "trench is deeper than the cover by the thickness of the wiring and its bedding; look where it is shallowest, at "
        "the ends and over roots and pipes."
    )


@inspection(looks_at=BuriedLeg, stage=Stage.TRENCH, rows=("backfill-no-rocks",))
def backfill(leg: BuriedLeg, _look: Look) -> str | None:
    """What goes back over the wiring does not harm it."""
    return (
        f"Backfill{_length(leg)}: no large or sharp rock, paving, cinders or corrosive fill against the wiring; sand or "
        "sifted earth first, or boards or a sleeve where the fill is stony."
    )


@inspection(looks_at=BuriedLeg, stage=Stage.TRENCH, rows=("burial-splice-listed",))
def splices_in_the_ground(leg: BuriedLeg, look: Look) -> str | None:
    """Splices of cable that lies in the earth."""
    if not look.trace.route_of(leg).carries or not look.stated(look.trace.raceway_around(leg)).absent:
        return None
    return (
        f"No splice in the earth{_length(leg)}, or only one made with a kit listed for direct burial, and shown before "
        "it is covered."
    )


@inspection(looks_at=Route, stage=Stage.TRENCH, rows=("circuit-conductors-together-underground",))
def conductors_together(route: Route, _look: Look) -> str | None:
    """All conductors of a circuit lie together in the ground."""
    apart = [name for name, carried in route.carries.items() if carried.wires is not None]
    if not _is_buried(route) or not apart:
        return None
    return (
        f"All conductors of circuit {' and of '.join(apart)}, with the equipment grounding conductor, lie in one raceway "
        "or close together in one trench."
    )


@rule(
    looks_at=Route,
    unless=_no_raceway_in_the_ground,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("raceway-complete-before-pull",),
)
def raceway_complete_before_the_pull(route: Route, look: Look) -> Answer:
    """A raceway in the ground is put together from end to end before anything is pulled into it."""
    if look.stated(route.complete_before_pull):
        return met("raceway", "complete before the pull")
    amend = Proposal.state("complete the raceway before the pull", Effort.PAPER, (route, "complete-before-pull", True))
    return not_met("raceway", "not complete before the pull", "complete from end to end", amend=(amend,))


@inspection(looks_at=Route, stage=Stage.TRENCH, rows=("raceway-complete-before-pull",))
def raceway_complete(route: Route, _look: Look) -> str | None:
    """The raceway is whole before wire is pulled."""
    if not _is_buried(route) or not route.carries or (isinstance(route.raceway, Raceway) and route.raceway.absent):
        return None
    raceway = route.raceway.text if isinstance(route.raceway, Raceway) else "raceway"
    return (
        f"The {raceway} is put together from end to end, with every joint made up, before anything is pulled into it."
    )


@inspection(looks_at=Route, stage=Stage.TRENCH, rows=("directional-bore-raceway",))
def raceway_put_in_by_boring(route: Route, _look: Look) -> str | None:
    """Raceway that is put in by boring."""
    if not any(isinstance(leg, BuriedLeg) and leg.buried in _OFTEN_BORED for leg in route.legs):
        return None
    return "If any of it is put in by boring rather than in an open trench: the raceway is of a kind approved for that."


@inspection(looks_at=Route, stage=Stage.TRENCH, rows=("service-lateral-warning-ribbon", "utility-separation"))
def ribbon_and_other_lines(route: Route, look: Look) -> str | None:
    """Warning ribbon, and other lines in the same trench: local questions."""
    if not _is_buried(route):
        return None
    ribbon = look.limit("warning ribbon above the wiring").text
    depth = look.limit("cover at which service conductors get a warning ribbon").text
    apart = look.limit("distance to other buried lines").text
    return (
        f"Ask the office whether it wants a warning ribbon {ribbon} above the wiring: the model code asks for it over "
        f"service conductors buried {depth} or deeper, not over these circuits. {apart} from gas, water and other lines "
        "is good practice; the serving utilities may want more."
    )


_OFTEN_BORED = ("driveway", "parking", "street", "alley", "walk", "slab", "building")


def _is_buried(route: Route) -> bool:
    return any(isinstance(leg, BuriedLeg) for leg in route.legs)


def _trench(route: Route) -> str:
    """The buried part of a route in words, with its length where every leg states one; empty where nothing is buried."""
    legs = [leg for leg in route.legs if isinstance(leg, BuriedLeg)]
    lengths = [leg.length for leg in legs if isinstance(leg.length, Length)]
    if not legs:
        return ""
    stated = " + ".join(length.text for length in lengths) if len(lengths) == len(legs) else ""
    return f"{stated} of trench of route {route.id}" if stated else f"the trench of route {route.id}"


def _length(leg: BuriedLeg) -> str:
    return f" ({leg.length} under {leg.buried})" if isinstance(leg.length, Length) else f" (under {leg.buried})"
