"""Ground rods: how large, how deep, how many, how far apart."""

from precover.plan import Electrode, Structure, Unstated
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    at_most,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.units import Length
from precover_rules.grounding.electrodes import DRIVEN, electrodes_of, no_system_needed
from precover_rules.grounding.ways import another_rod, two_rods

TABLE = "grounding-electrodes"


def _no_rod(electrode: Electrode, look: Look) -> str:
    if electrode.kind not in ("rod", "pipe"):
        return "not a rod or pipe"
    return no_system_needed(look.trace.structure_with(electrode), look)


@rule(looks_at=Electrode, unless=_no_rod, severity=Severity.CORRECTION, stage=Stage.ENERGIZE, rows=("rod-size",))
def length_of_a_rod(electrode: Electrode, look: Look) -> Answer:
    """A rod or pipe is long enough."""
    length = look.stated(electrode.length)
    least = look.cell(TABLE, electrode.kind, "least length")
    return _enough("length", length, least, electrode, "use a longer one")


@rule(looks_at=Electrode, unless=_no_rod, severity=Severity.CORRECTION, stage=Stage.ENERGIZE, rows=("rod-size",))
def diameter_of_a_rod(electrode: Electrode, look: Look) -> Answer:
    """A rod or pipe is thick enough; a listed rod may be thinner."""
    diameter = look.stated(electrode.diameter)
    least = look.cell(TABLE, electrode.kind, "least diameter")
    if diameter < least.like(diameter) and look.stated(electrode.listed):
        look.because("it is listed", f"{electrode.place}/listed")
        least = look.cell(TABLE, f"listed {electrode.kind}", "least diameter")
    return _enough("diameter", diameter, least, electrode, "use a thicker one")


@rule(looks_at=Electrode, unless=_no_rod, severity=Severity.CORRECTION, stage=Stage.ENERGIZE, rows=("rod-drive-depth",))
def rod_in_the_earth(electrode: Electrode, look: Look) -> Answer:
    """A rod or pipe is in contact with the earth over the whole least length."""
    driven = look.stated(electrode.driven)
    least = look.limit("electrode in contact with the earth")
    return _enough(
        "driven", driven, least, electrode, "drive it flush, at a slant or in a trench if rock is in the way"
    )


@rule(
    looks_at=Structure,
    unless=no_system_needed,
    severity=Severity.CORRECTION,
    stage=Stage.ENERGIZE,
    rows=("rod-two-unless-25-ohm", "water-pipe-backed"),
)
def second_electrode(structure: Structure, look: Look) -> Answer:
    """A single rod, pipe or plate has a second electrode beside it, unless it is measured to be good enough alone."""
    found = electrodes_of(structure, look)
    driven = [electrode for electrode in found if electrode.kind in DRIVEN]
    others = [electrode for electrode in found if electrode.kind not in (*DRIVEN, "metal water pipe")]
    if not found or others:
        return does_not_apply("another kind of electrode is there" if others else "no electrode")
    of, needs = "electrodes", "two rods, driven pipes or plates, or an electrode of another kind beside the one"
    if len(driven) > 1:
        return met(of, ", ".join(electrode.id for electrode in driven), needs)
    if not driven:
        return _pipe_alone(structure, found[0], look)
    single = driven[0]
    if single.resistance is not None:
        return at_most(
            f"measured resistance of {single.id}",
            single.resistance,
            look.limit("resistance of a single rod"),
            at=f"{single.place}/resistance",
            amend=another_rod(structure),
        ).citing("rod-two-unless-25-ohm")
    return not_met(of, f"{single.id} alone, not measured", needs, at=single.place, amend=another_rod(structure)).citing(
        "rod-two-unless-25-ohm"
    )


@rule(looks_at=Electrode, severity=Severity.CORRECTION, stage=Stage.ENERGIZE, rows=("rod-spacing",))
def spacing_of_rods(electrode: Electrode, look: Look) -> Answer:
    """Rods, pipes and plates stand far enough apart."""
    if electrode.kind not in DRIVEN:
        return does_not_apply("not a rod, pipe or plate")
    structure = look.trace.structure_with(electrode)
    driven = [other for other in structure.grounding.electrodes.values() if other.kind in DRIVEN]
    if len(driven) < 2:
        return does_not_apply("the only one")
    why = no_system_needed(structure, look)
    if why:
        return does_not_apply(why)
    least = look.limit("spacing of rods")
    spacing = look.stated(electrode.spacing)
    short = [one for one in driven if _is_short(one, least)]
    if len(driven) > 2 or len(short) < 2:
        return _enough("spacing", spacing, least, electrode, "drive it farther from the next")
    first, second = short
    if electrode is second:
        return does_not_apply(f"the same gap as at {first.id}")
    size = least.twin_text if spacing.metric and least.twin_text else least.text
    words = f"drive {first.id} and {second.id} farther apart: {size}"
    both = Proposal.state(words, Effort.PART, (first, "spacing", size), (second, "spacing", size))
    return at_least("spacing", spacing, least, at=f"{electrode.place}/spacing", amend=(both,))


@inspection(looks_at=Structure, stage=Stage.ENERGIZE, rows=("rod-drive-depth", "gec-clamp-listed"))
def rods_seen(structure: Structure, look: Look) -> str | None:
    """What is under the ground afterwards."""
    rods = [one for one in structure.grounding.electrodes.values() if one.kind in DRIVEN]
    if not rods or no_system_needed(structure, look):
        return None
    names = ", ".join(rod.id for rod in rods)
    return (
        f"{names}: driven full length, top flush or protected; each clamp listed for its metals, and for burial where it is"
        " buried, with one conductor in it."
    )


def _pipe_alone(structure: Structure, pipe: Electrode, look: Look) -> Answer:
    look.because("a water pipe is backed by another electrode (from memory)", pipe.place)
    return not_met(
        "electrodes",
        f"{pipe.id}, a water pipe alone",
        "an electrode of another kind beside it: two rods, or one that needs no second",
        at=pipe.place,
        amend=two_rods(structure),
    ).citing("water-pipe-backed")


def _is_short(electrode: Electrode, least: Cell) -> bool:
    spacing = electrode.spacing
    return not isinstance(spacing, Unstated) and bool(spacing < least.like(spacing))


def _enough(fact: str, has: Length, least: Cell, electrode: Electrode, words: str) -> Answer:
    size = least.twin_text if has.metric and least.twin_text else least.text
    return at_least(
        fact,
        has,
        least,
        at=f"{electrode.place}/{fact}",
        amend=(Proposal.state(f"{words}: {size}", Effort.PART, (electrode, fact, size)),),
    )
