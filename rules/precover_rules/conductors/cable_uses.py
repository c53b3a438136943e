"""Where each type of cable may lie."""

from precover.plan import BuriedLeg, Cable, Carried, FramingLeg, Leg, OverheadLeg, RiseLeg, SurfaceLeg
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
    met,
    not_met,
    rule,
)
from precover.tracing import Lying
from precover_rules.along import along
from precover_rules.conditions import individual_wires
from precover_rules.conductors.wires import in_words, rewired, unsuited
from precover_rules.location import OUTDOOR_SURFACES, location_of_leg, suits
from precover_rules.premises import is_small_dwelling

UNDERGROUND = "underground raceway"
SERVICE_ENTRANCE = ("SE", "SER", "SEU")


def _nowhere_inside(carried: Carried, look: Look) -> str:
    inside = any(_inside(lying.leg) for lying in look.trace.lying(carried))
    return "" if inside else "not inside a building"


def _no_cable_overhead(lying: Lying, _look: Look) -> str:
    overhead = isinstance(lying.leg, OverheadLeg) and lying.carried.wires is None
    return "" if overhead else "no cable overhead"


@rule(
    looks_at=Carried,
    unless=individual_wires,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=(
        "nm-not-wet-damp",
        "mc-cable-wet",
        "uf-uses",
        "outside-wiring-on-building",
        "wet-inside-underground",
        "wet-inside-outdoor-above-grade",
    ),
)
def cable_where_it_is_damp_or_wet(carried: Carried, look: Look) -> Answer:
    """A cable in a damp or wet place, the inside of a raceway there included, is of a type made for it."""
    return along(carried, look, _cable_where_it_is_damp_or_wet)


def _cable_where_it_is_damp_or_wet(lying: Lying, look: Look) -> Answer:
    carried = lying.carried
    location = location_of_leg(lying.leg, look)
    if location is None:
        return does_not_apply("a passage takes after the legs on either side")
    if location == "dry":
        return does_not_apply("a dry place")
    place: str = location
    if isinstance(lying.leg, BuriedLeg):
        if look.stated(look.trace.raceway_around(lying.leg)).absent:
            return does_not_apply("in the earth itself: looked at as a buried wiring method")
        place = UNDERGROUND
        look.because("the inside of an underground raceway is a wet place", lying.leg.place)
    else:
        look.because(f"this leg, and the inside of a raceway in it, is a {location} place", lying.leg.place)
    cable = look.stated(carried.cable)
    if cable.type == "cord":
        return does_not_apply("flexible cord is no fixed wiring anywhere")
    if cable.type in SERVICE_ENTRANCE and place == UNDERGROUND:
        return does_not_apply("service-entrance cable below ground is looked at as a buried wiring method")
    use = look.cell("cable-uses", cable.type, place).value
    where = f"an {place}" if place == UNDERGROUND else f"a {place} place"
    if use == "yes":
        return met("cable", cable.text, f"a type for {where}")
    rows = _rows(cable, lying)
    if use == "if marked":
        if suits(look.stated(carried.listed_for), location):
            return met("cable", cable.text, f"marked for {where}")
        marked = Proposal.state(
            f"use {cable.type} cable that is marked for wet places", Effort.WIRE, (carried, "listed-for", "wet")
        )
        amend = (marked, *_other_cable(lying, cable))
        return not_met("cable", cable.text, f"a cable marked for {where}", amend=amend).citing(*rows)
    return not_met("cable", cable.text, f"a type for {where}", amend=_other_cable(lying, cable)).citing(*rows)


@rule(
    looks_at=Carried,
    unless=_nowhere_inside,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("se-cable-underground",),
)
def underground_types_inside_a_building(carried: Carried, look: Look) -> Answer:
    """Cable or wire made for burial only (USE) is not run inside a building, unless it is marked as building wire too."""
    return along(carried, look, _underground_types_inside_a_building)


def _underground_types_inside_a_building(lying: Lying, look: Look) -> Answer:
    if not _inside(lying.leg):
        return does_not_apply("not inside a building")
    wires = lying.carried.wires
    if wires is not None:
        wrong = unsuited(lying, wires, "indoors", look)
        if wrong:
            return not_met("wires", in_words(wrong), "building wire", amend=(rewired(wires, wrong),))
        return met("wires", "building wire", "building wire")
    cable = look.stated(lying.carried.cable)
    if cable.type == "cord":
        return does_not_apply("flexible cord is no fixed wiring anywhere")
    use = look.cell("cable-uses", cable.type, "indoors").value
    needs = "a type for use inside buildings"
    if use == "yes":
        return met("cable", cable.text, needs)
    other = _other_cable(lying, cable, "SER")
    if use == "if marked":
        if look.stated(lying.carried.building_wire):
            return met("cable", f"{cable.text}, marked as building wire", needs)
        marked = Proposal.state(
            "use one whose wires are marked as building wire too", Effort.WIRE, (lying.carried, "building-wire", True)
        )
        return not_met("cable", f"{cable.text}, not marked as building wire", needs, amend=(marked, *other))
    return not_met("cable", cable.text, needs, amend=other)


@rule(
    looks_at=Carried,
    unless=(individual_wires, _nowhere_inside),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("nm-allowed-detached-garage",),
)
def nm_cable_by_building(carried: Carried, look: Look) -> Answer:
    """NM cable runs in homes, and in the garages and storage buildings that belong to them, not in farm buildings."""
    return along(carried, look, _nm_cable_by_building)


def _nm_cable_by_building(lying: Lying, look: Look) -> Answer:
    if not _inside(lying.leg):
        return does_not_apply("not inside a building")
    cable = look.stated(lying.carried.cable)
    if cable.type != "NM-B":
        return does_not_apply("not NM cable")
    ends = (look.trace.node(lying.route.from_), look.trace.node(lying.route.to))
    buildings = list({end.at: look.trace.structure_of(end) for end in ends}.values())
    for building in buildings:
        if building.use == "agricultural" and look.stated(building.farm_conditions):
            look.because("livestock, or much dust, damp or corrosive vapor", f"{building.place}/farm-conditions")
            needs = "a wiring method for farm buildings"
            return not_met("cable", cable.text, needs, amend=_other_cable(lying, cable))
    needs = "a home, or a building that belongs to one"
    if not is_small_dwelling(look) or any(building.use == "commercial" for building in buildings):
        why = "ask whether the building's construction lets NM cable be used in it"
        return authority_decides("cable", cable.text, needs, why=why)
    return met("cable", cable.text, needs)


@rule(looks_at=Lying, unless=_no_cable_overhead, severity=Severity.DANGER, stage=Stage.ROUGH, rows=("uf-not-uses",))
def uf_cable_overhead(lying: Lying, look: Look) -> Answer:
    """UF cable spans the air only where a messenger wire carries it."""
    leg = lying.leg
    assert isinstance(leg, OverheadLeg)  # noqa: S101 - its condition
    cable = look.stated(lying.carried.cable)
    if cable.type != "UF-B":
        return does_not_apply("not UF cable")
    if look.stated(leg.messenger):
        return met("span", "on a messenger wire", "a messenger wire", at=f"{leg.place}/messenger")
    hung = Proposal.state("hang the cable on a messenger wire", Effort.PART, (leg, "messenger", True))
    return not_met("span", f"{cable.text} without a messenger wire", "a messenger wire", amend=(hung,))


def _inside(leg: Leg) -> bool:
    return isinstance(leg, FramingLeg) or (isinstance(leg, SurfaceLeg) and leg.on in ("inside wall", "ceiling"))


_BY_TYPE = {"NM-B": "nm-not-wet-damp", "MC": "mc-cable-wet", "UF-B": "uf-uses"}


def _rows(cable: Cable, lying: Lying) -> tuple[str, ...]:
    """The requirement rows about this type, and about this place."""
    if isinstance(lying.leg, BuriedLeg):
        where = "wet-inside-underground"
    elif isinstance(lying.leg, SurfaceLeg) and lying.leg.on in OUTDOOR_SURFACES:
        where = "outside-wiring-on-building"
    else:
        where = "wet-inside-outdoor-above-grade"
    return (_BY_TYPE[cable.type], where) if cable.type in _BY_TYPE else (where,)


def _other_cable(lying: Lying, cable: Cable, feeder: str = "MHF") -> tuple[Proposal, ...]:
    """The cable of the same sizes that would do, with the marking that it needs where the sun shines on it: UF for small
    cables, another assembly for those written size by size, of which that for the ground is made of aluminum."""
    sizes = cable.text.split()[1]
    if "-" in sizes and feeder == "MHF" and cable.material != "Al":
        return ()
    other = f"{feeder} {sizes} {cable.material}" if "-" in sizes else f"UF-B {sizes}"
    changes: list[tuple[Thing, str, object]] = [(lying.carried, "cable", other)]
    words = f"use {other}"
    if feeder != "SER" and any(
        isinstance(leg, SurfaceLeg | RiseLeg) and leg.sunlight is True for leg in lying.route.legs
    ):
        words += ", marked as resistant to sunlight"
        changes.append((lying.carried, "sunlight-resistant", True))
    return (Proposal.state(words, Effort.WIRE, *changes),)
