"""The grounding electrode conductor of a separately supplied structure."""

from precover.plan import ElectrodeConductor, Structure
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover_rules.circuit_conductors import kept_three_wire
from precover_rules.grounding.conductor_size import least_size
from precover_rules.grounding.electrodes import electrodes_of, no_system_needed
from precover_rules.separate_structures import supplies_to


def no_electrodes(structure: Structure, look: Look) -> str:
    """Only structures with electrodes, to which a conductor goes, are looked at."""
    return no_system_needed(structure, look) or ("" if electrodes_of(structure, look) else "no electrode")


@rule(
    looks_at=Structure,
    unless=no_electrodes,
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("gec-rod-size", "gec-concrete-size"),
)
def size_of_the_electrode_conductor(structure: Structure, look: Look) -> Answer:
    """The grounding electrode conductor is not smaller than the table asks for the supply conductors, or the electrodes allow."""
    wire = look.stated(structure.grounding.conductor.wire)
    least = least_size(structure, electrodes_of(structure, look), wire.material, look)
    if isinstance(least, Answer):
        return least
    has, needs = f"{wire.size} {wire.material}", f"at least {least.text} {wire.material}"
    at = f"{structure.grounding.conductor.place}/wire"
    if wire.size >= least.value:
        return met("electrode conductor", has, needs, at=at)
    text = f"{_rather(least, look)} {wire.material} {wire.insulation}"
    words = f"use {text}"
    return not_met(
        "electrode conductor",
        has,
        needs,
        at=at,
        amend=(Proposal.state(words, Effort.WIRE, (structure.grounding.conductor, "wire", text)),),
    )


@rule(
    looks_at=Structure, unless=no_electrodes, severity=Severity.CORRECTION, stage=Stage.ENERGIZE, rows=("gec-al-earth",)
)
def no_aluminum_in_the_earth(structure: Structure, look: Look) -> Answer:
    """An aluminum electrode conductor does not lie in earth, concrete or masonry."""
    conductor = structure.grounding.conductor
    if look.stated(conductor.wire).material != "Al":
        return does_not_apply("not aluminum")
    needs = "nowhere in earth, concrete or masonry"
    if not look.stated(conductor.in_earth):
        return met("aluminum", "nowhere in the earth", needs, at=f"{conductor.place}/in-earth")
    least = least_size(structure, electrodes_of(structure, look), "Cu", look)
    ways: tuple[Proposal, ...] = ()
    if isinstance(least, Cell):
        copper = f"{_rather(least, look)} Cu bare"
        ways = (Proposal.state(f"use copper, {copper}", Effort.WIRE, (conductor, "wire", copper)),)
    return not_met("aluminum", "partly in earth, concrete or masonry", needs, at=f"{conductor.place}/wire", amend=ways)


@rule(
    looks_at=Structure, unless=no_electrodes, severity=Severity.CORRECTION, stage=Stage.ENERGIZE, rows=("gec-protect",)
)
def electrode_conductor_protected(structure: Structure, look: Look) -> Answer:
    """The electrode conductor is enclosed where it can be hit, and everywhere if it is small."""
    conductor = structure.grounding.conductor
    wire = look.stated(conductor.wire)
    exposed = look.limit("electrode conductor that may run exposed")
    if wire.size >= exposed.value and not look.stated(conductor.physical_damage):
        return met("electrode conductor", f"{wire.size}, clear of damage", "enclosed only where it can be hit")
    small = wire.size < exposed.value
    look.because(f"smaller than {exposed.text}" if small else "it can be hit", conductor.place)
    enclosure = look.stated(conductor.protection)
    has = f"{wire.size}, {'not enclosed' if enclosure == 'none' else f'enclosed by {enclosure}'}"
    at = f"{conductor.place}/protection"
    needs = "RMC, IMC, EMT, PVC-80, RTRC-XW or armor around it"
    if look.cell("grounding-electrode-conductor-protection", enclosure).value:
        return met("electrode conductor", has, needs, at=at)
    return not_met("electrode conductor", has, needs, at=at, amend=_enclose(conductor, small, exposed.text))


@rule(
    looks_at=Structure,
    unless=no_electrodes,
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("feeder-four-wire",),
)
def electrode_conductor_on_the_ground_bar(structure: Structure, look: Look) -> Answer:
    """The electrode conductor ends on the grounding bar or the enclosure, not on the isolated neutral."""
    if any(kept_three_wire(supply.circuit, look) for supply in supplies_to(structure, look)):
        return does_not_apply("an old three-wire feeder's neutral is bonded to the grounding bar here")
    conductor = structure.grounding.conductor
    lands_on = look.stated(conductor.lands_on)
    at, needs = f"{conductor.place}/lands-on", "the grounding bar or the enclosure"
    if lands_on != "neutral bar":
        return met("electrode conductor ends on", lands_on, needs, at=at)
    words = "end the electrode conductor on the grounding bar"
    return not_met(
        "electrode conductor ends on",
        lands_on,
        needs,
        at=at,
        amend=(Proposal.state(words, Effort.PAPER, (conductor, "lands-on", "ground bar")),),
    )


@rule(
    looks_at=Structure,
    unless=no_electrodes,
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("gec-unspliced",),
)
def electrode_conductor_in_one_length(structure: Structure, look: Look) -> Answer:
    """The electrode conductor is one length, or spliced irreversibly."""
    conductor = structure.grounding.conductor
    spliced = look.stated(conductor.spliced)
    at, needs = f"{conductor.place}/spliced", "one length, or irreversible splices"
    if spliced != "yes":
        return met("splices", "none" if spliced == "no" else spliced, needs, at=at)
    words = "run the electrode conductor in one length, or join it with compression connectors made for it"
    return not_met(
        "splices",
        "ordinary",
        needs,
        at=at,
        amend=(Proposal.state(words, Effort.PART, (conductor, "spliced", "irreversible")),),
    )


@inspection(looks_at=Structure, stage=Stage.ENERGIZE, rows=("egc-not-as-gec", "gec-clamp-listed"))
def conductor_to_the_electrodes(structure: Structure, look: Look) -> str | None:
    """What the electrode conductor is not."""
    if no_electrodes(structure, look):
        return None
    return (
        f"At {structure.id} a conductor of its own goes to the electrodes: the equipment grounding conductor of the supply"
        " does not do its work as well."
    )


def _rather(least: Cell, look: Look) -> str:
    """The size to propose: one that may run exposed, where the least may not."""
    return max(least, look.limit("electrode conductor that may run exposed"), key=lambda cell: cell.value).text


def _enclose(conductor: ElectrodeConductor, small: bool, exposed: str) -> tuple[Proposal, ...]:
    ways = [Proposal.state("run the electrode conductor in PVC-80", Effort.WIRE, (conductor, "protection", "PVC-80"))]
    if small and conductor.physical_damage is False:
        text = f"{exposed} Cu bare"
        ways.append(
            Proposal.state(
                f"use {text} for the electrode conductor, which may run exposed", Effort.WIRE, (conductor, "wire", text)
            )
        )
    return tuple(ways)
