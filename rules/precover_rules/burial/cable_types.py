"""Which cables and wires may lie in the earth."""

from collections.abc import Iterator

from precover.plan import BuriedLeg, Cable, Carried, Conductor, Unstated, Wires
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover.tracing import Lying
from precover.units import ConductorSize
from precover_rules.along import along
from precover_rules.assembly_for_burial import laid_as_assembly
from precover_rules.conditions import individual_wires, no_individual_wires, nowhere_buried
from precover_rules.conductors.wires import in_words, unsuited
from precover_rules.grounding.bringing_a_ground import least_ground
from precover_rules.raceway.fitting import fitting
from precover_rules.raceways import is_raceway

TABLE = "burial-methods"
SERVICE_ENTRANCE = ("SE", "SER", "SEU")
MADE_FOR_UNDER_BUILDINGS = ("MC", "MI")


def _not_below_a_building(lying: Lying, _look: Look) -> str:
    below = isinstance(lying.leg, BuriedLeg) and lying.leg.buried == "building"
    return "" if below else "not below a building"


@rule(
    looks_at=Carried,
    unless=(individual_wires, nowhere_buried),
    severity=Severity.DANGER,
    stage=Stage.TRENCH,
    rows=("burial-wiring-method-listed",),
)
def cable_in_the_earth(carried: Carried, look: Look) -> Answer:
    """Cable laid in the earth without a raceway is made for it."""
    return along(carried, look, _cable_in_the_earth, among=(BuriedLeg,))


def _cable_in_the_earth(lying: Lying, look: Look) -> Answer:
    leg, carried = lying.leg, lying.carried
    if not look.stated(look.trace.raceway_around(leg)).absent:
        return does_not_apply("not laid in the earth itself")
    cable = look.stated(carried.cable)
    if cable.type in SERVICE_ENTRANCE or cable.type == "cord":
        return does_not_apply(f"{cable.type} has rules of its own below ground")
    may = look.cell(TABLE, "cable", cable.type)
    needs = "a cable made for direct burial"
    if may.value == "if marked for burial":
        marked = look.stated(carried.marked_for_burial)
        if marked:
            return met("cable", cable.text, "marked for direct burial")
        amend = Proposal.state(
            "use cable that is marked for direct burial", Effort.WIRE, (carried, "marked-for-burial", True)
        )
        return not_met("cable", f"{cable.text}, not marked for it", "marked for direct burial", amend=(amend,))
    if may.value == "yes":
        return met("cable", cable.text, needs)
    return not_met("cable", cable.text, needs, at=f"{carried.place}/cable", amend=_for_burial(carried, cable, look))


@rule(
    looks_at=Carried,
    unless=(individual_wires, nowhere_buried),
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("se-cable-underground",),
)
def service_entrance_cable_underground(carried: Carried, look: Look) -> Answer:
    """Service-entrance cable is not used below ground, in a raceway or not; the underground type is."""
    return along(carried, look, _service_entrance_cable_underground, among=(BuriedLeg,))


def _service_entrance_cable_underground(lying: Lying, look: Look) -> Answer:
    carried = lying.carried
    cable = look.stated(carried.cable)
    if cable.type in ("USE", "USE-2"):
        return met("cable", cable.text, "a type for use below ground")
    if cable.type not in SERVICE_ENTRANCE:
        return does_not_apply("not a service-entrance cable")
    return not_met(
        "cable",
        cable.text,
        "a type for use below ground",
        at=f"{carried.place}/cable",
        amend=_for_burial(carried, cable, look),
    )


@rule(
    looks_at=Carried,
    unless=(individual_wires, nowhere_buried),
    severity=Severity.DANGER,
    stage=Stage.TRENCH,
    rows=("flexible-cord-not-permanent",),
)
def cord_in_the_ground(carried: Carried, look: Look) -> Answer:
    """Flexible cord is not buried, in a raceway or not: what is in the ground is fixed wiring."""
    return along(carried, look, _cord_in_the_ground, among=(BuriedLeg,))


def _cord_in_the_ground(lying: Lying, look: Look) -> Answer:
    carried = lying.carried
    cable = look.stated(carried.cable)
    if cable.type != "cord":
        return met("cable", cable.text, "fixed wiring")
    return not_met(
        "cable", cable.text, "fixed wiring", at=f"{carried.place}/cable", amend=_for_burial(carried, cable, look)
    )


@rule(
    looks_at=Carried,
    unless=(no_individual_wires, nowhere_buried),
    severity=Severity.DANGER,
    stage=Stage.TRENCH,
    rows=("direct-burial-conductor-type",),
)
def single_conductors_in_the_earth(carried: Carried, look: Look) -> Answer:
    """Single conductors laid in the earth without a raceway are of a type identified for it."""
    return along(carried, look, _single_conductors_in_the_earth, among=(BuriedLeg,))


def _single_conductors_in_the_earth(lying: Lying, look: Look) -> Answer:
    wires = lying.carried.wires
    assert wires is not None  # noqa: S101 - its condition
    if not look.stated(look.trace.raceway_around(lying.leg)).absent:
        return does_not_apply("not laid in the earth itself")
    needs = "wire identified for direct burial"
    wrong = unsuited(lying, wires, "direct burial", look)
    for key, wire in _bare(wires):
        if wire.material == "Al":
            wrong[key] = wire
    if wrong:
        return not_met("wires", in_words(wrong), needs, amend=(_identified(wires, wrong),))
    bare = dict(_bare(wires))
    if bare:
        why = "ask whether a bare copper equipment grounding conductor may lie in this soil"
        return authority_decides("wires", in_words(bare), needs, why=why, amend=(_identified(wires, bare),))
    return met("wires", "all identified for direct burial", needs)


@rule(
    looks_at=Lying,
    unless=_not_below_a_building,
    severity=Severity.CORRECTION,
    stage=Stage.TRENCH,
    rows=("buried-run-under-building-in-raceway",),
)
def wiring_under_a_building(lying: Lying, look: Look) -> Answer:
    """Wiring below a building lies in a raceway, or is cable made for lying there without one."""
    leg, carried = lying.leg, lying.carried
    raceway = look.stated(look.trace.raceway_around(leg))
    needs = "a raceway, or MI or MC cable marked for burial"
    if not raceway.absent:
        return met("raceway", raceway.text, needs) if is_raceway(raceway) else does_not_apply("in plumbing pipe")
    in_raceway = _in_raceway(lying, look)
    if carried.wires is not None:
        return not_met("raceway", "single conductors without raceway", needs, amend=in_raceway)
    cable = look.stated(carried.cable)
    if cable.type in MADE_FOR_UNDER_BUILDINGS and look.stated(carried.marked_for_burial):
        return met("cable", f"{cable.text}, marked for burial", needs)
    return not_met("raceway", f"{cable.text} without raceway", needs, amend=in_raceway)


def _in_raceway(lying: Lying, look: Look) -> tuple[Proposal, ...]:
    text = fitting("PVC-80", lying.route, look)
    if text is None:
        return ()
    return (Proposal.state(f"run it in {text} below the building", Effort.WIRE, (lying.leg, "raceway", text)),)


def _for_burial(carried: Carried, cable: Cable, look: Look) -> tuple[Proposal, ...]:
    """Burial cable of the same sizes: UF for small cables, the assembly of single wires, with its ground, for those written
    size by size. The assembly is made of aluminum."""
    sizes = cable.text.split()[1]
    if "-" in sizes:
        ground = cable.ground or _ground_for(carried, cable, look)
        if ground is None or cable.material != "Al":
            return ()
        text = f"MHF {'-'.join(size.designation for size in (*cable.insulated, ground))} {cable.material}"
        route = next(route for route in look.plan.routes.values() if route.carries.get(carried.id) is carried)
        changes = laid_as_assembly(route, carried, text, look)
        return (Proposal.state(f"lay {text} instead", Effort.WIRE, *changes),) if changes else ()
    insulated = len(cable.insulated)
    if insulated < 2:
        return ()
    text = f"UF-B {sizes.rpartition('/')[0]}/{insulated}"
    return (Proposal.state(f"lay {text} instead", Effort.WIRE, (carried, "cable", text)),)


def _ground_for(carried: Carried, cable: Cable, look: Look) -> ConductorSize | None:
    """The equipment ground that the device ahead asks for; None where it is not known."""
    rating = look.plan.circuits[carried.id].breaker.rating
    least = None if isinstance(rating, Unstated) else least_ground(rating, cable.material, look)
    return None if least is None else least.value


def _bare(wires: Wires) -> Iterator[tuple[str, Conductor]]:
    for key, wire in (("hot", wires.hot), ("neutral", wires.neutral), ("ground", wires.ground)):
        if isinstance(wire, Conductor) and wire.insulation == "bare":
            yield key, wire


def _identified(wires: Wires, wrong: dict[str, Conductor]) -> Proposal:
    changes = [(wires, key, f"{wire.text.rpartition(' ')[0]} USE-2") for key, wire in wrong.items()]
    return Proposal.state("lay USE-2, which is identified for direct burial", Effort.WIRE, *changes)
