"""The equipment grounding conductor of a circuit whose hots are larger than they need be."""

from __future__ import annotations

from precover.electrical.grounding import upsized
from precover.electrical.working import Worked
from precover.plan import Circuit, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Missing,
    Outcome,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover.units import ConductorArea, ConductorSize, Current
from precover.units.conductor_size import SCALE
from precover_rules.circuit_conductors import ground_wire
from precover_rules.conditions import low_voltage
from precover_rules.grounding.bringing_a_ground import least_ground
from precover_rules.sizing.ampacity import smaller_that_does
from precover_rules.sizing.laid import Laid, laid_on
from precover_rules.sizing.overcurrent import protects
from precover_rules.sizing.own_circuit import goes_by_its_equipment
from precover_rules.sizing.small_wire import is_capped
from precover_rules.worst import worst

OF = "equipment grounding wire"
AS_LARGE = "as large as the hots, or there is no wire"


@rule(looks_at=Circuit, unless=low_voltage, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("feeder-egc-upsize",))
def ground_grows_with_the_hots(circuit: Circuit, look: Look) -> Answer:
    """Where the hots are larger than their breaker asks for, the equipment grounding wire is larger in the same ratio."""
    smaller = [
        (part, *wire)
        for part in laid_on(circuit, look)
        if isinstance(part, Laid)
        and (wire := ground_wire(part.carried, look)) is not None
        and not (wire[1] == part.metal and wire[0] >= part.size)
    ]
    if not smaller:
        return does_not_apply(AS_LARGE)
    if goes_by_its_equipment(circuit, look):
        return does_not_apply("its conductors are sized by a motor or an air conditioner")
    rating = look.stated(circuit.breaker.rating)
    answers = [_large_enough(part, size, metal, rating, look) for part, size, metal in smaller]
    telling = worst(answers)
    short = [answer for answer in answers if answer.outcome is Outcome.NOT_MET and answer.proposals]
    if len(short) < 2:
        return telling
    patch = tuple(edit for answer in short for edit in answer.proposals[0].patch)
    words = "; ".join(dict.fromkeys(answer.proposals[0].words for answer in short))
    return telling._replace(proposals=(Proposal(f"{words}, all the way", Effort.WIRE, patch),))


def _large_enough(part: Laid, ground: ConductorSize, metal: str, rating: Current, look: Look) -> Answer:
    by_table = least_ground(rating, metal, look)
    if by_table is None:
        return does_not_apply("behind a breaker beyond the table")
    table = by_table.value
    if ground < table:
        return does_not_apply("smaller than the table asks for: a finding of its own")

    least = _least_hot(part, rating, look)
    has, at = f"{ground} {metal}", f"{part.carried.place}/{'cable' if part.carried.wires is None else 'wires/ground'}"
    if least == part.size:
        return met(OF, has, f"at least {table} {metal}: the hots are no larger than needed", at=at)
    look.because(f"{least} {part.metal} would do for {rating} on {part.route.id}", part.place)
    worked = _grown(table, least, part.size, look)
    for step in worked.steps:
        look.because(step, at)
    wanted = worked.value
    if wanted is None:
        if metal == part.metal:
            wanted = part.size  # never larger than the hots
        else:
            why = "the grounding wire is of another metal than the hots, and would have to be larger than they are"
            return authority_decides(OF, has, "a size in ratio to the hots", why=why, at=at)
    needs = f"at least {wanted} {metal}, in ratio to hots of {part.size} where {least} would do"
    if ground >= wanted:
        return met(OF, has, needs, at=at)
    return not_met(OF, has, needs, at=at, amend=_ways(part, wanted, metal))


def ground_beside(part: Laid, metal: str, rating: Current, look: Look) -> ConductorSize:
    """The equipment ground that goes with hots as they are laid: for ways out, and so as large as they are where the plan
    leaves open what decides. Nothing of it goes into the derivation."""
    noted = len(look.cells), len(look.steps)
    try:
        by_table = least_ground(rating, metal, look)
        if by_table is None:
            return part.size
        return min(
            part.size, _grown(by_table.value, _least_hot(part, rating, look), part.size, look).value or part.size
        )
    except Missing:
        return part.size
    finally:
        del look.cells[noted[0] :], look.steps[noted[1] :]


def ground_with(part: Laid, size: ConductorSize, rating: Current, look: Look) -> ConductorSize | None:
    """The equipment ground, not smaller than it is, that goes with hots of another size behind a breaker; None where there
    is no such wire."""
    ground = ground_wire(part.carried, look)
    return None if ground is None else max(ground[0], ground_beside(part._replace(size=size), ground[1], rating, look))


def _least_hot(part: Laid, rating: Current, look: Look) -> ConductorSize:
    """The smallest hots that would do behind the breaker where these lie."""

    def does(laid: Laid, amps: Current) -> bool:
        return not is_capped(laid, rating, look) and protects(rating, amps, laid.circuit, look)

    return smaller_that_does(part, does, look)


def _grown(table: ConductorSize, least: ConductorSize, hot: ConductorSize, look: Look) -> Worked[ConductorSize | None]:
    sizes = [(size, _area(size, look)) for size in map(ConductorSize.parse, SCALE) if table <= size <= hot]
    return upsized(_area(table, look), _area(least, look), _area(hot, look), sizes)


def _area(size: ConductorSize, look: Look) -> ConductorArea:
    """A conductor's area in circular mils: by table, or as a kcmil size itself says."""
    if size.text.endswith("kcmil"):
        return ConductorArea.parse(size.text)
    stranding = (
        "stranded" if look.has("conductor-properties", size.designation, "stranded", "conductor area") else "solid"
    )
    area: ConductorArea = look.cell("conductor-properties", size.designation, stranding, "conductor area").value
    return area


def _ways(part: Laid, wanted: ConductorSize, metal: str) -> tuple[Proposal, ...]:
    wires, cable = part.carried.wires, part.carried.cable
    if wires is not None:
        insulation = wires.ground.insulation if wires.ground is not None else "bare"
        text = f"{wanted} {metal} {insulation}"
        return (Proposal.state(f"use {text} as the equipment ground", Effort.WIRE, (wires, "ground", text)),)
    if isinstance(cable, Unstated):
        return ()
    sizes = "-".join(size.designation for size in (*cable.insulated, wanted))
    text = f"{cable.type} {sizes} {cable.material}"
    return (Proposal.state(f"use {text}", Effort.WIRE, (part.carried, "cable", text)),)
