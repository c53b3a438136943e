"""Room in a box for what comes into it."""

import math
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from typing import Any, NamedTuple

from precover.electrical.box_fill import GroundsRule, Yoke, box_fill
from precover.electrical.working import Worked
from precover.plan import Box, Device, Receptacle, Unstated
from precover.rulebook import (
    Answer,
    Cell,
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
from precover.units import ConductorSize, Volume
from precover_rules.boxes.contents import Entering, cable_enters, encloses_a_switch, entering, passing, straps

ALLOWANCE, VOLUME = "box-allowance", "box-volume"
ONE_GANG = "receptacle on a strap of one gang"

_NO_ALLOWANCE = (
    "a ground of 4 AWG or larger beside smaller conductors: box fill allows no volume for it, and its length is ruled by"
    " insulated conductors only; the inspector decides what box is large enough"
)

Say = Callable[[Any, Any, Any], Any]
"""A fact, the value of it that takes most room, and the one that takes least -> the value to reckon with."""


class Contents(NamedTuple):
    """What takes room, by the cells of its allowances; hashable, so that boxes alike are worked out once."""

    conductors: tuple[Cell, ...]
    grounds: tuple[Cell, ...]
    yokes: tuple[tuple[Cell, int], ...]
    """Of each strap: the largest conductor on it, and its gangs."""
    clamps: bool
    studs: int
    together: Cell
    share: Cell


def _no_standard_volume(box: Box, _look: Look) -> str:
    both = box.box.size is not None and not isinstance(box.box.volume, Unstated)
    return "" if both else "no standard box with another volume beside it"


def _has_room_of_its_own(box: Box) -> bool:
    return encloses_a_switch(box) and box.box.size is None and isinstance(box.box.volume, Unstated)


@rule(looks_at=Box, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("box-fill-volume", "conduit-body-fill"))
def room_in_a_box(box: Box, look: Look) -> Answer:
    """A box has the volume that its conductors, devices, clamps and fittings need together."""
    kind = box.box.kind
    if kind in ("handhole", "pedestal") or _has_room_of_its_own(box):
        return does_not_apply("an enclosure with wiring space of its own kind")
    ins = entering(box, look)
    if not ins:
        return does_not_apply("nothing comes in")
    large = look.limit("conductors sized by box length").value.rank
    if any(one.largest.rank >= large for one in ins):
        return does_not_apply("4 AWG or larger: it goes by its length")
    through = list(passing(ins, box, look))
    if kind == "conduit body" and len(ins) == 2 * len(through) and not look.stated(box.spliced):
        return does_not_apply("a conduit body in which nothing is joined")
    grounds = max((size for one in ins for size in one.grounds), default=None)
    if grounds is not None and grounds.rank >= large:
        return authority_decides("equipment ground", grounds, why=_NO_ALLOWANCE, at=f"{box.box.place}/volume")
    volume = volume_of(box, look)
    most = _worked(_contents(box, ins, through, look, _stated_or_most))
    if volume >= most.value:
        return _answer(box, most, most.value, volume, look)
    least = _worked(_contents(box, ins, through, look, _stated_or_least))
    if volume < least.value:
        return _answer(box, least, most.value, volume, look)
    sure = _worked(_contents(box, ins, through, look, lambda fact, _most, _least: look.stated(fact)))
    return _answer(box, sure, sure.value, volume, look)


@rule(
    looks_at=Box, unless=_no_standard_volume, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("box-fill-volume",)
)
def volume_of_a_standard_box(box: Box, look: Look) -> Answer:
    """A standard metal box is not planned with more volume than it has."""
    size, volume = box.box.size, look.stated(box.box.volume)
    assert size is not None  # noqa: S101 - its condition
    cell = standard_volume(size, look)
    at = f"{box.box.place}/volume"
    if volume <= cell.value:
        return met("volume", volume, f"at most {cell.text} for {_standard(size)}", at=at)
    table = Proposal.state(f"count the {cell.text} of this box", Effort.PAPER, (box.box, "volume", cell.text))
    why = "more counts only if it is marked, as on an extension or a raised cover: then leave its size out"
    return not_met("volume", volume, f"at most {cell.text} for {_standard(size)}", why=why, at=at, amend=(table,))


def volume_of(box: Box, look: Look) -> Volume:
    """The volume as marked, else that of the standard box that it is."""
    if isinstance(box.box.volume, Unstated) and box.box.size is not None:
        cell = standard_volume(box.box.size, look)
        look.because(f"{_standard(box.box.size)} has {cell.text}", f"{box.box.place}/size")
        volume: Volume = cell.value
        return volume
    return look.stated(box.box.volume)


def standard_volume(size: str, look: Look) -> Cell:
    """The volume of a standard metal box."""
    shape, _, inches = size.partition(" ")
    return look.cell(VOLUME, "round or octagonal" if shape == "octagonal" else shape, inches)


def _standard(size: str) -> str:
    """A standard box in words."""
    return f"{'an' if size.startswith('octagonal') else 'a'} {size} box"


def _stated_or_most(fact: Any, most: Any, _least: Any) -> Any:
    return most if isinstance(fact, Unstated) else fact


def _stated_or_least(fact: Any, _most: Any, least: Any) -> Any:
    return least if isinstance(fact, Unstated) else fact


def _contents(box: Box, ins: list[Entering], through: list[Entering], look: Look, say: Say) -> Contents:
    clamps = cable_enters(ins) and say(box.box.clamps, True, False)
    if through and not say(box.spliced, True, False):
        unbroken = {id(one) for one in through}
        ins = [one for one in ins if id(one) not in unbroken]
    cells: dict[str, Cell] = {}
    conductors: list[Cell] = []
    grounds: list[Cell] = []
    largest: dict[str, ConductorSize] = {}  # of each circuit
    for one in ins:
        for sizes, counted in ((one.conductors, conductors), (one.grounds, grounds)):
            for size in sizes:
                name = size.designation
                if name not in cells:
                    cells[name] = look.cell(ALLOWANCE, name)
                counted.append(cells[name])
        other = largest.get(one.circuit)
        if other is None or one.largest > other:
            largest[one.circuit] = one.largest
    yokes: list[tuple[Cell, int]] = []
    for device in straps(box):
        size_on = largest.get(look.trace.circuit_of(device).id)
        if size_on is not None:
            yokes.append((cells[size_on.designation], _gangs(device, say, look)))
    return Contents(
        tuple(conductors),
        tuple(grounds),
        tuple(yokes),
        clamps,
        box.box.studs or 0,
        look.limit("grounds counted as one in a box"),
        look.limit("share of each further ground in a box"),
    )


def _gangs(device: Device, say: Say, look: Look) -> int:
    if not isinstance(device, Receptacle):
        return 1
    if isinstance(device.gangs, Unstated) and device.receptacle <= look.limit(ONE_GANG).value:
        return 1
    gangs: int = say(device.gangs, 2, 1)
    return gangs


@lru_cache(maxsize=1024)
def _worked(contents: Contents) -> Worked[Volume]:
    return box_fill(
        [cell.value for cell in contents.conductors],
        [cell.value for cell in contents.grounds],
        [Yoke(cell.value, gangs) for cell, gangs in contents.yokes],
        internal_clamps=contents.clamps,
        fittings=contents.studs,
        rule=GroundsRule(contents.together.value, contents.share.value),
    )


def _answer(box: Box, needed: Worked[Volume], enough: Volume, volume: Volume, look: Look) -> Answer:
    """`enough` is the volume that does whatever the plan leaves open: what is offered has to settle it."""
    for step in needed.steps:
        look.because(step, box.place)
    row = "conduit-body-fill" if box.box.kind == "conduit body" else "box-fill-volume"
    standard = isinstance(box.box.volume, Unstated) and box.box.size is not None
    at = f"{box.box.place}/{'size' if standard else 'volume'}"
    if volume >= needed.value:
        return met("volume", volume, f"at least {needed.value}", at=at).citing(row)
    ways = _larger(box, enough, look)
    return not_met("volume", volume, f"at least {needed.value}", at=at, amend=ways).citing(row)


def _larger(box: Box, needed: Volume, look: Look) -> tuple[Proposal, ...]:
    if isinstance(box.box.volume, Unstated) and box.box.size is not None:
        shape = box.box.size.partition(" ")[0]
        for size in type(box.box).facts["size"].words:
            if size.startswith(shape) and standard_volume(size, look).value >= needed:
                return (Proposal.state(f"use {_standard(size)} for {box.id}", Effort.PART, (box.box, "size", size)),)
    tenths = math.ceil(10 * needed.in_unit("in³"))
    text = Volume.of(Fraction(tenths, 10), "in³").text
    kind = "box" if isinstance(box.box.kind, Unstated) else box.box.kind
    return (Proposal.state(f"use a {kind} of {text} or more for {box.id}", Effort.PART, (box.box, "volume", text)),)
